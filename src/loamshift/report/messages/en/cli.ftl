### What the command line prints besides letters: errors, remarks and results.
### Names of commands and options are never translated. $path is a file or a folder.

## The program

cli-interrupted = Stopped. No file was left half written.
# $why is what the computer says, in English.
cli-no-room = There is no room left to write ({ $why }). The output is not complete. Make room and run it again.
# $what is tables or program; $error and $text are for a programmer, in English.
cli-our-fault = { $what ->
    [tables] This is our fault, not yours. One of our tables failed with { $error }: { $text }
   *[program] This is our fault, not yours. The program failed with { $error }: { $text }
}
cli-report-it = Please report it with the command you typed and the case file. Set { $variable }=1 and run it again to see where it happened.
cli-not-a-date = { $option }: “{ $given }” is not a date we can read. Write it as year-month-day: { $option } { $example }
cli-compiling = Compiling the forecast. This happens once and takes up to a minute.
cli-compiling-beside = Compiling the forecast in the background. This happens once and takes up to a minute.
cli-compiled-elsewhere = Another run is compiling the forecast. Waiting for it.
cli-seconds = { $n } s
cli-not-compiled = The compiled forecast could not be stored ({ $why }). It is compiled at each start, which takes up to a minute. Set XDG_CACHE_HOME to a folder of yours to avoid this.
cli-no-viewer = No viewer could be started. Open { $path } yourself.

## Options that do not go together, or values they cannot have

cli-json-or-csv = give --json or --csv, not both
cli-open-what = give --html FILE or --pdf FILE, to be opened
# $ending is the form in which the file is written.
cli-one-file = this names one file, and several letters are named after their cases: write --as { $ending }
cli-no-such-form = “{ $given }” is not a form of a letter: write { $forms }
cli-no-name-given = the name is empty: write a file or a folder, such as bed.toml, or . for the current folder
cli-today-for-now = it is for a case that is answered now, and NEW is an answer
cli-name-or-position = give a name or a position, not both
cli-ph-or-quantity = give a pH or a quantity, not both
cli-how-measured = say how the pH was measured, such as --from CaCl2
cli-from-needs-ph = --from needs --ph
cli-quantity-and-unit = give a quantity and a unit, such as "2 lb/100 sq ft" "g/m2", or a pH with --ph and --from
cli-name-alkalinity = give the alkalinity of the water, such as "180 mg/L CaCO3"
cli-nobody-to-answer = there is nobody at the keyboard to answer: give at least --ph, and --plant or --target-ph
cli-figure-ending = the file must end in .png or .svg, such as --figure claim.png
cli-case-or-options = give a case file or soil options, not both
cli-which-bed = say which bed it is for: --case CASE.toml, or at least --ph, and --target-ph or --plant
cli-material-or-sheet = give a material and an amount, such as claim gypsum "50 g/m2", or --sheet

## Files

cli-written = { $what ->
    [letter] Letter written to { $path }
    [card] Card written to { $path }
    [picture] Picture written to { $path }
   *[file] Written to { $path }
}
cli-written-next = Written to { $path }. Next: loamshift advise { $path }
cli-is-read = { $path } is the file that is read. Choose another name.
cli-is-read-out = { $path } is a file that is read. Choose another folder with --out.
cli-named-twice = { $path } is named twice. Each form needs a file of its own.
cli-exists-force = { $path } already exists. Overwrite it with --force, or choose another name.
cli-is-folder = { $path } is a folder. Give the name of a file in it.
cli-is-file = { $path } is a file. Give a folder.
cli-no-folder = There is no folder { $path }. Create it first.
cli-cannot-write = { $path } cannot be written: { $why }.
cli-cannot-write-into = Nothing can be written to { $path }: { $why }
cli-cannot-make = { $path } cannot be created: { $why }
cli-cannot-read = { $path } cannot be read: { $why }
cli-no-case-files = { $path } contains no case file. Their names end in .toml.
cli-chart-ending = --chart { $path }: charts are written as .svg or .png. Give such a name, or a folder.
cli-no-chart = --chart { $path }: this letter has no chart. With --years 1 or more it has a forecast.

## advise

cli-today-too-early = --today { $day } is before { $late }, when something happens in this case. Give { $late } or a later day.
cli-letters-beside = Each letter is beside its case.
cli-letters-in = The letters are in { $path }.
cli-batch-stopped = Stopped. The letters named above are complete. Nothing else was written.
cli-batch-no-room = Stopped, because there is no room left to write. The letters of { $written } of { $total } cases are complete, and { $left } are not written. Make room, then run the same command again.
# A line every few letters; $faulty is the number of cases with a problem.
cli-batch-line = { $faulty ->
    [0] { $written } of { $total } letters written
    [one] { $written } of { $total } letters written, 1 with a problem
   *[other] { $written } of { $total } letters written, { $faulty } with problems
}
cli-batch-answering = Answering
cli-row-stopped = stopped after { $written }
cli-row-no-room-after = no room after { $written }
cli-row-no-room = no room
cli-row-our-fault = our fault: { $error }
cli-row-process = our fault: its process ended
# $text is what is wrong; $n is the number of other problems.
cli-row-problem = { $n ->
    [0] { $path }: { $text }
   *[other] { $path }: { $text } (and { $n } more)
}
cli-process-ended = { $name }: the process that answered this case ended without an answer ({ $how }). Run this case by itself. If memory is short, use a smaller --jobs.
# $how a process ended: with a signal of the system, or a code.
cli-process-signal = signal { $n }
cli-case-our-fault = { $name }: this is our fault, not yours: { $error }: { $text } Please report it with the case file.
cli-in-case = { $name }: { $text }
cli-charts = { $n ->
    [one] 1 chart
   *[other] { $n } charts
}
cli-no-chart-in-it = no chart in it

## reprint, card

cli-no-letter-kept = { $path } contains no letter: it was written by an older version, or without one. Write a new letter with loamshift advise CASE.toml. What differs from this answer is shown by loamshift compare-letters.
# $asked are the options that were given.
cli-reprint-same = { $units ->
    [us-units] { $spelling ->
        [us] { $path } contains a letter in US units and US spelling, and a reprint changes nothing. For a new letter, with the tables of today: loamshift advise { $path } { $asked }
       *[uk] { $path } contains a letter in US units and UK spelling, and a reprint changes nothing. For a new letter, with the tables of today: loamshift advise { $path } { $asked }
    }
   *[metric-units] { $spelling ->
        [us] { $path } contains a letter in metric units and US spelling, and a reprint changes nothing. For a new letter, with the tables of today: loamshift advise { $path } { $asked }
       *[uk] { $path } contains a letter in metric units and UK spelling, and a reprint changes nothing. For a new letter, with the tables of today: loamshift advise { $path } { $asked }
    }
}
cli-no-rescue = Nothing needs correcting on “{ $name }”. Without --rescue, the card says what to do.

cli-why-folder = { $path } is a folder. Name one case file in it. For example: loamshift why verdict.ph_now --case { $path }/bed.toml

## Quantities on the command line

# $fault is what is wrong with the text, and what works.
cli-quantity = { $option }: { $fault }
cli-note = { $option }: { $note }
cli-depth-needed = { $option }: “{ $given }” is a volume, and a depth is needed. For example: "25 mm" or "1 in" (1 litre on 1 square metre is 1 mm).
cli-volume-needed = { $option }: “{ $given }” is not a volume. For example: "200 L" or "50 gal"
cli-position = --near: “{ $given }” is not a position. Give latitude and longitude in degrees, south and west below zero. For example: 51.5,-0.1
cli-this-product = this product
cli-product-adds = { $name }: { $text }.

## convert

# $text is what was typed; $figure has its unit.
cli-convert-exact = { $text } = { $figure }
cli-convert-about = { $text } = about { $figure } ({ $low } to { $high })
cli-convert-not-read = “{ $given }” cannot be read as a quantity. { $fault }
# $example is a quantity as it should be typed, $other a unit for it.
cli-convert-of-what = { $given } of what? Write the number with its unit, then the unit you want. For example: loamshift convert "{ $example }" { $other }
cli-convert-into-what = Into which unit is “{ $given }” to be converted? For example: loamshift convert "2 lb/100 sq ft" "g/m2"
cli-convert-unit-unknown = “{ $unit }” is not a unit that can be converted. Weights, volumes, lengths, areas, rates such as "g/m2", temperatures, and alkalinities of water such as "mg/L CaCO3" can.
# $words are what was typed after the unit.
cli-convert-left-over = { $n ->
    [one] The word “{ $words }” after “{ $before }” is left over. Leave it out.
   *[other] The words “{ $words }” after “{ $before }” are left over. Leave them out.
}
cli-convert-hardness = “{ $given }” is a hardness. It is not an alkalinity and cannot be converted to one: hardness can come from gypsum, which takes up no acid. What it says of a water is told by loamshift water --hardness "{ $given }"
# $kind is what the quantity is.
cli-convert-other-kind = “{ $given }” is { $kind ->
    [rate] a rate
    [weight] a weight
    [volume] a volume
    [area] an area
    [length] a length
   *[alkalinity] an alkalinity
}, and “{ $unit }” is not a unit of the same kind. To convert volume to weight, name the material with --material.
cli-convert-material = To convert volume to weight, name the material. For example: --material "elemental sulfur, powder"
cli-convert-litre = We do not know what a litre of { $product } weighs. Weigh one measure of it.
cli-convert-density = { $product }: { $density } g per litre, from { $low } to { $high } depending on how it settles.
cli-convert-temperature = “{ $given }” is not a temperature. For example: "50 F" or "10 C"
# $methods are names of methods.
cli-convert-method = { $option }: “{ $given }” is not a method. Write “water” or { $methods }.

## new

cli-new-hint = Press Enter to skip a question. Ctrl-C stops and writes nothing.
cli-new-ended = The answers ended before the questions did. Nothing was written.
# A question, with what helps to answer it.
cli-new-asked = { $question } ({ $hint })
cli-ask-name = What do you call the bed?
cli-ask-plant = What do you want to grow there?
cli-ask-plant-hint = several with commas; press Enter for a target pH
cli-ask-target-ph = Which pH do you want?
cli-ask-planted = Is it planted already?
cli-ask-planted-hint = yes or no
cli-ask-ph = What pH did the soil test at?
cli-ask-ph-hint = press Enter if it has not been tested
cli-ask-ph-method = How was it measured?
cli-ask-ph-method-hint = water 1:1, water 1:2.5, water 1:5, CaCl2, KCl, paste, probe, strip, unknown
cli-ask-sampled = When was the sample taken?
cli-ask-sampled-hint = such as 2026-03-20
cli-ask-sample-depth = From how deep?
cli-ask-depth-hint = such as 15 cm or 6 in
cli-ask-fizz = Does a drop of acid make the soil fizz?
cli-ask-fizz-hint = none, slight, moderate, strong, extreme
cli-ask-fizz-acid = Which acid was it?
cli-ask-fizz-acid-hint = HCl or vinegar
cli-ask-texture = How does the soil feel?
cli-ask-texture-hint = sand, sandy loam, loam, clay loam, clay
cli-ask-organic-matter = How much organic matter does it have, in %?
cli-ask-organic-matter-hint = 3 is usual in a garden
cli-ask-kind = What kind of bed is it?
cli-ask-kind-hint = ground, raised, container, lawn, field
cli-ask-area = How large is it?
cli-ask-area-hint = such as 20 m2, 215 sq ft or 5 x 4 m
cli-ask-depth = How deep can you work material in?
cli-ask-drainage = How does water drain from it?
cli-ask-drainage-hint = free, slow, waterlogged
cli-ask-alkalinity = What is the alkalinity of the water you use?
cli-ask-alkalinity-hint = such as 180 mg/L CaCO3
cli-ask-weekly = How much do you give in a dry week?
cli-ask-weekly-hint = such as 25 mm or 500 L
cli-ask-place = Which known town is nearest?
cli-ask-place-hint = loamshift places lists them
cli-ask-units = Print metric or US units?
cli-ask-units-hint = metric or us

## The workbench

cli-open-ready = The workbench is open at { $address } (data in { $path }). Ctrl-C stops it.
cli-office-ready = The workbench of { $host } is listening on { $address }, port { NUMBER($port, useGrouping: 0) }. Ctrl-C stops it.
cli-office-nobody = Nobody can sign in yet. Stop it or open another terminal, and add a user: loamshift office-user add NAME --office "NAME OF THE OFFICE" --role adviser
cli-office-bad-host = --hosts: “{ $given }” is not a host name. Write it without https:// and without a port. For example: soil.example
cli-office-no-host = --hosts names no host. Write the name people type. For example: soil.example
cli-office-no-tls = Passwords would cross the network unencrypted. Put a reverse proxy that handles HTTPS in front and use --behind-proxy. To try it on this machine, use --hosts localhost without --host.

## Users

cli-user-added = { $name } can sign in to “{ $office }” as { $role }.
cli-user-not-added = “{ $name }” cannot be added: { $why }
cli-user-office-missing = Name the office with --office.
cli-user-office-exists = There is already an office “{ $office }”. Leave out --new-office.
cli-user-office-long = --office: use no more than { $most } characters.
cli-user-office-unknown = --office: “{ $given }” is not one of { $offices }. Name one of them, or add --new-office.
# $seen is the day of the last sign-in or none; $active is no for a user who is disabled.
cli-user-line = { $active ->
    [no] { $seen ->
        [none] { $name }: { $role } of “{ $office }”, never signed in, disabled
       *[other] { $name }: { $role } of “{ $office }”, last signed in { $seen }, disabled
    }
   *[yes] { $seen ->
        [none] { $name }: { $role } of “{ $office }”, never signed in
       *[other] { $name }: { $role } of “{ $office }”, last signed in { $seen }
    }
}
cli-user-no-office = no office
cli-user-role = { $role ->
    [adviser] adviser
   *[reader] reader
}
cli-user-new-password = { $name } has a new password.
cli-user-is = { $name } is now { $role ->
    [adviser] an adviser
   *[reader] a reader
}.
cli-user-again = { $name } can sign in again.
cli-user-disabled = { $name } can no longer sign in.
cli-user-unknown = There is no user “{ $name }”. This command lists them: loamshift office-user list
cli-user-key-once = It is not stored and cannot be shown again. The account page revokes it.
cli-user-password = Password:
cli-user-password-again = Again:
cli-user-passwords-differ = The two passwords do not match. Nothing was changed.
cli-user-password-weak = Choose another password: { $why }

## backup and restore

cli-backup-exists = { $path } already exists. Overwrite it with --over, or name another file.
cli-backup-postgresql = The data is in PostgreSQL. Name a file that ends in .zip.
cli-backup-ending = { $path } must end in .zip or .sqlite3.
cli-backup-done = All data in { $folder } is backed up to { $path }.
cli-restore-one = Use --add or --replace, not both.
cli-restore-no-file = There is no file { $path }.
cli-restore-no-folder = There is no folder { $path }.
cli-restore-no-data = There is no data in { $path }. Name its folder with --data.
cli-restore-has-beds = { $folder } has beds already. Use --replace to put { $path } in their place (a backup is made first), or --add to add what is missing.
cli-restore-one-client = { $path } contains one client, not all data. Use --add.
cli-restore-added = { $added } things were added. { $left } were there already and are unchanged; { $differing } of them differ from the zip file.
cli-restore-done = { $added } things were restored to { $path }.
cli-restore-kept = What was there before is backed up in { $path }
cli-restore-has-data = { $folder } has data already. Use --replace to put { $path } in its place (a backup is made first), or name a new folder.
cli-restore-database = The database in { $folder } is restored from { $path }.
cli-restore-which-office = The database has several offices. Use --office and one of: { $offices }
cli-restore-office-unknown = There is no office called { $office }.
cli-restore-office-twice = There is more than one office called { $office }.

## The spelling

# $variable is the name of an environment variable.
cli-words-unknown = “{ $given }” is no spelling. Write --words uk or --words us, or set { $variable } to one of them.

## check

cli-check-good = { $file } can be used: { $name }.
cli-check-no-claim = To check what somebody claims of a material: loamshift claim "{ $material }"

## Example case files

cli-example-bean-rows = Bean rows that need nothing.
cli-example-blue-hydrangeas = Two pink hydrangeas that should be blue.
cli-example-cabbage-plot = An acid vegetable plot, to be limed before brassicas.
cli-example-camellia-corner = A bed of which only the reading of a soil probe is known.
cli-example-front-lawn = A lawn in US units.
cli-example-limy-courtyard = Rhododendrons wanted on made ground over chalk rubble.
cli-example-north-border = An empty border for blueberries, watered with hard tap water.
cli-example-overdone-bed = A bed that was given grams for ounces last spring.
cli-example-patio-pots = Blueberries in tubs, watered with hard water.
cli-example-sandy-patch = Sandy soil watered with rain.
cli-example-white-oak = A yellowing oak in a lawn with free lime.
cli-example-young-orchard = Readings and aim in calcium chloride, with a jar series of the soil.
# $count of the files, copied to the folder $path.
cli-examples-copied = { $count ->
    [one] 1 example was copied to { $path }.
   *[other] { $count } examples were copied to { $path }.
}
cli-examples-exist = { $count ->
    [one] { $names } is already in { $path }. Nothing was copied. Name another folder.
   *[other] { $names } are already in { $path }. Nothing was copied. Name another folder.
}

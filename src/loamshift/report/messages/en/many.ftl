### A long table of beds: why each row comes to what it does, what is wrong with a row, and the summary.

## Files and headings

table-two-bytes = { $file } is in UTF-16. Save it as CSV (UTF-8), or as an Excel workbook or a Parquet file.
table-pdf = { $file } is a PDF. Run loamshift intake on it first, with --as csv, then use what that writes.
table-parquet-damaged = { $file } is damaged or cut off: the end of a Parquet file is missing. Export it again.
table-headings-wrong = The headings of { $file } cannot be used. Nothing has been calculated.
table-heading-twice = This heading stands { $count } times. Give each column a heading of its own.
table-heading-missing = There is no column with this heading.
table-key-twice = Two columns fill this key. Leave one of them out.
table-nothing-known = No heading of { $file } is a key of a case file, such as soil.ph, and none was recognised as a laboratory's. Rename the columns, or name them in a file for --map.
table-map-unread = { $file } is not a mapping: { $why }. Write a table [columns] with a line for each column, such as "pH (H2O)" = "soil.ph".
table-questions = { $count ->
    [one] One question about { $file } has to be answered first. Run loamshift intake { $file } --map { $map }, answer it there, then run this again with --map { $map }.
   *[other] { $count } questions about { $file } have to be answered first. Run loamshift intake { $file } --map { $map }, answer them there, then run this again with --map { $map }.
}

## One row

table-row-broken = A quotation mark in this row is never closed, so its cells cannot be told apart. Close it, or take it out.
table-row-width = { $count ->
    [one] This row has 1 cell, and the heading has { $wanted }. Fill the missing cells, or leave them empty between their separators.
   *[other] This row has { $count } cells, and the heading has { $wanted }. Fill the missing cells, or leave them empty between their separators.
}
table-row-heading = This row is a heading again. If the columns change here, split the file here.
table-row-held = “{ $given }” was left out of this row: it is a limit rather than a figure, or doubtful. loamshift intake says more.
table-row-same-key = Another row has the same key. Both were answered.
table-planned-past = This is planned for a day before today. Give what was already put on as applied[1].
table-planned-readings = This bed has earlier pH readings, which a forecast of a plan in the table does not take in. Use loamshift advise for it, or keep the last reading only.
table-row-our-fault = This row could not be worked out because of an error in loamshift ({ $error }). Please report it with the row.
table-row-process = Working out this row, or one beside it, ended the process again and again, most likely for want of memory. The rows around it were left out.

## Why

# $ph is the pH now, $range the range wanted.
many-why-no-ph = No pH was given.
many-why-no-aim = No plant and no target pH was given, so no pH is right or wrong.
many-why-overdose = The material already applied is more than this soil can absorb.
many-why-too-acid = At pH { $ph } this may be an acid sulfate soil. Do not disturb it before it has been tested.
many-why-salt = The soil already holds too much salt, and every material would add more.
many-why-sodic = Sodium holds too many of the exchange sites. Lime and acid alone do not put that right.
many-why-waterlogged = The ground is waterlogged. Drain it first.
many-why-no-common-range = No single pH suits these plants together.
many-why-in-range = pH { $ph } is within { $range }, and should stay there.
many-why-at-work = What was applied earlier is still reacting, and will be enough.
many-why-small-gain = pH { $ph } is so close to { $range } that a second test could not show the difference.
many-why-unknown-lime = Free lime in the soil decides this, and nobody has tested it.
many-why-doubtful-reading = The reading is doubtful, and a better one could change this advice.
many-why-unknown-sodium = So high a pH usually comes from sodium. Test sodium before anything is applied.
many-why-unknown-water = The water decides this, and nobody has tested it.
many-why-unknown-texture = The texture decides this, and nobody has given it.
many-why-one-source-range = The range for this plant is too uncertain to change a whole bed for.
many-why-free-lime = Free lime would use up whatever is applied.
many-why-caps = The published limits do not allow enough to get from pH { $ph } to { $range }.
many-why-water = The water would bring back whatever is done to the soil.
many-why-feed = The fertiliser, not the soil, takes the pH out of the range.
many-why-upkeep = pH { $ph } is within { $range } now, but will leave it unless something is applied from time to time.
many-why-parts = pH { $ph } can be brought to { $range }, with more applications than usual.
many-why-months = pH { $ph } can be brought to { $range }, but it will take more than a year.
many-why-within-reach = pH { $ph } can be brought to { $range } within the published limits.
many-why-unknown = No reason was kept.
many-range = { $count ->
    [0] the range
   *[other] pH { $range }
}

## The summary

many-title = { $table }: summary
many-opening = { $faulty ->
    [0] { $answered ->
        [one] One row was answered.
       *[other] All { $answered } rows were answered.
    }
    [one] { $answered ->
        [one] One row was answered. One has a problem.
       *[other] { $answered } rows were answered. One has a problem.
    }
   *[other] { $answered ->
        [one] One row was answered. { $faulty } have problems.
       *[other] { $answered } rows were answered. { $faulty } have problems.
    }
}
many-verdicts = What they came to
many-call = Call these people
many-call-these = { $count ->
    [one] One row came to “stop”: what has been applied there, or the ground itself, can do harm. Speak to this person before sending anything.
   *[other] { $count } rows came to “stop”: what has been applied there, or the ground itself, can do harm. Speak to these people before sending anything.
}
many-call-more = { $count ->
    [one] One more is in { $table }, with the verdict “stop”.
   *[other] { $count } more are in { $table }, with the verdict “stop”.
}
many-ask = What to ask for
many-ask-for = Facts that were missing and that would make an answer more certain, and the rows they are missing from.
many-problems = Rows with a problem
many-problems-in = { $same_key ->
    [0] { $count ->
        [one] One row could not be answered. { $file } says where and why.
       *[other] { $count } rows could not be answered. { $file } says where and why.
    }
   *[other] { $count ->
        [0] { $same_key } rows share their key with another row. Each was answered. { $file } names them.
        [one] One row could not be answered, and { $same_key } share their key with another row. { $file } names them.
       *[other] { $count } rows could not be answered, and { $same_key } share their key with another row. { $file } names them.
    }
}
many-whole-row = The row as a whole
many-column-verdict = Verdict
many-column-question = Missing
many-column-rows = Rows
many-column-share = Share
many-column-row = Row
many-column-key = Key
many-column-why = Why
many-column-where = Where
many-column-count = Problems
many-line = { $stopped ->
    [0] { $faulty ->
        [0] { $answered } rows answered. They are in { $table }.
        [one] { $answered } rows answered, 1 with a problem. They are in { $table }.
       *[other] { $answered } rows answered, { $faulty } with problems. They are in { $table }.
    }
    [one] { $faulty ->
        [0] { $answered } rows answered. They are in { $table }. One came to “stop”: call that person first.
        [one] { $answered } rows answered, 1 with a problem. They are in { $table }. One came to “stop”: call that person first.
       *[other] { $answered } rows answered, { $faulty } with problems. They are in { $table }. One came to “stop”: call that person first.
    }
   *[other] { $faulty ->
        [0] { $answered } rows answered. They are in { $table }. { $stopped } came to “stop”: call those people first.
        [one] { $answered } rows answered, 1 with a problem. They are in { $table }. { $stopped } came to “stop”: call those people first.
       *[other] { $answered } rows answered, { $faulty } with problems. They are in { $table }. { $stopped } came to “stop”: call those people first.
    }
}

## The run

# $percent of the file is through; $rate is rows a second; $left is seconds or minutes.
triage-progress = { $known ->
    [no] { $rows } rows answered
    [seconds] { $percent }%: { $rows } rows answered, { $faulty } with problems, { $rate } a second, { $left } seconds left
   *[minutes] { $percent }%: { $rows } rows answered, { $faulty } with problems, { $rate } a second, { $left } minutes left
}
triage-going-on = Going on after { $rows } rows that were answered before.
triage-unused = { $count ->
    [one] One column is not used: { $named }. Name it with --carry to have it in the result.
   *[other] { $count } columns are not used: { $named }. Name one with --carry to have it in the result.
}
triage-spread = Spread over { $workers } processes.
triage-stopped = Stopped. { $rows } rows are kept in { $folder }. Run the same command again to go on.
triage-kept = { $rows ->
    [one] One row is kept in { $folder }. When that is fixed, run the same command again: it goes on from there.
   *[other] { $rows } rows are kept in { $folder }. When that is fixed, run the same command again: it goes on from there.
}
triage-file-failed = { $path } failed while the run was under way: { $why }.
triage-other-run = { $folder } holds part of another run: { $changed } changed. Finish that run, choose another name with -o, or discard it with --restart.
triage-planned-forecast = The table plans applications (planned[1].material and the like). Give --forecast to have them forecast, or leave these columns out.
triage-device-planned = A graphics card works out forecasts of plans that are in the table, and this table has none. Name them planned[1].material, planned[1].rate and planned[1].date and give --forecast, or leave out --device.
triage-device = The graphics card cannot be used: { $why }
triage-ending = { $path } has an ending that we do not write. Choose .parquet, .csv or .xlsx.
triage-same-file = { $path } is the file that is read. Choose another name with -o.
triage-too-many-for-excel = The result has { $rows } rows, and a sheet of Excel holds { $most }. Run the same command with -o and an ending of .csv or .parquet: nothing is worked out again.
triage-cannot-write-result = { $path } could not be written: { $why }. Make room, or see that you may write there.
triage-no-cluster = No cluster answers at { $address } ({ $why }). Check the address and that its scheduler runs, or leave out --scheduler to use this machine.
triage-cluster-gone = The cluster at { $address } has gone away. Start it again, or leave out --scheduler to use this machine.
triage-workers-without = The workers of the cluster have no loamshift. Install this version on each of them.
triage-workers-other = The workers of the cluster have another loamshift ({ $theirs }) than this machine ({ $ours }), so the answers could differ. Install the same version everywhere.
triage-letters-written = { $count ->
    [one] One letter is in { $folder }.
   *[other] { $count } letters are in { $folder }.
}
triage-no-such-key = No row has the key or verdict { $keys }. Nothing was written for it.
triage-letters-many = { $count } letters were asked for, and at most { $most } are written at a time. Name fewer rows with --for.
triage-nothing-to-do = { $file } has no rows below its heading.

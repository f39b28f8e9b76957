### What is wrong with a case file, what works instead, and what its reader remarks on.
### $given is what somebody typed. $key is a key with its equals sign, or nothing; $example is what can
### be typed after it, with its quotation marks. Keys, units and examples are never translated.

## Where, and how many

# $count is the number of problems; $source is a file or a name for what was typed.
case-head = { $count ->
    [one] 1 problem in { $source }. Nothing has been calculated.
   *[other] { $count } problems in { $source }. Nothing has been calculated.
}
# $line is the number of a line; $at is a key with its table, such as “[bed] area”.
case-place = { $file }, line { NUMBER($line, useGrouping: 0) }, { $at }
case-place-line = { $file }, line { NUMBER($line, useGrouping: 0) }
case-at-entry = [[{ $table }]] entry { $entry }
case-at-key-of-entry = [[{ $table }]] entry { $entry }, { $key }
case-and-more = { $count ->
    [one] One more problem is not listed.
   *[other] { $count } more problems are not listed.
}
case-these-first = Correct these first.

## What works instead

case-example = { $more ->
    [none] For example: { $key }{ $example }
   *[other] For example: { $key }{ $example } (or { $more })
}
case-did-you-mean = Check the unit. Did you mean { $key }{ $example }?
# One of the names, as it can be typed.
case-quoted = "{ $name }"
case-did-you-mean-name = Did you mean { $names }?
case-did-you-mean-key = Did you mean “{ $name }”?
case-decimal-point = Check the decimal point. Did you mean { $key }{ $example }?
case-one-of = It can be { $words }.
case-year-first = Write it as year-month-day: { $key }{ $example }
case-year-first-such-as = Write it as year-month-day, such as { $key }{ $example }
case-keep-one = Keep one of them.
case-kinds-of-value = Give text, a number or a date.

## Keys and tables

case-missing = This is missing.
case-key-twice = “{ $name }” appears twice.
case-unknown-key = { $header ->
    [none] There is no setting “{ $name }” at the top of the file.
   *[other] There is no setting “{ $name }” in { $header }.
}
case-key-is-called = Here it is called { $name }.
case-key-elsewhere = It belongs elsewhere: { $places }.
case-nearest-keys = The nearest are { $keys }.
case-keys-here = { $header ->
    [none] The keys at the top of the file are: { $keys }.
   *[other] The keys of { $header } are: { $keys }.
}
case-not-a-table = A table is needed here, not “{ $given }”.
case-write-table = Write { $header } on a line of its own, and its keys below.
case-not-entries = A list of entries is needed here.
case-double-brackets = Write { $header } with double brackets above each entry.
case-entry-under-header = Write { $header } on a line of its own, and the keys of the entry below.
case-many-entries = There are { $count } entries.
case-split-file = A case can have at most { $most }. Split the file.
case-not-understood = “{ $given }” is not understood here.
case-key-below-value = This key is inside another that is not a table.
case-no-value = “{ $given }” cannot be a value in a case file.
case-version-unknown = “{ $given }” is not a known version of the case file.
case-later-version = A later version of the file needs a later loamshift.

## Numbers

case-not-a-number = “{ $given }” is not a number.
case-no-number-first = “{ $given }” must start with a number.
case-more-than-number = A number is needed here. “{ $rest }” after it is not understood.
case-outside = “{ $given }” must be from { $low } to { $high }{ $unit ->
    [none] {""}
   *[other] {" "}{ $unit }
}.
case-not-whole = “{ $given }” must be a whole number from { $low } to { $high }.
case-far-too-large = “{ $given }” is far too large.
case-too-many-digits = “{ $given }” has far too many digits.
case-usual-digits = Write it with its usual digits.
case-dots-and-commas = “{ $given }” mixes points and commas.
case-without-thousands = Write 1250.5 or 1250,5, without marks for thousands.
case-fraction-of-zero = A fraction cannot have zero below the line.
case-write-decimal = Write a decimal number, such as 0.5.
case-sign-before-figure = “{ $given }” has a sign before the number.
case-limit-or-nothing = Write the number alone. For “less than”, write the limit or leave the key out.
case-limit-or-nothing-in-form = Write the number alone. For “less than”, write the limit or leave this blank.
case-range = “{ $given }” is a range, and one number is needed.
case-middle-of-range = Write the middle of the range, or the most likely value.
case-above-zero = “{ $given }” must be greater than zero.
case-below-zero = “{ $given }” cannot be below zero.
case-twelve-figures = { $count ->
    [one] There is 1 figure. Twelve are needed, January first.
   *[other] There are { $count } figures. Twelve are needed, January first.
}

## Words, text and lists

# $kind is what the key names.
case-no-such-choice = { $kind ->
    [ph-method] “{ $given }” is not a known pH method.
    [kind-of-bed] “{ $given }” is not a kind of bed.
    [kind-of-units] “{ $given }” is not a system of units.
   *[other] “{ $given }” is not one of the words that can be given here.
}
case-not-a-name = { $kind ->
    [plant] “{ $given }” is not the name of a plant.
    [place] “{ $given }” is not the name of a place.
    [buffer-ph-method] “{ $given }” is not the name of a buffer method.
    [texture] “{ $given }” is not the name of a texture.
   *[material] “{ $given }” is not the name of a material.
}
case-name-too-long = { $kind ->
    [plant] This is far too long for the name of a plant.
    [place] This is far too long for the name of a place.
    [buffer-ph-method] This is far too long for the name of a buffer method.
    [texture] This is far too long for the name of a texture.
   *[material] This is far too long for the name of a material.
}
case-name-unknown = { $kind ->
    [plant] There is no plant called “{ $given }”.
    [place] There is no place called “{ $given }”.
    [buffer-ph-method] There is no buffer method called “{ $given }”.
    [texture] There is no texture called “{ $given }”.
   *[material] There is no material called “{ $given }”.
}
case-name-ambiguous = { $kind ->
    [plant] “{ $given }” could be more than one plant.
    [place] “{ $given }” could be more than one place.
    [buffer-ph-method] “{ $given }” could be more than one buffer method.
    [texture] “{ $given }” could be more than one texture.
   *[material] “{ $given }” could be more than one material.
}
case-where-names-are = { $kind ->
    [plant] The command loamshift plants lists every name.
    [place] The command loamshift places lists every name.
    [buffer-ph-method] Copy the name of the buffer from the report, such as Sikora or Adams-Evans.
    [texture] Write it as a soil test does: sand, sandy loam, loam, silt loam, clay loam or clay.
   *[material] The command loamshift materials lists every name.
}
# The same on a page, where fields open lists of names.
case-where-names-are-in-form = { $kind ->
    [buffer-ph-method] Copy the name of the buffer from the report, such as Sikora or Adams-Evans.
    [texture] Write it as a soil test does: sand, sandy loam, loam, silt loam, clay loam or clay.
   *[other] Choose a name from the list that opens in the field.
}
case-not-true-or-false = “{ $given }” is neither true nor false.
case-not-text = “{ $given }” must be text in quotation marks.
case-empty-text = This text is empty.
case-words-or-nothing = Write a few words, or leave the key out.
case-words-or-nothing-in-form = Write a few words, or leave this blank.
case-text-too-long = This text has { $count } characters.
case-most-characters = Use no more than { $most } characters.
case-sign-in-name = “{ $given }” contains a star, a vertical bar or a backquote.
case-not-a-list = “{ $given }” is not a list.
case-list-too-long = There are { $count } in this list.
case-most-entries = Give at most { $most }.
case-test-priced-twice = This test has a price already.
case-keep-one-price = Keep one of the two.
case-no-currency = “{ $given }” is not a currency in three letters.
case-month-twice = A month appears twice.
case-water-to-soil = “{ $given }” does not say how much water was used for how much soil.
case-water-as-in-report = Copy it from the report. If the report does not say, write “unknown”.

## Dates

case-not-a-date = “{ $given }” is not a date we can read.
case-no-such-day = There is no such day as “{ $given }”.
case-year-unlikely = “{ $given }” has a year before 1900 or after 2200.
case-no-day = The date of the advice is missing.
case-date-in-future = { $day } is in the future: today is { $today }.
case-day-it-happened = Give the day it happened. Leave out what is only planned.
case-date-in-past = { $day } is in the past: today is { $today }.
case-day-wanted = Give the day by which you want the pH to be reached, or leave the key out.
case-day-wanted-in-form = Give the day by which you want the pH to be reached, or leave this blank.

## Quantities

case-too-long-for-quantity = This is far too long for a quantity.
# $kind is what the unit is of; $wanted is what is needed.
case-other-kind = { $kind ->
    [length] “{ $given }” is a length
    [mass] “{ $given }” is a weight
    [volume] “{ $given }” is a volume
    [area] “{ $given }” is an area
   *[temperature] “{ $given }” is a temperature
}, and { $wanted ->
    [length] a length
    [mass] a weight
    [area] an area
    [temperature] a temperature
    [volume-or-length] a volume or a depth
   *[mass-or-volume] a weight or a volume
} is needed.
# $near lists units that are spelt nearly so, or is none.
case-unit-unknown = { $near ->
    [none] The unit “{ $unit }” in “{ $given }” is not known.
   *[other] The unit “{ $unit }” in “{ $given }” is not known. The nearest is { $near }.
}
case-unit-unknown-here = The unit “{ $unit }” is not known here.
case-units-known = These units are read here: { $units }.
case-unit-of-two-weights = “{ $unit }” means different weights in different countries.
case-which-ton = Write “t” for 1000 kg, “short ton” for 2000 lb or “long ton” for 2240 lb.
case-which-hundredweight = A hundredweight is 112 lb in the UK and 100 lb in the US. Write pounds or kilograms.
case-area-too-small = “{ $given }” is less than a small pot has. A 9 cm pot has 0.0064 m2.
case-area-too-large = “{ $given }” is more than 1000 hectares.
case-sides-without-unit = The two sides have no unit.
case-side-below-zero = A side cannot be below zero.
case-deeper-than-metre = “{ $given }” is deeper than a metre.
case-zero-on-surface = Write 0 if it is on the surface.
case-no-ring = “{ $given }” cannot be the ring around a plant, which is from 5 cm to 30 m across.
case-no-pot = “{ $given }” cannot be the volume of a pot, which is from 1 to 2000 litres.
case-no-temperature = “{ $given }” is not a temperature of air or soil.
case-letter-of-scale = Write “C” or “F” after the figure.
case-hint-organic = 10 g/kg is 1%.
case-hint-carbonate = 10 g/kg is 1%. A soil with 8% is limy.
case-hint-cec = A figure over 150 is usually in mmolc/kg. Divide it by ten.
case-hint-aluminium = Aluminium in mg/kg needs its unit.
case-hint-ec = A figure in the hundreds is usually in uS/cm (1000 is 1 dS/m) or mS/m (100 is 1 dS/m).
case-hint-bulk-density = Mineral topsoil has 0.9 to 1.6, peat about 0.1. 1300 kg/m3 is 1.3.

## How much of a material

case-rate-per-what = “{ $given }” does not say per what area.
# $line is a line of the case file.
case-whole-bed = For an amount for the whole bed, write { $line }. A rate is per area.
case-not-weight-per-area = “{ $given }” is not a weight per area.
case-depth-per-something = “{ $given }” is a depth per something.
case-per-area-of-what = “{ $given }” has an area without its unit.
case-per-no-area = The area in “{ $given }” must be greater than zero.
case-litre-weighs = We do not know what a litre of { $product } weighs.
case-weigh-one-measure = Weigh what one cup or bucket holds, and give the weight.
case-ground-of-plant = We do not know how much ground each plant has.
case-give-ring = Give bed.treated_diameter (the ring around each plant), or bed.area and bed.plants.
case-area-unknown = We do not know the area it goes on.
case-give-area = Give bed.area, or write a rate such as "30 g/m2".
case-give-area-in-form = Give the area of the bed, or write a rate such as 30 g/m2.
# $area is the area of the bed, or none where a rate was given.
case-slip-of-unit = { $area ->
    [none] “{ $given }” would be { $rate } of { $product }. Nobody spreads more than { $limit }, so the unit is probably wrong.
   *[other] “{ $given }” on { $area } would be { $rate } of { $product }. Nobody spreads more than { $limit }, so the unit is probably wrong.
}
case-check-unit-and-area = Check the unit, and bed.area.
case-amount-and-rate = Both amount and rate are given.
case-how-much-missing = The amount is missing.
case-amount-or-rate = For the whole bed, write for example: { $key }{ $example } (or rate = "30 g/m2")
case-amount-or-rate-in-form = Give the amount for the whole bed, such as { $example }, or a rate, such as 30 g/m2.
case-lime-too-much = A bare figure is in g/m2, and this would be { $rate } of lime.

## Soil

# $parts names what is added up; $sum is a percentage.
case-texture-sum = { $parts ->
    [sand-silt-clay] Sand, silt and clay add up to { $sum }.
    [sand-silt] Sand and silt add up to { $sum }.
    [sand-clay] Sand and clay add up to { $sum }.
   *[silt-clay] Silt and clay add up to { $sum }.
}
# $lines are lines of the case file.
case-fractions = They look like fractions of 1. In per cent they are { $lines }.
case-layer-upside-down = The layer begins at { $top } and ends at { $bottom }: its bottom must be at least { $least } deeper than its top.
case-layers-overlap = The layer from { $top } to { $bottom } overlaps layer { $above }, from { $start } to { $end }.
case-layers-apart = Begin each layer where the one above it ends, or deeper.
case-layer-in-sample = The layer begins at { $top } with pH { $layer }, but the sample goes down to { $deep } with pH { $sample }. One soil cannot have both.
case-layer-below-sample = Begin the layer at { $deep } or deeper, or correct the depth of the sample.
case-one-hundred = They must add up to 100, within 3. Check which figure was miscopied.

## Water

case-hardness-not-alkalinity = “{ $given }” is a hardness, and the alkalinity is needed.
case-hardness-elsewhere = Hardness can come from gypsum, which takes up no acid. Put this figure under water.hardness, and give the alkalinity (bicarbonate, or carbonate hardness in dKH).
case-mmol-of-what = “{ $given }” does not say of what.
case-zero-for-rain = Write 0 for rainwater.
case-water-too-hard = “{ $given }” is more than { $limit }, and no such water is used on plants.
case-usual-water = Water used on plants has { $water }. Check the unit.
case-watered-area-unknown = We do not know the area this waters.
case-area-or-depth = Give bed.area, or the water as a depth: { $key }{ $example }
case-too-much-water = “{ $given }” would be { $depth } a week, more than any bed gets.
case-water-of-one-week = Check the unit and bed.area. Give the water of one week for one bed.

## Feeding and products

case-feed-twice = Nitrogen with its form and a material with its rate are both given.
case-feed-keep-one = Keep n_g_m2_year and form, or material and rate.
case-feed-keep-one-in-form = Keep the nitrogen and its form, or the material and its rate.
case-feed-without-name = The feed has a rate but no name.
case-feed-without-rate = The feed has no rate.
case-nitrogen-missing = The feed has a form but no amount of nitrogen.
case-nitrogen-form-missing = The nitrogen has no form.
case-too-much-nitrogen = { $rate } of nitrogen a year is more than any plant is given.
case-kg-ha-meant = Is it in kg/ha? Then write the unit: { $key }{ $example }
case-strength-twice = The label already gives the strength.
case-keep-label = Keep the label, and leave purity_pct out.
case-keep-label-in-form = Keep the label, and leave the strength blank.

## Place and climate

case-longitude-alone = The longitude has no latitude.
case-latitude-alone = The latitude has no longitude.
case-latitude-needed = Your own figures need the latitude, for the season and the length of the day.
case-no-place-near = We have no climate for { $given }.
case-own-figures = Give twelve figures each of air_temp_c and rain_mm instead.
case-other-ways-to-place = Or give latitude and longitude, or air_temp_c and rain_mm.
case-climate-together = The keys air_temp_c and rain_mm go together.
case-add-twelve = Add twelve figures of { $key }, January first.
case-daily-file-alone = A daily file can only be read beside a case file on disk.
case-daily-no-rain = The daily file has no column of rain.
case-daily-add-rain = Add rain_mm, or the name or position of the place to take its rain from.

## The daily file of a weather station
## $line is a line of that file.

case-daily-columns = { $columns ->
    [none] The daily file has no columns.
   *[other] The daily file has the columns { $columns }.
}
case-daily-needs = It needs a column of dates and one of air temperature (or lowest and highest), rain or soil temperature.
case-daily-temperature = Line { NUMBER($line, useGrouping: 0) } of the daily file has { $given } °C.
case-daily-rain = Line { NUMBER($line, useGrouping: 0) } of the daily file has { $given } mm of rain.
case-daily-no-figure = Line { NUMBER($line, useGrouping: 0) } of the daily file has “{ $given }”, which is not a number.
case-daily-no-date = Line { NUMBER($line, useGrouping: 0) } of the daily file has “{ $given }”, which is not a date.
case-daily-empty-cell = Correct it, or leave the cell empty for a missing day.
case-daily-day = Write days as 2025-04-12.
# $months are numbers of months.
case-daily-few-days = { $what ->
    [rain] { $months-count ->
        [one] Month { $months } of the daily file has under { $least } days of rain figures.
       *[other] Months { $months } of the daily file have under { $least } days of rain figures.
    }
   *[temperature] { $months-count ->
        [one] Month { $months } of the daily file has under { $least } days of temperature.
       *[other] Months { $months } of the daily file have under { $least } days of temperature.
    }
}
case-daily-whole-year = Give at least a whole year, or name a place.

## The label of a bag

case-label-no-figures = “{ $given }” is not a label with its figures.
case-label-empty = The label has no figures.
case-label-copy = Copy what the bag prints under its name.
case-label-too-long = This is far too long for a label.
case-label-not-a-figure = “{ $given }” is not a figure of a label.
case-label-with-commas = Write each as name = per cent, with commas between them.
case-figure-twice = This figure appears twice.
case-label-unknown-key = There is no figure “{ $name }” on a label.
case-label-keys = A label can have: { $keys }.
case-label-form-open = { $what ->
    [nitrogen] The form of the nitrogen is missing.
    [sulfur] The form of the sulphur is missing.
    [iron] The form of the iron is missing.
   *[value] The scale of the neutralising value is missing.
}
case-label-which-form = { $what ->
    [nitrogen] Look below total nitrogen for ammonium, nitrate, urea and slow: n_ammonium_pct, n_nitrate_pct, n_urea_pct, n_slow_pct.
    [sulfur] Write s_element_pct if the bag says elemental or free sulphur. Write s_sulfate_pct if it says combined sulphur, or if the product is a sulphate.
    [iron] Write fe_sulfate_pct for iron as sulphate. Leave a chelate out: it adds no acid.
   *[value] Write nv_as_cao_pct for a figure such as 54 on a bag from the UK or Ireland. Write nv_as_caco3_pct if pure calcium carbonate is 100.
}
case-label-too-much-so3 = “{ $given }” is more SO3 than any sulphate contains.
case-label-is-sulfur = The bag is elemental sulphur: write { $line }
case-label-as-printed = Copy the percentage from the bag.
case-no-fineness = “{ $given }” is not a fineness.
case-fineness-over-100 = “{ $given }” has more than 100% passing a sieve.
case-fineness-finer = More passes a finer sieve than a coarser one.
case-fineness-all-that-passes = Each figure is everything that passes its sieve. Check which was miscopied.
case-fineness-nothing = Nothing passes any of these sieves.
case-sieve-unknown = We do not know a sieve of { $mesh } mesh.
case-sieves-known = These are known: { $sieves }. Or give its opening in mm.
case-sieve-unlikely = A sieve of { $opening } um is not possible.
case-mm-or-um = Check whether mm or um is meant.
case-fineness-alone = The label has a fineness but no sulphur or lime.
case-fineness-of-what = The size of grain matters only for sulphur and lime. Give s_element_pct or the neutralising value as well, or leave the fineness out.
case-label-would-burn = Elemental sulphur and nitrate in one bag would burn.
case-label-sulfate-beside-nitrate = No maker mixes them. Sulphur beside nitrate is s_sulfate_pct.
case-label-over-100 = These figures need at least { $weight } of the bag.
case-label-compounds = Each stands for a compound: 21% ammonium nitrogen and 24% sulphate sulphur make 99% ammonium sulphate. Check which was miscopied.
case-label-free-acid = A label has no figure for a free acid.
case-label-purity = Leave the label out, and give purity_pct for the { $product }.
case-label-sulfur-strength = The strength of the sulphur is missing.
case-label-add = For example, add { $line }
case-label-metal = Its metal makes the acid, and is missing.
case-label-give = Give { $name } as the bag prints it.
case-label-lime-value = The neutralising value of the lime is missing.
case-label-value = Give nv_as_cao_pct (bags from the UK and Ireland) or nv_as_caco3_pct (all others).
case-label-forms = The forms of its nitrogen are missing.
case-label-look-below = Look below total nitrogen for ammonium (ammoniacal), nitrate (nitric), urea (ureic) and slow. If the bag has no such lines, ask the maker.
case-label-earth = The label has calcium or magnesium, but does not say whether it is lime.
case-label-earth-value = Give the neutralising value. If the bag has none, write nv_as_caco3_pct = 0 for gypsum, chloride and other salts. For limestone in a fertiliser, write nv_as_cao_pct with the figure for CaO.
# $meant and $given are figures of the same key.
case-label-two-figures = This means { $name } = { $meant }, but { $given } is given.
case-label-forms-over-total = The forms add up to { $sum }, more than the total.
case-label-miscopied = Check which was miscopied.
case-label-nitrogen-left = { $rest } of nitrogen has no form.
case-label-slow = Other nitrogen that does not dissolve is n_slow_pct.
case-label-same-name = Another product of this name has a different label.
case-label-own-name = Give each product its own name.

## What the reader of the file remarks on

# $path is a key of the case file; $note is one of the remarks below.
case-note-at = { $path }: { $note }
# $measure is the measure of volume of the US that is taken.
case-note-us-measure = { $measure ->
    [gallon] “{ $given }” is read as the US gallon.
    [quart] “{ $given }” is read as the US quart.
    [pint] “{ $given }” is read as the US pint.
    [bushel] “{ $given }” is read as the US bushel.
   *[fluid-ounce] “{ $given }” is read as the US fluid ounce.
}
case-note-metric-ton = The ton in “{ $given }” is read as a tonne of 1000 kg.
case-note-short-ton = The ton in “{ $given }” is read as a short ton of 2000 lb.
# $weight and $spread are amounts, or rates where the text gave one; $spread may be none.
case-note-weighs = { $spread ->
    [none] “{ $given }” of { $product } is about { $weight }.
   *[other] “{ $given }” of { $product } is about { $weight } ({ $spread }).
}{ $measure ->
    [household] {" "}Weigh it rather than measure it.
   *[volume] {""}
}
case-note-bare-figure = The bare { $given } is read as { $given } { $unit }. Write "{ $given } { $other }" if that was meant.
case-note-method-without-ph = A method is given, but no pH.
case-note-lime-index = { $given } is a lime test index, and is read as buffer pH { $ph }.
case-note-organic = Organic matter of { $matter } and organic carbon of { $carbon } do not fit together: matter is 1.4 to 2.5 times carbon. One may have been given as the other.
case-note-daily-file-unread = It is not read, because air_temp_c and rain_mm are given as well.
case-note-place-unknown = “{ $given }” is not a town we know, so dates and forecast are worked out without a place. Give the nearest larger town, or latitude and longitude.
case-note-place-like = “{ $given }” is not a town we know, so dates and forecast are worked out without a place. Did you mean { $names }? The nearest larger town will do, or latitude and longitude.
case-note-read-as-caco3 = “{ $unit }” without “CaCO3” or “HCO3” is read as CaCO3. As bicarbonate it would be 18% less.
case-note-hardness = A hardness of { $given } does not show how much acid the water takes up, because gypsum makes water hard as well. Ask for the alkalinity (bicarbonate).
case-note-price-without-pack = Without the weight of the pack, its price cannot be compared.
case-note-sulfur-grain = The size of the sulphur grains is missing, so it counts as powder, the quickest. For chips or pellets, write material = "elemental sulfur, prills" or "elemental sulfur, pastilles".
case-note-lime-fineness = The fineness of the lime is missing, so it counts as ordinary ground limestone. Trade bags print what passes a sieve.

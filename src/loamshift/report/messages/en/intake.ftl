### A file of a laboratory, read and understood: what cannot be read, what is asked, what was found.

## Files that cannot be read

intake-unreadable = { $file } cannot be read: { $why }. Check the name of the file and whether you may read it.
intake-too-large = { $file } is larger than { $most } MB. Split it, or save only the sheet with the results.
intake-empty = { $file } is empty. Export the results again, or type them into a new case file.
intake-picture = { $file } is a picture, which holds no text to read. Type the figures in yourself, or ask the laboratory for a spreadsheet.
intake-not-a-table = { $file } is not a table: it holds bytes that are no text. Save it as CSV or as an Excel workbook, or type the figures in yourself.
intake-markup = { $file } is a web page or a document, whatever its name says. Open it in a spreadsheet program and save it as CSV or as an Excel workbook.
intake-too-many-cells = { $file } has a sheet with too many cells to be a table of results. Delete the empty rows and columns round the results, and save it again.
intake-bomb = { $file } would unpack to { $mb } MB or more, far more than a file of results needs. Save the results as CSV, and use that.
intake-zip = { $file } is a zip that holds no workbook. Unpack it first, and use one of the files in it.
intake-damaged = { $file } is damaged and cannot be opened. Download or export it again, or type the figures in yourself.
intake-encrypted = { $file } is protected with a password. Save a copy without the password, or type the figures in yourself.
intake-needs-lab = Reading { $file } needs a part that is not installed. Install it with: pip install "loamshift[lab]"
intake-pdf-long = { $file } has { $pages } pages; at most { $most } are read at once. Split it, or ask the laboratory for a spreadsheet.
intake-pdf-scanned = { $file } is a scan: its pages are pictures without text. Type the figures in yourself, or ask the laboratory for a spreadsheet.

## Noticed while reading

intake-note-latin = { $file } does not say which letters it is written in; it was read as Western European.
intake-note-quote = The quotation mark on line { $line } is never closed, so quotation marks were read as letters.
intake-note-old = { $file } is in the older Excel format, which does not show which cells are formulas.
intake-note-macros = { $file } holds macros. They were not run.
intake-note-formulas = { $count ->
    [one] 1 cell of sheet “{ $sheet }” is a formula{ $cells ->
        [none] {""}
       *[other] {" "}({ $cells })
    }. The value stored with it was read; nothing was calculated.
   *[other] { $count } cells of sheet “{ $sheet }” are formulas{ $cells ->
        [none] {""}
       *[other] {", such as "}{ $cells }
    }. The values stored with them were read; nothing was calculated.
}
intake-note-formulas-empty = { $count ->
    [one] The formula in { $cells } of sheet “{ $sheet }” has no stored value, so the cell reads as empty. Open the file in a spreadsheet program and save it again.
   *[other] { $count } formulas of sheet “{ $sheet }”, such as { $cells }, have no stored value, so their cells read as empty. Open the file in a spreadsheet program and save it again.
}
intake-note-pages = { $count ->
    [one] Page { $page } is a picture without text and was not read.
   *[other] { $count } pages, the first of them page { $page }, are pictures without text and were not read.
}

## What a column is

intake-is-nothing = nothing that is recognised
intake-is-sample = the name of the sample
intake-is-lab-number = the laboratory's number
intake-is-client = the client
intake-is-ph = soil pH
intake-is-buffer-ph = buffer pH
intake-is-lime-test-index = lime test index (ten times the buffer pH)
intake-is-target-ph = a target pH
intake-is-exchangeable-acidity = exchangeable acidity
intake-is-al-saturation = aluminium saturation
intake-is-total-carbon = total carbon
intake-is-ca = calcium
intake-is-mg = magnesium
intake-is-k = potassium
intake-is-na = sodium
intake-is-p = phosphorus
intake-is-p-level = the level or index of phosphorus
intake-is-s = sulphur
intake-is-n = nitrogen
intake-is-cao = calcium as its oxide
intake-is-mgo = magnesium as its oxide
intake-is-k2o = potassium as its oxide
intake-is-na2o = sodium as its oxide
intake-is-p2o5 = phosphorus as its oxide
intake-is-micronutrient = a trace element
intake-is-ca-saturation = calcium saturation
intake-is-k-saturation = potassium saturation
intake-is-h-saturation = hydrogen saturation
intake-is-active-limestone = active limestone
intake-is-fizz = the fizz test
intake-is-excess-lime = an excess-lime rating
intake-is-loam-share = silt and clay together
intake-is-texture = texture
intake-is-date-sampled = the day of sampling
intake-is-date-received = the day the laboratory received it
intake-is-date-reported = the day of the report
intake-is-depth = sampling depth
intake-is-depth-from = upper end of the sampled layer
intake-is-depth-to = lower end of the sampled layer
intake-is-crop = the crop or plant
intake-is-previous-crop = the previous crop
intake-is-analyte = the name of what was measured
intake-is-result = results
intake-is-unit = units
intake-is-method = methods
intake-is-remark = remarks
intake-is-recommendation = a fertiliser recommendation
intake-is-cn-ratio = the ratio of carbon to nitrogen
intake-is-average = a summary of other samples

## Why

intake-why-told = You said so.
intake-why-unknown = No known word heads it.
intake-why-words = The heading says “{ $words }”.
intake-why-legend = The legend of the file explains it.
intake-why-unit-printed = The unit { $unit } is printed with it.
intake-why-method = The method is { $method }.
intake-why-no-figures = It holds no figures.
intake-why-only-unit = It is always given in { $unit }.
intake-why-sum = Sand, silt and clay add up to about { $whole }, so the unit is { $unit }.
intake-why-below-100 = None of the { $count } figures is above 100, so the unit is %.
intake-why-size = { $fits ->
    [none] Half of the figures are above { $middle }, which is not usual in any unit.
    [several] Half of the figures are above { $middle }, which is usual in more than one unit.
   *[one] Half of the figures are above { $middle }, which is usual in { $unit }.
}

## Columns to be asked about

intake-column-unsure = { $left ->
    [none] “{ $heading }” looks like { $taken }, but its cells do not.
   *[other] “{ $heading }” looks like { $taken }, but the heading also says “{ $left }”.
}
intake-ask-meaning = Is “{ $heading }” { $taken }?
intake-columns-alike = “{ $heading }” and “{ $other }” both seem to be { $taken }.
intake-buffer-as-ph = “{ $heading }” is hardly ever below “{ $other }” and hardly varies. That is how a buffer pH looks, not { $taken }.
intake-ph-times-ten = Half of “{ $heading }” is above { $middle }. That is a lime test index (68 means 6.8), or a lost decimal sign.
intake-columns-swapped = { $other ->
    [none] Most of “{ $heading }” cannot be pH: half of it is above { $middle }.
   *[other] Most of “{ $heading }” cannot be pH: half of it is above { $middle }. “{ $other }” looks like pH. The columns may be swapped.
}
intake-columns-unknown = { $count ->
    [one] 1 column was not recognised and is not used: { $named }.
   *[other] { $count } columns were not recognised and are not used: { $named }{ $more ->
        [0] {""}
       *[other] {" "}and { $more } more
    }.
}

## Units

intake-unit-missing = “{ $heading }” ({ $taken }) has no unit. Half of its figures are above { $middle }.
intake-unit-doubtful = “{ $heading }” ({ $taken }) is printed in { $stated }, but half of its figures are above { $middle }, which is unusual in that unit.
intake-unit-not-taken = “{ $heading }” ({ $taken }) is in { $unit }, which cannot be converted without a density or a depth.
intake-unit-contradicts = “{ $heading }” is headed with the unit { $unit }, but { $taken } has no unit. The heading may be wrong.
intake-ask-unit = { $unit ->
    [none] Which unit is “{ $heading }” in?
   *[other] Is “{ $heading }” in { $unit }, or in which unit?
}
intake-units-mixed = { $count ->
    [one] The unit of “{ $heading }” is in its cells: { $units }.
   *[other] The unit of “{ $heading }” changes from row to row: { $units }. Each figure would be converted by its own unit.
}
intake-ask-mixed = Convert each figure of “{ $heading }” by its own unit?
intake-commas = Commas such as the one in “{ $given }” can be decimal or thousands.
intake-ask-commas = Is the comma in “{ $given }” a decimal comma?
intake-per-area = “{ $heading }” is in { $unit }, an amount per area. { $fits ->
    [yes] Halving it gives ppm, because the sample is 6 to 7 inches deep.
    [no] Halving it does not give ppm here: that holds only for a sample 6 to 7 inches (15 to 18 cm) deep.
   *[unknown] Halving it gives ppm only if the sample is 6 to 7 inches (15 to 18 cm) deep, and no depth is given.
}
intake-per-volume = “{ $heading }” is in { $unit }, per volume of soil. To compare it with figures per kilogram, divide by the bulk density: potting mixes differ five to ten times.
intake-magnesium-unit = “{ $heading }” is in { $per ->
    [litre] mg per litre of soil. That is mg/kg only where a litre of the dried, ground sample weighs a kilogram: nearly so in mineral soil, far from it in peat and potting mix.
   *[acre] pounds per acre. Half of that is mg/kg only where the laboratory counts an acre of soil as 2,000,000 lb, as most do for 6 to 7 inches.
} It is left out until you say so.
intake-magnesium-assumed = “{ $heading }” is taken as mg/kg, { $per ->
    [litre] as if a litre of the sample weighed a kilogram.
   *[acre] half of each figure, as if an acre of soil weighed 2,000,000 lb.
}
intake-phosphorus-unit = “{ $heading }” is not in mg per litre of soil, by which the index of phosphorus goes. It is left out until you say that a litre of the sample weighs about a kilogram.
intake-phosphorus-olsen = “{ $heading }” is taken as an index of phosphorus by mg per litre of soil: below 16 is low, below 26 medium, below 46 high, and more very high.
intake-phosphorus-index = “{ $heading }” is taken as the index that runs from 0 to 9: 0 and 1 are low, 2 medium, 3 high, 4 and more very high. An Irish index, from 1 to 4, is another scale.
intake-ask-assumed = Should “{ $heading }” be counted as if { $per ->
    [litre] a litre of the sample weighed a kilogram?
   *[acre] an acre of soil weighed 2,000,000 lb?
}
intake-oxides = { $named } are given as oxides. K2O is 1.205 times K, P2O5 is 2.29 times P, MgO is 1.66 times Mg and CaO is 1.40 times Ca.
intake-index-class = “{ $heading }” is a class or an index, not a concentration. It is kept as a class.

## Methods

intake-methods-contradict = “{ $heading }” names more than one method.
intake-ph-method = “{ $heading }” does not say how the pH was measured. Readings in water and in salt solutions differ by about 0.4 to 0.8.
intake-ph-ratio = “{ $heading }” was measured in water, but the ratio of soil to water is not given.
intake-buffer-method = “{ $heading }” does not say which buffer was used.
intake-ec-ratio = “{ $heading }” does not say how much water the soil was mixed with. The same soil reads about six times higher in a saturated paste than in 1:5.
intake-ask-method = How was “{ $heading }” measured?
intake-om-method = “{ $heading }” may be loss on ignition, or organic carbon times 1.72. The true factor is anywhere from 1.4 to 2.5.
intake-om-ignition = “{ $heading }” is a loss on ignition, which reads too high in clay soils.
intake-total-carbon = “{ $heading }” includes the carbon of free lime, so it is not used as organic carbon.
intake-index-of-ten = “{ $heading }” is ten times the buffer pH: 68 means 6.8.
intake-lime-hidden = “{ $heading }” is a lime recommendation. Its target pH, depth and lime product are rarely printed; ask the laboratory.
intake-lime-as-cao = “{ $heading }” is as CaO. It was multiplied by 1.785 to give ground limestone.
intake-excess-lime = “{ $heading }” only ranks free lime as none, low, medium or high. It is not entered; ask for the percentage or do a fizz test.
intake-hardness = “{ $heading }” is the hardness of water, which is not its alkalinity. Ask for the alkalinity as well.
intake-active-limestone = “{ $heading }” is only the fine part of the free lime. It is not entered as total free lime.
intake-target-ph = “{ $heading }” is a pH to aim for, not the pH of the sample. It is not entered.
intake-fizz-acid = “{ $heading }” does not say whether the acid was hydrochloric acid or vinegar.

## Dates and depths

intake-date-order = Dates such as “{ $given }” can be read with the day or the month first.
intake-ask-date-order = Which comes first in “{ $given }”, the day or the month?
intake-date-unread = { $count ->
    [one] “{ $given }” in “{ $heading }” is not a date.
   *[other] { $count } cells of “{ $heading }” are not dates, such as “{ $given }”.
}
intake-depth-unit = “{ $given }” is a depth without a unit.
intake-depth-unread = { $count ->
    [one] “{ $given }” is not a depth in figures.
   *[other] { $count } depths are not in figures, such as “{ $given }”.
}
intake-subsoil = { $count ->
    [one] 1 sample begins below the surface ({ $given }). Its depth is not entered as that of a topsoil.
   *[other] { $count } samples begin below the surface, such as { $given }. Their depth is not entered as that of a topsoil.
}
intake-no-depth = The file gives no sampling depth.
intake-ask-depth = How deep were the samples taken?
intake-no-day = The file gives no day of sampling.
intake-ask-day = When were the samples taken?
intake-several-depths = The samples were taken to different depths: { $depths }. Compare only those of the same depth.
intake-report-before-sample = { $count ->
    [one] “{ $sample }” was reported or received before it was taken. Are the dates swapped?
   *[other] { $count } samples were reported or received before they were taken, the first of them “{ $sample }”. Are the dates swapped?
}
intake-sampled-later = { $count ->
    [one] “{ $sample }” has a day of sampling in the future. Is the date right?
   *[other] { $count } samples have a day of sampling in the future, the first of them “{ $sample }”. Is the date right?
}

## Figures

intake-value-impossible = { $count ->
    [one] “{ $given }” in “{ $heading }” cannot be { $taken }. Is it typed correctly?
   *[other] { $count } figures of “{ $heading }” cannot be { $taken }, such as “{ $given }”. Are they typed correctly?
}
intake-value-word = { $count ->
    [one] “{ $given }” in “{ $heading }” is not a figure and is not entered.
   *[other] { $count } cells of “{ $heading }” are not figures, such as “{ $given }”. They are not entered.
}
intake-value-day = { $count ->
    [one] “{ $given }” in “{ $heading }” is a date. Did the spreadsheet change a figure such as 6.8 into a date?
   *[other] { $count } cells of “{ $heading }” are dates, such as “{ $given }”. Did the spreadsheet change figures such as 6.8 into dates?
}
intake-ph-outside = { $count ->
    [one] pH { $given } in “{ $heading }” is outside what soils usually have.
   *[other] { $count } readings in “{ $heading }” are outside what soils usually have, such as pH { $given }.
}
intake-ask-outside = Are the unusual readings in “{ $heading }” correct?
intake-word-unknown = { $count ->
    [one] “{ $given }” in “{ $heading }” is not in our list and is not entered.
   *[other] { $count } cells of “{ $heading }” are not in our list, such as “{ $given }”. They are not entered.
}
intake-limits = { $count ->
    [one] “{ $sample }” has a figure given only as a limit ({ $path }: { $given }). It is kept as a limit and not entered.
   *[other] { $count } samples have figures given only as limits, such as { $path }: { $given }. They are kept as limits and not entered.
}

## What cannot be true together

intake-salt-above-water = { $count ->
    [one] In “{ $sample }” the pH in salt solution (“{ $salt }”) is above that in water (“{ $water }”). Are the columns swapped?
   *[other] In { $count } samples the pH in salt solution (“{ $salt }”) is above that in water (“{ $water }”), the first of them “{ $sample }”. Are the columns swapped?
}
intake-ask-swapped = Are these columns the right way round?
intake-ph-above-buffer = { $count ->
    [one] In “{ $sample }” the soil pH is not below the buffer pH. Are the columns swapped?
   *[other] In { $count } samples the soil pH is not below the buffer pH, the first of them “{ $sample }”. Are the columns swapped?
}
intake-buffer-in-limy = { $count ->
    [one] “{ $sample }” has a buffer pH although its soil pH is above 7, where a buffer test says nothing.
   *[other] { $count } samples have a buffer pH although their soil pH is above 7, where a buffer test says nothing. The first is “{ $sample }”.
}
intake-acidity-in-limy = { $count ->
    [one] “{ $sample }” has exchangeable acidity at a pH above 7.2. Does one of the two belong to another sample?
   *[other] { $count } samples have exchangeable acidity at a pH above 7.2, the first of them “{ $sample }”. Do the columns belong together?
}
intake-lime-in-acid = { $count ->
    [one] “{ $sample }” has more than 1% free lime at a pH below 6.5. Was it limed recently, or is the figure something else?
   *[other] { $count } samples have more than 1% free lime at a pH below 6.5, the first of them “{ $sample }”. Were they limed recently, or is the figure something else?
}
intake-lime-needless = { $count ->
    [one] “{ $sample }” has a pH above 7 and a lime recommendation. Does one of the two belong to another sample?
   *[other] { $count } samples have a pH above 7 and a lime recommendation, the first of them “{ $sample }”. Do the columns belong together?
}
intake-lime-far-apart = “{ $sample }”: the laboratory recommends { $theirs } of lime, and we would expect a laboratory to recommend about { $ours }. Which target, depth and lime does its figure suppose?
intake-lime-far-apart-more = { $count ->
    [one] One more sample, “{ $sample }”, has a lime figure more than twice ours, or less than half.
   *[other] { $count } more samples, first “{ $sample }”, have lime figures more than twice ours, or less than half.
}
intake-lime-not-compared = The lime figures of the first { $most } samples were compared with ours; { $count ->
    [one] one more was not.
   *[other] { $count } more were not.
}
intake-lime-missing = { $count ->
    [one] “{ $sample }” has a pH below 5 and needs no lime according to the laboratory. It may suppose a plant that likes acid soil.
   *[other] { $count } samples have a pH below 5 and need no lime according to the laboratory, the first of them “{ $sample }”. It may suppose plants that like acid soil.
}
intake-cations-over-cec = { $count ->
    [one] In “{ $sample }” calcium, magnesium, potassium and sodium add up to more than the cation exchange capacity. Does the soil have free lime or gypsum, or is a unit wrong?
   *[other] In { $count } samples calcium, magnesium, potassium and sodium add up to more than the cation exchange capacity, the first of them “{ $sample }”. Do the soils have free lime or gypsum, or is a unit wrong?
}
intake-saturation-over-100 = { $count ->
    [one] “{ $sample }” has a base saturation above 100%. Free lime or gypsum dissolves in the extract; is there any?
   *[other] { $count } samples have a base saturation above 100%, the first of them “{ $sample }”. Free lime or gypsum dissolves in the extract; is there any?
}
intake-om-equals-oc = { $count ->
    [one] “{ $sample }” has the same figure for organic matter and for organic carbon. Which of the two is it?
   *[other] { $count } samples have the same figure for organic matter and for organic carbon, the first of them “{ $sample }”. Which of the two is it?
}
intake-om-against-oc = { $count ->
    [one] In “{ $sample }” organic matter is { $ratio } organic carbon; usual are 1.4 to 2.5 times. Is a unit wrong?
   *[other] In { $count } samples organic matter and organic carbon do not fit each other, the first of them “{ $sample }” ({ $ratio }; usual are 1.4 to 2.5 times). Is a unit wrong?
}
intake-texture-sum = { $count ->
    [one] In “{ $sample }” sand, silt and clay add up to { $total }% and not to 100%. Is one of them wrong?
   *[other] In { $count } samples sand, silt and clay do not add up to 100%, the first of them “{ $sample }” ({ $total }%). Is one of the columns wrong?
}

## Samples and rows

intake-duplicate = { $count ->
    [one] “{ $sample }” is in the file twice with the same day and depth. Neither is entered yet.
   *[other] { $count } samples repeat the name, day and depth of another, the first of them “{ $sample }”. None of them is entered yet.
}
intake-ask-duplicate = Which one of each is right, or are they separate samples?
intake-jump = “{ $sample }” read { $before }{ $on ->
    [none] {" "}before
   *[other] {" "}on { $on }
} and now reads { $after }. { $why ->
    [method] The two were measured by different methods. Is that all of it?
    [season] They were taken in different seasons, which explains 0.1 to 0.5. Was the depth or the laboratory different, or are samples swapped?
   *[other] Was the method, depth or laboratory different, or are samples swapped?
}
intake-deeper-sample = { $count ->
    [one] In “{ $sample }” phosphorus, potassium and organic matter all fell by a quarter or more. Was it sampled deeper than before?
   *[other] In { $count } samples phosphorus, potassium and organic matter all fell by a quarter or more, the first of them “{ $sample }”. Were they sampled deeper than before?
}
intake-rows-skipped = { $why ->
    [average] Averages and totals are no samples, so these rows of “{ $sheet }” were left out: { $rows }
    [heading] Repeated headings were left out, in rows { $rows } of “{ $sheet }”
    [units] Rows with units alone were used as units, in “{ $sheet }”: { $rows }
    [repeated] These lines of “{ $sheet }” give another figure for something already read, and were left out: { $rows }
   *[text] Rows without results were left out of “{ $sheet }”: { $rows }
}{ $more ->
    [0] {""}
   *[other] {" "}and { $more } more
}.
intake-nothing-for-case = { $count ->
    [one] “{ $sample }” has no figure that a case file takes.
   *[other] { $count } samples have no figure that a case file takes, the first of them “{ $sample }”.
}
intake-no-table = No results were found in this file: no row has headings such as pH or organic matter. Type the figures into a new case file, or save the sheet with the results alone.

## Answers, and the file that remembers them

intake-answers-wrong = Answers for { $file } cannot be used. Nothing was read with them.
intake-answer-unknown = “{ $given }” is not an answer to this.
intake-answer-one-of = It can be { $choices }.
intake-answer-form = “{ $given }” is not an answer. Write the key of the question, an equals sign and the answer, such as “pH: method=CaCl2”.
intake-map-not-toml = { $file } is not TOML: { $why }. Correct that line, or delete the file to start again.
intake-map-keys = { $file } holds more than a mapping file has. It needs a table [answers], and may have laboratory = "a name".
intake-map-head = Answers about the files of one laboratory. They are used again for its next file.
intake-map-how = To answer a question, take the # away in front of it and put the right answer in.

## Field notes

intake-bed-unknown = { $count ->
    [one] “{ $name }” (1 reading) is not the name of a bed.
   *[other] “{ $name }” ({ $count } readings) is not the name of a bed.
}{ $beds ->
    [none] {""}
   *[other] {" "}It may be { $beds }.
}
intake-ask-bed = Which bed is “{ $name }”?
intake-reading-undated = { $count ->
    [one] The reading of “{ $name }” has no date and is not entered.
   *[other] { $count } readings have no date and are not entered, the first of them “{ $name }”.
}

## The command

intake-map-written = The answers and open questions are in { $file }.
intake-nothing-to-enter = Nothing in { $file } can be entered yet. Answer the questions first, or type the figures into a new case file.
intake-no-reading-to-enter = No reading in { $file } can be entered, so nothing was written. Correct what is listed, and try again.
intake-table-written = { $count ->
    [one] 1 sample is in { $file }.
   *[other] { $count } samples are in { $file }.
}
intake-cases-written = { $count ->
    [one] 1 case file is in { $folder }.
   *[other] { $count } case files are in { $folder }.
}
intake-folder-taken = { $folder } holds files already, and nothing is ever overwritten. Name a new folder with --to.
intake-no-beds = { $path } holds no case files. Name the case files of your beds, or their folder.
intake-notes-head = { $count ->
    [0] No reading in { $file } could be matched to a bed.
    [one] 1 reading in { $file } belongs to { $beds ->
        [one] 1 bed
       *[other] { $beds } beds
    }.
   *[other] { $count } readings in { $file } belong to { $beds ->
        [one] 1 bed
       *[other] { $beds } beds
    }.
}
intake-notes-line = { $bed }: { $ph } ({ $method }) on { $on }
intake-text-head = { $file }: { $count ->
    [one] 1 sample, of which { $entered } can be entered now.
   *[other] { $count } samples, of which { $entered } can be entered now.
}
intake-text-sheet = Sheet “{ $sheet }”
intake-text-head-of = { $column ->
    [column] Column
    [heading] Heading
    [known] Unit, method
    [use] Use
   *[meaning] Taken as
}
intake-text-use = { $use ->
    [asked] to be confirmed
    [entered] entered
   *[kept] not entered
}
intake-text-questions = { $count ->
    [one] 1 question
   *[other] { $count } questions
}
intake-text-answer = { $choices ->
    [none] Answer with: --answer "{ $key }=…"
   *[other] Answer with: --answer "{ $key }=…", one of { $choices }
}
intake-text-findings = { $severity ->
    [block] Not entered
    [caution] Check these
   *[info] Noticed
}
intake-text-place = { $said } { $kind ->
    [cells] ({ $places }{ $more ->
        [0] {""}
       *[other] {" "}and { $more } more
    })
   *[rows] { $count ->
        [one] (row { $places })
       *[other] (rows { $places }{ $more ->
            [0] {""}
           *[other] {" "}and { $more } more
        })
    }
}

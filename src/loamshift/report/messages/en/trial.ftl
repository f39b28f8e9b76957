# Trials: the trial file, the design, the sheets, and what came back.
trial-version = “{ $given }” is not a version of the trial file.
trial-case-file-alone = A trial that is typed in has no folder to find another file in. Put the soil into it as [soil].
trial-case-file = The case file “{ $given }” cannot be read.
trial-soil-ph = A trial needs the pH of its soil, from which each treatment is forecast.
trial-control = The control must be one of the treatments.
trial-too-many = That makes { $count } { $unit }s; at most { $most } can be laid out in one trial.
trial-two-treatments = A trial compares treatments: name at least two, one of them with nothing added.
trial-treatment-header = Write each under a header of its own: [[treatment]].
trial-name-twice = Two treatments are called “{ $given }”.
trial-paired = A paired trial compares one treatment with the control, and this one has { $count } treatments.
trial-paired-mend = Take the design "blocks" for more.
trial-doses-one-material = In a dose series every treatment has the same one material, or nothing.
trial-factors = A two-factor trial names its two factors.
trial-levels = Say which level of “{ $first }” and which of “{ $second }” this treatment has.
trial-cells = { $missing ->
    [none] Each pair of levels is one treatment, and each factor has at least two levels.
   *[other] These pairs of levels have no treatment: { $missing }.
}

## What is wrong with readings

trial-no-record = “{ $file }” is no record sheet: none of its sheets has a column “pot” and a column “ph”. Fill in the trial's own record sheet.
trial-no-forecast-file = “{ $file }” is not the forecast of a trial. Move it away and run “loamshift trial sheet” again.
trial-unreadable = Row { $row }: “{ $given }” in the column { $column } cannot be read{ $column ->
    [ph] , so this reading is left out. A pH lies between 2 and 11.
    [method] , so this reading is left out. Write a method such as “water 1:2.5” or “CaCl2”.
   *[other] .
}
trial-row = { $trouble ->
    [no-label] Row { $row } has a pH but no label. Find the { $unit } whose reading is missing and write its label; until then the reading is left out.
    [unknown-pot] Row { $row }: there is no { $unit } “{ $pot }” in this trial, so its reading is left out.
   *[no-day] Row { $row }: { $unit } { $pot } has neither a day nor a date, so its reading is left out.
}
trial-date-filled = { $count ->
    [one] Row { $rows } has no date; the day it was due is taken.
   *[other] { $count } rows have no date ({ $rows }); the day they were due is taken.
}
trial-far-from-day = Day { $day } was due on { $due }, but { $unit } { $pot } was read on { $on }. It counts as day { $day }.
trial-two-methods = Day { $day } was read by more than one method. Readings by { $kept } are compared{ $pots ->
    [none] ; those by { $others } are left out.
   *[other] ; those by { $others } are left out, and with them { $count ->
        [one] { $unit } { $pots }
       *[other] { $unit }s { $pots }
    }.
}
trial-methods-over-time = Days were read by different methods, so they are not compared with each other. Each day is still compared with its own control.
trial-twice = { $absent ->
    [none] On day { $day }, { $unit } { $pot } was read { $count } times (rows { $rows }); the mean of its readings is taken. They still count as one { $unit }.
   *[other] On day { $day }, { $unit } { $pot } is listed { $count } times (rows { $rows }), and { $unit } { $absent } not at all: a label may have been mixed up. Neither is used until somebody finds out which is which.
}
trial-days-unread = { $count ->
    [one] Day { $days } has not been read.
   *[other] Days { $days } have not been read.
}
trial-missing = Day { $day } has no reading of { $count ->
    [one] { $unit } { $pots }
   *[other] { $count } { $unit }s ({ $pots })
}.
trial-few-pots = { $trouble ->
    [no-pot] Day { $day } has no reading of “{ $treatment }”
   *[other] Day { $day } has only one reading of “{ $treatment }”
}{ $control ->
    [yes] , which the others are compared with, so this day is not compared at all.
   *[no] , so it is not compared: one { $unit } cannot tell a treatment from chance.
}
trial-all-equal = All readings of day { $day } are { $ph }. Either the meter stuck or it reads too coarsely, and the day cannot be compared.
trial-no-error = The readings of day { $day } leave nothing to tell chance from a difference, so they are not compared.
trial-apart = Day { $day }: { $unit } { $pot } reads { $ph }, far from the { $mean } of “{ $treatment }”. It is kept; read it again if you can.
trial-exchanged = Day { $day }: { $unit }s { $first } (“{ $one }”) and { $second } (“{ $other }”) may have been swapped. The other way round, both would fit. They are kept as written; check the labels.

## The design and the protocol

trial-can-show = With { $replicates } { $unit }s of each of { $treatments } treatments, this trial is likely to show a difference of **pH { $smallest }** or more from “{ $control }”. Smaller ones it will mostly miss.
trial-demonstration = This is a demonstration, not an experiment: { $lack ->
    [no-control] nothing in it is left untreated, so nobody can say what would have happened anyway. Add a treatment with nothing added.
   *[no-replicates] there is only one { $unit } of each treatment, so a difference may be chance. Take at least three, better five.
}
trial-against-matters = { $enough ->
    [yes] That is no more than the { $matters } that matters to you, so the trial is large enough.
   *[no] That is more than the { $matters } that matters to you. { $needed ->
        [none] Even { $most } of each would not show that.
       *[other] It would take { $needed } of each to show that.
    }
}
trial-basis = { $basis ->
    [own] The { $unit }s of one treatment are taken to differ by { $sd } (standard deviation), as you say.
    [slurry] The { $unit }s of one treatment are taken to differ by { $sd } (standard deviation), as your own repeated readings do ({ $df } degrees of freedom). In truth they differ at least as much as readings of one soil.
    [field] The { $unit }s are taken to differ by { $sd } (standard deviation), as neighbouring samples do in published surveys of fields.
   *[pots] The pots of one treatment are taken to differ by { $sd } (standard deviation): common practice, no source. Read one soil five times and enter those readings to use your own.
}
trial-heading-treatments = What to add
trial-heading-steps = How to do it
trial-heading-days = When to read
trial-heading-map = Who stands where
trial-heading-size = How much it can show
trial-heading-care = Take care
trial-heading-forecast = What we expect
trial-heading-differences = Day by day
trial-heading-time = Over time
trial-heading-slope = By dose
trial-heading-factors = The two factors
trial-heading-lot = A check without formulas
trial-heading-bare = How much they changed
trial-heading-problems = What was found in the readings
trial-heading-how = How this was worked out
trial-column = { $column ->
    [treatment] Treatment
    [each] For each place
    [rate] Rate
    [day] Day
    [date] Date
    [pots] Number
    [lot] As large by lot
    [when] When
    [mean] Mean pH
    [difference] Difference
    [interval] 95% interval
    [shown] What it says
    [replicates] Number of each treatment
    [smallest] Smallest difference
    [found] Found
   *[effect] Effect
}
trial-nothing-added = nothing
trial-add = { $material }, { $amount }
trial-add-grams = { $material }, { $grams } g
trial-add-rate = { $material }, { $rate }
trial-figure = { $figure }
trial-map-row = Row { $row }
trial-map-side = { $row } stands nearest to:
trial-label-place = { $row }, place { $column }
trial-label-start = Start: { $day }
trial-map-place = { $label }: { $treatment }
trial-map-blocks = Each row of the map is one block. Keep the { $unit }s of a block together, and do all work block by block.
trial-map-random = { $lot ->
    [yes] The order was shuffled with seed { $seed }. Do not tidy it up.
   *[no] Nothing was decided by lot here, so whatever else differs between the { $unit }s can look like an effect.
}
trial-map-blind = The sheets do not say which { $unit } is which. Whoever reads them should not see the key until the last reading is in.
trial-step-soil = { $unit ->
    [pot] Mix all the soil first, and fill every pot from that one heap, to the same weight.
    [strip] Mark out every strip before you start, all of one size, and take the samples along its middle.
    [bed] Choose beds that are as alike as you can find, and give each a number. Treat a whole bed or leave it.
   *[plot] Mark out every plot before you start, all of one size, and take the samples from its middle.
}
trial-step-label = Give every { $unit } its number. The label sheet has one for each.
trial-step-weigh = { $unit ->
    [pot] Weigh each addition separately and mix it in well. Treat the untreated pots the same way: empty, stir and refill.
   *[plot] Weigh each addition separately and spread it evenly. Work the untreated ones in the same way and on the same day.
}
trial-step-place = Put the pots where the map says, and leave them there.
trial-step-alike = { $unit ->
    [pot] Water all pots alike, with the same water, on the same day.
   *[plot] Treat them all alike in everything else: water, feed, crop, traffic.
}
trial-step-read = On each day, read every { $unit } once by the same method ({ $method }), with the same meter, checked in its buffers before you start.
trial-step-composite = Take five cores from each { $unit } and mix them into one sample. Cores from one { $unit } are not replicates.
trial-step-write = Write down every reading with its date, odd ones too. Do not read again because you do not like a figure.
trial-step-before = Read every bed on each of the days before the start, day 0 among them, before anything is put on. Without those readings nobody can say what changed.
trial-step-import = { $door ->
    [pages] Enter the readings on the trial's page, or upload the sheet there.
   *[command] Send the sheet back with: loamshift trial read
}
trial-days-forecast = By the forecast, the days worth reading are { $days }.
trial-forecast-caption = pH in water, and in brackets the range that holds 9 in 10.
trial-expected = { $ph } ({ $range })
trial-forecast-kept = This forecast was made on { $day } and kept beside the trial before the first reading, so that the trial can prove it wrong. Its digest is { $digest }.
trial-forecast-method = It is for pH in water; readings by another method differ from it by about the same amount everywhere.
trial-forecast-none = This soil lies beyond what the forecast covers, so nothing is predicted.
trial-zones-note = Beds side by side show how beds that were treated differ from beds that were not. With several of each they show whether that is more than beds differ anyway. They cannot show what a bed would have done without its treatment.
trial-before-note = Reading before and after takes away what beds differed by from the start. Untreated beds show what would have changed anyway, such as the season. Treated beds that were about to change for another reason cannot be told apart.
trial-field-note = Strips in a field show what happens on that field in that year. Soil often differs along a field more than treatments do: put every treatment in every block, and keep blocks short.

trial-record-lead = Write the pH of every { $unit } under its day ({ $method }), to two decimals if the meter shows them. Leave a cell empty rather than guess.
trial-record-unit = { $unit ->
    [pot] Pot
    [strip] Strip
    [bed] Bed
   *[plot] Plot
}
trial-record-day = Day { $day }, { $on }
trial-record-day-read = Read on another day? Write the date above the column.
trial-record-meter = Buffers the meter was checked in, and who read:

## The figure

trial-figure-title = Difference in pH from “{ $control }”
trial-figure-axis = pH less that of “{ $control }”
trial-figure-day = day { $day }
trial-figure-days = days after the start
trial-figure-sentence = Points are differences from the control with 95% intervals that hold for all treatments of a day together. Between the dashed lines, ±{ $matters }, a difference does not matter.{ $forecast ->
    [yes] { " " }Pale boxes are the forecast, kept before the first reading: 9 in 10 within.
   *[no] { "" }
}
trial-size-title = Smallest difference that is likely to be shown
trial-size-axis = pH
trial-size-replicates = { $unit }s of each treatment
trial-size-sentence = The full point is this trial, with { $n } of each. “Likely” means in 4 of 5 trials.

## The result

trial-shown = { $shown ->
    [differs] differs
    [differs-little] differs, by too little to matter
    [equal] equal, for what matters
   *[open] cannot tell
}
trial-lead-name = “{ $name }”
trial-lead = { $kind ->
    [lasts] { $names } made a difference that lasted to the last reading.
    [gone] { $names } made a difference that was gone again by the last reading.
    [same] { $names } made no difference that matters.
   *[open] About { $names } this trial cannot tell.
}
trial-plain-size = { $pots } { $unit }s were read on { $days ->
    [one] one day
   *[other] { $days } days
}, { $replicates } of each treatment at the start.
trial-plain-same = With “{ $treatment }” the pH was the same as with “{ $control }”, to within { $matters }: the difference on day { $day } was { $figure } (95% interval { $interval }).
trial-plain-gone = With “{ $treatment }” the pH was { $peak } { $turn ->
    [rise] higher
   *[fall] lower
} than with “{ $control }” on day { $first } (95% interval { $peak-interval }). By day { $day } { $gone ->
    [yes] nothing that matters was left of it
   *[no] it could no longer be shown
}: { $figure } ({ $interval }).
trial-plain-differs = With “{ $treatment }” the pH was { $figure } { $turn ->
    [rise] higher
   *[fall] lower
} than with “{ $control }” on day { $day } (95% interval { $interval }){ $little ->
    [yes] , which is too little to matter.
   *[no] .
}
trial-plain-open = For “{ $treatment }” the trial cannot tell: on day { $day } the difference from “{ $control }” was { $figure }, and it may be anything from { $low } to { $high }.
trial-plain-nothing = Nothing can be compared yet. What stands in the way is listed below.
trial-plain-limits = This holds for this soil, in this place, for { $days ->
    [one] one day
   *[other] { $days } days
}, and says nothing about others.
trial-plain-forecast = The forecast of { $day } agrees with { $met } of { $of } results.
trial-plain-no-forecast = No forecast was kept before the readings.
trial-plain-changed = The forecast was made for another version of this trial, so it is not compared.
trial-average = { $both ->
    [yes] Change since before the start, averaged over all days after it, with the bed as a random effect:
   *[no] Over all days after the start, with the { $unit } as a random effect:
}
trial-change = Change of the difference from day { $first } to day { $last }, { $unit } by { $unit }:
trial-slope = On day { $day } the pH changes by { $slope } for each 100 g/m² (95% interval { $interval }).{ $bend ->
    [yes] { " " }The line bends: equal steps of dose do not give equal steps of pH, so believe the single doses more than the slope.
    [no] { " " }Nothing shows that the line bends.
   *[none] { "" }
}
trial-factors-note = Each effect is averaged over the levels of the other factor. The last line says whether one factor changes the effect of the other.
trial-how-dunnett = Treatments are compared with the control by Dunnett's test, so that all intervals of a day hold together with a chance of 95%. { $blocks ->
    [yes] Blocks are taken off first.
   *[no] Every { $unit } counts alike.
}
trial-how-pot = A { $unit } that is read { $days } times is one { $unit }: over time, treatments are compared by how whole { $unit }s differ, with degrees of freedom between { $unit }s.
trial-how-equal = “Equal” means that the 90% interval lies within ±{ $matters } (two one-sided tests). “Cannot tell” is not “no difference”.
trial-how-ph = Means are of pH as read. They are not means of acidity: one very acid { $unit } would rule those.
trial-how-kept = No reading was left out because it is odd.
trial-how-sd = The { $unit }s of one treatment differed by { $sd } (standard deviation, day { $day }); the design had supposed { $supposed }.

trial-how-before = Each bed was set off from its own mean before the start, so that beds which differed from the beginning are no effect. The pH shown is what it would read if all beds had begun alike.
trial-how-no-lot = Which { $unit }s were treated was not decided by lot. The intervals hold only if nothing else set treated and untreated ones apart.
trial-how-lot-few = With { $ways } ways to deal them out, the check by lot could not fall to 5 in 100 whatever was read.
trial-lot-told = Had a treatment done nothing, each { $unit } would have read the same whichever treatment it was dealt. Dealing out the treatment and “{ $control }” again{ $blocks ->
    [yes] , within each block,
   *[no] { "" }
} shows how often the lot alone gives a difference at least as large.
trial-lot-figure = { $exact ->
    [yes] { $as-large } of { $ways } ways
   *[no] { $in-hundred } in 100 of { $ways } drawn
}
trial-lot-when = { $day ->
    [none] all days after the start
   *[other] day { $day }
}
trial-lot-disagrees = { $day ->
    [none] Over all days
   *[other] Day { $day }
}: the interval of “{ $treatment }” shows a difference, but dealing out again gives one as large more than 5 times in 100. Take it as not yet shown.
trial-bare = With “{ $treatment }” the pH changed by { $change } against “{ $control }” ({ $n ->
    [one] one bed
   *[other] { $n } beds
} against { $untreated }). With so few there is no interval: nobody can tell the treatment from the bed.
trial-no-before = { $count ->
    [0] Nothing was read both before the start and after it, so there is no change to compare.
    [one] Bed { $beds } was not read before the start, so its change is not known and it is left out.
   *[other] Beds { $beds } were not read before the start, so their changes are not known and they are left out.
}
trial-methods-before-after = Beds were read by more than one method, so what came after cannot be set off from what was before.
trial-days-both = A trial before and after needs a day of reading before the start or on it, and one after it.
trial-days-before = Days before the start are only compared in a trial “before and after”.

## For people who were not there

trial-public-about = Own trial “{ $name }”, { $days }.
trial-public-days = { $last ->
    [none] { $first }
   *[other] { $first } to { $last }
}
trial-public-source = Own trial, { $days }: { $replicates ->
    [one] one { $unit }
   *[other] { $replicates } { $unit }s
} of each of { $treatments } treatments, one soil, one place. Worked out with loamshift { $version }.
trial-public-key = Bars are 95% intervals; between the dashed lines (±{ $matters }) a difference does not matter.
trial-public-heading = { $part ->
    [done] How it was done
    [found] What was found
   *[not] What it does not show
}
trial-public-elsewhere = the full report of the trial
trial-public-lot = Which { $unit } got what was decided by lot{ $blocks ->
    [yes] , separately in each block.
   *[no] .
}
trial-public-no-lot = Which { $unit } got what was not decided by lot.
trial-public-treatments = Treatments: { $treatments }.
trial-public-treatment = “{ $treatment }” ({ $adds ->
    [none] untreated
   *[other] { $adds }
})
trial-public-compared = Readings ({ $method }) were compared with “{ $control }” by Dunnett's test.
trial-public-open = “Cannot tell” does not mean “no difference”.
trial-public-problems = { $count ->
    [one] One remark on the readings is
   *[other] { $count } remarks on the readings are
} in the full report.
trial-public-once = It measured only the pH, not how plants grew. It is one trial, and counts for more once somebody else has repeated it.

## The command

trial-nothing-to-share = { $path }: nothing can be compared yet, so there is nothing to share. “loamshift trial report” says what stands in the way.
trial-page-too-many = This trial has { $count } treatments, and one page holds no more than { $most }. Share the whole report with --pdf or --html.
trial-page-ending = the file must end in .pdf or .html, such as --page peat.pdf

trial-which-sheet = Name the record sheets that came back.
trial-read = { $readings ->
    [one] One reading
   *[other] { $readings } readings
} on { $days ->
    [one] one day
   *[other] { $days } days
} can be used. Next: loamshift trial report
trial-no-readings = There are no readings of “{ $path }” yet. Read its record sheets first: loamshift trial read
trial-forecast-of-before = The trial was changed after its forecast was kept, and it has readings. The forecast stays as it was and will not be compared.
trial-too-late = The trial has readings and no forecast was kept before them, so none is made now.
trial-doses-need = a dose series needs all three: --doses, --to-ph and --material
trial-doses-wrong-way = this material moves the pH the other way
trial-treatment-form = write “NAME=MATERIAL:RATE”, or a name alone for an untreated one, and not “{ $given }”
trial-written = Written to { $path }. Next: loamshift trial sheet

## A new trial file

trial-file = { $key ->
    [head] A trial for loamshift. docs/how-to/run-a-trial.md says what can stand here.
    [design] randomised, blocks, paired, two-factor, dose series, strips, side by side, or before and after
    [seed] what the layout is shuffled by
    [days] days on which everything is read
    [matters] a smaller difference does not matter to you
   *[slurry] your own repeated readings of one soil, from which the size is worked out
}

## Jars

jars-title = A titration in jars
jars-lead = { $count } jars from nothing to past pH { $ph }: what { $what ->
    [acid] acid
   *[lime] lime
} it takes in each shows how strongly this soil resists.
jars-acid = The acid is hydrochloric, { $strength } mol/L. Buy it diluted, or have a laboratory or a school dilute it.
jars-heading-add = What to add
jars-heading-week = Why a week
jars-heading-read = What was read
jars-column = { $column ->
    [jar] Jar
    [add] Add
    [acid] Acid, mmolc/kg
    [ph] pH
    [before] Before
    [after] With the jars
   *[what] What is known
}
jars-add = { $what ->
    [acid] { $amount } mL of acid
    [lime] { $amount } g of pure limestone powder
   *[nothing] nothing
}
jars-step-soil = Dry and sieve the soil, mix it well, and weigh { $soil } into each jar.
jars-step-add = { $what ->
    [acid] Put about half the water in first. Then add the acid to the water, never water to acid.
   *[lime] Add the limestone powder to the dry soil and shake.
}
jars-step-water = Fill up with rainwater or distilled water until each jar holds { $water } of liquid in all, acid included.
jars-step-week = Close the lids loosely. Stir once a day for a week, and keep the jars in one warm place.
jars-step-read = Stir, wait half an hour, and read each jar with one meter, checked in its buffers. Rinse between jars.
jars-step-return = { $door ->
    [pages] Enter the pH on the page of the jars, or upload the sheet there.
   *[command] Write the pH into the sheet and read it back with --read.
}
jars-why-week = Soil takes up acid and lime slowly. A reading after half an hour makes a soil look more weakly buffered than it is, so no quick reading is stretched by a factor here: after a week what was added counts as fully reacted (common practice, no source).
jars-care-eyes = Wear goggles and gloves.
jars-care-acid = Acid goes into water, never water into acid. Keep it from children, and never let it meet bleach: that makes chlorine.
jars-too-few = { $count ->
    [one] Only one jar has a reading
   *[other] Only { $count } jars have readings
}; a curve needs at least { $fewest }.
jars-nothing = The soil already reads pH { $ph }, so a series would hold nothing. Choose another pH.
jars-no-sheet = “{ $file }” is no sheet of jars: it has no columns “acid_mmolc_kg” and “ph”.
jars-found = { $narrower ->
    [yes] The jars make the need { $times } narrower.
   *[no] The jars leave the need about as wide as it was: what is not known lies elsewhere, most often in the free lime.
}
jars-row = { $row ->
    [scale] Buffer scale (1 is the average soil of its kind)
    [acid] Acid needed, mmolc/kg
   *[base] Lime needed, mmolc/kg
}
jars-band = { $mid } ({ $range })
jars-scale = Best estimates, and in brackets the range that holds 9 in 10. { $door ->
    [pages] Once the titration is added to the bed, every answer takes it into account.
   *[command] Put the lines below into the case file, and every answer takes them into account.
}

### Two answers to one bed compared: loamshift compare-letters, and the page “Compare with today”.
### $before and $after are what was advised, from summary-decision.

changes-subtitle = Two answers compared.
changes-nothing = –
changes-yes = yes
changes-no = no

## What changed

changes-same = **Nothing differs.** The advice is “{ $after }” both times.
changes-stays-whole = **The advice stays “{ $after }”, and so does every figure.**
changes-stays = **The advice stays “{ $after }”.**
changes-advice = **The advice changes from “{ $before }” to “{ $after }”.**
changes-then = Then:
changes-now = Now:

## Why

changes-all-same = The inputs, the tables, the model and the settings of the forecast are the same.
# $causes is a list of the causes below.
changes-behind = Since then: { $causes }. Nothing in the answer changed because of it.
changes-from = The change comes from { $causes }.
changes-cause-inputs = { $n ->
    [one] one input with a different value
   *[other] { $n } inputs with different values
}
changes-cause-version = another version of loamshift
changes-cause-model = another model
changes-cause-tables = another edition of the tables
changes-cause-settings = other settings of the forecast
changes-no-case = One of the two has no case with it, so the inputs cannot be compared.
changes-no-cause = Nothing in the two files shows where the change comes from.
changes-inputs-same = The inputs are the same, including the date.
changes-inputs-alone = Tables, model and settings are the same, so it comes from the inputs alone.
changes-chance = Another random draw of simulated beds moves every figure a little.
changes-middle = The middle column below is the older case with today's tables and model. What changes up to it comes from those. What changes after it comes from the inputs.
changes-cannot-tell = The two answers alone cannot show how much is due to which.

## Headings and columns

changes-inputs-heading = Inputs that changed
changes-column-key = Key of the case file
changes-column-fact = Fact
changes-column-then = Then
changes-column-now = Now
changes-column-same-case = Same case, now
changes-by-area = What is given for the whole bed is kept per area, so it changes with the area.
changes-makers-heading = Versions and settings
changes-maker = { $what ->
    [version] The version of loamshift: { $before }, now { $after }
    [model] The model: { $before }, now { $after }
    [tables] The tables: { $before }, now { $after }
    [seed] The random seed of the forecast: { $before }, now { $after }
    [members] The number of simulated beds: { $before }, now { $after }
   *[years] The years of the forecast: { $before }, now { $after }
}
changes-results-heading = What changed in the answer
changes-column-figure = Figure
changes-cautions-gained = New precautions:
changes-cautions-lost = Precautions no longer needed:
# $parts is a list of the parts below.
changes-also = These changed as well: { $parts }. See the letters.
changes-also-findings = the checks
changes-also-missing = what is worth measuring
changes-also-options = the products compared
changes-also-soil-temperature = the soil temperature
changes-also-subsoil = what lies below the sample
changes-also-pot-or-ground = pots beside the ground
changes-also-rescue = what to do about the harm
changes-also-claims = the claims
changes-also-branches = what an open question would decide
changes-also-refit = what the readings showed
changes-also-own-sums = the sums of this bed
changes-also-unused = the inputs that were not used
changes-also-other = other parts
changes-forecasts-heading = The forecasts
changes-column-ph-on = pH on
changes-forecast-caption = Best estimate, and range for 90 in 100 tests

## Rows of what changed

changes-row-advice = Advice
changes-row-why = Why
changes-row-direction = Direction
changes-row-aim = Target pH
changes-row-sulfur = Pure sulphur needed
changes-row-lime = Pure lime needed
changes-row-forecast = The same according to the forecast
changes-row-decides = What the next test decides
changes-row-best = Best estimate of the pH
changes-row-in-range = Of 100 such beds, in the range
changes-row-without-test = The same without a test
changes-row-harmed = Of 100 such beds, harmed
changes-row-application = Application { $n }
changes-row-too-early = Too early to test before
changes-row-retest = Test again on
changes-row-drift = Change a year, untreated
changes-row-ledger = Acid in a year

## Cells

# $value is a date or a list of dates.
changes-cell = { $value }
changes-direction = { $direction ->
    [acidify] lower the pH
    [lime] raise the pH
   *[none] no change
}
# The reason for the advice in two or three words.
changes-reason = { $reason ->
    [no-ph] no pH
    [no-aim] no plant or target
    [overdose] too much applied
    [too-acid] too acid
    [salt] salt
    [sodic] sodium
    [waterlogged] waterlogged
    [no-common-range] no range in common
    [in-range] within the range
    [at-work] earlier applications still working
    [small-gain] too small a change
    [unknown-lime] free lime not known
    [doubtful-reading] doubtful reading
    [unknown-sodium] sodium not known
    [unknown-water] water not known
    [unknown-texture] texture not known
    [one-source-range] range from one source
    [free-lime] free lime
    [caps] over the published limits
    [water] the water
    [feed] the fertiliser
    [upkeep] needs topping up
    [parts] more applications than usual
    [months] longer than a year
   *[within-reach] within reach
}
# A need: best estimate and range.
changes-need = { $best } ({ $range })
changes-best = { $ph } on { $day }
# $reads is a range of readings, $then what it calls for.
changes-decides-line = { $reads }: { $then }.
changes-application = { $amount ->
    [none] { $day }: { $rate } { $product }
   *[other] { $day }: { $rate } { $product }, { $amount }
}
changes-drift = { $up ->
    [yes] +{ $ph } pH
   *[no] −{ $ph } pH
}
changes-forecast = { $best } ({ $range })

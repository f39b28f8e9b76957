### How good are our forecasts: the page, its picture, its table, and the file of pairs.
### $n, $inside, $low, $high and the like are counts; pH figures come ready to print.

## The sentence that comes first

score-title = How good are our forecasts?
score-under-bed = { $name }: each later test held against the forecast made before it.
score-under-client = The beds of { $name }: each later test held against the forecast made before it.
score-under-office = All beds: each later test held against the forecast made before it.
score-under-files = Each test held against a forecast made before it, or worked out without it.

# $low and $high are counts of 100: where the true share lies, with 95 in 100 certainty.
score-nothing = No forecast has met a later test yet, so nothing can be said about how good they are.
score-next = Mark a letter as sent, and add the next test of its bed. The two are compared here.
score-next-letters = Letters to send
score-few = { $n ->
    [one] { $inside ->
        [0] The only test so far was outside the range for 90 in 100, and one test proves nothing.
       *[other] The only test so far was within the range for 90 in 100, and one test proves nothing.
    }
   *[other] So far { $inside } of { $n } tests were within the range for 90 in 100: too few to prove anything, as the true share could be anywhere from { $low } to { $high } in 100.
}
score-agrees = { $inside } of { $n } tests were within the range for 90 in 100, which agrees with 90: the true share is most likely between { $low } and { $high } in 100.
score-narrow = Only { $inside } of { $n } tests were within the range that should hold 90 in 100, so our ranges are too narrow or in the wrong place: the true share is most likely between { $low } and { $high } in 100.
score-wide = { $inside } of { $n } tests were within the range that should hold 90 in 100, so our ranges are wider than they need be: the true share is most likely between { $low } and { $high } in 100.

## What stands under it

# $crps and $stays are misses in pH, to two places.
score-skill = { $side ->
    [better] Over { $n } { $n ->
        [one] test
       *[other] tests
    }, our forecasts missed by { $crps } pH and “stays as measured” by { $stays }, so the forecast saved { $saved } in 100 of the miss.
    [worse] Over { $n } { $n ->
        [one] test
       *[other] tests
    }, our forecasts missed by { $crps } pH and “stays as measured” by { $stays }: assuming no change would have done better.
   *[same] Over { $n } { $n ->
        [one] test
       *[other] tests
    }, our forecasts missed by { $crps } pH, and “stays as measured” missed by just as much.
}
# $side is high, low or none: where the tests read, beside the forecasts.
score-error = { $n ->
    [one] { $side ->
        [high] It read { $error } pH higher than the best estimate.
        [low] It read { $error } pH lower than the best estimate.
       *[none] It read what the best estimate said.
    }
   *[other] { $side ->
        [high] On average the tests read { $error } pH higher than the best estimate, and { $off } pH away from it on one side or the other.
        [low] On average the tests read { $error } pH lower than the best estimate, and { $off } pH away from it on one side or the other.
       *[none] On average the tests were { $off } pH away from the best estimate, no more on one side than on the other.
    }
}
score-inside-50 = Half of the tests should be within the middle range; { $inside } of { $n } were.
score-beds = { $beds ->
    [one] All of them are from one bed, so they may share one mistake.
   *[other] They are from { $beds } beds.
}
score-hindcast = { $all ->
    [one] This is a hindcast: it was worked out afterwards, using only what was known before that test. A hindcast is weaker proof than a forecast issued at the time.
    [yes] These are hindcasts: each was worked out afterwards, using only what was known before that test. A hindcast is weaker proof than a forecast issued at the time.
   *[no] { $n ->
        [one] One of them is a hindcast: it was worked out afterwards, using only what was known before that test. A hindcast is weaker proof than a forecast issued at the time.
       *[other] { $n } of them are hindcasts: each was worked out afterwards, using only what was known before that test. A hindcast is weaker proof than a forecast issued at the time.
    }
}
score-left-out-rough = { $n ->
    [one] One reading by probe, strip or an unknown method is left out: it is too rough to judge a forecast.
   *[other] { $n } readings by probe, strip or an unknown method are left out: they are too rough to judge a forecast.
}
score-left-out-otherwise = { $n ->
    [one] One test is left out because something other than the plan was applied, or nothing was logged. Log each application and its test counts.
   *[other] { $n } tests are left out because something other than the plan was applied, or nothing was logged. Log each application and its test counts.
}
score-left-out-again = { $n ->
    [one] One test is left out because an earlier test had already scored the same forecast.
   *[other] { $n } tests are left out because an earlier test had already scored the same forecast.
}

## The picture

score-figure-heading = Were the ranges as wide as they should be?
score-figure-title = Tests inside the stated range
score-figure-sentence = Of { $ranges } ranges, from the narrowest to the widest, { $within } held as many of the { $n } tests as chance allows.
score-figure-axis = tests inside, in 100
score-figure-stated = range stated, in 100
score-figure-chance = what chance alone gives, 90 times in 100
score-figure-exact = exactly as stated
score-figure-read = what was read, { $n } tests
score-figure-column-stated = range for, in 100
score-figure-column-inside = tests inside
score-figure-column-share = in 100
score-figure-column-chance = by chance alone
score-figure-range = { $low } to { $high }
score-of = { $inside } of { $n }

## Each test beside its forecast

score-table-heading = Each test beside its forecast
score-table-caption = The latest first; ranges are for 90 in 100 tests by that method, as pH in water
score-table-more = { $n ->
    [one] One earlier test is counted but not listed here; the file of pairs has it.
   *[other] { $n } earlier tests are counted but not listed here; the file of pairs has them.
}
score-column-bed = bed
score-column-on = tested
score-column-read = in water
score-column-range = forecast range
score-column-error = test less best estimate
score-column-from = forecast of
score-column-outcome = outcome
score-from = { $as ->
    [letter] letter, { $day }
    [plan] saved plan, { $day }
    [trial] trial, { $day }
   *[hindcast] hindcast, { $day }
}
score-outcome = { $outcome ->
    [inside] inside
    [middle] inside the middle half
    [outside] outside
    [rough] not counted: too rough
    [otherwise] not counted: not as planned
   *[again] not counted: same forecast again
}

## How it is counted

score-how-heading = How this is counted
score-how-newest = A test is held against the newest forecast issued before its day, with a letter or a saved plan. A deleted letter no longer counts.
score-how-error = A reading in calcium chloride or potassium chloride is first converted to pH in water, and its range allows for the extra error.
score-how-once = Each forecast counts once, by the first careful test after it.
score-how-planned = A forecast says what happens if its plan is followed. A test counts only where the weight logged is between 70 and 140 in 100 of the weight planned by then.
score-how-miss = “Missed by” is the continuous ranked probability score: the plain error of a forecast that claims to be certain, and less for one that said how unsure it was and was right.
score-how-stays = “Stays as measured” is the last test before the forecast, with the error of both tests.

## On the pages

score-all-beds = All beds
score-link = How good are our forecasts?
score-pairs-heading = Pairs without names
score-pairs = { $n ->
    [one] One test with its forecast, as a file without names and with no place closer than a country or ten degrees of latitude. It can be shared to improve the figures that every forecast starts from.
   *[other] { $n } tests with their forecasts, as a file without names and with no place closer than a country or ten degrees of latitude. It can be shared to improve the figures that every forecast starts from.
}
score-pairs-csv = Download CSV
score-pairs-json = Download JSON
score-pairs-columns = What the columns mean
score-unread = { $n ->
    [one] One letter is still to be read for its forecast; reload this page.
   *[other] { $n } letters are still to be read for their forecasts; reload this page.
}
score-fault = { $n ->
    [one] One bed could not be read and is left out. Open it from the list of beds to see what is wrong.
   *[other] { $n } beds could not be read and are left out. Open them from the list of beds to see what is wrong.
}

## On the command line

cli-score-no-case = No case file was given, so there are no tests. Name the case file of the bed as well, such as bed.toml.
cli-score-whose = { $file } is a forecast for “{ $name }”, and no case file has that name. Name the case file of that bed as well.

## What the columns of the file of pairs hold

score-pair-bed = number of the bed in this file, so that tests of one bed can be told to belong together
score-pair-region = country, or ten degrees of latitude where no country is known
score-pair-issued-as = letter, plan (saved without a letter), trial (kept before its readings) or hindcast (worked out afterwards)
score-pair-issued-month = year and month in which the forecast was issued
score-pair-lead-days = days from the forecast to the test
score-pair-counted = yes, or why not: rough (method), otherwise (plan not followed), again (forecast scored already)
score-pair-bed-kind = ground, raised, container, lawn or field
score-pair-medium = mineral, peat mix, bark mix, coir mix or peat-free mix
score-pair-planted = yes or no; empty where not known
score-pair-texture = texture class
score-pair-organic-matter-pct = organic matter [%]
score-pair-fizz = class of the fizz test
score-pair-carbonate-pct = measured free carbonate [%]
score-pair-depth-cm = treated depth [cm]
score-pair-water-alkalinity-mg-l-as-caco3 = alkalinity of the water [mg/L as CaCO3]
score-pair-decision = decision of the advice: leave, go, effort, elsewhere, measure-first or stop
score-pair-planned-g-m2 = product the plan had put on before the test [g/m2]
score-pair-model = model that made the forecast
score-pair-tables = fingerprint of the tables it was made with
score-pair-measured-ph = pH in water of the last test before the forecast
score-pair-measured-sd = standard deviation of that test [pH]
score-pair-method = method of the test that scored the forecast
score-pair-read-ph = that test as pH in water
score-pair-read-sd = its standard deviation [pH]
score-pair-q05 = forecast for the day of the test: 5 in 100 below this [pH in water]
score-pair-q25 = 25 in 100 below this [pH in water]
score-pair-q50 = best estimate [pH in water]
score-pair-q75 = 75 in 100 below this [pH in water]
score-pair-q95 = 95 in 100 below this [pH in water]
score-pair-error = test less best estimate [pH]
score-pair-share-below = share of the forecast below the test, its error counted in [0-1]
score-pair-inside-50 = yes where the test was within the middle half
score-pair-inside-90 = yes where it was within the range for 90 in 100
score-pair-crps = continuous ranked probability score of the forecast [pH]
score-pair-crps-stays = that of “stays as measured” [pH]; empty where nothing had been measured

### Words in charts and in the sentences under them. The sentences say what the letter says beside
### the chart, in the same words. On the front sheet none is longer than 25 words.
### $plants is the list of plants wanted, or "none" where only a target pH was given.

## On several charts

figure-axis = pH in water
figure-plan = with the plan
figure-as-it-is = left as it is
# The bed without the plan, also over a column of the letter. $applied is "yes" where something was applied before.
figure-alone = { $applied ->
    [yes] nothing added
   *[no] untreated
}
figure-90-tests = 90 in 100 tests
figure-application = application
figure-perhaps = if needed
figure-test = test
figure-today = today
figure-too-early = too early to judge
# Opens the table that holds what the picture shows.
figure-table = The figures in a table

# The range wanted, beside its field. $whose is "apart" where the plants share no range.
figure-wanted = { $whose ->
    [plants] { $plants }
    [apart] between their ranges
   *[target] target range
}
figure-wanted-range = { $whose ->
    [plants] { $plants }: pH { $range }
    [apart] between their ranges: pH { $range }
   *[target] target: pH { $range }
}
# Inside a sentence, where the plants share no range.
figure-range-apart = pH { $range }, between the ranges for { $plants }

# At the axis, where there is little room: 20 Apr 2026. $month is a short name.
figure-short-date = { $day } { $month } { $year }
figure-short-month = { $month } { $year }

## The course of the pH

# $alone is the bed without the plan: "as-it-is", "untreated" or "added" (nothing added); "none"
# with the plan. $turn is rise, fall or none; $start and $end are its best estimates.
figure-course-first = { $alone ->
    [none] { $turn ->
        [rise] With the plan, the best estimate rises from pH { $start } to { $end } by { $day }.
        [fall] With the plan, the best estimate falls from pH { $start } to { $end } by { $day }.
       *[none] With the plan, the best estimate stays near pH { $end } until { $day }.
    }
    [as-it-is] { $turn ->
        [rise] Left as it is, the best estimate rises from pH { $start } to { $end } by { $day }.
        [fall] Left as it is, the best estimate falls from pH { $start } to { $end } by { $day }.
       *[none] Left as it is, the best estimate stays near pH { $end } until { $day }.
    }
    [added] { $turn ->
        [rise] With nothing added, it rises from pH { $start } to { $end } by { $day }.
        [fall] With nothing added, it falls from pH { $start } to { $end } by { $day }.
       *[none] With nothing added, it stays near pH { $end } until { $day }.
    }
   *[untreated] { $turn ->
        [rise] Untreated, it rises from pH { $start } to { $end } by { $day }.
        [fall] Untreated, it falls from pH { $start } to { $end } by { $day }.
       *[none] Untreated, it stays near pH { $end } until { $day }.
    }
}
# $salt is "yes" where the bed's own tests are not made in water.
figure-course-tests = { $salt ->
    [yes] Of 100 tests that day, 90 would read between { $low } and { $high } in water.
   *[no] Of 100 tests that day, 90 would read between { $low } and { $high }.
}
figure-course-last = By { $day }, the best estimate is pH { $end }: of 100 tests that day, 90 would read between { $low } and { $high }.
# $wanted is the range: "the range for heather, pH 4.5 to 5.5".
figure-course-inside = The best estimate stays within { $wanted }.
figure-course-never = The best estimate does not reach { $wanted }.
figure-course-leaves = The best estimate is within { $wanted }, until about { $day }.
figure-course-enters = { $stays ->
    [yes] The best estimate is within { $wanted }, from about { $day } on.
   *[no] The best estimate comes within { $wanted }, about { $day }, but does not stay there.
}
figure-course-caption = pH in water, as a careful test would read it

## What the next test decides

# A reading of the test. $method is the method of the bed's own tests where it is not in water.
figure-decides-reads = { $method ->
    [none] reads { $reading }
   *[other] reads { $reading }, { $method }
}
figure-decides-own = Readings of the test are { $method }; the scale is pH in water.
figure-decides-best = best estimate on { $day }
# What follows each reading. $range is one pH or several.
figure-decides-then = Do what the test calls for, and the best estimate is pH { $range } on { $day }.

## The year ahead

figure-year-title = The year ahead
# $cold-day and $warm-day are days of any year.
figure-year-soil = In an average year, the soil at { $depth } is coldest about { $cold-day }, near { $cold }, and warmest about { $warm-day }, near { $warm }.
figure-year-application = { $which ->
    [only] The application is due on { $day }, with the soil at { $temp }.
    [first] The first application is due on { $day }, with the soil at { $temp }.
   *[next] The next is due on { $day }, with the soil at { $temp }.
}
figure-year-perhaps = If a test calls for it, another application follows on { $day }, with the soil at { $temp }.
figure-year-later = { $n ->
    [one] One more application may follow later.
   *[other] { CAPITAL(WORD($n)) } more applications may follow later.
}
figure-year-test = The next test is due on { $day }.
figure-year-column-soil = soil temperature
figure-year-caption = Soil temperature at { $depth } in an average year

## What changes the pH each year

figure-ledger-title = What changes the pH each year
figure-ledger-strongest = { $effect ->
    [lime] The strongest of { WORD($n) } influences is { $line }: each year it raises the pH as much as { $amount } of pure lime.
   *[acidify] The strongest of { WORD($n) } influences is { $line }: each year it lowers the pH as much as { $amount } of pure sulphur.
}
figure-ledger-net = { $effect ->
    [lime] The net effect is that of liming with { $amount } of pure lime.
    [acidify] The net effect is that of applying { $amount } of pure sulphur.
   *[none] The net effect is next to nothing.
}

## The need beside published tables

figure-dose-title = { $of ->
    [lime] The lime needed, beside published tables
   *[sulfur] The sulphur needed, beside published tables
}
figure-dose-need = our estimate
figure-dose-need-said = { $range }, best estimate { $mid }
figure-dose-need-mid = best estimate { $mid }
figure-dose-first = to start with
figure-dose-first-said = { $of ->
    [lime] { $pure } of pure lime
   *[sulfur] { $pure } of pure sulphur
}
figure-dose-tables = { $n ->
    [one] one published table
   *[other] { WORD($n) } published tables
}
figure-dose-tables-said = { $range }
# $unit is the unit of a rate, such as g/m².
figure-dose-unit = { $of ->
    [lime] { $unit } of pure lime
   *[sulfur] { $unit } of pure sulphur
}
# $low is "none" where the need may be nothing.
figure-dose-range = { $low ->
    [none] Of 100 { soil-many } like yours, 90 need between nothing and { $high }.
   *[other] Of 100 { soil-many } like yours, 90 need { $range }.
}
figure-dose-start = { $of ->
    [lime] What we suggest starting with is worth { $pure } of pure lime.
   *[sulfur] What we suggest starting with is worth { $pure } of pure sulphur.
}
figure-dose-beside = { $beside ->
    [inside] That is within our range.
    [less] That is less than our range.
    [more] That is more than our range.
   *[overlaps] That overlaps our range.
}
figure-dose-column = { $of ->
    [lime] pure lime
   *[sulfur] pure sulphur
}
figure-dose-column-low = from
figure-dose-column-high = to

## How soon each product would react

figure-options-title = How soon each product would react
figure-options-axis = half has reacted after
# $time is such as "about 9 weeks" or "over 3 years"; $pace is "days" where it is less than a week.
figure-options-alike = { $pace ->
    [days] All { WORD($n) } products react alike: half within days.
   *[later] All { WORD($n) } products react alike: { $time } until half has reacted.
}
figure-options-fastest = { $pace ->
    [days] Of { WORD($n) } products, { $products } would react fastest: half within days.
   *[later] Of { WORD($n) } products, { $products } would react fastest: { $time } until half has reacted.
}
figure-options-slowest = { CAPITAL($products) } would take longest: { $time } until half has reacted.
# $cost is an amount of money, $whole the bed or all the pots.
figure-options-cheapest = { CAPITAL($product) } would be the cheapest, at { $cost } for { $whole }.
figure-options-one-price = { CAPITAL($product) } would cost { $cost } for { $whole }; no other price is known.
# Along the axis.
figure-options-scale-days = days
figure-options-scale-week = a week
figure-options-scale-month = a month
figure-options-scale-quarter = 3 months
figure-options-scale-year = a year
figure-options-scale-years = 3 years

## The timeline of a bed

figure-history-title = The timeline of this bed
figure-history-letter = letter
figure-history-column-read = reading
figure-history-column-water = in water, 90 in 100 such tests
figure-history-column-forecast = forecast range
figure-history-column-outcome = outcome
figure-history-caption = Tests as pH in water, beside the last forecast made before each
figure-history-water = { $ph } ({ $range })
# What a test says of the forecast before it.
figure-history-outcome = { $outcome ->
    [inside] within its forecast
    [above] above its forecast
    [below] below its forecast
   *[too-rough] method too rough to judge a forecast
}
figure-history-forecast = The range for 90 in 100 tests that day was pH { $range }, in the letter of { $day }.
# $off is how far the test is out, as a difference of pH.
figure-history-score = { $outcome ->
    [inside] This test reads { $ph } in water, within that range.
    [above] This test reads { $ph } in water, { $off } above that range.
    [below] This test reads { $ph } in water, { $off } below that range.
   *[too-rough] This test reads { $ph } in water, but its method is too rough to judge a forecast.
}
figure-history-no-test = No pH test has a date yet.
figure-history-one-test = One test: pH { $ph } in water on { $day }.
figure-history-tests = The first of { WORD($n) } tests read pH { $start } in water, on { $first }; the last read { $end }, on { $last }.
figure-history-applications = { $n ->
    [one] One application, on { $day }.
   *[other] { CAPITAL(WORD($n)) } applications, the last on { $day }.
}
figure-history-ahead = { $planned ->
    [yes] With the plan, of 100 tests on { $day }, 90 would read between { $low } and { $high }.
   *[no] Left as it is, of 100 tests on { $day }, 90 would read between { $low } and { $high }.
}
# How many tests were within the forecast before them.
figure-history-one-score = { $hits ->
    [one] The one test with a forecast is within it.
   *[other] The one test with a forecast is outside it.
}
figure-history-scores = { $which ->
    [all] All { WORD($n) } tests with a forecast are within it.
    [none] None of the { WORD($n) } tests with a forecast is within it.
   *[some] Of the { WORD($n) } tests with a forecast, { $hits ->
        [one] one is within it
       *[other] { WORD($hits) } are within it
    }.
}
# $few is "yes" where there are too few tests to prove anything.
figure-history-expected = { $few ->
    [yes] It should be 90 in 100, but so few tests prove little.
   *[no] It should be 90 in 100.
}

## In the place of a kept chart that cannot be drawn any more

chart-not-drawn-label = Chart
chart-not-drawn = This chart was kept by an earlier version, or changed, and cannot be drawn again. Its figures are below; ask for new advice to have it drawn.

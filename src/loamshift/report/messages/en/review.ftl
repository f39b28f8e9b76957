### The review of a year: done, moved, forecast against test, next, and what to buy.

## Its head

review-title-bed = { $name } in { $year }
review-title-client = { $name }: the beds in { $year }
review-title-office = All beds in { $year }
review-subtitle = Written on { $day }

# $tested and $treated are counts of $beds.
review-lead-one = { $tested ->
    [0] { $treated ->
        [0] Nothing was applied and nothing was tested in { $year }.
       *[other] In { $year } something was applied, but the pH was not tested.
    }
   *[other] { $treated ->
        [0] In { $year } the pH was tested, and nothing was applied.
       *[other] In { $year } something was applied and the pH was tested.
    }
}
# $turn is fell, rose or stayed.
review-lead-moved = { $turn ->
    [fell] In { $year } the pH fell from { $start } to { $end }.
    [rose] In { $year } the pH rose from { $start } to { $end }.
   *[stayed] In { $year } the pH hardly moved: it was { $start }, and { $end } at the last test.
}
review-beside-range = { $side ->
    [inside] The last test was within the target range, { $range }.
    [above] The last test was above the target range, { $range }.
   *[below] The last test was below the target range, { $range }.
}
review-lead = In { $year }, { $tested } of { $beds } beds were tested and { $treated } had something applied.
review-none = There is no bed to review yet.
review-in-range = { $n ->
    [one] { $inside ->
        [0] The bed with a test and a target range was outside it at its last test.
       *[other] The bed with a test and a target range was within it at its last test.
    }
   *[other] Of { $n } beds with a test and a target range, { $inside } were within it at their last test.
}
review-faulty = { $n ->
    [one] One bed could not be read and is left out.
   *[other] { $n } beds could not be read and are left out.
}

review-waiting = { $n ->
    [one] One bed is still to be worked out. Reload this page.
   *[other] { $n } beds are still to be worked out. Reload this page.
}

## Its sections

review-done-heading = What was applied
review-done-none = No application was logged.
review-moved-heading = How the pH moved
review-moved-caption = The last careful test before the year, or its first, beside its last one, as pH in water
review-moved-none = No test in this year has a date.
review-moved-scatter = A change of less than 0.3 is no bigger than the usual difference between two tests.
review-score-heading = Forecast against test
review-score-none = No test of this year had a forecast made before it.
review-next-heading = What comes next
review-next-caption = Until { $until }: from the last letter of each bed, or from today's advice where there is none or a test has come since
review-next-none = Nothing is planned until { $until }.
review-next-perhaps = { $n ->
    [one] One more application may follow, depending on a test. It is not in this list, nor in the shopping list.
   *[other] { $n } more applications may follow, depending on tests. They are not in this list, nor in the shopping list.
}
review-buy-heading = Shopping list
review-buy-caption = For everything above that has a date
review-buy-total = In all: { $cost }.
review-buy-not-priced = { $n ->
    [one] One product has no price or pack here. Enter it under Products and it is counted.
   *[other] { $n } products have no price or pack here. Enter them under Products and they are counted.
}
review-buy-unmeasured = { $n ->
    [one] One bed needs some of this, but has no area, so it is not in the amounts.
   *[other] { $n } beds need some of this, but have no area, so they are not in the amounts.
}

## Columns and cells

review-column-bed = bed
review-column-on = on
review-column-when = when
review-column-product = product
review-column-amount = amount
review-column-rate = rate
review-column-what = what to do
review-column-start = before
review-column-end = last test
review-column-moved = change
review-column-wanted = target range
review-column-outcome = outcome
review-column-beds = beds
review-column-packs = packs
review-column-cost = cost
review-column-read = tested
review-column-reading = in water
review-column-forecast = forecast range
review-product = { $product }
review-test-on = { $ph }, { $day }
review-test-rough = { $ph }, { $day } (rough)
review-apply = apply { $product }
review-test-again = test the pH
review-was-due = was due { $day }
review-wanted-outcome = { $outcome ->
    [inside] within
    [above] above
   *[below] below
}
review-packs = { $packs } × { $pack }
review-bag = { $product } ({ $name })

## On the pages

review-link = Year in review
review-years = Years
review-pdf = Download PDF

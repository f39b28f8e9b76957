### What each test decides, and how often the plan works out.

decides-heading = What each test decides
decides-heading-chances = How likely this is to work
# The head of a table: the day of the test, and what its amounts are weights of.
decides-caption = { $product ->
    [none] Test on { $day }
   *[other] Test on { $day }; amounts of { $product }
}
decides-in-water = pH in water
decides-in-own = pH { $method }
decides-then = then
# $rate goes on on $day.
decides-part = { $day ->
    [none] { $rate }
   *[other] { $rate } on { $day }
}
decides-test-again = { $group ->
    [sulfur] nothing now, as the sulphur is still working; test again in { $month }
    [lime] nothing now, as the lime is still working; test again in { $month }
    [nothing] nothing now; test again in { $month }
   *[none] nothing now, as it is still working; test again in { $month }
}
decides-nothing = nothing more
decides-month = { $month } { $year }
decides-own-column = The last test was { $method }: use that column if the next one is made the same way.
decides-water-column = The values are pH in water, as a laboratory tests it.
decides-then-ask = After the test, add its reading and ask again: the next step follows from it.
decides-chance-tests = With the best single amount and no test, { $share } in 100 would.
decides-harmed = { $direction ->
    [lime] In { $share } of 100 such { bed-alike }, the plan itself would make { soil-the } too alkaline for the plants at some point.
   *[acidify] In { $share } of 100 such { bed-alike }, the plan itself would make { soil-the } too acid for the plants at some point.
}

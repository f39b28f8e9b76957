### What the forecast says, and what makes its range wide.

## Causes of the width of a forecast

cause-sulfur = how fast sulphur turns to acid
cause-nitrogen = how fast and how far nitrogen acidifies
cause-lime = how fast and how far lime works
cause-free-lime = the free lime
cause-leaching = leaching and uptake
cause-salts = how fast salts and organic acids react
cause-buffering = how strongly { soil-the } resists
cause-first-reading = the error of the first reading
cause-next-reading = the error of the next reading
cause-soil-mass = the weight of { soil-the }
cause-wetness = how wet { soil-the } is
cause-alkalinity = the alkalinity of the water
cause-humus = how much old organic matter is rotting

expect-width = What makes the range for { $day } wide: { $causes }.
expect-width-cause = { $cause } ({ $share })
expect-width-none = No single cause stands out behind the width of this forecast.
# $cause is the code of the cause that a measurement would narrow; $test is "buffer" where a buffer
# pH would tell, too.
expect-narrows = { $cause ->
    [buffering] { $test ->
        [buffer] A laboratory buffer pH or a jar titration would narrow it most.
       *[jar] A jar titration would narrow it most.
    }
    [first-reading] A second careful sample now would narrow it most.
    [free-lime] A laboratory figure for free lime would narrow it most.
    [sulfur] A test three months after it was applied would narrow it most.
    [lime] A test six months after it was applied would narrow it most.
    [nitrogen] A test after the first year of feeding would narrow it most.
    [leaching] A test every second year would narrow it most.
    [salts] A test a month after they were applied would narrow it most.
    [soil-mass] Weighing a known volume of dry { soil-one } would narrow it most.
    [wetness] Looking at how wet { soil-the } is would narrow it most.
   *[alkalinity] The alkalinity of the water, from the supplier or a drop kit, would narrow it most.
}

## Soils that the forecast does not reach

expect-no-forecast-sodium = Sodium holds the pH of this soil. Our forecast only knows lime, so there is none for it.
# $products is the ash or caustic lime applied lately, or "none".
expect-no-forecast-sodium-likely = { $products ->
    [none] Sodium most likely holds the pH of this soil. Our forecast only knows lime, so there is none until sodium has been tested.
   *[other] Our forecast only knows lime, and { $products } can take a soil past what lime holds. So there is no forecast until a test reads lower.
}
expect-no-forecast-rough = So rough a reading is more likely to be wrong than the soil to be so, and there is nothing to forecast from.
expect-no-forecast-contradiction = The pH and the free lime do not fit together, so there is nothing to forecast from.
expect-no-forecast-beyond = { $end ->
    [high] Sodium holds a soil this alkaline, and our forecast only knows lime, so there is none for it. The rest of the advice stands without it; have a laboratory confirm the reading.
   *[low] Iron and acid sulphates hold a soil this acid, and our forecast knows neither, so there is none for it. The rest of the advice stands without it; have a laboratory confirm the reading.
}

## The forecast in words and figures

expect-heading = What to expect
expect-untreated-year = Left as it is, expect a careful test on { $day } to read about pH { $mid }. Of 100 such tests, 90 would read between { $low } and { $high }.
expect-year = { $follows ->
    [tests] If you follow the plan and its tests, expect a careful test on { $day } to read about pH { $mid }.
    [several] If you apply it all as planned, expect a careful test on { $day } to read about pH { $mid }.
   *[one] If you apply it as planned, expect a careful test on { $day } to read about pH { $mid }.
}
expect-year-range = Of 100 such tests, 90 would read between { $low } and { $high }; any reading in that range is consistent with the plan working.
# $applied is "yes" where something was applied before: such a bed is not untreated.
expect-alone = { $applied ->
    [yes] With nothing added, { bed-the } would read about { $ph }.
   *[no] Untreated, { bed-the } would read about { $ph }.
}
expect-tests-stop = The tests in between are there to stop it before it goes too far.
expect-on = on
expect-best = best estimate
expect-90-tests = range for 90 in 100 tests
expect-wide = what makes the range wide
expect-share = share
expect-everything-else = everything else
expect-honest = { $direction ->
    [acidify] We have not been able to check this forecast against measured sulphur trials, only its separate steps. Believe your test over the forecast.
    [lime] In long-running liming trials, 90 in 100 readings fell within ranges like this, but plots given a moderate amount of lime read 0.3 to 0.5 lower than forecast. Believe your test over the forecast.
   *[none] Believe a test over a forecast.
}

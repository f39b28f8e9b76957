### The timeline of one bed: its tests, applications and letters.

timeline-letter-link = Its letter
timeline-fix = Fix the bed file
timeline-figures = The figures
timeline-none = No pH test has a date yet. From the first test, this page shows the bed's course. From the first letter sent, it also shows how good the forecasts were.
timeline-undated = The main pH test has no date, so it cannot be shown on the timeline.
timeline-add-date = Add the date of the sample
timeline-events = What happened
timeline-one-test = The next test will show whether the bed does what was forecast.
timeline-no-events = Nothing with a date yet. Tests, applications and letters are listed here.
timeline-test = Test
timeline-application = Application
timeline-letter = Letter
# A test: its pH, its method, and the depth where it is known.
timeline-test-read = { $depth ->
    [none] pH { $ph }, { $method }
   *[other] pH { $ph }, { $method }, { $depth }
}
timeline-in-water = in water pH { $ph }, 90 in 100 such tests between { $low } and { $high }
timeline-product = { CAPITAL($product) }
# How much was applied: as it was written, and as a rate.
timeline-as-given = { $given } · { $rate }

## What the signs in the picture mean

timeline-legend-tests = Rings are tests as they would read in water. The bars show where 90 in 100 such tests would fall.
timeline-legend-rough = A broken bar is a rough method.
timeline-legend-missed = A filled ring was outside its forecast.
timeline-legend-letters = The grey band is what letters forecast at the time.
timeline-legend-today = The coloured line is today's forecast.
timeline-legend-warmth = Above: the temperature of the soil in an average year.

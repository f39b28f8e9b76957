figure-short-date = { $month } { $day }, { $year }

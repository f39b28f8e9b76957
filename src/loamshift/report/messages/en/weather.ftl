### Which weather an answer rests on, and what was read from files of it.

## What the answer rests on

# $name is the place, $of says where its climate figures come from.
weather-climate = Climate used: { $name }. { $of }
# The temperatures are those of the soil at half the treated depth, over an average year; $mean is
# “same” where the mean is as it was.
weather-thermometer = { $n ->
    [one] Your soil thermometer’s reading of { $first } corrects the soil temperature:
   *[other] Your soil thermometer’s { $n } readings from { $first } to { $last } correct the soil temperature:
} the mean of the year at { $depth } { $mean ->
    [same] stays at { $mean-is }.
   *[other] is { $mean-is } instead of { $mean-was }.
}
# $cold is “same” where the coldest day is as it was.
weather-thermometer-swing = { $cold ->
    [same] They correct the seasons as well: the warmest day is { $warm-is } instead of { $warm-was }.
   *[other] They correct the seasons as well: the warmest day is { $warm-is } instead of { $warm-was }, the coldest { $cold-is } instead of { $cold-was }.
}
# $least is a number of months.
weather-thermometer-mean-only = That corrects the mean only. With readings in { $least } different months, the difference between summer and winter is corrected as well.
weather-thermometer-frozen = { $n ->
    [one] One reading in frozen or snow-covered ground was not used for this.
   *[other] { $n } readings in frozen or snow-covered ground were not used for this.
}

## What was read from a file, said behind its key

# $columns are messages of the next kind; $first and $last days.
weather-read-as = Read from { $first } to { $last }: { $columns }.
weather-column = { $meaning ->
    [mean] “{ $heading }” as the air temperature in { weather-unit-name }
    [low] “{ $heading }” as the lowest air temperature in { weather-unit-name }
    [high] “{ $heading }” as the highest air temperature in { weather-unit-name }
    [rain] “{ $heading }” as rain in { weather-unit-name }
   *[soil] { $depth ->
        [none] “{ $heading }” as the soil temperature in { weather-unit-name }
       *[other] “{ $heading }” as the soil temperature at { $depth } in { weather-unit-name }
    }
}
weather-unit-name = { $unit ->
    [celsius] °C
    [fahrenheit] °F
    [tenth-celsius] tenths of °C
    [mm] mm
    [inch] inches
    [tenth-mm] tenths of a millimetre
   *[cm] cm
}
# $unit, $said and $seems are units; $month is the number of a month; $mean is as it is in the file.
weather-unit-supposed = No unit in the heading of { $columns }. The warmest month of “{ $column }” averages { $mean }, so { $columns-count ->
    [one] it was
   *[other] they were
} read as { weather-unit-name }. Put the unit in the heading if that is wrong.
weather-unit-open = The column “{ $column }” has no unit, and its mean of { $mean } could be °C or °F.
weather-unit-slip = { $said ->
    [celsius] The heading of “{ $column }” says °C, but month { $month } averages { $mean }, which no place has. { $seems ->
        [fahrenheit] It looks like °F.
       *[other] It looks like tenths of °C.
    }
   *[fahrenheit] The heading of “{ $column }” says °F, but month { $month }, the warmest, averages { $mean }. It looks like °C.
}
weather-name-unit = Name the unit in the heading, such as “temp (°C)” or “temp (°F)”.
# $year is what falls in a year, as the figures are.
weather-rain-unit = The column “{ $column }” has no unit. At { $year } a year it was read as { weather-unit-name }. Put the unit in the heading if that is wrong.
weather-missing-mark = In “{ $column }”, { $mark } was read as missing ({ $count ->
    [one] once
   *[other] { $count } times
}).
weather-left-out = In “{ $column }”, { $count ->
    [one] one value that cannot be right was left out: “{ $given }” on line { NUMBER($line, useGrouping: 0) }.
   *[other] { $count } values that cannot be right were left out, the first “{ $given }” on line { NUMBER($line, useGrouping: 0) }.
}
weather-counter = “{ $column }” only grows within each day, so it was read as a counter: the last value of a day is its rain. Is that right?
weather-date-order = Dates such as “{ $given }” can be day first or month first, and nothing in the file decides.
weather-several-stations = The column “{ $column }” names { $count } stations: { $names }.
weather-one-station = Keep the rows of one station.
weather-no-days = The file has a heading and no days.
weather-no-soil = The file has no column of soil temperature.
weather-name-soil = Name the column, such as “soil temp 10 cm (°C)”.
weather-depth-supposed = The heading of the soil temperature names no depth. We took { $depth }.
weather-readings-cut = Only the latest { $most } means of ten days are used.

## What looks wrong; $kind is air, soil or rain

weather-swapped = The lowest temperatures are above the highest.
weather-swap = The two columns seem to have changed places: swap their headings.
weather-low-above-high = { $count ->
    [one] On line { NUMBER($line, useGrouping: 0) } the lowest temperature is above the highest.
   *[other] On { $count } lines the lowest temperature is above the highest, first on line { NUMBER($line, useGrouping: 0) }.
}
weather-twice = { $count ->
    [one] { $day } is in the file twice. Its mean was used.
   *[other] { $count } days are in the file more than once, first { $day }. Their means were used.
}
weather-gap = { $kind ->
    [rain] Rain is missing for { $count ->
        [one] one day
       *[other] { $count } days
    }, the longest gap { $longest ->
        [one] one day, on { $day }.
       *[other] { $longest } days from { $day }.
    }
   *[other] { $kind ->
        [soil] Soil temperature
       *[air] Air temperature
    } is missing for { $count ->
        [one] one day
       *[other] { $count } days
    }, the longest gap { $longest ->
        [one] one day, on { $day }.
       *[other] { $longest } days from { $day }.
    }
}
weather-jump = { $kind ->
    [soil] The soil temperature
   *[air] The air temperature
} jumps from { $was } to { $then } on { $day }{ $count ->
    [one] .
   *[other] , and as much on other days.
} Was the sensor moved?
weather-stuck = { $kind ->
    [soil] The soil temperature
   *[air] The air temperature
} is { $value } on { $days } days in a row from { $day }. Did the sensor stop?
weather-rain-year = Rain comes to { $year } mm a year, which few places have. Is the unit right?

## Online weather

weather-online-no-position = Online weather was not used: the bed has no place with a position.
weather-online-own = Online weather was not used: the bed has weather of its own.
# $why is what the network or the archive says, in English.
weather-online-failed = Online weather could not be fetched ({ $why }). The answer uses the climate of the place.
# $wrong is what is wrong with the reply; $year is the year asked for.
weather-online-unusable = Online weather could not be used: { $wrong ->
    [too-large] the reply is too large.
    [not-whole] the archive has no whole year { $year } yet.
    [temperature] it has temperatures that no place has.
    [rain] it has rain that no place has.
   *[undocumented] the reply is not what the archive documents.
} The answer uses the climate of the place.

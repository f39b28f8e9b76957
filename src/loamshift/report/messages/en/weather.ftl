### Which weather an answer rests on, and what was read from files of it.

## What the answer rests on

# $name is the place, $of says where its climate figures come from.
weather-climate = Climate used: { $name }. { $of }
# The temperatures are those of the soil at half the treated depth, over an average year.
weather-thermometer = { $n ->
    [one] Your soil thermometer’s reading of { $first } corrects the soil temperature: the mean of the year at { $depth } is { $mean-is } instead of { $mean-was }.
   *[other] Your soil thermometer’s { $n } readings from { $first } to { $last } correct the soil temperature: the mean of the year at { $depth } is { $mean-is } instead of { $mean-was }.
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

### The pages that bring files of weather and of soil thermometers into a bed.

weather-page-title = Weather of { $bed }
weather-page-link = Weather
weather-page-intro = The letter forecasts with the climate of the nearest known place. The file of your own weather station or soil thermometer is better. Nothing changes before you have confirmed it.
weather-page-used = What the letter uses now
weather-page-none = The bed has no place yet, so the letter knows no climate.
weather-page-file = File
# $most is a number of megabytes.
weather-page-kinds = CSV, TSV, Excel or OpenDocument, up to { $most } MB: a day in each row, and air temperature, rain or soil temperature. Air temperature needs a whole year.
weather-page-read = Read file
weather-page-files = Files
weather-page-online = Online weather
weather-page-online-what = Instead of long-term averages, letters can use the daily weather of the last five years from the archive of Open-Meteo. Only the position of a place is sent, rounded to about a kilometre: no name and no key. Each place is fetched once and kept. Beds with weather of their own keep it, and without a connection every letter works as before.
weather-page-online-on = Online weather is on for all beds.
weather-page-online-off = Online weather is off.
weather-page-turn-on = Turn on online weather
weather-page-turn-off = Turn off online weather
weather-page-online-saved = { $state ->
    [on] Online weather is on for all beds.
   *[off] Online weather is off.
}

## One file

weather-page-was-entered = This file is in use for { $bed }.
weather-page-not-entered = Nothing of this file is in use yet.
weather-page-undo = Undo this
weather-page-columns = What each column was read as
weather-page-aspect = { $aspect ->
    [meaning] Meaning
    [unit] Unit
   *[depth] Depth
}
# What a column of a weather file may hold, in a list to choose from.
weather-page-meaning = { $meaning ->
    [date] the date
    [time] the time of day
    [year] the year
    [month] the month
    [day] the day of the month
    [station] the station
    [mean] air temperature
    [low] lowest air temperature
    [high] highest air temperature
    [rain] rain
   *[soil] soil temperature
}
weather-page-dates = Dates
weather-page-order = { $order ->
    [day-first] day first: 3/4 is 3 April
   *[month-first] month first: 3/4 is March 4
}
weather-page-climate = The climate in this file
weather-page-months = Mean of each month over all days of the file.
weather-page-month = Month
weather-page-air = Air
weather-page-rain = Rain
weather-page-rain-of-place = The file has no rain: that of the bed’s place stays.
weather-page-no-rain = The file has no rain, and the bed has no place to take it from. Give the bed a place first.
# $first and $last are days.
weather-page-soil = { $n ->
    [one] One reading of the soil thermometer, of { $first }.
   *[other] { $n } means of ten days of the soil thermometer, from { $first } to { $last }.
}
weather-page-readings-cut = Only the latest { $most } means of ten days are used: a year of them.
weather-page-enter = Use for this bed
weather-page-nothing = Nothing in this file can be used yet. Say above what its columns are.
weather-page-look-again = Answers saved. Look at the figures again, then use them.
weather-page-entered = { $file } is in use for { $bed }.

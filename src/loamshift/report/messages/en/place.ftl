### Where the climate of a place comes from.

# $flags lists what is remarked on the figures, or is none.
place-shipped = { $flags ->
    [none] Monthly means of 1961 to 1990 from a gridded climatology.
   *[other] Monthly means of 1961 to 1990 from a gridded climatology. Take with care: { $flags }.
}
# The remarks of the table, inside that sentence; the key follows the text in its column “flag”.
place-flag-rain-sources-differ-by-more-than-15 = sources differ by more than 15% on the rain
place-flag-temperature-sources-differ-by-more-than-1-c = sources differ by more than 1°C on the temperature
place-flag-rain-unusable-mountain-grid-cell = the rain is that of a mountain nearby and cannot be used
place-flag-rain-probably-about-25-high-city-normal-near-920-mm-from-memory = the rain is probably about 25% too high (the city gets about 920 mm; cited from memory)
place-flag-rain-probably-about-40-high-city-normal-near-615-mm-from-memory = the rain is probably about 40% too high (the city gets about 615 mm; cited from memory)
# $of is one of the messages of this file.
place-near-place = The nearest point is { $name }, { $km } km away. { $of }
place-near-point = The nearest point of the one-degree table ({ $position }, { $height } m above the sea), { $km } km away; means of 1961-1990.
# $name is the place that the rain was taken from, or none.
place-own-months = { $name ->
    [none] Your own monthly figures.
   *[other] Your own monthly figures, with the rain of { $name }.
}
# $first and $last are the days it begins and ends.
place-own-days = { $name ->
    [none] Your own weather file, { $days } days from { $first } to { $last }.
   *[other] Your own weather file, { $days } days from { $first } to { $last }, with the rain of { $name }.
}
# $first and $last are years.
place-online = Daily weather of { $first } to { $last } at this position, from the online archive of Open-Meteo.

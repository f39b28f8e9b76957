### Where the climate of a place comes from.

# $flag is what the table remarks on the figures, or none.
place-shipped = { $flag ->
    [none] A place of the list; gridded means of 1961-1990.
   *[other] A place of the list; gridded means of 1961-1990. Take with care: { $flag }.
}
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

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
place-own-days = { $name ->
    [none] { $days ->
        [one] Your own daily file, one day.
       *[other] Your own daily file, { $days } days.
    }
   *[other] { $days ->
        [one] Your own daily file, one day, with the rain of { $name }.
       *[other] Your own daily file, { $days } days, with the rain of { $name }.
    }
}

### The section of the letter on what lies below the sample.

subsoil-title = What lies below
# $lime is the free lime, or "none".
subsoil-layer = { $lime ->
    [none] **{ $depth }:** pH { $ph } in water.
   *[other] **{ $depth }:** pH { $ph } in water, with about { $lime } free lime.
}

## What that means for the roots; $plants is "none" where a pH is wanted and no plant

subsoil-roots-suits = { $plants ->
    [none] That is within the pH { $range } you want.
   *[other] That is within the pH { $range } that suits { $plants }.
}
subsoil-roots-high = { $plants ->
    [none] That is above the pH { $range } you want.
   *[other] That is above the pH { $range } that suits { $plants }: roots that go this deep grow in it whatever you do above.
}
subsoil-roots-low = { $plants ->
    [none] That is below the pH { $range } you want.
   *[other] That is below the pH { $range } that suits { $plants }: roots that go this deep grow in it whatever you do above.
}
subsoil-roots-too-high = { $plants ->
    [none] That is far above the pH { $range } you want. Count on the soil above it alone.
   *[other] Above pH { $limit }, { $plants } can come to harm. Count on the soil above it alone.
}
subsoil-roots-too-low = { $plants ->
    [none] That is far below the pH { $range } you want. Count on the soil above it alone.
   *[other] Below pH { $limit }, { $plants } can come to harm. Count on the soil above it alone.
}
subsoil-roots-aluminium = Below about pH { $limit }, aluminium in a subsoil is toxic to roots. Count on the soil above it alone.

## How far down the plan reaches by the end of the forecast

subsoil-untreated = Nothing is to be applied. Left alone, the layers come to this by { $day }.
subsoil-reach = { $reach ->
    [none] By { $day }, this plan changes the pH by less than 0.1 at every depth.
    [all] By { $day }, this plan changes the pH by 0.1 or more down to { $depth }, as deep as we know the soil.
   *[part] By { $day }, this plan changes the pH by 0.1 or more down to { $depth }, and by less below that.
}
subsoil-out-of-reach = { $way ->
    [lime] What is applied above does not change the soil from { $depth } down in this time. Only lime dug in that deep would.
   *[acid] What is applied above does not change the soil from { $depth } down in this time.
}

## The table

subsoil-caption = pH of each depth: the median of the simulated beds
subsoil-head-depth = depth
subsoil-head-today = today
subsoil-head-untreated = left alone, { $day }
subsoil-head-planned = with this plan, { $day }
subsoil-head-shows = changed by 0.1 from
subsoil-not-yet = not by then

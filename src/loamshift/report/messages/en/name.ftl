### A name that is not known, or fits several things. $kind is what was looked for.

name-unknown = { $kind ->
    [plant] There is no plant called “{ $given }”.
    [material] There is no material called “{ $given }”.
    [place] There is no place called “{ $given }”.
    [texture] There is no texture called “{ $given }”.
    [source] There is no source called “{ $given }”.
    [acid] There is no acid called “{ $given }”.
   *[other] Nothing is called “{ $given }”.
}
name-ambiguous = { $kind ->
    [plant] “{ $given }” could be more than one plant.
    [material] “{ $given }” could be more than one material.
    [place] “{ $given }” could be more than one place.
    [texture] “{ $given }” could be more than one texture.
   *[other] “{ $given }” could be more than one thing.
}
# One of the names, as it can be typed.
name-quoted = “{ $name }”
name-place-otherwise = Give the nearest larger town, or latitude and longitude such as 51.5,-0.1.
name-did-you-mean = Did you mean { $names }?

### What an American says in other words.

why-narrow = { $test ->
    [laboratory-ph] A lab pH test, which costs little, could at best narrow that to { $range }.
    [second-ph] A second careful pH test, which costs little, could at best narrow that to { $range }.
    [fizz] A fizz test, which costs nothing, could at best narrow that to { $range }.
    [laboratory-lime] A lab figure for free lime could at best narrow that to { $range }.
    [texture] Feeling the texture, which costs nothing, could at best narrow that to { $range }.
    [organic-matter] A lab figure for organic matter could at best narrow that to { $range }.
    [buffer-ph] A lab buffer pH could at best narrow that to { $range }.
   *[jars] A test in jars with weak acid, which takes a week, could at best narrow that to { $range }.
}

why-narrow-reading = { $rough ->
    [yes] A lab pH test, measured in water.
   *[no] A second careful test halves the effect of chance.
}

why-narrow-lime-line = A lab figure for free lime.

why-narrow-claim = A lab analysis of the material, or its label.

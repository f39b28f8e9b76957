### What an American says in other words.

why-narrow = { $test ->
    [laboratory-ph] A lab pH test costs little. If the pH were known exactly, the range would be { $range }.
    [second-ph] A second careful pH test costs little. If the pH were known exactly, the range would be { $range }.
    [fizz] A fizz test costs nothing. If the free lime were known exactly, the range would be { $range }.
    [laboratory-lime] A lab figure for free lime is the next step. If it were exact, the range would be { $range }.
    [texture] Feeling the texture costs nothing. If the soil's resistance were known exactly, the range would be { $range }.
    [organic-matter] A lab figure for organic matter is cheap. If the soil's resistance were known exactly, the range would be { $range }.
    [buffer-ph] A lab buffer pH is cheap. If the soil's resistance were known exactly, the range would be { $range }.
   *[jars] A test in jars with weak acid costs a week. If the soil's resistance were known exactly, the range would be { $range }.
}

why-narrow-reading = { $rough ->
    [yes] A lab pH test, measured in water.
   *[no] A second careful test halves the effect of chance.
}

why-narrow-lime-line = A lab figure for free lime.

why-narrow-claim = A lab analysis of the material, or its label.

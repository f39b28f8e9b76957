### The end of a letter: its sources, and what worked it out.

colophon-sources = Sources
# $members is how many simulated beds the forecast ran, or "none"; $seed may be "none" too.
colophon-made = { $members ->
    [none] Worked out with loamshift { $version }, model { $model }, tables { $tables }, for { $day }.
   *[other] { $seed ->
        [none] Worked out with loamshift { $version }, model { $model }, tables { $tables }, { $members } runs over { $years } years, for { $day }.
       *[other] Worked out with loamshift { $version }, model { $model }, tables { $tables }, { $members } runs over { $years } years, seed { $seed }, for { $day }.
    }
}

### What changes the pH of a bed each year: the lines of the yearly acid ledger.

## As a label in a table or at a bar

ledger-irrigation-water = Irrigation water
ledger-carbonic-acid-of-rain = Carbonic acid in rain
ledger-acid-from-the-air = Acid from the air
ledger-leaching-and-uptake = Leaching and plant uptake
ledger-nitrogen-feed = Nitrogen fertiliser
ledger-sulfur-of-earlier-years = Sulphur from earlier years
ledger-harvest = Harvest
ledger-bicarbonate-washed-out = Bicarbonate washed out
# The same line in a soil so acid that what drains away is acid.
ledger-acid-washed-out = Acid washed out
ledger-free-lime-dissolving = Free lime dissolving
ledger-humus-rotting = Old organic matter rotting
ledger-net = Net effect

## Inside a sentence, after "is"

ledger-in-text-irrigation-water = the irrigation water
ledger-in-text-carbonic-acid-of-rain = carbonic acid in rain
ledger-in-text-acid-from-the-air = acid from the air
ledger-in-text-leaching-and-uptake = leaching and plant uptake
ledger-in-text-nitrogen-feed = the nitrogen fertiliser
ledger-in-text-sulfur-of-earlier-years = sulphur from earlier years
ledger-in-text-harvest = the harvest
ledger-in-text-bicarbonate-washed-out = bicarbonate washed out of { soil-the }
ledger-in-text-acid-washed-out = acid washed out of { soil-the }
ledger-in-text-free-lime-dissolving = free lime dissolving in { soil-the }
ledger-in-text-humus-rotting = old organic matter rotting in { soil-the }

## The section of the letter

ledger-heading = What changes the pH each year
ledger-column-line = influence
ledger-column-effect = effect
ledger-column-worth = per year, equivalent to
# $effect: which way a line moves the pH.
ledger-effect =
    { $effect ->
        [lime] raises the pH
        [acidify] lowers the pH
       *[none] next to nothing
    }
ledger-worth =
    { $effect ->
        [lime] { $amount } of pure lime
       *[acidify] { $amount } of pure sulphur
    }
# $line is one of the names inside a sentence.
ledger-strongest =
    The strongest influence is { $line }. { $effect ->
        [lime] In a year, that has the same effect as liming with { $amount } of pure lime.
       *[acidify] In a year, that has the same effect as applying { $amount } of pure sulphur.
    }
ledger-still = Nothing here changes the pH enough to matter.

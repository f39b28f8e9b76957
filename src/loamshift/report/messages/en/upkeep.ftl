### Holding a pH from year to year.

## The section of the letter

upkeep-heading =
    { $when ->
        [recovered] Once the pH has recovered
        [yearly] From year to year
        [as-it-is] Keeping the pH as it is
       *[there] Keeping the pH there
    }
# $step is the change of pH in a year, $years how many years it is the mean of.
upkeep-drift =
    { $way ->
        [rise] Left as it is, the pH would rise by about { $step } a year over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
        [fall] Left as it is, the pH would fall by about { $step } a year over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
       *[none] Left as it is, the pH would hardly change over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
    }
# Where a plan has taken the pH, and beside it where the pH is now; $step and $years as before.
upkeep-drift-there =
    { $way ->
        [rise] Once there, the pH would rise by about { $step } a year by itself.
        [fall] Once there, the pH would fall by about { $step } a year by itself.
       *[none] Once there, the pH would hardly change from one year to the next.
    }
upkeep-drift-now =
    { $way ->
        [rise] How fast a pH drifts depends on where it stands and on what is at work: left as it is now, it would rise by about { $step } a year over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
        [fall] How fast a pH drifts depends on where it stands and on what is at work: left as it is now, it would fall by about { $step } a year over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
       *[none] How fast a pH drifts depends on where it stands and on what is at work: left as it is now, it would hardly change over the next { $years ->
            [1] year
           *[other] { WORD($years) } years
        }.
    }
# Where there is no forecast; $within is how near its figure lies in nine beds of ten.
upkeep-drift-quick = Without a forecast we work this out for { soil-the } as one mixed layer: in 9 of 10 beds a forecast comes within { $within } a year of it.
upkeep-undone-soon = The water alone would undo the whole change within about a year.
# $years is a whole number, 2 or more.
upkeep-undone = The water alone would undo the whole change in about { WORD($years) } years.
# $feeds is a list of upkeep-feed; $nitrogen is None where it is not known.
upkeep-give =
    { $nitrogen ->
        [none] Each year, give { $feeds }.
       *[other] For { $nitrogen } of nitrogen a year, give { $feeds }.
    }
# A fertiliser as bought, inside a list.
upkeep-feed =
    { $feed ->
        [ammonium-sulfate] { $rate } of ammonium sulphate (sulphate of ammonia)
       *[other] { $rate } of { $product }
    }
# $feed is None where no fertiliser is named before.
upkeep-hold-sulfur =
    { $feed ->
        [none] To hold the pH, apply { $rate } of pure sulphur a year.
       *[some] To hold the pH, also apply { $rate } of pure sulphur a year.
    }
upkeep-hold-lime =
    { $feed ->
        [none] To hold the pH, apply { $rate } of pure lime a year, or a few years' worth at once every few years.
       *[some] To hold the pH, also apply { $rate } of pure lime a year, or a few years' worth at once every few years.
    }
upkeep-hold-enough = Nothing more is needed to hold the pH.

## Where nothing is to be applied for the pH, or not yet

# $feeds and $nitrogen as in upkeep-give.
upkeep-feed-fits =
    { $nitrogen ->
        [none] If you feed, { $feeds } a year would change the pH least.
       *[other] To feed { $nitrogen } of nitrogen a year, { $feeds } would change the pH least.
    }
upkeep-by-test = Test once a year, and apply sulphur or lime only if the test calls for it.
upkeep-after-test = What it takes to hold the pH follows from the test you still need.

## Remarks under the upkeep

upkeep-water-treated = Once the water is treated, a yearly test is enough to hold the pH.
# $lime is what the water adds a year, $most the yearly limit of sulphur, $rise in pH a year.
upkeep-water-wins =
    Your water has the same effect each year as liming with { $lime } of pure lime. { $fed ->
        [yes] Fertiliser and the yearly limit of { $most } of pure sulphur cannot undo all of it, so the pH would still rise by about { $rise } a year.
       *[no] The yearly limit of { $most } of pure sulphur cannot undo all of it, so the pH would still rise by about { $rise } a year.
    } Use rainwater, or have the water acidified.
upkeep-water-guessed = We had to guess the alkalinity of the water: have it tested before you rely on this.
upkeep-nitrogen-unknown = You have not said how much nitrogen the plants need in a year. Once you do, we can choose a fertiliser that helps to hold the pH.
# $nitrogen is a range.
upkeep-nitrogen-of-trial = The nitrogen is the lowest rate of a trial with highbush blueberries, { $nitrogen } a year. Tell us if your plants need more or less.
# $limit is a pH.
upkeep-urea = Below pH { $limit }, urea takes the place of ammonium sulphate.
upkeep-urea-until-then = While { soil-the } still reads above pH { $limit }, ammonium sulphate adds far more acid for the same nitrogen.
upkeep-falls = Test once a year, and apply no lime unless a test reads below pH { $ph }.
upkeep-rises = Test once a year, and apply no sulphur or other acid unless a test reads above pH { $ph }.
upkeep-lime-by-test = These plants dislike lime. Apply it only once a test reads below pH { $ph }, and none before.
upkeep-nitrate = The nitrate fertiliser you use now raises the pH, and plants that dislike lime take up nitrate poorly.
upkeep-feed-neutral = The fertiliser you use now does not change the pH.
upkeep-tail = Sulphur applied earlier is still turning into acid: { $sulfur } of pure sulphur in the coming year. It counts as a change this year but not as upkeep, because it comes only once.
upkeep-free-lime = Free lime in { soil-this } is still dissolving: { $lime } of pure lime in the coming year. It counts as a change this year but not as upkeep, because it comes only once.
# $before: what the ground was before it was dug.
upkeep-humus =
    { $before ->
        [turf] The old turf that was dug in is still rotting and makes acid
        [manured] What years of manuring left in this ground is still rotting and makes acid
        [unknown] Whatever was dug in here is rotting and makes acid
       *[other] Organic matter rots in bare ground and makes acid
    }: as much in the coming year as { $sulfur } of pure sulphur. It grows less from year to year: let a yearly test say what is still needed.

## The front sheet: the one habit that holds the pH. At most 25 words a sentence.
# $feeds is a list of upkeep-habit-fertiliser; $there is "no" where the pH has still to be changed.

upkeep-habit-feed-with = { $there ->
    [no] Once in range, feed with
   *[yes] Feed with
}
upkeep-habit-feed = { $there ->
    [no] { upkeep-habit-feed-with } { $feeds }. Test the pH once a year.
   *[yes] { upkeep-habit-feed-with } { $feeds }, and test the pH once a year.
}
upkeep-habit-feed-sulfur = { upkeep-habit-feed-with } { $feeds }, and add { $rate } of pure sulphur each year.
upkeep-habit-feed-lime = { upkeep-habit-feed-with } { $feeds }, and add { $rate } of pure lime each year.
upkeep-habit-feed-lime-by-test = { upkeep-habit-feed-with } { $feeds }. Apply lime only once a yearly test reads below pH { $ph }.
upkeep-habit-sulfur = Apply { $rate } of pure sulphur each year, and test the pH once a year.
upkeep-habit-lime = Lime lightly every few years, at { $rate } of pure lime for each year, and test the pH once a year.
upkeep-habit-lime-by-test = Test the pH once a year. Apply lime only once it reads below { $ph }.
upkeep-habit-acid-by-test = Test the pH once a year. Apply sulphur only once it reads above { $ph }.
upkeep-habit-water-treated = Use rainwater or treated water, and test the pH once a year.
upkeep-habit-water-wins = Use rainwater, or have the water acidified: no yearly amount of sulphur within the published limit would hold the pH.
# $still is "yes" where the pH hardly moves by itself.
upkeep-habit-test =
    { $still ->
        [yes] Test the pH once a year: nothing else is needed to hold it.
       *[no] Test the pH once a year, and act only on what the test reads.
    }
upkeep-habit-fertiliser =
    { $feed ->
        [ammonium-sulfate] ammonium sulphate ({ $rate } a year)
       *[other] { $product } ({ $rate } a year)
    }

## The front sheet: the strongest thing that undoes the change. At most 25 words a sentence.

upkeep-undo-nothing = Nothing we know of will undo it faster than a yearly test would show.
# $alkalinity is None where it had to be guessed; $amount is pure lime.
upkeep-undo-water =
    { $alkalinity ->
        [none] Your water has the same effect each year as liming with { $amount } of pure lime. We had to guess its alkalinity.
       *[other] Your water (alkalinity { $alkalinity }) has the same effect each year as liming with { $amount } of pure lime.
    }
# $line is one of the names inside a sentence.
upkeep-undo =
    What undoes it most is { $line }. { $effect ->
        [lime] In a year, that has the same effect as { $amount } of pure lime.
       *[acidify] In a year, that has the same effect as { $amount } of pure sulphur.
    }

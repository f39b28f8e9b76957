### The front sheet: the answer at a glance. No sentence here is longer than 25 words.

## The verdict as a sentence
# $these is "this bed" or "these pots"; $plants the plants wanted, or "none";
# $amount and $product what goes on first, $day when.

headline-stop = Stop: put nothing more on { $these } for now.
headline-leave = Leave the pH of { $these } alone.
headline-leave-at-work = Leave the pH of { $these } alone: what was applied is still working.
headline-leave-water = Leave { soil-the } of { $these } alone and treat the water.
headline-upkeep-inside = The pH of { $these } is right, but needs a little upkeep every year.
headline-feed-first = Change the fertiliser first: its acid does most to lower the pH of { $these }.
headline-water-first = Treat the water first: without that, no change to { soil-the } will last.
headline-apart = Grow { $plants } in separate places: no single pH suits them.
headline-elsewhere = { $plants ->
    [none] Do not fight this soil; it would win.
   *[other] { $plants-count ->
        [one] Do not fight this soil for { $plants }; give it a place of its own.
       *[other] Do not fight this soil for { $plants }; give them a place of their own.
    }
}
headline-elsewhere-pot = { $count ->
    [one] Do not try to change the mix in { $these }; repot in fresh compost.
   *[other] Do not try to change the mix in { $these }; repot them in fresh compost.
}
headline-elsewhere-planted = This soil cannot be made to suit { $plants }; treat the plant, not the soil.
headline-no-ph = Have the pH tested first; everything else starts from that.
headline-no-aim = First, tell us what you want to grow.
# $test is the field of the case file that a test would fill in.
headline-measure = { $test ->
    [soil-ph] Do not spread anything yet. Get a laboratory pH test first.
    [soil-fizz] Do not spread anything yet. Do a fizz test first.
    [soil-carbonate-pct] Do not spread anything yet. Have a laboratory measure the free lime first.
    [soil-sodium-pct] Do not spread anything yet. Have a laboratory test for sodium first.
    [water-alkalinity] Do not spread anything yet. Find out the alkalinity of the water first.
    [water-weekly] Do not spread anything yet. Find out how much water { bed-the } gets first.
    [soil-texture] Do not spread anything yet. Feel the texture of the soil first.
    [titration] Do not spread anything yet. Test how strongly { soil-this } resists first.
    [aim-target-ph] Do not spread anything yet. Find a second source for the range first.
   *[other] Do not spread anything yet. Take a new, mixed sample first.
}
headline-nothing-yet = Apply nothing yet: the test on { $day } decides.
headline-every-year = You can do it, but it needs topping up every year: start with { $amount } of { $product } on { $day }.
headline-more-than-a-year = You can do it, but it will take more than a year: start with { $amount } of { $product } on { $day }.
headline-go = { $plants ->
    [none] { $tests ->
        [yes] Go ahead: start with { $amount } of { $product } on { $day }.
       *[no] Go ahead: apply { $amount } of { $product } on { $day }.
    }
   *[other] { $tests ->
        [yes] Go ahead for { $plants }: start with { $amount } of { $product } on { $day }.
       *[no] Go ahead for { $plants }: apply { $amount } of { $product } on { $day }.
    }
}
headline-go-in-parts = Go ahead: apply { $product } in { WORD($n) } applications, the first of { $amount } on { $day }.

## Below the headline

# $salt is "yes" where the bed is tested in a salt, so that the range has to be named as in water.
front-chance = { $salt ->
    [yes] Of 100 such { bed-alike } treated this way, { $share } would be between { $low } and { $high } in water on { $day } and a year later.
   *[no] Of 100 { bed-alike } like this one treated this way, { $share } would be between { $low } and { $high } on { $day } and a year later.
}
# In place of the sentence above while the forecast behind it is being worked out.
front-chance-coming = How many of 100 beds like this one would come into the range and stay there is still being worked out.
# An empty bed that is made acid; $day is when the best estimate comes into the range.
front-plant-when = { $salt ->
    [yes] Plant once a test reads between { $low } and { $high } in water: our best estimate gets there about { $day }.
   *[no] Plant once a test reads between { $low } and { $high }: our best estimate gets there about { $day }.
}
# Where the latest test shows another answer than was forecast. $reading is the test, $expected the
# best estimate for its day; $answered "higher" or "lower" where the bed was only left to drift.
front-answered = { $answered ->
    [less] { front-answered-test }: { soil-the } has answered less than forecast{ front-answered-inside }.
    [more] { front-answered-test }: { soil-the } has answered more than forecast{ front-answered-inside }.
    [higher] { front-answered-test }: higher than forecast.
   *[lower] { front-answered-test }: lower than forecast.
}
front-answered-test = The test of { $day } read { $reading } where about { $expected } was expected
front-answered-inside = { $place ->
    [inside] , though within the range of such tests
   *[outside] {""}
}
front-would-change = What would change this
front-would-settle = What would settle it
front-would-ease = What would make it easier

## Before anything is spread

front-look-first = Look at this first
front-wet-first = { $ground ->
    [container] The mix is waterlogged. Let it drain before anything else: roots drown in it at any pH.
   *[bed] The ground is waterlogged. Drain or raise it before anything else: roots drown in it at any pH.
}
front-iron-now = The pH lies above the range for these plants, which keeps iron from them: water with rainwater where you can, and give an iron chelate by its label.
# $rough is "yes" where one of them is a strip's or probe's and the other a laboratory's.
front-readings-differ = { $rough ->
    [yes] The quick test and the laboratory contradict each other. We go by the laboratory; have a new sample tested before you spend much money.
   *[no] Two tests of one season contradict each other. Have a new sample tested before you spend money on the strength of either.
}
front-peat = This is peaty ground, and the pH range here is for mineral soil. On peat a lower pH often serves: ask locally before you lime all the way up.
# $depth is where such soil begins.
front-below = { $way ->
    [high] From { $depth } down the soil is too limy for these roots: count on what lies above.
   *[acid] From { $depth } down the soil is so acid that roots are injured: count on what lies above.
}
front-metals = Old urban or orchard ground may hold lead or arsenic. Have it tested before you grow food in it.
# What gives lime back to a bed, inside a sentence.
front-around-one = { $what ->
    [limestone-gravel] limestone gravel
    [concrete] concrete
    [mortar] mortar in the soil
    [lined-trench] the ground around the trench
   *[over-chalk] chalk below
}
front-around = The forecast leaves out the lime from { $what }. Expect the pH to rise above it, first at the edges and below.

## Do this

front-do-this = Do this
front-when = when
front-what = what
front-how-much = how much
front-how = how
front-now = now
front-apply = { CAPITAL($product) }
front-test = Test the pH
front-test-how = { $method ->
    [none] same depth and same method as the last test
   *[other] { $depth ->
        [none] { $method }, as before
       *[other] { $method }, top { $depth }, as before
    }
}
front-test-lab = by a laboratory, mixed from several places
front-by-the-test = by the test
front-as-below = as shown below
front-nothing = Nothing
front-nothing-how = { soil-the } needs none
front-nothing-at-work-how = what lies there is still working
front-nothing-more = Nothing more
front-nothing-more-how = it has had more than a year’s limit; test before any more
front-mix-into = { $kind ->
    [container] mix into the top { $depth }
   *[other] work into the top { $depth }
}
front-surface = spread on the surface and water in
front-pot-surface = spread over the top and water in
front-diluted = diluted in water

## The course

front-decides = What the test on { $day } decides
# Where a test comes first: what each of its outcomes would mean.
front-test-decides = What that test decides
front-course = The course of the pH
# $method is the method of the bed's own tests where it is not in water, or "none".
front-reads = { $method ->
    [none] test reads
   *[other] test reads ({ $method })
}
front-then = then
front-add = add { $amount }
front-add-nothing = add nothing more
front-test-again = add nothing yet; test again
front-any-reading = any reading
front-or-less = { $ph } or less
front-or-more = { $ph } or more
front-between = { $range }

## What will undo it, and the cautions

front-undo = What will undo it
front-holds = What holds it there
front-precautions = Precautions
# Where there are more cautions than the front sheet has room for.
front-more-care = More precautions: next sheets.
front-measure = Worth measuring
front-measure-first = Worth measuring before you start
front-working = The working: how much and why, other products, sources

## On paper, at the foot of a sheet: "2 of 5"

paper-of = of
paper-next = How much and why, other products and sources: next sheets.
# Below the sources of a printed letter. $codes are code points, such as U+5EAD; $n how many.
paper-not-set = { $n ->
    [one] □ marks a character that our type for print lacks ({ $codes }). The web page and the plain text show it.
   *[other] □ marks characters that our type for print lacks ({ $codes }). The web page and the plain text show them.
}

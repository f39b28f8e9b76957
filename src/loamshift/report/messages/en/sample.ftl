### Taking a soil sample: how many cores, where, how deep and when.

## The sheet and its headings

sample-title = Taking the sample
sample-title-bed = Taking the sample: { $bed }
sample-lead =
    { $samples ->
        [one] { $cores } cores, each { $depth } deep, mixed into one sample.
       *[other] { $cores } cores, each { $depth } deep, mixed into { WORD($samples) } samples.
    }
# How near the mixed sample comes to the whole bed; $error is a pH.
sample-error = The mixed sample should then read within about ±{ $error } of the whole bed.
sample-heading-where = Where
sample-heading-how = How
sample-heading-when = When
sample-heading-ask = Tests to ask for
sample-heading-why = Why so many
sample-heading-tools = Take with you
sample-heading-bag = Label for the bag

## Labels to fill in

sample-label-bed = Bed or pots
sample-label-depth = Depth
sample-label-depth-value = 0 to { $depth }
sample-label-date = Date
sample-label-by = Sampled by
sample-label-plants = Plants wanted
sample-label-last = Last limed or fertilised

## The drawing

# Read aloud in place of the drawing.
sample-drawing-pots = A plan of { $pots } pots with { $cores } cores marked in them.
sample-drawing-bed = A plan of the bed: a zigzag from corner to corner with { $cores } cores along it.
sample-drawing-about = about { $length }
sample-drawing-across = { $length }
sample-pace-even = Take even paces, so that the last core comes near the far corner.
sample-pace = Walk about **{ $step }** along the line from core to core.
sample-pace-shape = Drawn twice as long as wide. Fit the walk to the shape of your bed.

## Where

sample-where-each-pot = Take one core from each of { $cores } pots picked at random.
sample-where-pots =
    { $pots ->
        [one] Take { $each } cores from the pot, half way between stem and rim.
       *[other] Take { $each } cores from each of the { $pots } pots, half way between stem and rim.
    }
sample-where-whole-pot = Push through the whole depth of the mix.
sample-where-crust = The top crust on its own contains the salts and the lime of the water.
sample-where-spots = Choose { $cores } spots all over the bed.
sample-where-zigzag = Walk a zigzag from corner to corner and stop at even paces, wherever that falls.
sample-where-away = Keep away from walls, paths and foundations: mortar and concrete contain lime.
sample-where-away-too = Avoid bonfire and heap sites, the drip line of trees and roofs, and the edges of the bed.
sample-where-lawn = Leave out bare patches, and places where dogs or fertiliser bags have been.
sample-where-field = Leave out gateways, headlands, old hedge lines and manure heaps.
sample-where-apart = Where two parts differ in colour, history or growth, sample them separately.
sample-where-apart-why = One average of two different parts is right for neither.
sample-where-samples = At this size, send { WORD($samples) } mixed samples, each from its own part.

## How

sample-how-scrape = First scrape off mulch, litter and living grass.
sample-how-core = Take every core from the surface down to { $depth }, as thick below as above.
sample-how-slice = Use a straight slice from a spade, or a soil corer.
sample-how-half = A core of half the depth misleads, because material lies near the top and pH changes with depth.
sample-how-deeper = For established trees and shrubs, take a second, separate sample from { $depth } to { $deeper }.
sample-how-deeper-why = It shows whether the roots go down into lime.
sample-how-crumble = Crumble the cores in a clean plastic bucket, take out stones and roots, and mix until it looks the same throughout.
sample-how-bucket = Do not use a galvanised bucket or a bag that has held fertiliser or lime.
sample-how-send = Send about { $volume } of the mix.
sample-how-dry = If it must wait, dry it in the air on clean paper: not in an oven, in the sun or on a radiator.
sample-how-write = Write the bed, the depth and the date on the bag.

## What to take, and what to ask for

sample-tool-corer = A spade or a soil corer, marked at { $depth }
sample-tool-corer-pot = A soil corer or an apple corer, long enough for the pot
sample-tool-bucket = A clean plastic bucket
sample-tool-paper = Clean paper to dry the soil on
sample-tool-bag = A bag, and a waterproof pen
sample-ask-ph = pH, with the method printed: water or CaCl2, and the ratio
sample-ask-lime = Free carbonate (lime)
sample-ask-salt = Salt (EC), with the extract printed
sample-ask-texture = Texture, or the percentage of clay
sample-ask-organic = Organic matter

## When

sample-when-moist = Sample when the soil is moist but not wet.
sample-when-rain = Never sample within a day or two of heavy rain or watering.
sample-when-wait = Wait at least { $wait } after lime, sulphur or fertiliser.
sample-when-wait-why = Before that, a core can contain grains that are still reacting.
sample-when-again = To follow a bed over the years, sample in the same season each time, to the same depth, by the same method.
sample-when-again-why = In a dry late summer, salts make the pH read a little low.

## Why so many

# The table of what fewer and more cores are worth; figures are differences of pH.
sample-column-cores = cores mixed
sample-column-error = pH of the mix, 95 cases in 100
sample-column-saves = one more core takes off

# Figures are differences of pH.
sample-why-spread =
    { $looks ->
        [uneven] Single cores from uneven ground differ by about { $sd } pH (standard deviation).
       *[even] Single cores from even-looking ground differ by about { $sd } pH (standard deviation).
    }
sample-why-mixed = Mixing { $cores } of them leaves an error of ±{ $left } pH.
sample-why-laboratory = The laboratory's own error and the variation from year to year, about 0.15 pH, come on top.
sample-why-laboratory-stays = No number of cores removes them.
sample-why-more = An error of ±{ $error } pH would take { $wanted } cores.
sample-why-divide = It is better to divide the ground into parts that look alike and send one mixed sample from each.
sample-why-fewest = An error of ±{ $error } pH would need only { $wanted } cores, but the sources we read ask for at least { $fewest }.

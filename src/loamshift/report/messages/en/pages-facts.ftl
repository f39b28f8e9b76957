### What is known about a bed, as sentences with fields in them: each value is a field to fill in.
### The values keep their names; put them in the order your language wants.

facts-bed = { $bed_kind } of { $bed_area }, worked { $bed_depth } deep, { $bed_planted }, near { $place_name }. It is for { $aim_plant }, with a target of pH { $aim_target_ph }.
facts-soil = Roots grow in { $soil_medium }: { $soil_texture }, with { $soil_organic_matter_pct }% organic matter. It tests at pH { $soil_ph }, measured by { $soil_ph_method }. A drop of { $soil_fizz_acid } { $soil_fizz }.
facts-water = In the season it gets { $water_weekly } of water a week, with { $water_alkalinity } alkalinity.

## What stands in a field while it is blank, and what it is called where its form has no name to
## stand alone

facts-bed-area-empty = any size
facts-bed-depth-empty = { $units ->
    [us] 6 in
   *[metric] 15 cm
}
facts-place-name = Place
facts-place-name-empty = a place
facts-soil-texture-empty = any texture
facts-soil-organic-matter-pct-empty = some
facts-soil-ph-empty = not tested
facts-aim-plant-empty = a plant
facts-aim-target-ph-empty = what the plant likes
facts-water-weekly-empty = nothing
facts-water-alkalinity-empty = unknown
facts-hint = { $label }, for example { $example }

## Choices; the sentences above end or go on after them. [blank] is for none of them

facts-bed-kind-choice = { $choice ->
    [ground] A bed in the ground
    [raised] A raised bed
    [container] A pot
    [lawn] A lawn
    [field] A field
   *[blank] A bed
}
facts-bed-planted-choice = { $choice ->
    [true] planted
    [false] not planted yet
   *[blank] perhaps planted
}
facts-soil-medium-choice = { $choice ->
    [mineral] mineral soil
    [peat-mix] a peat mix
    [bark-mix] a bark mix
    [coir-mix] a coir mix
    [peat-free-mix] a peat-free mix
   *[blank] soil
}
# $word is the method as a report prints it, such as CaCl2.
facts-soil-ph-method-choice = { $choice ->
    [blank] an unknown method
   *[other] { $word }
}
facts-soil-fizz-acid-choice = { $choice ->
    [hcl] hydrochloric acid
    [vinegar] vinegar
   *[blank] acid
}
facts-soil-fizz-choice = { $choice ->
    [none] did not fizz
    [slight] fizzed slightly
    [moderate] fizzed moderately
    [strong] fizzed strongly
    [extreme] fizzed extremely
   *[blank] was not tried
}

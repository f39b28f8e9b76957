### What is known about a bed, as sentences with fields in them: each value is a field to fill in.
### The values keep their names; put them in the order your language wants.

facts-bed = { $bed_kind } of { $bed_area }, worked { $bed_depth } deep, { $bed_planted }, near { $place_name }. It is for { $aim_plant }, with a target of pH { $aim_target_ph }.
facts-soil = Roots grow in { $soil_medium }: { $soil_texture }, with { $soil_organic_matter_pct }% organic matter. It tests at pH { $soil_ph }, measured by { $soil_ph_method }. A drop of { $soil_fizz_acid } { $soil_fizz }.
facts-water = In the season it gets { $water_weekly } of water a week, with { $water_alkalinity } alkalinity.

## What each field is called, and what stands in it while it is blank

facts-bed-kind = What it is
facts-bed-area = Area
facts-bed-area-empty = any size
facts-bed-depth = Depth worked
facts-bed-depth-empty = { $units ->
    [us] 6 in
   *[metric] 15 cm
}
facts-bed-planted = Planted already
facts-place-name = Place
facts-place-name-empty = a place
facts-soil-texture = Texture
facts-soil-texture-empty = any texture
facts-soil-medium = What the roots grow in
facts-soil-organic-matter-pct = Organic matter, per cent
facts-soil-organic-matter-pct-empty = some
facts-soil-ph = pH
facts-soil-ph-empty = not tested
facts-soil-ph-method = How the pH was measured
facts-soil-fizz-acid = Acid of the fizz test
facts-soil-fizz = Fizz
facts-aim-plant = Plant
facts-aim-plant-empty = a plant
facts-aim-target-ph = Target pH
facts-aim-target-ph-empty = what the plant likes
facts-water-weekly = Water per week
facts-water-weekly-empty = nothing
facts-water-alkalinity = Alkalinity of the water
facts-water-alkalinity-empty = unknown
facts-hint = { $label }, for example { $example }

## Choices; the sentences above end or go on after them

facts-kind = { $kind ->
    [ground] A bed in the ground
    [raised] A raised bed
    [container] A pot
    [lawn] A lawn
    [field] A field
   *[none] A bed
}
facts-planted = { $planted ->
    [yes] planted
    [no] not planted yet
   *[none] perhaps planted
}
facts-medium = { $medium ->
    [mineral] mineral soil
    [peat-mix] a peat mix
    [bark-mix] a bark mix
   *[none] soil
}
facts-method-unknown = an unknown method
facts-acid = { $acid ->
    [hcl] hydrochloric acid
    [vinegar] vinegar
   *[none] acid
}
facts-fizz = { $fizz ->
    [no-fizz] did not fizz
    [slight] fizzed slightly
    [moderate] fizzed moderately
    [strong] fizzed strongly
    [extreme] fizzed extremely
   *[none] was not tried
}

### Below the name of the bed: date, place, soil, readings. Short sentences without a verb.

# How a pH was measured, behind the reading.
method-paste = in saturated paste
method-cacl2 = in calcium chloride
method-kcl = in potassium chloride
method-probe = by soil probe
method-strip = by test strip
method-unknown = method not stated
# $ratio is soil to water, such as 1:2.5.
method-water = in water { $ratio }

head-bed = { $kind ->
    [raised] { $count ->
        [one] Raised bed of { $area }
       *[other] { $count } raised beds of { $area } each
    }
    [container] { $count ->
        [one] Pot of { $area }
       *[other] { $count } pots of { $area } each
    }
    [lawn] { $count ->
        [one] Lawn of { $area }
       *[other] { $count } lawns of { $area } each
    }
    [field] { $count ->
        [one] Field of { $area }
       *[other] { $count } fields of { $area } each
    }
   *[ground] { $count ->
        [one] Bed of { $area }
       *[other] { $count } beds of { $area } each
    }
}
head-beds = { $kind ->
    [raised] { $count } raised beds
    [container] { $count } pots
    [lawn] { $count } lawns
    [field] { $count } fields
   *[ground] { $count } beds
}
head-rings = { $plants ->
    [one] A { $diameter } ring around the plant
   *[other] A { $diameter } ring around each of { $plants } plants
}
head-soil = { $shares ->
    [none] { CAPITAL($texture) }
   *[other] { $texture ->
        [none] { CAPITAL($shares) }
       *[other] { CAPITAL($texture) } with { $shares }
    }
}
head-clay = { $share } clay
head-organic-matter = { $share } organic matter
head-organic-carbon = { $share } organic carbon
# $medium is a growing medium of a pot.
head-medium = { $medium ->
    [peat-mix] Peat mix
    [bark-mix] Bark mix
    [coir-mix] Coir mix
    [peat-free-mix] Peat-free mix
   *[other] Potting mix
}
head-place-unknown = Place not known: { $given }
head-reading = pH { $ph } { $method }
head-reading-unknown = pH { $ph } ({ $method })
head-top = top { $depth }
head-tested = tested { $day }
head-no-free-lime = No free lime
head-free-lime = { $share } free lime
head-fizz = { $fizz ->
    [none] No fizz with { $acid ->
        [hcl] hydrochloric acid
        [vinegar] vinegar
       *[none] acid
    }
    [slight] A slight fizz with { $acid ->
        [hcl] hydrochloric acid
        [vinegar] vinegar
       *[none] acid
    }
    [moderate] A moderate fizz with { $acid ->
        [hcl] hydrochloric acid
        [vinegar] vinegar
       *[none] acid
    }
    [strong] A strong fizz with { $acid ->
        [hcl] hydrochloric acid
        [vinegar] vinegar
       *[none] acid
    }
   *[extreme] A violent fizz with { $acid ->
        [hcl] hydrochloric acid
        [vinegar] vinegar
       *[none] acid
    }
}

## Textures

texture-sand = sand
texture-loamy-sand = loamy sand
texture-sandy-loam = sandy loam
texture-loam = loam
texture-silt-loam = silt loam
texture-silt = silt
texture-sandy-clay-loam = sandy clay loam
texture-clay-loam = clay loam
texture-silty-clay-loam = silty clay loam
texture-sandy-clay = sandy clay
texture-silty-clay = silty clay
texture-clay = clay

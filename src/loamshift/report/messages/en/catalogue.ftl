### Plants, materials, places and pH methods as cards and lists: loamshift plants, materials, places, convert.

## Plants

catalogue-plants = { $n ->
    [one] 1 plant
   *[other] { $n } plants
}
catalogue-plant = Plant
catalogue-latin = Latin name
catalogue-ph-in-water = pH in water
catalogue-sources = Sources
catalogue-evidence = Evidence
catalogue-weak = weak
# $range is a range of pH in water; $n is the number of independent sources.
catalogue-grows = { $n ->
    [one] Grows well from pH **{ $range }** (in water), according to 1 independent source. The lowest published is { $lowest }, the highest { $highest }.
   *[other] Grows well from pH **{ $range }** (in water), according to { $n } independent sources. The lowest published is { $lowest }, the highest { $highest }.
}
catalogue-survives = Survives from about { $range }.
# $low and $high are the limits outside which harm is reported; either can be none.
catalogue-harm = { $where ->
    [soil] { $low ->
        [none] Harm is reported in soil above pH { $high }.
       *[other] { $high ->
            [none] Harm is reported in soil below pH { $low }.
           *[other] Harm is reported in soil below pH { $low } and above pH { $high }.
        }
    }
   *[mix] { $low ->
        [none] Harm is reported in soilless potting mixes above pH { $high }.
       *[other] { $high ->
            [none] Harm is reported in soilless potting mixes below pH { $low }.
           *[other] Harm is reported in soilless potting mixes below pH { $low } and above pH { $high }.
        }
    }
}
catalogue-calcifuge = Dislikes lime: free lime in the soil makes it sicken at any pH reading.
catalogue-disagree = The sources disagree: the midpoints of their ranges are up to { $ph } pH apart.
catalogue-tolerates-acid = It tolerates acid soil but does not need it. There is no need to acidify for it.
catalogue-weak-evidence = The evidence is weak. This range alone never starts a plan to acidify or lime.
# $names are other names, with semicolons between them.
catalogue-also = Also: { $names }.
catalogue-ranges-heading = Published ranges
catalogue-grade = Grade
catalogue-source = Source
catalogue-note = Note
catalogue-ph = pH

## Materials

catalogue-materials = { $n ->
    [one] 1 material
   *[other] { $n } materials
}
catalogue-material = Material
catalogue-group = Group
catalogue-contains = Contains
catalogue-figure = Figure
catalogue-value = Value
catalogue-range = Range
catalogue-unit = Unit
catalogue-figures-heading = Figures
# What a material contains; $share is a percentage.
catalogue-share = { $what ->
    [sulfur] { $share } S
    [ammonium] { $share } N as ammonium
    [urea] { $share } N as urea
    [nitrate] { $share } N as nitrate
   *[organic] { $share } organic N
}
catalogue-neutralising = neutralising value { $share }
catalogue-acid-at-once = { $figure } mol acid/kg at once
catalogue-base-on-decay = { $figure } mol base/kg as it decays
catalogue-no-acid-no-lime = no acid and no lime
# $parts is a list of what it contains.
catalogue-contains-line = Contains: { $parts }.
catalogue-sizes = Particle sizes: { $sizes }.
# The share of grains between two sizes in micrometres.
catalogue-size = { $share } from { $low } to { $high } µm
catalogue-cup = A level US cup holds about { $weight } ({ $range }). Weigh it.
# $codes can be typed after “loamshift why”.
catalogue-cautions = Cautions: { $codes }. This command explains one: loamshift why CODE
catalogue-written-as = { $group }. In a case file, write “{ $key }”.
# The name of a figure of a material.
catalogue-figure-name = { $name ->
    [elemental-s-frac] elemental sulphur
    [fast-acid-molc-kg] acid of aluminium, iron or mineral acid, within days
    [n-as-nh4-frac] nitrogen as ammonium
    [n-as-urea-frac] nitrogen as urea
    [n-as-no3-frac] nitrogen as nitrate
    [n-organic-frac] nitrogen in organic form
    [caco3-eq-frac] neutralising value against CaCO3
    [ash-alkalinity-molc-kg] base set free as it decays
    [organic-acid-molc-kg] organic acid, broken down again by microbes
    [salt-molc-kg] soluble salt
    [water-frac] water
    [bulk-density-kg-m3] weight of a cubic metre, loose
    [intact-diameter-um] prill or pastille before it breaks up
   *[other] { $plain }
}

## Places

catalogue-places = { $n ->
    [one] 1 place
   *[other] { $n } places
}
catalogue-place = Place
catalogue-country = Country
catalogue-latitude = Latitude
catalogue-mean-air = Mean air
catalogue-rain-year = Rain a year
catalogue-month = Month
catalogue-air = Air
catalogue-rain = Rain
# $longitude and $height can be none; $height is in metres.
catalogue-position = { $longitude ->
    [none] { $height ->
        [none] latitude { $latitude }
       *[other] latitude { $latitude }, { $height } m above the sea
    }
   *[other] { $height ->
        [none] latitude { $latitude }, longitude { $longitude }
       *[other] latitude { $latitude }, longitude { $longitude }, { $height } m above the sea
    }
}

## What each mark of evidence means

catalogue-evidence-mark = { $mark ->
    [seen] read in the source
    [secondary] read in another work that quotes it
    [memory] cited from memory, not checked
    [derived] our arithmetic
    [judgement] our judgement
   *[common-practice] common practice, no source
}

## One pH by another method

catalogue-ph-title = pH by another method
# $from and $to are methods; $best and $range are in the other method.
catalogue-ph-reads = pH { $ph } ({ $from }) reads about **{ $best }** in { $to }. Of 100 such readings, 90 would be from { $range }.
catalogue-ph-outside = The reading is outside what this conversion was made from. Have the soil tested again by the method you need.
catalogue-ph-outside-label = Outside
catalogue-ph-every = Every conversion we list
catalogue-ph-sd = Standard deviation
catalogue-ph-equation = Equation
catalogue-ph-used = Used
catalogue-ph-default = default
catalogue-ph-turned = equation used backwards
catalogue-ph-out-of-range = outside its range
catalogue-ph-joined-note = two conversions joined; each adds its own error
# $method is a method of measuring; $note a remark of the table.
catalogue-ph-other-ratio = for another ratio than { $method }; { $note }

## Sources

catalogue-sources-heading = Sources

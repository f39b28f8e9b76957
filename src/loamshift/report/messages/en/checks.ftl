### What was checked about a bed, one finding a message or two. Most findings have a message for a
### passed check and one for a failed check.

## The section

check-title = Checks
# How grave a finding is, set before it.
check-stop = Stop
check-caution = Caution
check-note = Note
# Below the failed checks: how many others were passed.
check-passed-others = { $n ->
    [one] One other check found nothing wrong.
   *[other] { CAPITAL(WORD($n)) } other checks found nothing wrong.
}
check-passed-all = { $n ->
    [one] The one check that could be made found nothing wrong.
    [2] Neither of the two checks found anything wrong.
   *[other] The { WORD($n) } checks found nothing wrong.
}
# A finding of an earlier version that has no sentence of its own.
check-bare = { $check }: { $value }.
check-bare-expected = { $operator ->
    [at-most] { $check }: { $value }; at most { $limit } was expected.
    [below] { $check }: { $value }; less than { $limit } was expected.
    [at-least] { $check }: { $value }; at least { $limit } was expected.
    [above] { $check }: { $value }; more than { $limit } was expected.
    [not] { $check }: { $value }; anything but { $limit } was expected.
   *[is] { $check }: { $value }; { $limit } was expected.
}

## A reading inside other messages

# $in_water is what a reading in a salt is taken as, or "none"; $day may be "none".
check-reading = { $in_water ->
    [none] { $day ->
        [none] pH { $ph } ({ field-ph-by })
       *[other] pH { $ph } ({ field-ph-by }) on { $day }
    }
   *[other] { $day ->
        [none] pH { $ph } ({ field-ph-by }), taken as { $in_water } in water
       *[other] pH { $ph } ({ field-ph-by }), taken as { $in_water } in water, on { $day }
    }
}
# What was applied, inside a sentence; $days is a list of days.
applied-on = the { $product } applied on { $days }
applied-times = the { $product } applied { $n } times from { $first } to { $last }
check-plant-range = { $plant } ({ $range })

## How the pH was measured

check-method-probe = A soil probe can be half a unit out or more, either way. It makes our range wider but does not decide the advice.
check-method-strip = A test strip or colour kit reads to about half a unit. It makes our range wider.
check-method-unknown = The report does not say how the pH was measured. In calcium chloride the same soil reads about { $step } lower than in water.
check-method-laboratory = Measured by a laboratory method: { $reading }.
check-salt-water-ok = The reading in salt is below the one in water, as it should be.
check-salt-water-odd = The reading in a salt solution is above the one in water. That is very unusual: one of the two is probably mislabelled, so ask the laboratory.
check-buffer-ok = The buffer pH is above the soil pH, as it is in acid soil.
check-buffer-odd = A buffer pH is measured only on acid soils, and is above the soil pH. Here it is not: the two may have been swapped.

## Lime, sample and depth

check-lime-ok = The pH and the free lime fit together.
check-lime-odd = More than { $limit } free lime does not fit so acid a soil. Shells or coarse limestone grit can explain it; otherwise one of the two figures belongs to another sample.
check-age-ok = The sample is recent enough.
check-age-old = The sample is more than { $age } old. Fertiliser, water and rain have changed the soil since.
check-depth-ok = The sample comes from the depth you treat.
check-depth-odd = The sample was taken { $sampled } deep, and the treatment reaches { $treated }. We take its pH for the whole depth treated. Keep to { $sampled } in later tests, or they cannot be compared.

## Salt, aluminium and sodium

check-salt-no-extract = A conductivity tells us nothing unless we know how the soil was extracted: saturated paste, 1:1 or 1:5. Add that to the bed.
check-salt-ok = Salt is low enough.
check-salt-sensitive = The salinity (ECe) is { $ece }. That is below the limit for most plants, { $limit }, but the growth of sensitive ones suffers from 1.0 to 2.0 dS/m up: beans, carrots, onions, strawberries and citrus among them. Water deeply now and then, so that salt does not build up, and test it again.
check-salt-high = The soil is too salty already: its salinity (ECe) is { $ece }, and the limit is { $limit }. Acidifying and liming materials are salts or make salts, so flush the salts out with good water first.
check-aluminium-ok = At this pH little aluminium is available.
check-aluminium-high = At this pH, aluminium holds about { $share } of the exchange sites. It injures the roots of plants that do not come from acid ground.
check-sodium-ok = Sodium is low enough.
check-sodium-high = This soil is sodic: its high pH comes from sodium. Gypsum, drainage and specialist advice come before any acid.
# $products is the ash or caustic lime applied lately, or "none"; $held what lime alone holds.
check-sodium-suspected = { $products ->
    [none] So high a pH is usually that of a sodic soil, where gypsum, drainage and specialist advice come before any acid.
   *[other] So high a pH most likely comes from the { $products } applied here, and falls back towards { $held } as what is caustic turns to carbonate and washes out. If it still reads as high in half a year, have sodium tested.
}

## Ground and water

check-drainage-ok = Air reaches the soil.
check-drainage-wet = In waterlogged soil, sulphur turns to hydrogen sulphide instead of acid, and that kills roots. Drain it first.
check-site-ok = Nothing is known against this ground.
check-site-old = Old urban or orchard ground can hold lead, copper, zinc, cadmium or arsenic. Test for metals before you make it more acid, and grow food in clean soil.
check-hardness = Hardness counts calcium and magnesium; only alkalinity (bicarbonate) raises the pH. Ask the water company for the alkalinity.
# $short is "yes" where there is too little.
check-magnesium = { $unit ->
    [percent] Magnesium holds { $found } of the exchange sites; less than { $limit } is low.
   *[mg-kg] The soil has { $found } mg/kg of magnesium; less than { $limit } mg/kg is low.
} { $short ->
    [yes] Where lime is wanted, dolomitic lime supplies it.
   *[no] Either kind of lime will do.
}
# $much is "yes" where the laboratory rates phosphorus high or very high.
check-phosphorus-blue = { $much ->
    [yes] Phosphorus is rated high. It locks aluminium up, so the flowers may stay pink or mauve at the right pH. Give no phosphorus and no bone meal here; in a pot of fresh mix it can be kept low.
   *[no] Phosphorus does not stand in the way of blue flowers.
}
check-phosphorus-pink = { $much ->
    [yes] Phosphorus is rated high, which helps to keep the flowers pink.
   *[no] Phosphorus is not rated high, so the pH alone keeps aluminium from the flowers.
}
# $times is how strongly the mix resists beside peat, $spread how many times more or less it may.
check-medium = { $medium ->
    [coir-mix] A coir mix
    [bark-mix] A bark mix
   *[peat-free-mix] A peat-free mix
} is taken to resist a change of pH { $times } times as strongly as a peat mix of the same volume. Nobody has published a curve of one, and bags do not say what is in them: it may be { $spread } times more or less. A jar titration of your own mix would settle it.
# $matter is the organic matter; $limes is "yes" where the ground lies below the range wanted.
check-peat = With { $matter } organic matter this is peaty ground. How strongly it resists is estimated from organic layers of soil, but the pH range wanted, like nearly every published one, is for mineral soil.{ $limes ->
    [yes] {" "}On peat a lower pH often serves: for sugar beet, a British source asks 7.0 on clay and sandy loam, and 6.0 to 6.5 on peat. Ask a local adviser before you lime all the way up.
   *[no] {""}
}
# Both as told; $usual is what a soil with so much organic matter weighs at most as a rule.
check-density-with-humus = { $matter } organic matter and a bulk density of { $density } hardly go together: a soil with so much organic matter usually weighs no more than about { $usual }. Either the ground is packed hard, or the two come from different samples. We use the density for how much soil there is, and the organic matter for how strongly it resists. Have both checked.
check-volcanic = Volcanic soils resist about twice as much as our usual curve. We have doubled the amount and widened its range; a jar titration would settle it.
check-laboratory-lime = Your laboratory advises { $lime } of lime. Its target pH, depth and lime quality may differ from ours. If the two amounts differ by more than a factor of two, ask the laboratory.

## How strongly the soil resists

# $fact is the measurement, by its name inside a sentence.
check-scale-more = Taken at face value, the { $fact } says that this soil resists { $times } as much as its texture and organic matter suggest. That is hard to believe, so it counts for less than usual. Check the figure, its unit and its method.
check-scale-less = Taken at face value, the { $fact } says that this soil resists only { $share } of what its texture and organic matter suggest. That is hard to believe, so it counts for less than usual. Check the figure, its unit and its method.

## What is wanted

check-target-method = { $method ->
    [kcl] The soil was tested in potassium chloride, but the target does not say which method it is meant in, so we took it as pH in water. If it is meant in potassium chloride, say so.
   *[cacl2] The soil was tested in calcium chloride, but the target does not say which method it is meant in, so we took it as pH in water. If it is meant in calcium chloride, say so: the difference is about { $step }.
}
check-target-ok = The target is within the published range for the plants.
check-target-outside = The target, pH { $target } in water, is outside the published range for { $plants }, pH { $range }. We have followed it all the same; check it, and the method it is meant in.
check-range-weak = The published range for this plant rests on one source or on memory. It does not start a plan by itself: give a target pH if you have reason to trust one.
check-range-disagree = { $plants ->
    [one] Sources disagree about this plant: the midpoints of their ranges are { $spread } pH apart. We use the median range.
   *[other] Sources disagree about one or more of these plants: the midpoints of their ranges are up to { $spread } pH apart. We use the median ranges.
}
# $sources is how many independent sources there are for one plant, "none" for several plants.
check-range-agree = { $sources ->
    [none] The published ranges for these plants agree.
    [one] The published ranges agree ({ $sources } independent source).
   *[other] The published ranges agree ({ $sources } independent sources).
}
check-shared-ok = The pH ranges of these plants overlap.
check-shared-none = No single pH suits these plants together: { $ranges }. Plant them apart.
check-wanted-too-soon = Nothing applied now could show by the date wanted: sulphur and lime take months. The advice looks three years ahead instead.

## Readings beside one another

check-readings-agree = The readings agree within their errors.
check-readings-contradict = Two readings of one season contradict each other, with nothing applied in between: { $one }, and { $two }.
check-readings-worst = They are the worst of { $pairs } such pairs.
check-readings-depths = They come from different depths, which may explain it.
check-readings-together = We use the readings of the season together and allow for a larger error. Take another sample before you spend money on the strength of either.
check-readings-jump = The readings changed from { $one } to { $two }, and nothing applied in between is recorded.
check-readings-jump-ask = If something was applied, add it. If nothing was, one of the two is probably wrong: take another sample.
check-readings-repeated = { $extra ->
    [one] One reading is given twice, with the same day, pH and method. It counts once.
   *[other] { CAPITAL(WORD($extra)) } readings are repeats, with the same day, pH and method. Each counts once.
}
check-readings-too-old = Readings more than { $age } old were not used ({ $days }).
check-readings-all-too-old = No reading is recent enough to use: soil changes too much in { $age } ({ $days }). Take a new sample.
# What the report without a date stands beside.
check-no-date = { $beside ->
    [readings] The soil report has no date, so we count it as taken today, { $today }, after all the dated readings. If it is older, add the date of the sample: the advice may change.
    [applications] The soil report has no date, so we count it as taken today, { $today }, after all the dated applications. If it is older, add the date of the sample: the advice may change.
   *[both] The soil report has no date, so we count it as taken today, { $today }, after all the dated readings and applications. If it is older, add the date of the sample: the advice may change.
}
check-rough-only = None of the { WORD($n) } readings was made by a named laboratory method. Probes, strips and unnamed methods can all be wrong in the same direction, so several of them are not much better than one. A single laboratory test would count for more.
check-rough-first = { $readings-count ->
    [one] One rough reading is older than the first laboratory test and is not used: { $readings }.
   *[other] Some rough readings are older than the first laboratory test and are not used: { $readings }.
}

## Applications and the readings after them

check-not-seen = The last reading, of { $day }, was taken before { $applied } could act, so it says nothing about the effect. That effect is calculated here, not measured.
check-half-seen = When the sample was taken, about { $share } of the { $product } applied on { $day } had reacted, so the reading does not show its full effect yet. The rest is calculated.

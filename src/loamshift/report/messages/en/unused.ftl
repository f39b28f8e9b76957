### Facts that were given and have no influence on this advice, each with the reason.
### $facts lists them by their names inside a sentence; $facts-count is how many there are.

unused-no-ph = { $facts-count ->
    [one] Given but not used: { $facts }. We will use it once we know the pH of the soil.
   *[other] Given but not used: { $facts }. We will use them once we know the pH of the soil.
}
unused-no-aim = { $facts-count ->
    [one] Given but not used: { $facts }. We will use it once you say what you want to grow.
   *[other] Given but not used: { $facts }. We will use them once you say what you want to grow.
}
unused-no-place = { $facts-count ->
    [one] Given but not used: { $facts }. Without a place there is no yearly course to compare it with.
   *[other] Given but not used: { $facts }. Without a place there is no yearly course to compare them with.
}
unused-nothing-applied = { $facts-count ->
    [one] Given but not used: { $facts }. It would matter only if this advice called for something to be applied.
   *[other] Given but not used: { $facts }. They would matter only if this advice called for something to be applied.
}
unused-lime-idle = Given but not used: { $facts }. Free lime matters only where the pH is to be changed or kept.
unused-too-acid-for-lime = Given but not used: { $facts }. At this pH we take { soil-the } to hold no free lime in any case.
unused-no-common-range = Given but not used: { $facts }. No single pH suits these plants together, whatever the date.
unused-no-lime-wanted = Given but not used: { $facts }. Magnesium matters only for the choice between kinds of limestone.
unused-no-watering = Given but not used: { $facts }. Nothing says that the bed is watered.
unused-medium-has-its-own = Given but not used: { $facts }. For a potting mix, figures of the mix are used instead.
unused-texture-given = Given but not used: { $facts }. The texture class is used instead.
unused-shares-given = Given but not used: { $facts }. Sand and clay already give the texture.
unused-one-share = Given but not used: { $facts }. One share alone does not give the texture: add the clay.
unused-carbon-given = Given but not used: { $facts }. The organic carbon is used instead.
unused-carbonate-given = Given but not used: { $facts }. The free lime that the laboratory measured is used instead.
unused-no-fizz = Given but not used: { $facts }. Without the result of the fizz test, the acid says nothing.
unused-no-acid-planned = Given but not used: { $facts }. Which acid showed so weak a fizz matters only where acid is planned.
unused-no-ec = Given but not used: { $facts }. Without the conductivity, the extract says nothing.
unused-no-target-ph = Given but not used: { $facts }. The method belongs to a target pH, and none is given.
unused-resistance = { $facts-count ->
    [one] Given but not used: { $facts }. It says nothing about how strongly this soil resists.
   *[other] Given but not used: { $facts }. They say nothing about how strongly this soil resists.
}
unused-stopped = { $facts-count ->
    [one] Given but not used: { $facts }. The advice is to stop first, and that does not depend on it.
   *[other] Given but not used: { $facts }. The advice is to stop first, and that does not depend on them.
}
unused-clay-type-usual = Given but not used: { $facts }. The usual curve fits this clay: only volcanic soil needs another.
unused-not-per-plant = Given but not used: { $facts }. No amount here is given per plant.
unused-planted-given = Given but not used: { $facts }. It matters here only that { bed-the } is planted.
unused-pot-all-depths = Given but not used: { $facts }. A pot follows the air at every depth.
unused-pot-has-no-subsoil = Given but not used: { $facts }. There is no ground below the soil in a pot.
unused-depths-agree = Given but not used: { $facts }. The readings agree, so their depths explain nothing.
unused-own-climate = Given but not used: { $facts }. Your own climate figures are used instead.
unused-neutral = { $facts-count ->
    [one] Given but not used: { $facts }. It brings neither acid nor lime.
   *[other] Given but not used: { $facts }. They bring neither acid nor lime.
}
unused-all-acted = { $facts-count ->
    [one] Given but not used: { $facts }. It had fully reacted before the soil was tested.
   *[other] Given but not used: { $facts }. They had fully reacted before the soil was tested.
}
unused-sodium-first = { $facts-count ->
    [one] Given but not used: { $facts }. Sodium comes first; we will use it once sodium is known not to be the cause.
   *[other] Given but not used: { $facts }. Sodium comes first; we will use them once sodium is known not to be the cause.
}
unused-wrong-way = { $facts-count ->
    [one] Given but not used: { $facts }. It does not move the pH in the direction needed.
   *[other] Given but not used: { $facts }. They do not move the pH in the direction needed.
}
unused-no-price = Given but not used: { $facts }. Without a price and the weight of its pack there is no cost.
unused-not-compared = Given but not used: { $facts }. No amounts of products are compared here, so nothing is priced.
unused-no-price-in-it = Given but not used: { $facts }. No price here is in that currency, and we do not convert prices.
unused-test-not-weighed = { $facts-count ->
    [one] Given but not used: { $facts }. That test is not weighed here.
   *[other] Given but not used: { $facts }. Those tests are not weighed here.
}
unused-not-dug = Given but not used: { $facts }. It counts only for open ground that was dug, not for a lawn, a pot or a mix.
unused-usual-humus = Given but not used: { $facts }. The usual losses of planted ground already include what rots there.
unused-no-before = Given but not used: { $facts }. Without what the ground was before, the years say nothing.

## What could have said how strongly the soil resists

# $fact is the figure, $method the laboratory's name for how it was measured.
unused-fact-by = { $fact } ({ $method })
unused-scale-no-equation = The { $fact } is not used: we found no source for the equation of this method. The laboratory's own lime figure can be used instead.
# $limit is a pH.
unused-scale-not-acid = The { $fact } is not used: it is about raising the pH to { $limit }, and the soil is there already.
unused-scale-no-acidity = The { $fact } of { $value } is not used: the equation of this method finds no acidity at that reading. That fits a soil that needs little lime, such as a poor sand.
unused-scale-above-sense = The { $fact } of { $value } is not used: this buffer reads { $limit } without any soil, and no acid soil can raise it. Check the figure and the name of the buffer.
unused-scale-below-sense = The { $fact } of { $value } is not used: this buffer seldom falls below { $limit } in any soil. Check the figure and the name of the buffer.
unused-scale-like-soil-ph = The { $fact } of { $value } is not used: it is no higher than the soil's own pH of { $limit }, and a buffer pH always is. It may be the soil pH itself.
unused-scale-no-reading = The buffer is named ({ $method }), but its pH is not given.
unused-scale-same-report = The { $fact } is not counted a second time: it is in the same report as the figure that is used, and one is calculated from the other.
unused-scale-nothing-found = The { $fact } is zero, so it says little about how strongly the soil resists.
unused-scale-organic-medium = The { $fact } is not used: it is made for mineral soil, and a potting mix behaves differently. A jar titration of the mix itself can be used.
unused-scale-nothing-more = The { $fact } is not used: no data we found show that it tells more of how a soil resists than texture and organic matter do.
unused-no-hydrangea = Given but not used: { $facts }. It counts only for the colour of hydrangeas.

## Pots instead of the ground

unused-pots-not-asked = Given but not used: { $facts }. You asked for no comparison with pots.
unused-pots-no-forecast = Given but not used: { $facts }. Pots and ground are compared by a forecast, and there is none here.
unused-pots-is-pot = Given but not used: { $facts }. These plants grow in pots already. To compare, describe the ground.
unused-pots-outgrown = Given but not used: { $facts }. Pots are compared with a bed of plants that can stay in a pot for five years.
unused-pots-other-first = Given but not used: { $facts }. Pots are compared with the ground once what comes first is settled.

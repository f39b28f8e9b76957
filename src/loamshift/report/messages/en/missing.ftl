### What nobody filled in that matters: why it matters, and how to find it out.

missing-title = Worth measuring
# One line of the list; $field is the label of what is missing.
missing-line = **{ $field }.** { $why } { $how }

missing-ph-why = Everything else starts from it.
missing-ph-how = Get a laboratory pH, measured in water, of a mixed sample, and note its depth.
missing-rough-why = A probe, a test strip or a pH of unknown method is a hint, not a test.
missing-rough-how = Send a mixed sample to a laboratory and ask for the pH in water.
missing-aim-why = No pH is right or wrong by itself.
missing-aim-how = Name the plant you want to grow, or give a target pH.
missing-fizz-why = Free lime uses up the acid before the pH changes.
missing-fizz-how = Drip dilute hydrochloric acid (or vinegar) on dry { soil-one }, and watch and listen for fizzing.
missing-carbonate-why = A fizz test can still be out by a factor of four, and { soil-one } that does not fizz can still contain some free lime.
missing-carbonate-how = Ask a laboratory for free lime (CaCO3 by gas volume).
missing-sodium-why = So high a pH comes from sodium more often than from lime.
missing-sodium-how = Ask a laboratory for exchangeable sodium and salt (EC), at two depths.
missing-alkalinity-why = Alkaline water limes { bed-the } with every watering.
missing-alkalinity-how = Ask the water company for the alkalinity of the water, or measure it with an aquarium drop kit.
missing-weekly-why = This water limes { bed-the } with every watering, so the amount matters.
missing-weekly-how = Set out a jar while you water, or read the meter before and after.
missing-texture-why = Clay resists two to three times as much as sand.
missing-texture-how = Roll a moist ball of soil between your fingers, or give the clay content.
missing-organic-matter-why = Nothing resists a change of pH as much.
missing-organic-matter-how = Look for organic matter on the soil report, or ask a laboratory for loss on ignition.
missing-titration-why = { $ground ->
    [container] Mixes that look alike resist very differently.
   *[bed] Soils of one texture resist very differently.
}
# $test is "buffer" where a buffer pH would tell, too.
missing-titration-how = { $test ->
    [buffer] A jar titration of { soil-this }, or a buffer pH, shows how strongly it resists a change in pH.
   *[jar] A jar titration of { soil-this } shows how strongly it resists a change in pH.
}
missing-area-why = Without it there is a rate but no amount.
missing-area-how = Multiply the length of the bed by its width.
missing-place-why = { $way ->
    [lime] Where the bed lies says how finely its ground limestone is likely to be ground, and how much rain washes out.
   *[acidify] Sulphur reacts faster in warm soil.
}
missing-place-how = Name the nearest town, or give its latitude and longitude.
missing-planted-why = Roots in the ground lower the amount you can apply at once.
missing-planted-how = Say whether plants are growing in { bed-the }; we took it as empty.
missing-prills-why = Prills with clay break up within months or a few years; pure ones hardly break up at all. We took either kind as equally likely.
missing-prills-how = Look for bentonite or clay on the bag, or leave a few prills in water for a day.
missing-before-why = In ground kept bare, old organic matter rots and makes acid, old turf most of all.
missing-before-how = Say what the ground was before it was dug: turf, manured, arable or garden ground.
missing-before-dug-why = Turf or manured ground goes on rotting for years after it is dug. In this bed that could move the pH more than a test would miss.
missing-before-dug-how = Say what the ground was before it was dug: turf, manured, arable or garden ground.
missing-before-years-why = Old organic matter rots fastest in the first years after digging.
missing-before-years-how = Say how many years ago the ground was dug.

### What to take care of. Each caution has three messages: the full text, for the working; a short
### one for the front sheet, saying what must be done (25 words at most); and a label of a word or
### two, set in bold before either. Figures come from the table of figures in cautions.

## The section

caution-title = Precautions
# The heading of what is told of a bed besides precautions; $kind says which.
caution-section = { $kind ->
    [sign] What the plants show
    [around] What lies around { bed-the }
   *[colour] The colour of the flowers
}
caution-rules = Follow the label and local rules; this does not replace a licensed or local adviser.
# Set in bold before a text; $label is one of the labels below.
caution-line = **{ $label }.** { $text }

## Handling

# $minutes is how long to rinse an eye, $ignition the temperature at which the dust catches fire.
caution-sulfur-dust = Sulphur dust irritates eyes, skin and airways. Wear goggles, gloves and a dust mask, and spread it on a still day. If it gets in an eye, rinse with plain water for { $minutes } minutes. The dust can explode, and catches fire at about { $ignition }: keep it away from flames, sparks and static. Never store it with nitrates or chlorates. Follow the label and local rules.
caution-sulfur-dust-short = Sulphur dust irritates eyes and lungs and can catch fire. Wear goggles, gloves and a dust mask, choose a still day, and keep flames away.
caution-sulfur-dust-label = Dust

caution-caustic-lime = Hydrated lime, burnt lime and fresh wood ash burn skin, eyes and airways. The limes are not advised in home gardens: ground limestone does the same work safely. To handle any of them, wear goggles, gloves, long sleeves and a dust mask. Brush dust off the skin before you flood it with water. Rinse a splashed eye for at least { $minutes } minutes, then get medical help. Never apply lime or ash together with ammonium or urea.
caution-caustic-lime-short = Hydrated lime, burnt lime and fresh wood ash burn skin, eyes and lungs: wear goggles, gloves, long sleeves and a dust mask.
caution-caustic-lime-label = Caustic lime and ash

caution-acid-handling = Pour acid into water, never water into acid: it spatters. Only trained people in goggles, acid-proof gloves and clothing should handle it, with acid-proof equipment. Nobody should drink or wash from the treated line. Battery acid has no place in a garden. Never let acid meet hypochlorite (bleach, or pool or line chlorine): it gives off chlorine gas. Follow the label and local rules.
caution-acid-handling-short = Acid is for trained people in goggles and acid-proof gloves. Pour acid into water, never water into acid, and keep bleach away from it.
caution-acid-handling-label = Handling acid

# $ece is a range of salinity, in saturated paste.
caution-salt = This much soluble salt can scorch roots before it does any good. Spread salts evenly, water them in well, and keep them off seedlings and dry soil. Sensitive plants lose growth once soil salinity (ECe) passes about { $ece }.
caution-salt-short = Salts can scorch roots. Spread them evenly, water them in well, and keep them off seedlings and dry soil.
caution-salt-label = Scorch

# $least and $subsoil are pH, the second in calcium chloride; $loose is a range in ppm.
caution-aluminium = Aluminium sulphate adds aluminium, which injures roots. Keep it for hydrangeas grown blue, and off other plants and any soil below pH { $least }. Very acid soil releases aluminium by itself. In Western Australia, aluminium in the subsoil is toxic below pH { $subsoil } in calcium chloride, and { $loose } ppm in the soil harms sensitive plants.
caution-aluminium-short = Aluminium injures roots. Keep aluminium sulphate for blue hydrangeas, and off other plants and very acid soil.
caution-aluminium-label = Roots and aluminium

# $blueberry is a rate a year, $lawn a rate at once, both of nitrogen.
caution-nitrogen = Feed for the nitrogen the plants need, not for the acid it brings: what they cannot use scorches them or washes out. The most recommended for mature highbush blueberries in British Columbia is { $blueberry } of nitrogen a year. For a lawn in New York it is { $lawn } in one application. Never apply lime or ash together with ammonium or urea.
caution-nitrogen-short = Give only as much nitrogen as the plants need. What they cannot use scorches them or washes out.
caution-nitrogen-label = Nitrogen

caution-hydrogen-sulfide = In waterlogged soil, sulphur and sulphates turn to hydrogen sulphide, which kills roots. Put none on saturated ground: drain it first. A smell of rotten eggs or a black layer means stop, drain, and add no more sulphur. Do not dig with your face close to the ground: the nose stops noticing the gas where it is dangerous.
caution-hydrogen-sulfide-short = Put no sulphur on waterlogged ground: it turns to a gas that harms roots and people.
caution-hydrogen-sulfide-lying = In waterlogged soil, the sulphur or sulphate that lies here turns to hydrogen sulphide, which kills roots. Let the ground drain. A smell of rotten eggs or a black layer shows the gas. Do not dig with your face close to the ground: the nose stops noticing the gas where it is dangerous.
caution-hydrogen-sulfide-lying-short = Let the ground drain: sulphur lying in waterlogged soil turns to a gas that harms roots and people.
caution-hydrogen-sulfide-label = Wet ground

caution-iron-stain = Iron sulphate stains paving, stone and clothes rust-brown. Sweep it off at once while it is dry, then water only the bed.
caution-iron-stain-short = Iron sulphate stains paving and clothes rust-brown. Sweep it off at once while it is dry, then water only the bed.
caution-iron-stain-label = Rust

# $lead is a pH.
caution-metals = On old urban or orchard ground, acid can make lead, cadmium, zinc and copper more available. Plants take up less lead above about pH { $lead }. Test for metals and arsenic before you change the pH, and grow food in a raised bed of clean soil. Arsenic and molybdenum behave the other way: they move more as the pH rises.
caution-metals-short = This ground may hold lead or arsenic. Test for metals before you change its pH, and grow food in clean soil.
caution-metals-label = Metals

# $year is a rate of sulphur a year.
caution-established-roots = Do not dig near established roots. Spread it thinly on the surface away from the stems, water it in, and keep to { $year } of sulphur a year. It works slowly from above and reaches only the top few centimetres at first.
caution-established-roots-short = Do not dig near established roots. Spread it thinly on the surface, away from the stems, and water it in.
caution-established-roots-label = Living roots

# $high is a pH.
caution-ammonia = Never apply lime or ash together with ammonium or urea: ammonia gas is given off, and the nitrogen is lost with it. On a lawn, leave about a month between them. On soil above about pH { $high }, work ammonium or urea in, or water them in at once.
caution-ammonia-short = Never apply lime or ash together with ammonium or urea: ammonia gas is given off. Leave about a month between them.
caution-ammonia-label = Lime and nitrogen apart

caution-children-pets = Keep children and pets off until it is watered in and dry. Store it locked up and dry in its labelled pack, away from food and animal feed. Follow the label and local rules.
# Behind the message above, where an iron salt is applied, compared or lies there.
caution-iron-swallowed = Iron salts are poisonous if swallowed, above all to small children: get medical help at once (in the UK, call 111, or 999 in an emergency).
caution-children-pets-short = Keep children and pets off until it is watered in and dry. Store it locked up, dry and in its labelled pack.
caution-children-pets-label = Children and pets

# $least is a pH.
caution-acid-sulfate = Coastal or drained marine clay with yellow mottles, or a pH below { $least }, may mean acid sulphate soil: do not acidify, drain or dig it. It needs many times as much lime as any table here shows. Get specialist advice.
caution-acid-sulfate-short = This may be acid sulphate soil. Do not acidify, drain or dig it, and get specialist advice.
caution-acid-sulfate-label = Acid sulphate soil

## What is wrong with the bed

# $planted is a rate of sulphur a year, $lawn one at once.
caution-over-cap = An amount here is more than the published limit for this ground. Planted blueberries, for example, get at most { $planted } of sulphur a year on the surface, and a lawn { $lawn } at once. Keep to the limit, wait, and test before you apply more.
caution-over-cap-short = An amount here is more than the published limit for this ground. Keep to the limit, wait, and test before you apply more.
caution-over-cap-label = Too much at once

caution-overdose = An amount like this harms plants: { $killed } of sulphur killed pine seedlings in a nursery. Apply nothing more, neither acid nor lime nor fertiliser, and scrape up what is still on the surface. Have pH and salt tested, and correct the soil only on the strength of those figures.
caution-overdose-short = Apply nothing more, neither acid nor lime nor fertiliser. Scrape up what is still on the surface, and have pH and salt tested.
# Where nothing like it was applied yet.
caution-overdose-proposed = An amount proposed here harms plants: { $killed } of sulphur killed pine seedlings in a nursery. Do not apply it. Keep to the published limit, and test before any second application.
caution-overdose-proposed-short = An amount proposed here harms plants: do not apply it.
caution-overdose-label = Overdose

# $rabbiteye is a pH.
caution-too-acid = { $ground ->
    [container] A mix as acid as this injures the roots of most plants.
   *[bed] Soil as acid as this harms most plants through aluminium and manganese.
} Stop everything that acidifies, ammonium fertilisers included: for rabbiteye blueberries below pH { $rabbiteye }, the advice is urea instead of ammonium sulphate. Lime in small steps, and only up to the lower end of the range the plants need.
caution-too-acid-short = Stop everything that acidifies, ammonium fertilisers included. Lime in small steps, and only up to the lower end of the plants' range.
caution-too-acid-label = Too acid

# $sodium is a percentage of the exchange sites.
caution-sodic = In sodic soil, sodium holds { $sodium } or more of the exchange sites. The pH is not the only problem: the soil loses its structure. Putting it right takes calcium, drainage and leaching under specialist advice, so no dose is given here.
caution-sodic-short = Sodium is the problem here, not the pH alone. Get specialist advice on calcium, drainage and leaching.
caution-sodic-label = Sodium
caution-potato-scab = The range is kept low against common scab, which marks the skins of more tubers from about pH { $scab } up. Where the pH cannot be brought down, a variety that resists scab, kept moist while its tubers form, is the usual way out. Lime after potatoes, not before them.
caution-potato-scab-short = The range is kept low against scab, which marks the skins. Lime after potatoes, not before, or choose a variety that resists it.
caution-potato-scab-label = Potato scab
caution-club-root = Where club root is in the ground, brassicas are usually limed to about pH { $limed }. Lime slows the disease and does not cure it. Do not carry soil from that plot to another on boots, tools or plants.
caution-club-root-short = Where club root is in the ground, brassicas are usually limed to about pH { $limed }. Lime slows the disease and does not cure it.
caution-club-root-label = Club root

## How things work

# $sulfur is used up by $lime (a percentage) of free lime in the top $depth; $vinegar still shows.
caution-free-lime = Free lime uses up the acid first: each { $lime } of it in the top { $depth } takes about { $sulfur } of sulphur before the pH changes for good. Vinegar misses less than about { $vinegar }, so soil that does not fizz can still contain some.
caution-free-lime-short = Free lime uses up the acid before the pH changes for good. Soil that does not fizz with vinegar can still contain some.
caution-free-lime-label = Lime in the soil

# $water of the given $alkalinity adds $lime, which $sulfur undoes.
caution-water-alkalinity = It is the alkalinity of the water, not its pH and not its hardness, that limes { bed-the }. At an alkalinity of { $alkalinity }, { $water } of water adds { $lime } of lime. It takes { $sulfur } of sulphur to undo that.
caution-water-alkalinity-short = The alkalinity of the water limes { bed-the }, not its pH or its hardness. Use rainwater where you can.
caution-water-alkalinity-label = The water

# Speeds at $cool and at $cold as percentages of that at $warm.
caution-cold-soil = Sulphur is turned into acid by soil bacteria, which need warmth. At { $cool } it reacts about { $cool_share } as fast as at { $warm }, and at { $cold } about { $cold_share } as fast. Where winters are cold, sulphur spread in autumn works the next summer.
caution-cold-soil-short = Sulphur works only in warm soil. Where winters are cold, sulphur spread in autumn works the next summer.
caution-cold-soil-label = Warmth

# $months is a range.
caution-too-early = It is too early to judge. Sulphur takes { $months } months, depending on warmth and moisture, and lime takes months too. Do not add more on the strength of a test taken before the date given here.
caution-too-early-short = Sulphur and lime take months. Do not add more on the strength of a test taken before the date given here.
caution-too-early-label = Patience

# $scatter is a range of pH, $bias a difference in pH.
caution-probe-reading = A soil probe or test strip is a hint, not a test. Even electrodes drawn through six farm fields scattered by { $scatter } pH against the laboratory, and read up to { $bias } too high on average. Send a mixed sample to a laboratory before you apply a large amount.
caution-probe-reading-short = A soil probe or test strip is a hint, not a test. Send a mixed sample to a laboratory before you apply a large amount.
caution-probe-reading-label = The reading

caution-method-unknown = A pH without its method can mislead. The same soil reads lower in a salt solution, usually by about half a unit in calcium chloride and about one unit in potassium chloride. Ask the laboratory which it used.
caution-method-unknown-short = Ask the laboratory how it measured the pH. The same soil reads lower in a salt solution than in water.
caution-method-unknown-label = Which pH

# $cup is what a US cup of sulphur weighs; spread on $area, it is $ratio the yearly limit.
caution-unit-slip = Check the unit of every figure asked about, on the report or the bag. Weigh a product rather than measure it in cups: a US cup of sulphur holds about { $cup }. Spread on { $area }, that is { $ratio } the yearly limit for planted blueberries. Do not mix up g and kg, per plant and per m², or per 100 and per 1,000 square feet.
caution-unit-slip-short = Check the units on the report or the bag, and weigh a product rather than measure it in cups.
caution-unit-slip-label = Units

caution-neutral-salt = Gypsum, Epsom salt and sulphate of potash bring no acid, whatever the label says. Because they are salts, they can lower a reading in water for a while, but the soil is no more acid for it.
caution-neutral-salt-short = Gypsum, Epsom salt and sulphate of potash bring no acid, whatever the label says.
caution-neutral-salt-label = Salts without acid

# $dose is a rate of sulphur at once, $months the least wait.
caution-split = Split it into several applications. On bare ground, apply at most { $dose } of sulphur at once, then wait at least { $months } months and test before the next application. Where plants grow, the limit is lower.
caution-split-short = Split it into several applications, and test before each one after the first.
caution-split-label = Several applications

# $months is a range.
caution-iron-chlorosis = Yellow young leaves with green veins on chalky or limy soil are short of iron. The soil holds enough, but the lime keeps it from the roots. An iron chelate made for limy soil (EDDHA) or a leaf spray greens them for a season without changing the pH. A treated tree takes { $months } months to respond. For a large tree, call a qualified arborist.
caution-iron-chlorosis-short = Yellow young leaves with green veins are short of iron. A chelate made for limy soil (EDDHA) greens them for a season.
caution-iron-chlorosis-label = Iron

## What lies around a bed

caution-beside-limestone = Rain dissolves a little limestone gravel for as long as it lies there, and its dust washes in much sooner. The edge of the bed rises first. Rake the gravel off the bed, keep a strip free of it, and cover paths with granite, flint or bark instead. Test the edge and the middle separately.
caution-beside-limestone-short = Limestone gravel gives back lime for as long as it lies there. Keep it off the bed, and test the edge and the middle separately.
caution-beside-limestone-label = Limestone gravel

caution-beside-concrete = Fresh concrete gives off strong alkali with each rain. It gives off much less after its first year, once the surface has turned to carbonate. Keep water from washing out mixers and tools off the bed, lead the run-off away from it, and set acid-loving plants well clear. Old sound concrete matters little; crumbling concrete acts like mortar in the soil.
caution-beside-concrete-short = Fresh concrete gives off alkali with each rain in its first year. Lead the run-off away, and set acid-loving plants well clear.
caution-beside-concrete-label = Concrete

caution-mortar-rubble = Mortar and plaster in the soil are lime. The dust acts at once, and the pieces go on dissolving for many years. A sample can miss them or catch one, so take more cores than usual and sieve the pieces out. Pick out by hand what you can: sulphur cannot keep ahead of what is left.
caution-mortar-rubble-short = Pieces of mortar go on giving lime for many years. Pick them out before you spread anything.
caution-mortar-rubble-label = Mortar in the soil

caution-lined-trench = Acid soil brought into a trench does not stay as it was. Hard water changes it from above. Roots and worms mix in the ground around it, from below and wherever the lining is open, within a few years. Leave the bottom open so that water drains, water with rainwater, and test near the edge as well as in the middle once a year.
caution-lined-trench-short = The ground around a trench comes back into it within a few years. Water with rainwater; test edge and middle once a year.
caution-lined-trench-label = Trench of other soil

caution-over-chalk = Where there is chalk below, roots reach it, worms carry it up and digging mixes it in. The pH of a pocket of better soil creeps up from below and from its edges. Do not dig deeper than the pocket, and test near its bottom too. For acid-loving plants a raised bed or a pot filled with acid mix lasts longer.
caution-over-chalk-short = Chalk below comes up with roots, worms and the spade. Do not dig deeper than the pocket, and test near its bottom too.
caution-over-chalk-label = Chalk below

## What plants show: what to look at before any pH is blamed

caution-yellow-young = Yellow between green veins on the youngest leaves means that too little iron, or manganese, reaches them. A high pH is one cause. Cold or wet soil, injured roots and years of phosphorus feed look the same. Dig down to look at the roots and the wetness, and have the pH and free lime tested, before you spread anything.
caution-yellow-young-short = Yellow young leaves can come from a high pH, wet soil or injured roots. Before you spread anything, check roots and pH.
caution-yellow-young-label = Yellow young leaves

caution-yellow-old = Yellow between the veins that begins on the oldest leaves points to magnesium, and late in the season often only to age. Sandy acid soil and much potash feed bring it about. Ask the laboratory for magnesium before you choose a lime: dolomitic lime supplies it, but only where the pH should rise as well. Epsom salt (magnesium sulphate) supplies it without changing the pH.
caution-yellow-old-short = Yellow old leaves point to magnesium. Have it tested: dolomitic lime supplies it where the pH should rise, Epsom salt where it should not.
caution-yellow-old-label = Yellow old leaves

caution-scorched-edges = Brown, dry leaf edges mean that too little water reaches them: drought, wind, salt from feed or water, or roots that were cut or drowned. The pH is seldom the cause. Feel the soil a hand deep, and have its conductivity (salt) tested before you add any feed, lime or sulphur.
caution-scorched-edges-short = Brown leaf edges come from drought, salt or injured roots, seldom from the pH. Have the salt tested before you add anything.
caution-scorched-edges-label = Scorched edges

caution-too-deep = The stem should widen into roots at the surface. Where it goes straight into the ground like a post, the plant stands too deep: the bark rots and the roots lack air, and the leaves look hungry. Draw the soil or mulch away until the first roots show, or lift and replant a young plant. Nothing spread on the soil helps before that.
caution-too-deep-short = A stem that goes straight into the ground stands too deep. Draw the soil away until the first roots show before you spread anything.
caution-too-deep-label = Planted too deep

caution-wet-feet = Roots in standing water die for lack of air, and the leaves turn yellow whatever the pH is. Dig a hole a spade deep and fill it with water. If water still stands in it a day later, drainage is the trouble: raise the bed, drain it, or choose plants that bear wet ground. Put no sulphur on wet ground.
caution-wet-feet-short = Roots in standing water die whatever the pH is. If a hole filled with water is not empty a day later, mend the drainage first.
caution-wet-feet-label = Wet feet

## The colour of hydrangeas

# $least and $most are pH.
caution-blue-flowers = Aluminium makes the flowers blue; roots take it up only from acid soil, about pH { $least } to { $most }. White ones stay white. Use a feed low in phosphorus. Soil in the ground has aluminium enough; a pot mix needs aluminium sulphate, by its label. The colour follows in the next season. Stop once they are blue or a test reads below { $least }: more injures the roots.
caution-blue-flowers-short = The colour follows in the next season. Use a feed low in phosphorus. Stop acidifying at the lower end of the range: more injures roots.
caution-blue-flowers-label = Blue flowers

# $least and $most are pH.
caution-pink-flowers = The flowers are pink where no aluminium reaches the roots: about pH { $least } to { $most }. White varieties stay white. A feed with more phosphorus helps, as it locks aluminium up. The colour follows in the next season, not in the next week. Stop liming at pH { $most }: above it the leaves turn yellow for want of iron. Where the ground is acid by nature, a pot of lime-free mix is no help, but one of ordinary potting compost is easier to keep pink than a bed.
caution-pink-flowers-short = The colour follows in the next season. Stop liming at { $most }: above it the leaves turn yellow for want of iron.
caution-pink-flowers-label = Pink flowers

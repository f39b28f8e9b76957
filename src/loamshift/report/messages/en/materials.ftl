### What an adviser would say of each material in one sentence.
### Keys are material-KEY-comment, where KEY is the key of the table with hyphens for everything
### that is not a letter or a digit. Figures and their sources stand in the tables.

## Sulphur

material-elemental-sulfur-powder-comment = The finest common grade, and the one to choose if the pH should change within one warm season. Mix it in on a still day.
material-elemental-sulfur-wettable-comment = Very fine sulphur sold as a spray. It works quickly in warm soil but is expensive for the sulphur it contains.
material-elemental-sulfur-100-mesh-comment = A fair field grade. In a cool climate about half has reacted after one warm season, and the rest after the next.
material-elemental-sulfur-50-80-mesh-comment = Coarse sulphur works over two or three summers, so test late and do not top it up early.
material-elemental-sulfur-prills-comment = Clean to spread but slow for years unless crushed, because only the outside of each grain reacts.
material-elemental-sulfur-dispersible-comment = It makes little dust, and falls apart within weeks once it is wet. Leave it on the surface to get wet before you dig it in.
material-elemental-sulfur-prilled-comment = Prills with clay fall apart within months on moist ground, and pure ones last for years. Look on the bag or ask the shop whether there is clay in them.
material-elemental-sulfur-pastilles-comment = It makes no dust, but works only once rain and frost have broken up the pastilles. Leave them on the surface to get wet before you dig them in.

## Salts of aluminium and iron

material-aluminium-sulfate-18-hydrate-comment = Quick, but it takes about seven times the weight of sulphur and adds aluminium and salt. Keep it for hydrangeas and small corrections.
material-aluminium-sulfate-14-hydrate-comment = The usual industrial grade, an eighth stronger than the fully hydrated salt.
material-aluminium-sulfate-anhydrous-comment = Twice as strong as the garden salt and seldom sold to gardeners. Read the label before you use any rate.
material-ferrous-sulfate-heptahydrate-comment = It works within weeks, once air has oxidised the iron. It takes nearly nine times the weight of sulphur and stains stone and cloth.
material-ferrous-sulfate-monohydrate-comment = The dry granular form, more than half as strong again as the green crystals.
material-ferric-sulfate-anhydrous-comment = Strong and immediate, but a waterworks chemical rather than a garden one.
material-ferric-sulfate-nonahydrate-comment = Ferric sulphate with its crystal water, nearly one and a half times as strong as green iron crystals.

## Fertilisers

material-ammonium-sulfate-comment = The most acidifying of the common fertilisers. It is useful for keeping the pH low, but never for a large change.
material-urea-comment = It raises the pH around each granule for some days, then ends up mildly acid once it has nitrified.
material-ammonium-nitrate-comment = Less than half as acidifying as ammonium sulphate for the same nitrogen. Its sale is controlled in many countries.
material-calcium-ammonium-nitrate-comment = Its own limestone neutralises half of its acid or more, so it is the wrong fertiliser for a bed you are acidifying.
material-sulfur-coated-urea-comment = A slow lawn fertiliser whose sulphur coat adds acid over a year or more.
material-uan-solution-32-comment = A liquid field fertiliser that acidifies moderately.
material-uan-solution-28-comment = A liquid field fertiliser that acidifies moderately, weaker than the 32% solution.
material-anhydrous-ammonia-comment = A farm gas for trained people only. It is alkaline where it is injected, and acid once it has nitrified.
material-ammonium-chloride-comment = As acidifying as ammonium sulphate, but it loads the soil with chloride. Keep it away from blueberries and other sensitive roots.
material-calcium-nitrate-comment = Mildly alkaline as plants take up its nitrate. That is right for acid beds and wrong for a blueberry at the edge of its range.
material-potassium-nitrate-comment = A mildly alkaline fertiliser for pots and fruit.
material-sodium-nitrate-comment = An old alkaline fertiliser that leaves sodium behind and spoils clay.
material-monoammonium-phosphate-comment = A mildly acid starter fertiliser. Its phosphate is reason enough to keep the rate small.
material-diammonium-phosphate-comment = Alkaline around the granule at first, and acid in the end.

## Neutral salts

material-gypsum-comment = It supplies calcium and sulphate and helps a sodic clay, but it neither acidifies nor limes.
material-epsom-salt-comment = Magnesium for plants that lack it. It does nothing to the pH.
material-potassium-sulfate-comment = Potassium without chloride. It contains no acid, however often the label says sulphate.
material-potassium-chloride-comment = Cheap potassium with a high salt load and no effect on the pH.

## Lime and ash

material-ground-limestone-calcitic-comment = The ordinary way to raise the pH. It is gentle and hard to overdo, and the finer it is, the faster it works.
material-ground-limestone-dolomitic-comment = Choose it where a test shows little magnesium. Grain for grain it is slower than calcitic lime.
material-ground-limestone-coarse-comment = Cheap by the load, but a third of it is too coarse to count for years.
material-garden-lime-unknown-grade-comment = Lime whose label nobody has read. Between a third and all of it may count; the neutralising value and the fineness on the bag say how much.
material-burnt-lime-unknown-grade-comment = Caustic like any burnt lime. Lumps that never slaked to powder may count for little, so find out what it is before you use it.
material-ground-limestone-british-standard-comment = As fine as British law asks, and no finer. Six tenths of it is coarser than 0.15 mm and goes on acting for years.
material-ground-limestone-irish-standard-comment = As fine as the old Irish standard asks, and no finer. Two thirds of it is coarser than 0.15 mm and goes on acting for years.
material-pelletised-limestone-comment = Fine limestone without the dust. It works fast once rain has softened the pellets, and costs more per kilogram.
material-hydrated-lime-comment = Strong, quick and caustic, so it is easy to overdo. Use three quarters of the weight of limestone, and keep it off roots and skin.
material-burnt-lime-comment = It heats up and burns when wet: a farm material, not a garden one.
material-magnesium-oxide-comment = A concentrated source of magnesium. Weight for weight it limes more than twice as strongly as limestone, though slowly.
material-marl-comment = Limy earth of uncertain strength. Have it tested before you trust any rate.
material-oyster-shell-comment = Limestone by another name, usually coarse and therefore slow.
material-sugar-beet-lime-comment = Very fine and quick, but wet. Go by the lime in it, not by the weight of the load.
material-basic-slag-comment = A slow lime from steelworks. Ask for its analysis.
material-eggshell-ground-comment = Ground to flour, eggshell is as good as limestone, gram for gram.
material-eggshell-hand-crushed-comment = Flakes crushed by hand take years to react. Grind them to powder if they are to count this season.
material-wood-ash-comment = About half as strong as lime, quick and salty. Never use it on beds for acid-loving plants, or together with ammonium fertilisers.
material-bone-meal-comment = A phosphate fertiliser that limes a little, so it has no place on a bed you are acidifying.
material-rock-phosphate-comment = It dissolves only in acid soil, and limes a little as it does.

## Organic matter

material-sphagnum-peat-comment = It adds real acid and holds it, but lime in the soil or water uses that acid up from the edges.
material-black-peat-comment = Darker and denser than moss peat, with more acid per bucket, and more varied.
material-ericaceous-compost-comment = Made for pots of acid-loving plants. Dug into limy ground, it loses its effect within weeks or a season.
material-coffee-grounds-spent-comment = Used grounds are close to neutral and do not lower the pH. Compost them first, because fresh ones are hard on seedlings.
material-tea-leaves-spent-comment = Used tea leaves test mildly acid, but leave next to no acid once they have rotted.
material-pine-needles-fallen-comment = A good mulch. Fresh needles lose their acidity as they decompose, and leave no acid worth counting.
material-oak-leaves-fallen-comment = Fresh leaves test acid on a strip, but they are slightly liming once they have rotted.
material-leaf-litter-any-tree-comment = Leaves contain the bases the tree took up, so rotted litter limes more than it acidifies.
material-tree-leaves-collected-comment = Good for the soil and, in the end, slightly liming.
material-leaf-mould-comment = Near neutral when finished, even if it is made of oak leaves.
material-compost-any-finished-comment = Usually a little above neutral, so it feeds a bed but does not acidify it.
material-compost-yard-waste-comment = Often pH 7 to 8 with some lime in it. Keep it off beds for blueberries.
material-compost-manure-comment = Alkaline and salty: it limes a bed a little every time.
material-compost-spent-mushroom-comment = It contains chalk from its casing and a lot of salt. Never use it near acid-loving plants.
material-pine-bark-composted-comment = A mildly acid mulch that lasts, useful around blueberries for its structure more than its acid.
material-pine-bark-fresh-comment = More acid than aged bark, and it ties up nitrogen. Use it on top and do not dig it in.
material-sawdust-comment = It ties up nitrogen for a year or more and adds next to no acid.
material-biochar-comment = Anything from neutral to limy, depending on the product. It never acidifies unless treated.
material-alfalfa-meal-comment = A gentle fertiliser whose ash limes about as much as its nitrogen acidifies.
material-cottonseed-meal-comment = A slow, faintly acid fertiliser for acid-loving plants. It holds the pH and does not change it.
material-blood-meal-comment = A quick organic nitrogen, mildly acid in the end like any ammonium fertiliser.

## Acids

material-rainwater-comment = Rain itself contains next to no acid. Over many years it makes soil more acid by washing calcium out.
material-vinegar-5-comment = Microbes break the acid down within days, so it scorches leaves and changes nothing that lasts.
material-lemon-juice-comment = A weak acid that soil microbes use up within days.
material-citric-acid-anhydrous-comment = Good for lowering the alkalinity of a can of water, and gone from soil within weeks.
material-citric-acid-monohydrate-comment = Like the anhydrous crystals, but a tenth weaker.
material-sulfuric-acid-98-comment = Only for trained people who treat water. Always pour acid into water, and never use it on a bed.
material-sulfuric-acid-93-comment = The usual technical grade for injecting acid into irrigation lines.
material-sulfuric-acid-35-comment = Fresh battery acid can treat water, with care. Acid from a used battery contains lead and must never be used.
material-phosphoric-acid-85-comment = It lowers the alkalinity of water and adds phosphate at the same time, which soon becomes too much.
material-phosphoric-acid-75-comment = Like the 85% acid, but somewhat weaker.
material-nitric-acid-67-comment = Growers use it where they also want the nitrogen. Its fumes make it unfit for a shed.

## Iron for leaves

material-iron-chelate-eddha-comment = The one that greens plants in limy soil. It supplies iron and does not change the pH.
material-iron-chelate-dtpa-comment = Good up to about pH 7.5, above which it loses its iron.
material-iron-chelate-edta-comment = Cheap, and fine below about pH 6.5 or on leaves, but of little use in limy soil.

## Products that the case knows by their label

material-by-label = We know this product only by the analysis on its label.

### Keys of the case file: water, feed, products, what was applied, readings, claims.
### field- is the label, as it stands alone or in bold at the start of a line, and its -in-text is the
### name within a sentence, without an article; in a list (an application, a reading) it names what
### belongs to one entry. means- is the meaning, for the reference and the editor of a file. ask- and
### hint- are what a form says instead, where it says something else; a label there has its unit last.

## Water

means-water = The water that is given.

field-water-alkalinity = Alkalinity of the water
field-water-alkalinity-in-text = alkalinity of the water
means-water-alkalinity = Alkalinity (bicarbonate) of the water; not its hardness, not its pH.
ask-water-alkalinity = Alkalinity
hint-water-alkalinity = Alkalinity (bicarbonate) of the water. Its hardness and its pH are other figures.

field-water-weekly = How much water it gets
field-water-weekly-in-text = weekly watering
means-water-weekly = Water given in a week of watering: a volume for the whole bed, or a depth.
ask-water-weekly = Water a week
hint-water-weekly = In a week of watering: a volume for the whole bed, or a depth.

field-water-months = Months of watering
field-water-months-in-text = months of watering
means-water-months = Months with watering; if not given 5 to 9, south of the equator 11 to 3.
hint-water-months = May to September if you leave it blank, or November to March south of the equator.

field-water-hardness = Hardness of the water
field-water-hardness-in-text = hardness of the water
means-water-hardness = Hardness, if that is all you know: it is answered, but never taken for alkalinity.
ask-water-hardness = Hardness
hint-water-hardness = Only if it is all you know. It is never taken for alkalinity.

## Feed

field-feed = The yearly feed
field-feed-in-text = feed
means-feed = The yearly feed: nitrogen and its form, or a material with its rate.

field-feed-n-g-m2-year = Nitrogen in a year
field-feed-n-g-m2-year-in-text = nitrogen in a year
means-feed-n-g-m2-year = Nitrogen given in a year; needs `form`.
ask-feed-n-g-m2-year = Nitrogen, g/m2 a year
hint-feed-n-g-m2-year = Nitrogen given in a year. Give its form as well.

field-feed-form = Form of the nitrogen
field-feed-form-in-text = form of the nitrogen
means-feed-form = Form of that nitrogen.
hint-feed-form = As the bag names it.

field-feed-material = Feed used
field-feed-material-in-text = feed used
means-feed-material = The feed itself, instead of `n_g_m2_year` and `form`.
ask-feed-material = Fertiliser
hint-feed-material = The product itself, in place of nitrogen and its form.

field-feed-label = Analysis on the bag of feed
field-feed-label-in-text = analysis on the bag of feed
means-feed-label = The bag's analysis; `material` may then be the product's own name.
ask-feed-label = Analysis on the bag
hint-feed-label = The fertiliser may then have the product's own name.

field-feed-rate = Rate of the feed
field-feed-rate-in-text = rate of the feed
means-feed-rate = Rate of that feed, each time.
ask-feed-rate = Rate
hint-feed-rate = How much each time.

field-feed-times = How often the feed is given
field-feed-times-in-text = how often the feed is given
means-feed-times = How many times a year.
ask-feed-times = Times a year
hint-feed-times = How often it is given.

## Products on hand

field-on-hand = Product on hand
field-on-hand-in-text = product on hand
means-on-hand = A product you have or can buy, with its price.

field-on-hand-material = Material
field-on-hand-material-in-text = material
means-on-hand-material = What it is (`loamshift materials`).
hint-on-hand-material = What it is.

field-on-hand-label = Analysis on the bag
field-on-hand-label-in-text = analysis on the bag
means-on-hand-label = The bag's analysis; `material` may then be the product's own name.
hint-on-hand-label = The material may then have the product's own name.

field-on-hand-purity-pct = Purity
field-on-hand-purity-pct-in-text = purity of the product on hand
means-on-hand-purity-pct = Purity on the label; for lime its neutralising value.
hint-on-hand-purity-pct = As the label states it; for lime, its neutralising value.

field-on-hand-pack = Pack
field-on-hand-pack-in-text = pack of the product on hand
means-on-hand-pack = Weight of the pack.

field-on-hand-price = Price
field-on-hand-price-in-text = price of the product on hand
means-on-hand-price = Price of that pack.

field-on-hand-currency = Currency
field-on-hand-currency-in-text = currency of the product on hand
means-on-hand-currency = Currency of the price.
hint-on-hand-currency = Three letters.

## What was applied

field-applied = Application
field-applied-in-text = application
means-applied = Something already put on.

field-applied-date = Date
field-applied-date-in-text = date of application
means-applied-date = Day it went on.
hint-applied-date = The day it was applied.

field-applied-material = Material
field-applied-material-in-text = material of application
means-applied-material = What went on.
hint-applied-material = What was applied.

field-applied-label = Analysis on the bag
field-applied-label-in-text = analysis on the bag of application
means-applied-label = The bag's analysis; `material` may then be the product's own name.
hint-applied-label = The material may then have the product's own name.

field-applied-amount = Amount
field-applied-amount-in-text = amount of application
means-applied-amount = How much, on the whole bed; or give `rate`.
hint-applied-amount = How much on the whole bed. Or give the rate.

field-applied-rate = Rate
field-applied-rate-in-text = rate of application
means-applied-rate = How much per area, plant or pot; or give `amount`.
hint-applied-rate = How much per area, plant or pot. Or give the amount.

field-applied-incorporated = Depth dug in
field-applied-incorporated-in-text = depth dug in of application
means-applied-incorporated = How deep it was worked in; the surface if not given.
ask-applied-incorporated = Depth worked in
hint-applied-incorporated = Leave it blank if it was left on the surface.

## Readings of the bed

field-reading = Reading
field-reading-in-text = reading
means-reading = A pH read earlier or later than the main sample.

field-reading-date = Date
field-reading-date-in-text = date of reading
means-reading-date = Day the sample was taken.
hint-reading-date = The day the sample was taken.

field-reading-ph = pH
field-reading-ph-in-text = pH of reading
means-reading-ph = The reading.

field-reading-ph-method = How the pH was measured
field-reading-ph-method-in-text = method of reading
means-reading-ph-method = How it was read.
hint-reading-ph-method = Leave it blank if you do not know.

field-reading-depth = Depth
field-reading-depth-in-text = depth of reading
means-reading-depth = Depth sampled.
hint-reading-depth = How deep the sample went.

field-reading-ph-sd = Standard deviation
field-reading-ph-sd-in-text = standard deviation of reading
means-reading-ph-sd = Its standard deviation, where you know it.
ask-reading-ph-sd = Standard deviation, pH
hint-reading-ph-sd = Only if you know it.

## Pots instead of the ground

means-pot = Growing in pots instead of this ground, side by side over five years. It stands in the letter where you ask for it, and where the ground cannot be brought into range.

field-pot-compare = Compare with pots
field-pot-compare-in-text = comparison with pots
means-pot-compare = Whether to compare pots with the ground; `false` leaves it out.
hint-pot-compare = Blank compares them where the ground cannot be brought into range.

field-pot-volume = Volume of one pot
field-pot-volume-in-text = volume of the pots
means-pot-volume = Volume of one pot, for one plant; 40 L if not given.
hint-pot-volume = For one plant. Blank counts as 40 L.

field-pot-medium = Potting mix
field-pot-medium-in-text = potting mix
means-pot-medium = The potting mix; a peat mix if not given.

field-pot-mix-price = Price of the mix
field-pot-mix-price-in-text = price of the potting mix
means-pot-mix-price = Price of one litre of potting mix, in your currency.
ask-pot-mix-price = Price of a litre of mix
hint-pot-mix-price = The price of a bag, divided by its litres.

field-pot-price = Price of a pot
field-pot-price-in-text = price of a pot
means-pot-price = Price of one pot, in your currency.
hint-pot-price = For one pot, without the mix.

## Prices of tests

field-test-price = Price of a test
field-test-price-in-text = price of a test
means-test-price = What a test costs you, with postage.

field-test-price-test = Test
field-test-price-test-in-text = test with a price
means-test-price-test = The test that it is the price of.
hint-test-price-test = The test you know the price of.

field-test-price-price = Price
field-test-price-price-in-text = price of the test
means-test-price-price = Its price with postage, in your currency.

## Jar titration

field-titration = Buffering: how strongly { soil-the } resists
field-titration-in-text = jar titration
means-titration = One jar of a titration of this soil.

field-titration-acid-mmolc-kg = Acid added
field-titration-acid-mmolc-kg-in-text = acid added in titration
means-titration-acid-mmolc-kg = Acid added to the jar; lime or base is negative.
ask-titration-acid-mmolc-kg = Acid, mmolc/kg
hint-titration-acid-mmolc-kg = Acid added to the jar; negative for lime or another base.

field-titration-ph = pH
field-titration-ph-in-text = pH of titration
means-titration-ph = pH in water when it has settled.
hint-titration-ph = In water, once it has settled.

## Claims

field-claim = Claim
field-claim-in-text = proposed amount
means-claim = Something somebody proposes: what would it do?

field-claim-material = Material
field-claim-material-in-text = material of proposed amount
means-claim-material = What is proposed.
hint-claim-material = What is recommended.

field-claim-label = Analysis on the bag
field-claim-label-in-text = analysis on the bag of proposed amount
means-claim-label = The bag's analysis; `material` may then be the product's own name.
hint-claim-label = The material may then have the product's own name.

field-claim-amount = Amount
field-claim-amount-in-text = amount of proposal
means-claim-amount = How much, on the whole bed; or give `rate`.
hint-claim-amount = How much on the whole bed. Or give the rate.

field-claim-rate = Rate
field-claim-rate-in-text = rate of proposal
means-claim-rate = How much per area, plant or pot; or give `amount`.
hint-claim-rate = How much per area, plant or pot. Or give the amount.

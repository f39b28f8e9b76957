### What the form asks, key by key: a label with its unit last, and a line below the field.

## Date and units of the letter

ask-name = Name
hint-name = What the letter calls the bed.
ask-today = Date of the advice
hint-today = Leave blank, and the letter is dated the day it is read.
ask-units = Units
hint-units = The units of the letter. A figure you type here is read the same way in either.

## Place

ask-place-name = Name
hint-place-name = The nearest place in the list, or a name beside your own climate figures.
ask-place-latitude = Latitude
hint-place-latitude = With the longitude, it finds the nearest point of a one-degree climate grid. Your own climate figures need it too.
ask-place-longitude = Longitude
hint-place-longitude = Negative west of Greenwich.
ask-place-air-temp-c = Air temperature of each month
hint-place-air-temp-c = Your own monthly means, January first.
ask-place-rain-mm = Rain of each month, mm
hint-place-rain-mm = Your own rain and melted snow, January first.
ask-place-soil-temp-date = Date
hint-place-soil-temp-date = The day it was read.
ask-place-soil-temp-c = Temperature
hint-place-soil-temp-c = What the soil thermometer read.
ask-place-soil-temp-depth = Depth
hint-place-soil-temp-depth = How deep the thermometer was: 10 cm if you leave it blank.

## Bed

ask-bed-kind = Kind of bed
hint-bed-kind = Where the plants grow.
ask-bed-area = Area
hint-bed-area = The area of one bed or pot. You can also write 5 x 4 m, or 40 cm diameter.
ask-bed-depth = Depth to treat
hint-bed-depth = The depth of soil whose pH is to change.
ask-bed-count = Number of beds or pots
hint-bed-count = How many there are of the same kind and size.
ask-bed-plants = Number of plants
hint-bed-plants = Plants in one bed, for amounts per plant.
ask-bed-treated-diameter = Ring to treat around each plant
hint-bed-treated-diameter = The diameter of the ring.
ask-bed-planted = Planted
hint-bed-planted = Whether plants grow there already.
ask-bed-growing = Plants already there
hint-bed-growing = What grows there now.
ask-bed-drainage = Drainage
hint-bed-drainage = How water leaves the bed.
ask-bed-site = Earlier use
hint-bed-site = What the ground was used for before. Old urban and orchard soil can hold lead or arsenic.
ask-bed-before = Ground before it was dug
hint-bed-before = Old turf that was dug in goes on rotting for years and makes acid, and so does ground that was manured for years.
ask-bed-before-years = Years since it was dug in
hint-bed-before-years = How many years ago it was dug in, or its manuring ended.

## Soil

ask-soil-ph = pH
hint-soil-ph = The pH of the soil as it was read.
ask-soil-ph-method = How the pH was measured
hint-soil-ph-method = Leave it blank if you do not know.
ask-soil-texture = Texture
hint-soil-texture = By feel or from a laboratory.
ask-soil-sand-pct = Sand, %
hint-soil-sand-pct = Share of the mineral part.
ask-soil-silt-pct = Silt, %
hint-soil-silt-pct = Share of the mineral part.
ask-soil-clay-pct = Clay, %
hint-soil-clay-pct = Share of the mineral part.
ask-soil-organic-matter-pct = Organic matter, %
hint-soil-organic-matter-pct = As loss on ignition.
ask-soil-organic-carbon-pct = Organic carbon, %
hint-soil-organic-carbon-pct = About 0.58 of the organic matter.
ask-soil-medium = Growing medium
hint-soil-medium = What the roots grow in.
ask-soil-carbonate-pct = Free lime, % CaCO3
hint-soil-carbonate-pct = Carbonate as a laboratory measures it.
ask-soil-fizz = Fizz test
hint-soil-fizz = What a drop of acid on the soil did.
ask-soil-fizz-acid = Acid of the fizz test
hint-soil-fizz-acid = Hydrochloric acid of 10%, or vinegar.
ask-soil-buffer-ph = Buffer pH
hint-soil-buffer-ph = From the laboratory; it is not a soil pH. A lime test index of 48 to 80 is read as ten times the buffer pH.
ask-soil-buffer-ph-method = Buffer
hint-soil-buffer-ph-method = Which buffer the laboratory used.
ask-soil-lab-lime-requirement = Lime the laboratory asks for
hint-soil-lab-lime-requirement = As the laboratory's own report has it.
ask-soil-cec-cmolc-kg = Cation exchange capacity, cmolc/kg
hint-soil-cec-cmolc-kg = CEC on most reports; meq/100 g is the same figure.
ask-soil-base-saturation-pct = Base saturation, %
hint-soil-base-saturation-pct = Free lime can push it past 100.
ask-soil-exchangeable-al-cmolc-kg = Exchangeable aluminium, cmolc/kg
hint-soil-exchangeable-al-cmolc-kg = From the laboratory, in very acid soil.
ask-soil-mg-saturation-pct = Magnesium saturation, %
hint-soil-mg-saturation-pct = Share of the exchange sites that magnesium holds. It decides whether dolomitic lime is better.
ask-soil-sodium-pct = Sodium, %
hint-soil-sodium-pct = Exchangeable sodium percentage.
ask-soil-ec-ds-m = Salt (conductivity), dS/m
hint-soil-ec-ds-m = Electrical conductivity, from the laboratory.
ask-soil-ec-method = How the salt was measured
hint-soil-ec-method = The extract that the conductivity was read in.
ask-soil-bulk-density-g-cm3 = Bulk density, g/cm3
hint-soil-bulk-density-g-cm3 = Of the dry soil.
ask-soil-clay-type = Clay type
hint-soil-clay-type = Soils from volcanic ash resist a change of pH far more.
ask-soil-sampled = Date of the sample
hint-soil-sampled = The day it was taken.
ask-soil-sample-depth = Depth of the sample
hint-soil-sample-depth = From the surface down.
ask-soil-other-ph-ph = pH
hint-soil-other-ph-ph = The reading.
ask-soil-other-ph-ph-method = How it was measured
hint-soil-other-ph-ph-method = Leave it blank if you do not know.

## Plants and target

ask-aim-plant = Plants
hint-aim-plant = What you want to grow there.
ask-aim-target-ph = Target pH
hint-aim-target-ph = The pH you want, where no plant sets it.
ask-aim-target-method = Method of the target
hint-aim-target-method = The method the target pH is stated in: water if you leave it blank.
ask-aim-by = Date wanted
hint-aim-by = The day by which the pH should be there.

## Water

ask-water-alkalinity = Alkalinity
hint-water-alkalinity = Alkalinity (bicarbonate) of the water. Its hardness and its pH are other figures.
ask-water-weekly = Water a week
hint-water-weekly = In a week of watering: a volume for the whole bed, or a depth.
ask-water-months = Months of watering
hint-water-months = May to September if you leave it blank, or November to March south of the equator.
ask-water-hardness = Hardness
hint-water-hardness = Only if it is all you know. It is never taken for alkalinity.

## Fertiliser

ask-feed-n-g-m2-year = Nitrogen, g/m2 a year
hint-feed-n-g-m2-year = Nitrogen given in a year. Give its form as well.
ask-feed-form = Form of the nitrogen
hint-feed-form = As the bag names it.
ask-feed-material = Fertiliser
hint-feed-material = The product itself, in place of nitrogen and its form.
ask-feed-label = Analysis on the bag
hint-feed-label = The fertiliser may then have the product's own name.
ask-feed-rate = Rate
hint-feed-rate = How much each time.
ask-feed-times = Times a year
hint-feed-times = How often it is given.

## Products

ask-on-hand-material = Material
hint-on-hand-material = What it is.
ask-on-hand-label = Analysis on the bag
hint-on-hand-label = The material may then have the product's own name.
ask-on-hand-purity-pct = Purity, %
hint-on-hand-purity-pct = As the label states it; for lime, its neutralising value.
ask-on-hand-pack = Pack
hint-on-hand-pack = Weight of the pack.
ask-on-hand-price = Price
hint-on-hand-price = Price of that pack.
ask-on-hand-currency = Currency
hint-on-hand-currency = Three letters.

## Applications

ask-applied-date = Date
hint-applied-date = The day it was applied.
ask-applied-material = Material
hint-applied-material = What was applied.
ask-applied-label = Analysis on the bag
hint-applied-label = The material may then have the product's own name.
ask-applied-amount = Amount
hint-applied-amount = How much on the whole bed. Or give the rate.
ask-applied-rate = Rate
hint-applied-rate = How much per area, plant or pot. Or give the amount.
ask-applied-incorporated = Depth worked in
hint-applied-incorporated = Leave it blank if it was left on the surface.

## Tests

ask-reading-date = Date
hint-reading-date = The day the sample was taken.
ask-reading-ph = pH
hint-reading-ph = The reading.
ask-reading-ph-method = How the pH was measured
hint-reading-ph-method = Leave it blank if you do not know.
ask-reading-depth = Depth
hint-reading-depth = How deep the sample went.
ask-reading-ph-sd = Standard deviation, pH
hint-reading-ph-sd = Only if you know it.

## Jar titration

ask-titration-acid-mmolc-kg = Acid, mmolc/kg
hint-titration-acid-mmolc-kg = Acid added to the jar; negative for lime or another base.
ask-titration-ph = pH
hint-titration-ph = In water, once it has settled.

## Claims

ask-claim-material = Material
hint-claim-material = What is recommended.
ask-claim-label = Analysis on the bag
hint-claim-label = The material may then have the product's own name.
ask-claim-amount = Amount
hint-claim-amount = How much on the whole bed. Or give the rate.
ask-claim-rate = Rate
hint-claim-rate = How much per area, plant or pot. Or give the amount.

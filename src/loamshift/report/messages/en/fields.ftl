### What the keys of a bed file are called: readers of a letter never see the file.
### Each has two messages: a label, as it stands alone or in bold at the start of a line, and a
### name to stand inside a sentence, without an article. Keys of a list (an application, a reading)
### name what belongs to one entry.

# One entry of a list and what belongs to it: "Application 2, rate".
field-entry = { $entry } { $number }, { $field }
field-entry-alone = { $entry } { $number }
# A key without a name of its own.
field-other = { $name }

## The file

field-case = Version of the file
field-case-in-text = version of the file
field-name = Name of the bed
field-name-in-text = name of the bed
field-today = Date of the advice
field-today-in-text = date of the advice
field-units = Units
field-units-in-text = units

## Place

field-place = The place
field-place-in-text = place
field-place-name = The place
field-place-name-in-text = place
field-place-latitude = Latitude
field-place-latitude-in-text = latitude
field-place-longitude = Longitude
field-place-longitude-in-text = longitude
field-place-air-temp-c = Monthly air temperatures
field-place-air-temp-c-in-text = monthly air temperatures
field-place-rain-mm = Monthly rainfall
field-place-rain-mm-in-text = monthly rainfall
field-place-daily-file = File of daily weather
field-place-daily-file-in-text = file of daily weather
field-place-soil-temp = Soil temperature
field-place-soil-temp-in-text = soil temperatures
field-place-soil-temp-date = Date
field-place-soil-temp-date-in-text = date
field-place-soil-temp-c = Temperature
field-place-soil-temp-c-in-text = temperature
field-place-soil-temp-depth = Depth of the thermometer
field-place-soil-temp-depth-in-text = depth of the soil thermometer

## Bed

field-bed-kind = Kind of bed
field-bed-kind-in-text = kind of bed
field-bed-area = Area
field-bed-area-in-text = area
field-bed-depth = Depth to treat
field-bed-depth-in-text = depth to treat
field-bed-count = Number of beds or pots
field-bed-count-in-text = number of beds or pots
field-bed-plants = Number of plants
field-bed-plants-in-text = number of plants
field-bed-treated-diameter = Ring to treat around each plant
field-bed-treated-diameter-in-text = ring to treat around each plant
field-bed-planted = Whether it is planted
field-bed-planted-in-text = whether the bed is planted
field-bed-growing = The plants already there
field-bed-growing-in-text = the plants already there
field-bed-drainage = Drainage
field-bed-drainage-in-text = drainage
field-bed-site = What the ground was used for
field-bed-site-in-text = what the ground was used for
field-bed-before = What the ground was before it was dug
field-bed-before-in-text = what the ground was before it was dug
field-bed-before-years = Years since it was dug in
field-bed-before-years-in-text = how many years ago it was dug in

## Soil

field-soil-ph = A laboratory pH
field-soil-ph-in-text = pH of the soil
field-soil-ph-method = How the pH was measured
field-soil-ph-method-in-text = how the pH was measured
field-soil-other-ph = Second pH
field-soil-other-ph-in-text = second pH
field-soil-other-ph-ph = pH
field-soil-other-ph-ph-in-text = pH
field-soil-other-ph-ph-method = How the pH was measured
field-soil-other-ph-ph-method-in-text = how the pH was measured
field-soil-sampled = Date of the sample
field-soil-sampled-in-text = date of the sample
field-soil-sample-depth = Depth of the sample
field-soil-sample-depth-in-text = depth of the sample
field-soil-texture = Texture
field-soil-texture-in-text = texture
field-soil-sand-pct = Sand
field-soil-sand-pct-in-text = sand
field-soil-silt-pct = Silt
field-soil-silt-pct-in-text = silt
field-soil-clay-pct = Clay
field-soil-clay-pct-in-text = clay
field-soil-organic-matter-pct = Organic matter
field-soil-organic-matter-pct-in-text = organic matter
field-soil-organic-carbon-pct = Organic carbon
field-soil-organic-carbon-pct-in-text = organic carbon
field-soil-medium = Growing medium
field-soil-medium-in-text = growing medium
field-soil-carbonate-pct = A laboratory figure for free lime
field-soil-carbonate-pct-in-text = free lime
field-soil-fizz = A fizz test
field-soil-fizz-in-text = fizz test
field-soil-fizz-acid = Which acid the fizz test used
field-soil-fizz-acid-in-text = acid of the fizz test
field-soil-buffer-ph = Buffer pH
field-soil-buffer-ph-in-text = buffer pH
field-soil-buffer-ph-method = Which buffer the laboratory used
field-soil-buffer-ph-method-in-text = name of the buffer
field-soil-cec-cmolc-kg = Cation exchange capacity
field-soil-cec-cmolc-kg-in-text = cation exchange capacity
field-soil-base-saturation-pct = Base saturation
field-soil-base-saturation-pct-in-text = base saturation
field-soil-exchangeable-al-cmolc-kg = Exchangeable aluminium
field-soil-exchangeable-al-cmolc-kg-in-text = exchangeable aluminium
field-soil-mg-saturation-pct = Magnesium
field-soil-mg-saturation-pct-in-text = magnesium saturation
field-soil-sodium-pct = Sodium
field-soil-sodium-pct-in-text = exchangeable sodium
field-soil-lab-lime-requirement = The laboratory's lime figure
field-soil-lab-lime-requirement-in-text = laboratory's lime figure
field-soil-ec-ds-m = Salt (conductivity)
field-soil-ec-ds-m-in-text = conductivity
field-soil-ec-method = How the salt was measured
field-soil-ec-method-in-text = extract of the conductivity
field-soil-bulk-density-g-cm3 = Bulk density
field-soil-bulk-density-g-cm3-in-text = bulk density
field-soil-clay-type = Clay type
field-soil-clay-type-in-text = clay type

## What is wanted

field-aim-plant = The plant you want to grow
field-aim-plant-in-text = plant you want to grow
field-aim-target-ph = Target pH
field-aim-target-ph-in-text = target pH
field-aim-target-method = Method of the target pH
field-aim-target-method-in-text = method of the target pH
field-aim-by = The date wanted
field-aim-by-in-text = date wanted

## Water and feed

field-water-alkalinity = Alkalinity of the water
field-water-alkalinity-in-text = alkalinity of the water
field-water-hardness = Hardness of the water
field-water-hardness-in-text = hardness of the water
field-water-weekly = How much water it gets
field-water-weekly-in-text = weekly watering
field-water-months = Months of watering
field-water-months-in-text = months of watering
field-feed = The yearly feed
field-feed-in-text = feed
field-feed-material = Feed used
field-feed-material-in-text = feed used
field-feed-label = Analysis on the bag of feed
field-feed-label-in-text = analysis on the bag of feed
field-feed-rate = Rate of the feed
field-feed-rate-in-text = rate of the feed
field-feed-n-g-m2-year = Nitrogen in a year
field-feed-n-g-m2-year-in-text = nitrogen in a year
field-feed-form = Form of the nitrogen
field-feed-form-in-text = form of the nitrogen
field-feed-times = How often the feed is given
field-feed-times-in-text = how often the feed is given

## Products on hand

field-on-hand = Product on hand
field-on-hand-in-text = product on hand
field-on-hand-material = Material
field-on-hand-material-in-text = material
field-on-hand-label = Analysis on the bag
field-on-hand-label-in-text = analysis on the bag
field-on-hand-price = Price
field-on-hand-price-in-text = price of the product on hand
field-on-hand-pack = Pack
field-on-hand-pack-in-text = pack of the product on hand
field-on-hand-currency = Currency
field-on-hand-currency-in-text = currency of the product on hand
field-on-hand-purity-pct = Purity
field-on-hand-purity-pct-in-text = purity of the product on hand

## What was applied

field-applied = Application
field-applied-in-text = application
field-applied-date = Date
field-applied-date-in-text = date of application
field-applied-material = Material
field-applied-material-in-text = material of application
field-applied-label = Analysis on the bag
field-applied-label-in-text = analysis on the bag of application
field-applied-amount = Amount
field-applied-amount-in-text = amount of application
field-applied-rate = Rate
field-applied-rate-in-text = rate of application
field-applied-incorporated = Depth dug in
field-applied-incorporated-in-text = depth dug in of application

## Readings of the bed

field-reading = Reading
field-reading-in-text = reading
field-reading-date = Date
field-reading-date-in-text = date of reading
field-reading-ph = pH
field-reading-ph-in-text = pH of reading
field-reading-ph-method = How the pH was measured
field-reading-ph-method-in-text = method of reading
field-reading-depth = Depth
field-reading-depth-in-text = depth of reading
field-reading-ph-sd = Standard deviation
field-reading-ph-sd-in-text = standard deviation of reading

## Jar titration and claims

field-titration = Buffering: how strongly the soil resists
field-titration-in-text = jar titration
field-titration-ph = pH
field-titration-ph-in-text = pH of titration
field-titration-acid-mmolc-kg = Acid added
field-titration-acid-mmolc-kg-in-text = acid added in titration
field-claim = Claim
field-claim-in-text = proposed amount
field-claim-material = Material
field-claim-material-in-text = material of proposed amount
field-claim-label = Analysis on the bag
field-claim-label-in-text = analysis on the bag of proposed amount
field-claim-amount = Amount
field-claim-amount-in-text = amount of proposal
field-claim-rate = Rate
field-claim-rate-in-text = rate of proposal

## Methods of a pH

# Inside a sentence or in brackets behind a pH.
field-ph-by = { $method ->
    [water-1-1] water 1:1
    [water-1-2] water 1:2
    [water-1-2-5] water 1:2.5
    [water-1-5] water 1:5
    [paste] paste
    [cacl2] calcium chloride
    [kcl] potassium chloride
    [probe] soil probe
    [strip] test strip
   *[unknown] method unknown
}

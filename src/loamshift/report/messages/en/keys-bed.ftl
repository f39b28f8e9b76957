### Keys of the case file: its head, place, bed and aim.
### field- is the label, as it stands alone or in bold at the start of a line, and its -in-text is the
### name within a sentence, without an article; in a list (an application, a reading) it names what
### belongs to one entry. means- is the meaning, for the reference and the editor of a file. ask- and
### hint- are what a form says instead, where it says something else; a label there has its unit last.

## The file

means-top = The top of the case file.

field-case = Version of the file
field-case-in-text = version of the file
means-case = Version of the file's form.

field-name = Name of the bed
field-name-in-text = name of the bed
means-name = What the letter calls the bed.
ask-name = Name

field-today = Date of the advice
field-today-in-text = date of the advice
means-today = The date the advice is for; the command line puts in the day it runs where this is missing.
hint-today = Leave blank, and the letter is dated the day it is read.

field-units = Units
field-units-in-text = units
means-units = Units of the letter; never changes how a figure here is read.
hint-units = The units of the letter. A figure you type here is read the same way in either.

field-currency = Currency
field-currency-in-text = currency
means-currency = Currency of the prices of tests, and of products that name none. Nothing is converted into it.
hint-currency = Three letters. It is the currency of your prices; nothing is converted into it.

## Place

field-place = The place
field-place-in-text = place
means-place = Where the bed lies: by name, by position, or by twelve figures of your own.

field-place-name = The place
field-place-name-in-text = place
means-place-name = A shipped place (`loamshift places`); a label beside figures of your own.
ask-place-name = Name
hint-place-name = The nearest place in the list, or a name beside your own climate figures.

field-place-latitude = Latitude
field-place-latitude-in-text = latitude
means-place-latitude = With longitude: the nearest point of the one-degree grid. Also needed with figures of your own.
hint-place-latitude = With the longitude, it finds the nearest point of a one-degree climate grid. Your own climate figures need it too.

field-place-longitude = Longitude
field-place-longitude-in-text = longitude
means-place-longitude = West of Greenwich is negative.
hint-place-longitude = Negative west of Greenwich.

field-place-air-temp-c = Monthly air temperatures
field-place-air-temp-c-in-text = monthly air temperatures
means-place-air-temp-c = Your own mean air temperature of each month.
ask-place-air-temp-c = Air temperature of each month
hint-place-air-temp-c = Your own monthly means, January first.

field-place-rain-mm = Monthly rainfall
field-place-rain-mm-in-text = monthly rainfall
means-place-rain-mm = Your own rain and melted snow of each month.
ask-place-rain-mm = Rain of each month, mm
hint-place-rain-mm = Your own rain and melted snow, January first.

field-place-daily-file = File of daily weather
field-place-daily-file-in-text = file of daily weather
means-place-daily-file = A file of your own weather station (CSV, TSV or Excel; daily or hourly, °C or °F, mm or inches) with dates, air temperatures and, if you have it, rain or soil temperature; its path starts from the case file.

field-place-soil-temp-file = File of a soil thermometer
field-place-soil-temp-file-in-text = file of the soil thermometer
means-place-soil-temp-file = A file of your own soil thermometer or logger, read in the same way; its path starts from the case file.

## Readings of a soil thermometer

field-place-soil-temp = Soil temperature
field-place-soil-temp-in-text = soil temperatures
means-place-soil-temp = One reading of your own soil thermometer.

field-place-soil-temp-date = Date
field-place-soil-temp-date-in-text = date
means-place-soil-temp-date = Day of the reading.
hint-place-soil-temp-date = The day it was read.

field-place-soil-temp-c = Temperature
field-place-soil-temp-c-in-text = temperature
means-place-soil-temp-c = Soil temperature read.
hint-place-soil-temp-c = What the soil thermometer read.

field-place-soil-temp-depth = Depth of the thermometer
field-place-soil-temp-depth-in-text = depth of the soil thermometer
means-place-soil-temp-depth = How deep the thermometer was; 10 cm if not given.
ask-place-soil-temp-depth = Depth
hint-place-soil-temp-depth = How deep the thermometer was: 10 cm if you leave it blank.

## Bed

means-bed = The bed, lawn, field or pot that is treated.

field-bed-kind = Kind of bed
field-bed-kind-in-text = kind of bed
means-bed-kind = What kind of planting place it is.
hint-bed-kind = Where the plants grow.

field-bed-area = Area
field-bed-area-in-text = area
means-bed-area = Area of one bed or pot; “5 x 4 m” and “40 cm diameter” are read too.
hint-bed-area = The area of one bed or pot. You can also write 5 x 4 m, or 40 cm diameter.

field-bed-depth = Depth to treat
field-bed-depth-in-text = depth to treat
means-bed-depth = Depth of soil to be changed.
hint-bed-depth = The depth of soil whose pH is to change.

field-bed-count = Number of beds or pots
field-bed-count-in-text = number of beds or pots
means-bed-count = How many alike beds or pots.
hint-bed-count = How many there are of the same kind and size.

field-bed-plants = Number of plants
field-bed-plants-in-text = number of plants
means-bed-plants = Plants in one bed, for amounts per plant.

field-bed-treated-diameter = Ring to treat around each plant
field-bed-treated-diameter-in-text = ring to treat around each plant
means-bed-treated-diameter = Diameter of the ring treated round each plant.
hint-bed-treated-diameter = The diameter of the ring.

field-bed-planted = Whether it is planted
field-bed-planted-in-text = whether { bed-the } is planted
means-bed-planted = Whether plants stand in it already.
ask-bed-planted = Planted
hint-bed-planted = Whether plants grow there already.

field-bed-growing = The plants already there
field-bed-growing-in-text = the plants already there
means-bed-growing = Plants already there.
ask-bed-growing = Plants already there
hint-bed-growing = What grows there now.

field-bed-drainage = Drainage
field-bed-drainage-in-text = drainage
means-bed-drainage = How water leaves the bed.

field-bed-site = What the ground was used for
field-bed-site-in-text = what the ground was used for
means-bed-site = What the ground was used for before; old urban and orchard soil may hold lead or arsenic.
ask-bed-site = Earlier use
hint-bed-site = What the ground was used for before. Old urban and orchard soil can hold lead or arsenic.

field-bed-surroundings = What around the bed holds lime
field-bed-surroundings-in-text = what around the bed holds lime
means-bed-surroundings = What beside, in or below the bed gives lime back to it.
ask-bed-surroundings = Lime around it
hint-bed-surroundings = Any of: limestone-gravel; concrete; mortar; lined-trench; over-chalk.

field-bed-signs = What the plants show
field-bed-signs-in-text = what the plants show
means-bed-signs = What you see of plants that are not well, whether or not a pH is known.
ask-bed-signs = What the plants show
hint-bed-signs = Any of: yellow-young-leaves (between green veins); yellow-old-leaves; scorched-edges; planted-too-deep; wet-feet.

field-bed-before = What the ground was before it was dug
field-bed-before-in-text = what the ground was before it was dug
means-bed-before = What the ground was before it was dug: old turf and ground that was manured for years go on rotting and make acid.
ask-bed-before = Ground before it was dug
hint-bed-before = Old turf that was dug in goes on rotting for years and makes acid, and so does ground that was manured for years.

field-bed-before-years = Years since it was dug in
field-bed-before-years-in-text = how many years ago it was dug in
means-bed-before-years = Years since it was dug in, or since the manuring ended.
hint-bed-before-years = How many years ago it was dug in, or its manuring ended.

## What is wanted

means-aim = What is wanted: plants, or a pH, and by when.

field-aim-plant = The plant you want to grow
field-aim-plant-in-text = plant you want to grow
means-aim-plant = The plant you want to grow, or a list of plants (`loamshift plants`).
ask-aim-plant = Plants
hint-aim-plant = What you want to grow there.

field-aim-target-ph = Target pH
field-aim-target-ph-in-text = target pH
means-aim-target-ph = The pH wanted, where no plant sets it.
hint-aim-target-ph = The pH you want, where no plant sets it.

field-aim-target-method = Method of the target pH
field-aim-target-method-in-text = method of the target pH
means-aim-target-method = The method of the target pH; water if not given.
ask-aim-target-method = Method of the target
hint-aim-target-method = The method the target pH is stated in: water if you leave it blank.

field-aim-by = The date wanted
field-aim-by-in-text = date wanted
means-aim-by = The day by which the pH should be there.
ask-aim-by = Date wanted
hint-aim-by = The day by which the pH should be there.

### Maps of fields: files that are read, the map, its zones, and what an average would cost.

## What is wrong with a file

map-file-missing = There is no file { $path }. Check the name and the folder.
map-file-folder = { $path } is a folder. Name one file in it.
map-file-unreadable = { $path } cannot be read: { $why }. Ask whoever owns it for permission to read it, or copy it to a folder of your own.
map-file-ending = { $path } is not a kind of file that can hold a field. Use a table (.csv, .xlsx) with coordinates, or .gpkg, .geojson, .shp or a zipped shapefile.
map-file-broken = { $path } cannot be read as a map file: { $why }. Export it again, or save it as GeoPackage (.gpkg). A shapefile needs its .shx and .dbf beside it.
map-file-empty = { $path } holds no rows. Export it again with the samples in it.
map-file-no-shapes = { $path } holds a table without places. Export it with its geometry, or as CSV with a column for east and one for north.
map-file-no-places = No row in { $path } has a place. Export it again with its geometry or its coordinates.
map-file-too-long = { $path } holds more than { $most } rows. Cut it to one field.
map-no-coordinates = { $path } has no columns for coordinates. Its columns are: { $headings }. Call two of them “longitude” and “latitude”, or “easting” and “northing”.
map-no-column = There is no column “{ $column }”. The columns are: { $headings }.
map-no-ph-column = { $path } has no column for pH. Its columns are: { $headings }. Name the right one, for example --column ph="pH value".
map-no-place = { $path }: { $rows-count ->
    [one] sample { $rows } has a pH but no place. Add its coordinates, or delete it.
   *[other] samples { $rows } have a pH but no place. Add their coordinates, or delete them.
}
map-kinds = { $path } mixes shapes: { $kinds }. Samples are points; zones are polygons. Keep one kind in a file.
map-faults = { $path } cannot be used yet:
map-ph-words = This is not a pH.
map-ph-odd = Soil hardly ever has a pH below { $low } or above { $high }.
map-ph-odd-mend = Look it up in the report. Correct it, or delete the row: a map would spread the mistake over its surroundings.
map-not-percent = “{ $column }” is read as a percentage, and this is none.
map-per-kg = If it is in g/kg, put the unit into the heading, such as “Clay (g/kg)”.
map-method-unknown = This is not a method of measuring pH. Write { $methods }.
map-method-missing = { $rows ->
    [none] Nothing says how the pH was measured, and methods differ by up to a whole unit.
   *[other] Nothing says how the pH of { $rows-count ->
            [one] sample { $rows }
           *[other] samples { $rows }
    } was measured.
} Name it with --ph-method, or in a column “method”: { $methods }.
map-and-more = { $count } more

## Places

map-crs-unknown = “{ $given }” is not a coordinate system. Write its code, such as EPSG:32630.
map-crs-missing = { $path } does not say which coordinate system its places are in. { $looks ->
    [degrees] They look like degrees. If they are longitude and latitude from a satellite receiver, add --crs EPSG:4326.
   *[metres] They look like metres or feet. Ask whoever made the file for the code, such as EPSG:32630, and name it with --crs.
}
map-swapped = { $path }: longitude and latitude are swapped. One latitude reads { $value }, and no latitude goes beyond 90. Swap the two columns.
map-swapped-file = Longitude and latitude are swapped in one of the two files: with the samples turned round, they lie inside the boundary. Exchange the two columns of the samples, or save the boundary again with longitude first.
map-no-degrees = { $path } should be in degrees, but one of its coordinates is { $value }. Name the coordinate system it is really in with --crs, and remove the wrong one from the file.
map-outside = { $path }: { $count } of { $of } samples lie outside the boundary, up to { $distance } away: { $rows-count ->
    [one] sample { $rows }
   *[other] samples { $rows }
}. Correct their places, delete them, or check that the boundary is the right field.
map-elsewhere = { $path }: { $count } of { $of } samples lie outside the boundary, up to { $distance } away. Either the boundary belongs to another field, or one of the two files is in another coordinate system, or longitude and latitude are swapped.
map-boundary-empty = { $path } holds no boundary: its shapes are empty. Draw the boundary again and save it.
map-boundary-no-area = { $path } should hold areas, and has a { $kind }. Close the line to a polygon and save it again.
map-boundary-crossed = The boundary in { $path } crosses itself near { $where }. Pull the corners apart there and save it again.
map-boundary-small = The boundary in { $path } holds { $area } m². That is a bed: write a letter for it with “loamshift advise”. If it is a whole field, its coordinate system is wrong.
map-too-large = The field has { $area } ha, more than one map can show well. Cut it into several.
map-cells-many = Cells of { $cell } m are too many for this field. Name a larger size with --cell.
map-cells-few = Cells of { $cell } m are too large for this field. Name a smaller size with --cell.
map-cell-number = --cell is the side of a cell in metres, such as --cell 10.
map-price-number = { $option } is an amount of money of 0 or more.
map-column-option = “{ $given }” does not name a column. Write what it holds and its heading, such as --column ph="pH value". It can hold ph, method, clay, om, oc or name.
map-zone-crossed = Zone { $zone } crosses itself near { $where }. Pull the corners apart there and save it again.
map-zones-overlap = Zones { $zone } and { $other } overlap by { $area } m². Each spot can belong to one zone only.
map-zone-outside = Zone { $zone } lies outside the field, or is smaller than a cell of the map.
map-zone-empty = Zone { $zone } holds no sample. Take one in it, or join it to its neighbour.
map-samples-many = { $count } samples are more than a map can be fitted to ({ $most }). Thin them out, or cut the field into several.
map-twins-found = Some samples share one place:
map-twins = Samples { $rows }: pH { $ph } at the same place.
map-twins-mend = One place has one pH. Delete the older or the doubtful reading, or correct a coordinate.
map-no-aim = Say what you want to grow or which pH you want: name a plant with --plant, a pH with --target-ph, or a case file with an [aim].

## What was taken for what

map-note-no-ph = Left out, since they have no pH: { $rows-count ->
    [one] sample { $rows }
   *[other] samples { $rows }
}.
map-note-no-boundary = You gave no boundary, so the map ends half a spacing beyond the outermost samples. The areas are only as good as that.
map-note-just-outside = Just outside the boundary, and used all the same, since a hand-held receiver is off by some metres: { $rows-count ->
    [one] sample { $rows }
   *[other] samples { $rows }
}.
map-note-twins = Samples at one place that agree were averaged: { $rows }.
map-note-gaps = Your zones leave some of the field out. That ground goes with the nearest zone.
map-note-methods = The samples were read by several methods. Each was converted to pH in water; the error of the conversion is part of the map.
map-note-method-unknown = Nobody knows how the pH was measured. Find out before you spread: methods differ by up to a whole unit.

## The letter

map-title = { $name }: what to spread where
map-subtitle = { $day }. Field of { $area }, { $samples ->
    [one] one sample
   *[other] { $samples } samples
}, mean pH { $ph } in water (spread { $sd }). { $plants ->
    [none] Target pH { $aim }, range { $range }.
   *[other] For { $plants }, pH { $range }.
} Positions in { $crs }.
map-lead = { $off ->
    [none] Spread { $amount } of { $material } over the whole { $on }, each zone at its own rate.
   *[other] Spread { $amount } of { $material } on { $on }, each zone at its own rate. Leave the other { $off } without.
}
map-lead-one = Spread { $amount } of { $material } over the whole { $area }, at { $rate } everywhere.
map-lead-nothing = Spread nothing now.
map-no-map = { $why ->
    [few] There is no map of this field. { $samples } samples are too few to tell a pattern from chance: a map needs at least { $least }. { $whole }
    [no-pattern] There is no map of this field, because the samples show no pattern that a map could follow. Of the variation in samples left out, a map would explain { $skill }; we ask for 10%. Drawn all the same, it would show chance. { $whole }
    [alike] There is no map of this field, and it needs none: the samples differ by no more than one spot does from year to year. { $whole }
   *[drawn-zones] The zones are those of your file, each judged by its own test.
}
map-one-rate = The field gets one rate, chosen for the whole spread of the samples and not for their mean alone.
map-by-your-zones = Your own zones are used instead, each judged by the samples in it.
map-heading-zones = Zones
map-heading-mean = What one dose by the mean would do
map-heading-trust = How far to trust the map
map-heading-more = Further samples
map-heading-checks = Checks
map-column = { $column ->
    [zone] zone
    [area] area
    [ph] pH
    [rate] spread now
    [load] load
    [later] later, if the test confirms it
    [chance] in range, of 100 spots
    [share] share
    [way] way of dosing
    [now] now
    [all] in all
    [cost] cost in all
    [below] too acid
    [within] in range
    [above] too limy
    [samples] further samples
    [gain] more in range
    [price] their cost
   *[worth] their worth
}
map-way = { $way ->
    [zones] By zones
    [mean] One dose, by the mean
   *[none] Nothing
}
map-ways-caption = Parts of 100 of the field on { $on }, and product as bought. Each spot was followed with its own pH and soil and what it most likely gets. What the tests themselves correct is not counted here; the last column above counts it.
map-mean-same = On this field the mean calls for the same as the zones, so zones bring nothing.
map-mean-told = One dose by the mean would leave about { $worse } more of 100 parts of the field outside the range than zones do, and take { $amount } { $more ->
    [more] more
   *[less] less
} product in all{ $cost ->
    [none] .
   *[other] , { $cost }.
}
map-mean-better = One dose by the mean would leave no more of the field outside the range than zones do. The zones are hardly worth the trouble here.
map-mean-nothing = The mean calls for nothing at all: { $amount } less product than by zones, and about { $worse } more of 100 parts of the field outside the range.
map-trust = We left out a tenth of the { $samples } samples at a time and mapped the rest. The map told those left out to within { $error } pH (root mean square); their mean did so to within { $mean }. It explains { $skill } of their variation. Of 100 left-out readings, { $held } fell within the range stated for 90 in 100. Samples look alike over about { $reach }; two from one spot differ by about { $nugget } pH.
map-trust-clay = Clay and organic matter vary over the map where the samples show a pattern in them; elsewhere their mean is used.
map-more = { $count ->
    [0] More samples would hardly pay here: ten more would bring { $gain } of 100 parts of the field more into range.
   *[other] About { $count } further samples would pay. They would bring about { $gain } more of 100 parts of the field into range. The open circles on the pH map show where they would tell most.
}
map-more-money = { $priced ->
    [yes] Weighed by your price of a sample and your figure for a hectare outside the range, over three years.
   *[no] Ten at a time counts as worth it while it brings at least 1 in 100 parts of the field more into range. { $door ->
        [pages] Say what a sample costs, and what a hectare outside the range costs, to weigh money instead.
       *[command] Name a price with --sample-price and --loss-per-ha to weigh money instead.
    }
}
map-more-refused = To find out whether there is a pattern at all, take at least { $least } samples, some of them in pairs { $near } apart.
map-sulfur = { $area } of the field is above the range. Lowering the pH of field soil takes { $rate } of pure sulphur for a step like this, and more where the soil holds free lime. That seldom pays on a field, and this map does not include it. Choose crops that suit the soil there.
map-sulfur-map = This is a map of sulphur. On a field it is rarely affordable: work out { $amount } at your price before you order, and ask whether crops that suit the soil would do.
map-zone-why = Zone { $zone }: { $because }
map-uneven = Zone { $less } gets less now than the less acid zone { $more }, but more later. Which of its two applications is the larger makes little difference to a zone. In all, the more acid zone gets more.
map-static = The rates come from the same judgement as the advice for a bed, without a year-by-year forecast, on the mean and the spread of each zone.
map-colophon = Worked out with loamshift { $version } on { $day }. Cells of { $cell } m.

## Map

map-rates-title = { $material ->
    [none] Nothing to spread
   *[other] Rates of { $material }
}
map-rates-sentence = { $without ->
    [0] { $zones ->
        [one] One zone gets one rate.
       *[other] { $zones } zones, each with its rate.
    }
   *[other] { $zones ->
        [one] One zone, which gets nothing.
       *[other] { $zones } zones; { $without } of them { $without ->
            [one] gets
           *[other] get
        } nothing.
    }
}
map-ph-title = pH in water
map-ph-sentence = The map runs from pH { $range }; half of it is known to within { $sd } or better (one standard deviation). Dots are samples.{ $further ->
    [0] {""}
   *[other] {" "}Open circles are places for further samples.
}
map-north = Grid north
map-bar = { $length }
map-nothing = nothing
map-legend-sample = sample
map-legend-further = place for a further sample
map-ph-below = below { $ph }
map-ph-above = { $ph } or more
map-ph-between = { $low } to { $high }

## The driver's sheet

map-card-title = { $name }: spreading plan
map-card-subtitle = { $area }, for { $day }. Product: { $material }.
map-card-lead = { $amount } of { $material } in all. Order about 5% more for overlaps (common practice).
map-card-zones = Rates
map-card-before = Before you start
map-card-check-product = Product on the trailer: { $material }. Another product needs other rates.
map-card-check-rate = Set and check the spreader for this product with a tray test. A lime that is damp or coarse throws shorter.
map-card-check-file = In the terminal load rates.gpkg, the zipped shapefile or rates.tif. The rate is in { $field }; the raster is always in kg/ha.
map-card-check-zero = { $zones-count ->
    [one] Shut off in zone { $zones }: it gets nothing.
   *[other] Shut off in zones { $zones }: they get nothing.
}
map-card-check-wind = Do not spread dust in wind that carries it over the boundary.
map-card-after = Write down
map-card-log = { $column ->
    [zone] zone
    [date] date
    [load] spread
   *[by] by
}
map-card-elsewhere = the letter of this field

## Files written

map-file-column = { $column ->
    [zone] letter of the zone
    [name] name of the zone, where it has one
    [product] what is spread
    [rate-kg-ha] rate of the product as bought, kg/ha
    [rate-lb-ac] the same, lb/acre
    [load-t] product for the zone, t
    [area-ha] area of the zone, ha
    [ph-water] pH in water, mean of the zone
    [ph-sd] how far spots of the zone lie from it, pH
    [need-kg-ha] pure lime or sulphur that the zone needs in all, best estimate, kg/ha
   *[decision] what is advised: go, effort, leave, measure-first, elsewhere or stop
}
map-no-product = Nothing is spread on this field now.
map-case-or-options = Say what holds for the whole field in one place: in the case file, or with options.

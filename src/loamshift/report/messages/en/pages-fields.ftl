### The page that maps a field from its samples.

fields-page-title = Field maps
fields-page-waits = Working the map out takes up to a minute.
fields-page-intro = Upload the samples of one field with their places. You get zones, a rate for each, what one dose by the mean would do, and files for the spreader.
fields-page-samples = Samples
fields-page-samples-hint = A table (CSV, Excel) with a column for pH and two for the place, such as longitude and latitude; or points or zones as GeoPackage or GeoJSON. Up to { $most } MB.
fields-page-boundary = Boundary
fields-page-boundary-hint = The outline of the field, as GeoPackage or GeoJSON. Without it the map ends just beyond the samples.
fields-page-plant = What you want to grow
fields-page-target = Or the pH you want
fields-page-method = How the pH was measured
fields-page-method-hint = Needed where no column says it.
fields-page-crs = Coordinate system
fields-page-crs-hint = Only for tables in metres: a code such as EPSG:27700. Longitude and latitude from a satellite receiver are EPSG:4326.
fields-page-case = Case file of the field
fields-page-case-hint = Optional, a .toml file with soil, depth and products. What you fill in above goes before it.
fields-page-sample-price = Price of one more sample
fields-page-loss = Loss per hectare and year outside the range
fields-page-loss-hint = Optional, in the currency of your prices. With both, further samples are weighed against what they bring.
fields-page-price-wrong = Write an amount of money of 0 or more, such as 25.
fields-page-no-client = No client
fields-page-make = Make the map
fields-page-made = Maps made
fields-page-kept = Maps and the files they were made of are removed after { $days } days. Download what you want to keep.
fields-page-driver = Driver’s sheet (PDF)
fields-page-letter = Letter (PDF)
fields-page-gpkg = Rates (GeoPackage)
fields-page-shapefile = Rates (shapefile)
fields-page-tif = Rates (GeoTIFF)
fields-page-png = Map (picture)
fields-page-delete = Delete this map
fields-page-deleted = Map of { $field } deleted.
fields-page-link = Field map
fields-page-no-aim = Say what you want to grow, or which pH you want.
fields-page-kind = { $file } is not a kind of file that this page takes. Save it as CSV, as GeoPackage (.gpkg) or as GeoJSON.
fields-page-content = { $file } does not hold what its ending says. Open it in your map program and save it again as GeoPackage or GeoJSON.
fields-page-extra = This workbench cannot read maps yet: a part of loamshift is missing. Ask whoever looks after it to install loamshift[map]. Nothing you uploaded was kept.

## What a page says in place of messages that speak of commands

map-no-ph-column-in-form = { $path } has no column for pH. Its columns are: { $headings }. Call the right one “pH” and upload the file again.
map-method-missing-in-form = { $rows ->
    [none] Nothing says how the pH was measured, and methods differ by up to a whole unit.
   *[other] Nothing says how the pH of { $rows-count ->
            [one] sample { $rows }
           *[other] samples { $rows }
    } was measured.
} Choose the method below, or add a column “method”.
map-crs-missing-in-form = { $path } does not say which coordinate system its places are in. { $looks ->
    [degrees] They look like degrees. If they are longitude and latitude from a satellite receiver, write EPSG:4326 as the coordinate system.
   *[metres] They look like metres or feet. Ask whoever made the file for the code, such as EPSG:32630, and write it as the coordinate system.
}
map-no-degrees-in-form = { $path } should be in degrees, but one of its coordinates is { $value }. Write the coordinate system it is really in, and remove the wrong one from the file.
map-boundary-small-in-form = The boundary in { $path } holds { $area } m². That is a bed: add it as a bed and write a letter for it. If it is a whole field, its coordinate system is wrong.

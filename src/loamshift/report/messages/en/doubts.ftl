### Figures that look like a slip of the unit: asked about, never refused.

## The question

# $what is one of the phrases below, $given the figure with its unit. $entry is the entry of a list
# that it belongs to, such as "application 2", or "none".
doubt-unusual = { $entry ->
    [none] { $side ->
        [low] { $what } of { $given } is unusually low.
       *[high] { $what } of { $given } is unusually high.
    }
   *[other] { $side ->
        [low] { $what } of { $given } ({ $entry }) is unusually low.
       *[high] { $what } of { $given } ({ $entry }) is unusually high.
    }
}
doubt-other-unit = Did you mean another unit?
doubt-meant = { $meant ->
    [fraction] If you meant a fraction, it is { $value }.
    [g-kg] If you meant g/kg, it is { $value }.
    [mol-kg] If you meant mol/kg, it is { $value }.
    [mmol-kg] If you meant mmol/kg, it is { $value }.
    [mg-kg] If you meant mg/kg, it is { $value }.
    [ms-m] If you meant mS/m, it is { $value }.
    [cm] If you meant cm, it is { $value }.
    [mm] If you meant mm, it is { $value }.
    [inches] If you meant inches, it is { $value }.
    [feet] If you meant feet, it is { $value }.
    [t-ha] If you meant t/ha, it is { $value }.
    [kg-ha] If you meant kg/ha, it is { $value }.
    [us-tons-per-acre] If you meant US tons per acre, it is { $value }.
    [lb-1000-sq-ft] If you meant lb/1,000 sq ft, it is { $value }.
    [lb-acre] If you meant lb/acre, it is { $value }.
    [hectares] If you meant hectares, it is { $value }.
    [acres] If you meant acres, it is { $value }.
    [square-feet] If you meant square feet, it is { $value }.
    [square-centimetres] If you meant square centimetres, it is { $value }.
    [meq-l] If you meant meq/L (mmol/L of bicarbonate), it is { $value }.
    [degrees-dkh] If you meant German degrees (dKH), it is { $value }.
    [degrees-dh] If you meant German degrees (dH), it is { $value }.
    [degrees-clark] If you meant English degrees (Clark), it is { $value }.
    [deg-f] If you meant °F, it is { $value }.
    [lb] If you meant lb, it is { $value }.
   *[kg] If you meant kg, it is { $value }.
}
doubt-right = Is the figure right?
doubt-hint-one-plant = Is it the water for one plant, or for one square metre?
doubt-hint-one-pot = Is it the water for one pot, or for all of them together?
doubt-hint-in-ph = Is it the standard deviation of the reading, in pH?
doubt-until = Until you correct it, we use { $given }.

## A figure with its unit, where the unit belongs to the key

doubt-figure = { $unit ->
    [cmolc-kg] { $n } cmolc/kg
    [g-cm3] { $n } g/cm³
    [ds-m] { $n } dS/m
    [mg-l-caco3] { $n } mg/L CaCO3
    [mm-a-week] { $n } a week
    [mm-a-year] { $n } a year
   *[none] { $n }
}

## What the figure is

doubt-what-organic-matter-content = An organic matter content
doubt-what-organic-carbon-content = An organic carbon content
doubt-what-clay-content = A clay content
doubt-what-sand-content = A sand content
doubt-what-silt-content = A silt content
doubt-what-free-lime-content = A free lime content
doubt-what-cation-exchange-capacity = A cation exchange capacity
doubt-what-base-saturation = A base saturation
doubt-what-magnesium-saturation = A magnesium saturation
doubt-what-exchangeable-sodium-percentage = An exchangeable sodium percentage
doubt-what-exchangeable-aluminium = Exchangeable aluminium
doubt-what-electrical-conductivity = An electrical conductivity
doubt-what-bulk-density = A bulk density
doubt-what-sampling-depth = A sampling depth
doubt-what-lime-requirement = A lime requirement
doubt-what-depth-to-be-treated = A treated depth
doubt-what-depth-of-the-pots = A pot depth
doubt-what-field-area = A field area
doubt-what-bed-area = A bed area
doubt-what-surface-of-one-pot = A pot surface
doubt-what-ring-round-each-plant = A ring diameter
doubt-what-alkalinity = An alkalinity
doubt-what-hardness = A hardness
doubt-what-watering = Watering
doubt-what-rainfall = A rainfall
doubt-what-mean-air-temperature = A mean air temperature
doubt-what-soil-temperature = A soil temperature
doubt-what-depth-of-the-thermometer = A thermometer depth
doubt-what-feed-of-nitrogen = A yearly nitrogen feed
doubt-what-pack = A pack
doubt-what-purity = A purity
doubt-what-application = An application
doubt-what-depth-worked-in = A dug-in depth
doubt-what-proposed-amount = A proposed amount
doubt-what-standard-deviation = A standard deviation

### What a key of the case file takes, for its reference, its schema and a form. Units and examples
### are never translated.

# $unit is none where a number has none.
takes-number = number, { $low } to { $high }{ $unit ->
    [none] {""}
   *[other] {" "}{ $unit }
}
# $units are others that are turned into the unit of the number.
takes-also = { $number }; { $units } are read too
takes-ph = pH, { $low } to { $high }
takes-buffer-ph = pH, 3 to 9, or 48 to 80
takes-whole = whole number, { $low } to { $high }
takes-flag = true or false
takes-date = date, such as 2026-04-12
takes-text = text
takes-word = one word of a list
takes-name = { $kind ->
    [plant] name of a plant
    [material] name of a material
    [texture] name of a texture
    [buffer-ph-method] name of a buffer-pH method
   *[other] name
}
takes-one-or-list = { $item }, or a list of them
takes-list = list: { $item }
takes-twelve = list of twelve, January first: { $item }
takes-month = month, 1 to 12
takes-months = list of months, 1 to 12
takes-currency = three letters
takes-label = table of percentages by form, or the same as a text: The label
takes-version = the number { $version }

# A quantity with a unit: "20 m2".
takes-quantity = { $what }; a bare number is { $bare }
takes-what = { $what ->
    [alkalinity] alkalinity
    [amount] amount
    [area] area
    [depth] depth
    [hardness] hardness
    [length] length
    [rate] rate
    [temperature] temperature
    [volume] volume
    [volume-or-depth] volume or depth
    [weight] weight
   *[other] quantity
}
# What a number without a unit means, where its unit alone does not say it.
takes-bare = { $bare ->
    [cm-from-surface] cm; 0 is the surface
    [g-nitrogen] g nitrogen per m2 and year
    [g-on-bed] g on the whole bed
   *[l-on-bed] L on the whole bed
}
# Units that are words.
takes-unit = { $unit ->
    [degrees-east] degrees east
    [degrees-north] degrees north
    [own-currency] in your currency
    [per-litre] per litre, in your currency
    [per-pack] per pack
   *[years] years
}

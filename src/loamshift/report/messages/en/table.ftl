### Following one published table on request: loamshift advise --table.
### $of is sulfur or lime.

table-no-dose = { $decision ->
    [stop] Nothing more should be applied to this bed, so there is no table to follow. Leave out --table.
    [leave] This bed needs nothing, so there is no table to follow. Leave out --table.
   *[other] We advise no amount for this bed yet, so there is no table to follow. Leave out --table.
}
table-unknown = { $of ->
    [sulfur] There is no published sulphur table called “{ $given }”. These can be followed: { $names }.
   *[lime] There is no published lime table called “{ $given }”. These can be followed: { $names }.
}
table-needs-ph = The table of { $source } needs a soil pH and a target. Give soil.ph and aim.plant.
# $covers is what the table has, from table-covers or table-covers-steps.
table-not-covered = { $of ->
    [sulfur] The sulphur table of { $source } does not cover { $texture } from pH { $from } to { $to }. It has { $covers }. Follow another table, or leave out --table.
   *[lime] The lime table of { $source } does not cover { $texture } from pH { $from } to { $to }. It has { $covers }. Follow another table, or leave out --table.
}
table-covers = textures { $textures }, starts from pH { $starts } and targets from pH { $targets }
table-covers-steps = textures { $textures }, changes of { $steps } pH

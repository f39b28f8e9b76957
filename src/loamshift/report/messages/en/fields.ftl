### How an entry of a list and a method of pH are named. The keys themselves stand in keys-*.ftl.

# One entry of a list and what belongs to it: "Application 2, rate".
field-entry = { $entry } { $number }, { $field }
field-entry-alone = { $entry } { $number }
# An entry of a list in a letter, which shows no numbers of entries: the note behind it names the product.
field-proposed = { $key ->
    [material] What was proposed
    [label] The bag of what was proposed
   *[other] The amount proposed
}
# A key without a name of its own.
field-other = { $name }

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

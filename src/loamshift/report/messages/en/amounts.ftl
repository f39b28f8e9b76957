### Amounts applied or proposed, beside the published limit. Whole sentences follow one another:
### first the amount, then how it compares.
### $rate is the amount as the limit names the substance; $products lists what was applied.
### $counted says what a product is counted as where its own weight is not meant.

# As bought where the limit is by the product's own weight, else as the pure substance.
amount-of = { $counted ->
    [sulfur] { $rate } of pure sulphur from { $products }
    [aluminium-sulfate] { $rate } of aluminium sulphate 18-hydrate from { $products }
    [iron-sulfate] { $rate } of ferrous sulphate heptahydrate from { $products }
    [limestone] { $rate } of pure lime from { $products }
    [nitrogen] { $rate } of nitrogen from { $products }
    [acid] acid equal to { $rate } of pure sulphur, from { $products },
   *[none] { $rate } of { $products }
}
# The ground that a limit was published for.
amount-on = { $on ->
    [unplanted] bare ground
    [planted] planted beds
    [lawn] a lawn
    [field] ground under a crop
   *[container] pots
}

## What was applied

amount-applied-recent = In the past year, { amount-of } was applied.
amount-applied-earlier = Of what was applied earlier, { amount-of } has not yet reacted.
amount-applied-both = In the past year, or earlier and not yet reacted, { amount-of } was applied.
amount-applied-at-once = In one application, or in several too close together, { amount-of } was applied.

## What is proposed

amount-proposed = The amount proposed is { amount-of }.

## How it compares

amount-within-year = That is within the published yearly limit for { amount-on }, { $limit }.
amount-over-year = That is { $times } the published yearly limit for { amount-on }, { $limit }.
amount-over-dose = That is { $times } the published limit for one application on { amount-on }, { $limit }.
# $earlier is "old" where some of what was applied before is more than a year old and yet to react.
amount-over-with-earlier = That is within the limit by itself. With what was applied { amount-before }, it comes to { $times } the published yearly limit for { amount-on }, { $limit }.
amount-sum = With what was applied { amount-before }, it comes to { $times } the yearly limit.
amount-before = { $earlier ->
    [old] in the past year, or earlier and not yet reacted
   *[recent] before
}

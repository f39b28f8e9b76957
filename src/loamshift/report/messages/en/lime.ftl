### Lime whose grade nobody told: what it is taken for, and what to find out.

# The finest sieve of all three laws.
lime-finer-than = { $units ->
    [us] through a 100-mesh sieve
   *[metric] below 0.15 mm
}
# $grade is whose law the fineness is of; $fine is the share finer than that.
lime-taken-as = { $grade ->
    [british] We take it as ground to British legal fineness, with { $fine } { lime-finer-than }; a finer lime works sooner.
    [irish] We take it as ground to Irish legal fineness, with { $fine } { lime-finer-than }; a finer lime works sooner.
    [mixed] Its fineness goes by the country, and the place is not known. We take it as half British and half American grade, with { $fine } { lime-finer-than }; a finer lime works sooner.
   *[pulverised] We take it as the American pulverised grade, with { $fine } { lime-finer-than }; a finer lime works sooner.
}
# $middle and $range are shares of what is spread.
lime-of-unknown-grade = Nobody has told us what this lime is worth, so we count { $middle } of it, in a range of { $range }.

missing-lime-grade-why = How much of a lime counts depends on its neutralising value and on how finely it is ground. We counted { $middle }, in a range of { $range }.
# $kind: burnt, or of any kind; $when: put on already, or still to be.
missing-lime-grade-how = { $when ->
    [past] Which lime was it?
   *[ahead] Which lime is it?
} { $kind ->
    [burnt] Give the neutralising value from the bag, or ask the seller, and say whether it had slaked to a powder. Burnt lime burns skin and eyes.
   *[any] Give the neutralising value and the fineness from the bag, or ask the seller. Hydrated, slaked and burnt lime are stronger, and burn skin and eyes: if it is one of those, name it.
}

# $grade as above.
why-aside-lime-grade = { $grade ->
    [british] The simulated beds get this lime as fine as British law asks and no finer: { $fine } { lime-finer-than }.
    [irish] The simulated beds get this lime as fine as the Irish standard asks and no finer: { $fine } { lime-finer-than }.
    [mixed] No place is known, so the simulated beds get half of this lime in British and half in American fineness: { $fine } { lime-finer-than }. How much of it counts is less sure.
   *[pulverised] The simulated beds get this lime as fine as the American pulverised grade: { $fine } { lime-finer-than }.
}
why-in-lime-counts = { $lime ->
    [unknown-grade] part of a lime of unknown grade that counts
    [unknown-place] part of the lime that works in the field, its grade not known
   *[field] part of the lime that works in the field
}

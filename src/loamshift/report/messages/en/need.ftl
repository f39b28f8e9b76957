### How much, and why.

need-heading = How much, and why
need-heading-would = How much it would take
need-heading-provisional = How much, as far as we can say now

# $of is lime or sulfur: what the amount is counted as.
need-mid = { $of ->
    [lime] Our best estimate of the need is { $mid } of pure lime.
   *[sulfur] Our best estimate of the need is { $mid } of pure sulphur.
}
need-range = The true figure could be anywhere from { $range }: { soil-many } that look the same on paper differ that much, and 90 in 100 fall in that range.
need-range-from-nothing = The true figure could be anywhere up to { $high }, and perhaps nothing at all: { soil-many } that look the same on paper differ that much.
need-whole = For { $whole } that is about { $mid }, in a range of { $range }.
need-whole-mid = For { $whole } that is about { $mid }.
need-pure = { $of ->
    [lime] Pure lime means calcium carbonate; a coarse or weak product takes more.
   *[sulfur] Whatever product brings the acid, these are weights of pure sulphur.
}
need-first = We suggest starting with { $rate } of { $product }, { $amount ->
    [none] as bought
   *[other] as bought: { $amount } for { $whole }
}.
need-first-pure = That is worth { $pure } of pure { $of ->
    [lime] lime
   *[sulfur] sulphur
}.
need-smaller = The first application is smaller on purpose: you can add more after a test, but you cannot take any out.
need-larger = { $why ->
    [undone] More than the need goes on, because part of it will be undone every year.
   *[slow] More than the need goes on, because not all of it will have reacted by the tests that count.
}
need-free-lime = About { $share } of it goes into free lime, which has to be used up before the pH changes for good.
need-published = { $of ->
    [lime] { $n ->
        [one] The one published lime table that covers this soil and this change in pH gives { $range }.
       *[other] { CAPITAL(WORD($n)) } published lime tables for this soil and this change in pH give { $range }.
    }
   *[sulfur] { $n ->
        [one] The one published sulphur table that covers this soil and this change in pH gives { $range }.
       *[other] { CAPITAL(WORD($n)) } published sulphur tables for this soil and this change in pH give { $range }.
    }
}
need-published-no-lime = That is far less than we say, since such a table does not ask how much free lime the soil holds.
need-provisional-label = Provisional
need-provisional = These figures assume the test you still need gives the result we expect. Do not buy anything on the strength of them yet.

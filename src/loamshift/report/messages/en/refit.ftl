### What earlier readings taught about the bed.

# $answered says how the bed answered, for the front sheet.
refit-expected = The test of { $day }, { $reading }, is { $place ->
    [below] below
    [above] above
   *[inside] inside
} the range expected for that day: of 100 such tests, 90 would have read between { $low } and { $high }, with { $middle } as the best estimate.{ $answered ->
    [less] {" "}It answered less than that.
    [more] {" "}It answered more than that.
   *[other] {""}
}
refit-resists-alike = Going by its earlier readings, this soil resists change about as much as its texture suggests.
refit-resists-more = Going by its earlier readings, this soil resists change { $times } as much as its texture suggests.
refit-resists-less = Going by its earlier readings, this soil resists change only { $share } as much as its texture suggests.
refit-pressed = { $end ->
    [low] It may resist even less than we can represent, so check what was applied and when.
   *[high] It may resist even more than we can represent, so check what was applied and when.
}
refit-lime-open = Free lime could explain the same readings: a fizz test would tell.
refit-only-rough = All the readings are rough ones, so this is weak evidence.
refit-no-news = The earlier readings say little about how strongly this soil resists change.
refit-latest-unfit = The latest readings do not fit what was applied, so we cannot learn from them yet how strongly the soil resists.
refit-fits-no-bed = The readings do not fit each other: no likely bed would give them all. Take a new sample before anything else.
refit-doubted = The test of { $day }, { $reading }, fits no likely course of this bed. Repeat it before you trust it: a mixed-up or shallow sample is more likely than a strange soil.
refit-set-aside = Earlier readings were left out, as you asked: this answer uses the latest alone.

refit-heading = What the earlier readings show
refit-doubted-label = Doubtful reading

### The plan: what goes on, when, and what a test decides.

## Under which reading a later application goes on

plan-if-test-asks = only if a test on { $day } still asks for it
plan-if-at-most = only if a test on { $day } reads pH { $ph } or less
plan-if-at-least = only if a test on { $day } reads pH { $ph } or more
plan-if-between = only if a test on { $day } reads pH { $ph }

## The dated applications

plan-heading = When, and how
plan-heading-retest = When to test again
plan-heading-provisional = If the test gives the result we expect
plan-rate = rate
# How it is put on where a test has to call for it first: $condition is one of plan-if-…
plan-only-if = { $condition }: { $how }

# $group is sulfur, lime or salt: what goes on; $n in how many applications.
plan-split = { $group ->
    [lime] Split it into { WORD($n) } applications, so that no layer is limed past what the plants can bear while it is still being mixed in.
    [sulfur] Split it into { WORD($n) } applications: roots and soil microbes can take only so much sulphur at once.
   *[salt] Split it into { WORD($n) } applications, so that the salt of one is washed down before the next.
}
plan-split-tested = The test in between decides whether the next is needed at all.
plan-too-early = { $group ->
    [sulfur] A test before { $day } is too early to show anything: sulphur works only in warm soil.
    [lime] A test before { $day } is too early to show anything: lime dissolves slowly.
    [salt] A test before { $day } is too early to trust: fresh salts lower a reading by more than will last.
   *[none] A test before { $day } is too early to show anything.
}
# $day is when nine tenths of prills have acted; $whole yes where the plan looks that far.
plan-prills = { $whole ->
    [yes] Prills have to break up before they work. Nine tenths of their sulphur should have acted by { $day }, and the plan looks that far.
   *[no] Prills have to break up before they work. Nine tenths of their sulphur should have acted by { $day }, after the day you want the bed for.
}
# $days is a list of dates. $method and $depth are those of the last test, or "none".
plan-retest = { $method ->
    [none] Test again on { $days }, always at the same depth and by the same method.
   *[other] { $depth ->
        [none] Test again on { $days }, at the same depth and by the same method ({ $method }). Otherwise the readings cannot be compared.
       *[other] Test again on { $days }, at the same depth and by the same method ({ $method }, top { $depth }). Otherwise the readings cannot be compared.
    }
}
# Where the last test went to another depth than the application is worked into.
plan-retest-depth = Test the top { $tested } although the application is worked into the top { $worked }: the last test was taken to that depth, and the forecast allows for the difference.
plan-retest-lab = Test again on { $days }: have a laboratory do it, and keep to that depth and method from then on.

### Claims checked: what a material really does to one soil.
### $place is the kind of ground: bed, pot, lawn or field.

# The ground a sentence speaks of. Used inside sentences, after "this", "the" or "such".
claim-place =
    { $place ->
        [pot] pot
        [lawn] lawn
        [field] field
       *[bed] bed
    }
claim-places =
    { $place ->
        [pot] pots
        [lawn] lawns
        [field] fields
       *[bed] beds
    }

# What an amount is held against. $aim is "none" where nobody gave a target; then it is one pH unit.
claim-need =
    { $aim ->
        [none] the acid that would lower the pH by 1 (you gave no target)
       *[given]
            { $needs ->
                [lime] the lime this { claim-place } needs
               *[acid] the acid this { claim-place } needs
            }
    }

# $share is a percentage; $size is "tiny" below 1%.
claim-part =
    { $size ->
        [tiny] less than 1%
       *[plain] { $share }
    }

# Refused where nobody gave the pH of the soil.
claim-no-ph = A claim is checked against the pH of the soil. Give the key ph in [soil], for example: ph = 7.0

## What it does

claim-neutral-salt = This adds no acid, whatever the label says.
claim-neutral-salt-reading = As a salt it can lower a pH reading in water for a while, but the soil itself is no more acid.
# Where sodium holds the soil, gypsum does what it does nowhere else.
claim-gypsum-sodic = In this sodic soil gypsum has other work to do: its calcium takes the place of the sodium. As the sodium is washed out, the pH comes down too.
claim-gypsum-sodic-how = How much it takes, and whether the water can drain away, is for a specialist to say.
claim-iron = It feeds the leaves with iron and does not change the pH.
claim-none-needed = This { claim-place } needs neither acid nor lime now.
claim-none-needed-away = This { claim-place } needs neither acid nor lime, so this would only move it away from its target.
claim-dips = Soil microbes break this acid down: the pH dips by about { $fall } for some days and then comes back.
claim-burns-off = Soil microbes break this acid down within days, so no effect lasts.
claim-scorches = It scorches the leaves it touches.
claim-rots-away = It loses its own acidity as it decomposes and leaves no acid behind.
claim-mulch = Use it as a mulch.
claim-neither = This neither acidifies nor limes.

# Against what the ground needs.
claim-acid-on-lime-need = This acidifies, and the { claim-place } needs lime: keep it off.
claim-little-acid-on-lime-need = The little that is left in the end is acid, and this { claim-place } needs lime.
claim-lime-on-acid-need = This limes, and the { claim-place } needs acid: keep it off.
claim-little-lime-on-acid-need = The little that is left in the end is lime, and this { claim-place } needs acid.

# Organic matter.
claim-peat = This adds real acid, { claim-part } of { claim-need }.
claim-peat-lime = It cannot take the soil below its own pH, and lime in the soil or the water uses its acid up from the edges.
claim-peat-soil = It cannot take the soil below its own pH, and the soil under and around it slowly neutralises it.
claim-organic-nitrate = Once all its nitrogen has turned to nitrate, this has added { claim-part } of { claim-need }.
claim-organic-left = What is left behind in the end is { claim-part } of { claim-need }.

# By its share of the need. $pace is "slow" where much of it is still unreacted after a year.
claim-share =
    { $pace ->
        [slow] In the end that is { claim-part } of { claim-need }.
       *[quick] That is { claim-part } of { claim-need }.
    }
claim-share-unnoticed =
    { $pace ->
        [slow] In the end that is { claim-part } of { claim-need }: too little for a test to notice.
       *[quick] That is { claim-part } of { claim-need }: too little for a test to notice.
    }
claim-share-fits =
    { $pace ->
        [slow] In the end that is about { claim-need }.
       *[quick] That is about { claim-need }.
    }
claim-share-over =
    { $pace ->
        [slow] In the end that is { $times } { claim-need }: too much.
       *[quick] That is { $times } { claim-need }: too much.
    }
claim-share-far-over =
    { $pace ->
        [slow] In the end that is { $times } { claim-need }: far too much.
       *[quick] That is { $times } { claim-need }: far too much.
    }

claim-feed = It is a fertiliser first: use it for the nitrogen the plants need.
claim-feed-stays = In open ground, about a third of its acid stays.
claim-lime-first = The free lime in this soil neutralises it first, so the pH does not change.
claim-pace = Only { $done } of it reacts within a year.
claim-mineral-acid = Mineral acid is for trained people who treat water, never for a bed.
claim-off-the-curve = So much would take this soil below pH 3 or above pH 11, where no figure holds.

# The published limit. $on is the ground of the limit, $substance what it speaks of; $times is
# "2.4 times" or "just over".
claim-over-year =
    { $danger ->
        [yes] { $rate } is { $times } the yearly limit for { claim-ground }, { $limit } of { claim-substance }: a dangerous overdose.
       *[no] { $rate } is { $times } the yearly limit for { claim-ground }, { $limit } of { claim-substance }.
    }
claim-over-once = { $rate } is { $times } the published limit for one application on { claim-ground }, { $limit } of { claim-substance }.
claim-over-once-split = Split it into several applications, and test between them.
claim-ground =
    { $on ->
        [unplanted] bare ground
        [lawn] a lawn
        [field] ground under a crop
        [container] pots
       *[planted] planted beds
    }
claim-substance =
    { $substance ->
        [nitrogen] nitrogen
        [limestone] lime, counted as pure calcium carbonate
        [aluminium-sulfate] aluminium sulphate with 18 water
        [iron-sulfate] iron sulphate with 7 water
       *[sulfur] pure sulphur
    }

## The pH over a year
## $turn is "rise" or "fall"; $side is "higher" or "lower"; pH figures are differences.

claim-year-still = The pH would barely change, now or in a year.
claim-year-in-between =
    { $turn ->
        [rise] The pH would barely change in two weeks or in a year. In between it would rise by about { $most } and come back.
       *[fall] The pH would barely change in two weeks or in a year. In between it would fall by about { $most } and come back.
    }
claim-year-back =
    { $turn ->
        [rise] The pH would rise by about { $now } in the first two weeks and be back where it was after a year.
       *[fall] The pH would fall by about { $now } in the first two weeks and be back where it was after a year.
    }
claim-year-same =
    { $turn ->
        [rise] The pH would rise by about { $now } in the first two weeks and be much the same after a year.
       *[fall] The pH would fall by about { $now } in the first two weeks and be much the same after a year.
    }
claim-year-later =
    { $side ->
        [higher] The pH would barely change in the first two weeks. After a year it would be about { $year } higher.
       *[lower] The pH would barely change in the first two weeks. After a year it would be about { $year } lower.
    }
claim-year-first-and-later =
    { $turn ->
        [rise] The pH would rise by about { $now } in the first two weeks. After a year it would be about { $year } { claim-side }.
       *[fall] The pH would fall by about { $now } in the first two weeks. After a year it would be about { $year } { claim-side }.
    }
claim-side =
    { $side ->
        [higher] higher
       *[lower] lower
    }

# The range of nine beds in ten after that year. $low is the end nearer to no change.
claim-year-range =
    { $side ->
        [higher] For 90 in 100 such { claim-places } it would then be { $low } to { $high } higher.
       *[lower] For 90 in 100 such { claim-places } it would then be { $low } to { $high } lower.
    }
claim-year-range-from-none =
    { $side ->
        [higher] For 90 in 100 such { claim-places } it would then be between unchanged and { $high } higher.
       *[lower] For 90 in 100 such { claim-places } it would then be between unchanged and { $high } lower.
    }
claim-year-range-both = For 90 in 100 such { claim-places } it would then be anything from { $lower } lower to { $higher } higher.

# When a test could first show it. $span is "6 weeks" or "4 months".
claim-when =
    { $wait ->
        [own-ph] A test could first show it after about { $span }, because it works only above its own pH.
        [sulfur] A test could first show it after about { $span }, because soil microbes have to turn it into acid first.
        [grains] A test could first show it after about { $span }, because its grains dissolve slowly.
        [nitrogen] A test could first show it after about { $span }, because its nitrogen has to nitrify first.
        [rot] A test could first show it after about { $span }, because it has to decompose first.
       *[none] A test could first show it after about { $span }.
    }
claim-months =
    { $n ->
        [one] 1 month
       *[other] { $n } months
    }
claim-too-cold = The soil is too cold for that now.
claim-cold = At { $temp }, as now, that is slow.

claim-unreacted =
    { $size ->
        [nearly-all] Nearly all of it would still be there unreacted after a year.
       *[some] About { $left } of it would still be there unreacted after a year.
    }
claim-carbonate =
    { $size ->
        [nearly-all] Nearly all of it would still be there after a year, turned to carbonate.
       *[some] About { $left } of it would still be there after a year, turned to carbonate.
    }
claim-slow-grain = Only the outside of each grain reacts.
claim-slow-dry = On the surface it dries out.
claim-slow-near-lime = So near the pH of lime itself, lime hardly dissolves.
claim-slow-on-top = On the surface it limes the top few centimetres and works down slowly.
claim-slow-coarse = Its coarse grains last for years.

claim-lime-takes =
    { $sure ->
        [yes]
            { $size ->
                [all] Free lime in the soil takes up all of its acid.
               *[some] Free lime in the soil takes up about { $taken } of its acid.
            }
       *[no]
            { $size ->
                [all] This soil probably contains free lime, which takes up all of its acid. A fizz test would show.
               *[some] This soil probably contains free lime, which takes up about { $taken } of its acid. A fizz test would show.
            }
    }
claim-lime-takes-peat =
    { $sure ->
        [yes] Free lime in the soil takes up its acid.
       *[no] This soil probably contains free lime, which takes up its acid. A fizz test would show.
    }
claim-lime-maybe = If this soil contains free lime, that takes up part or all of it. A fizz test would show.
claim-comes-back = Roots and drainage take less base from a more acid soil, so most of the change is lost again.
claim-microbes = Soil microbes break its acid down as it decomposes.

# What the ground does by itself over the same year, against the claim.
claim-alone =
    { $turn ->
        [rise]
            { $cause ->
                [water] Untreated, the pH of this { claim-place } would rise by about { $drift } in a year, from the lime in its water.
               *[none] Untreated, the pH of this { claim-place } would rise by about { $drift } in a year.
            }
       *[fall] Untreated, the pH of this { claim-place } would fall by about { $drift } in a year, as rain and roots take base away.
    }
claim-alone-same = So a test would then read about what it reads today.
claim-alone-net =
    { $side ->
        [higher] So a test would then read about { $net } higher than today.
       *[lower] So a test would then read about { $net } lower than today.
    }
claim-at-the-surface = The top few centimetres, where it lies, would fall to about pH { $lowest }.

## In the letter and on pages

claim-waits-heading =
    { $claims ->
        [one] The claim waits for the test
       *[other] The claims wait for the test
    }
claim-waits =
    { $claims ->
        [one] What it would do to the pH depends on what the pH is now. Until a test has shown that, put none of it on for the sake of the pH.
       *[other] What they would do to the pH depends on what the pH is now. Until a test has shown that, put none of them on for the sake of the pH.
    }
claim-heading =
    { $claims ->
        [one] The claim checked
       *[other] The claims checked
    }
# $said holds whole sentences.
claim-paragraph = **{ CAPITAL($material) }.** { $said }
claim-material = { CAPITAL($material) }
claim-title = { CAPITAL($material) }, { $rate }
# An American reads a rate in both units, because books and papers print the metric one.
claim-both-rates = { $rate } ({ $metric })

claim-adds =
    { $brings ->
        [acid] This adds acid equivalent to { $amount } of pure sulphur.
        [lime] This adds lime equivalent to { $amount } of pure limestone.
        [no-lime] This adds no lime.
       *[no-acid] This adds no lasting acid.
    }
claim-needed =
    { $needs ->
        [none] This { claim-place } needs none.
        [lime] This { claim-place } needs the equivalent of { $amount } of pure limestone.
       *[acid] This { claim-place } needs the equivalent of { $amount } of pure sulphur.
    }
claim-of-the-need = That is { claim-part } of the need.
claim-other-way = This works the other way.

# What the pH would do, where only the curve was asked.
claim-reading-now =
    { $turn ->
        [rise] At once the pH would rise by about { $now }.
        [fall] At once the pH would fall by about { $now }.
       *[none] At once the pH would barely change.
    }
claim-reading-year =
    { $turn ->
        [rise] After a year the pH would be about { $year } higher than without it.
        [fall] After a year the pH would be about { $year } lower than without it.
       *[none] After a year there would be no difference.
    }
claim-reading-still = The pH would barely change, now or later.
claim-reading-stays =
    { $turn ->
        [rise] The pH would rise by about { $now } at once and stay there through the year.
       *[fall] The pH would fall by about { $now } at once and stay there through the year.
    }

# Two bars in a terminal: what it adds, and what the ground needs.
claim-row-adds = it adds
claim-row-needs = the { claim-place } needs
claim-column-what = what
claim-column-worth = equal to, pure
claim-column-bar = on one scale
claim-worth =
    { $brings ->
        [acid] { $amount } of sulphur
        [lime] { $amount } of limestone
       *[none] nothing
    }

# The page of several claims.
claim-lead = { CAPITAL($material) }: { LOWER($said) }
claim-verdict-nothing-needed = The { claim-place } needs neither acid nor lime now.
claim-verdict-none =
    { $needs ->
        [lime] None of these adds any of the lime the { claim-place } needs.
       *[acid] None of these adds any of the acid the { claim-place } needs.
    }
claim-verdict-several =
    { $needs ->
        [lime] { CAPITAL(WORD($n)) } of these add all the lime the { claim-place } needs.
       *[acid] { CAPITAL(WORD($n)) } of these add all the acid the { claim-place } needs.
    }
claim-verdict-far-more =
    { $needs ->
        [lime] Of these, { $material } would add far more lime than the { claim-place } needs.
       *[acid] Of these, { $material } would add far more acid than the { claim-place } needs.
    }
claim-verdict-one =
    { $needs ->
        [lime] Of these, only { $material } would add the lime the { claim-place } needs.
       *[acid] Of these, only { $material } would add the acid the { claim-place } needs.
    }
claim-verdict-nearest =
    { $needs ->
        [lime] None of these is enough. { CAPITAL($material) } would come nearest, with { $share } of the lime the { claim-place } needs.
       *[acid] None of these is enough. { CAPITAL($material) } would come nearest, with { $share } of the acid the { claim-place } needs.
    }
claim-wanted =
    { $plants ->
        [none] Target: pH { $aim }.
       *[other] Target: pH { $aim }, for { $plants }.
    }
claim-as-read = As read
claim-column-material = material
claim-column-amount = amount
claim-column-now = pH at once
claim-column-year = after a year
claim-amount-both = { $given }, that is { $rate }
claim-cell-up = +{ $change }
claim-cell-down = −{ $change }
claim-cell-none = no change
claim-cell-off = beyond our figures

## The card

claim-card-readings = What a test would show
claim-card-why = Why
claim-card-fair = A fair test
claim-card-fair-text = Take the same soil, one part with it and one without. Water both alike, and test them on the same days by the same method.
claim-card-care = Precautions
claim-card-when = when
claim-card-would = the pH would
claim-card-now = at once
claim-card-year = after a year
claim-card-change =
    { $turn ->
        [rise] **rise by about { $change }**
        [fall] **fall by about { $change }**
        [off] **go beyond our figures**
       *[none] **barely change**
    }
claim-card-elsewhere = what loamshift claim prints
claim-log-date = date
claim-log-with = pH with it
claim-log-without = pH without it
claim-log-method = method
claim-log-by = by

## The sheet of folk remedies

claim-sheet-title =
    { $n ->
        [one] What one folk remedy adds, beside what this soil needs
       *[other] What { WORD($n) } folk remedies add, beside what this soil needs
    }
claim-sheet-need =
    { $needs ->
        [none] This { claim-place } needs neither acid nor lime now.
        [lime] This { claim-place } needs lime equivalent to { $amount } of pure limestone.
       *[acid] This { claim-place } needs acid equivalent to { $amount } of pure sulphur.
    }
claim-sheet-best =
    { $size ->
        [tiny] None of these { WORD($n) } adds as much as 1% of that.
        [enough] Of these, { $material } would add the most, and it is enough.
       *[part] Of these, { $material } would add the most: { $share } of that.
    }

# How people usually put it on, for each square metre.
claim-usual-rain = a year of rain, { $water }
claim-usual-mulch = a { $depth } mulch
claim-usual-dug-in = a { $depth } layer, dug in
claim-usual-cup-weekly = one cup a week for a year
claim-usual-litre =
    { $units ->
        [us] one quart, watered on
       *[metric] one litre, watered on
    }
claim-usual-handful = one handful
claim-usual-handfuls = two handfuls
claim-usual-dressing = a usual dressing
claim-usual-eggs = the shells of 50 eggs
claim-usual-area =
    { $units ->
        [us] Cups, handfuls and shells are for 11 sq ft.
       *[metric] Cups, handfuls and shells are for each square metre.
    }
claim-usual-common = The amounts are what people commonly use, without a published source. They are not what we suggest.
claim-usual-figures = What each material adds is calculated from its own figures; loamshift materials NAME shows them with their sources.

# One plain sentence on each.
claim-sheet-salt = This adds neither acid nor lime, whatever the label says.
claim-sheet-fades = Microbes use its acid up within days.
claim-sheet-not-needed =
    { $brings ->
        [acid] This adds acid that the { claim-place } does not need.
       *[lime] This adds lime that the { claim-place } does not need.
    }
claim-sheet-nothing = This adds next to nothing.
claim-sheet-wrong-way =
    { $needs ->
        [lime]
            { $size ->
                [trace] This adds a trace of acid, and the { claim-place } needs lime.
               *[plain] This adds acid, and the { claim-place } needs lime.
            }
       *[acid]
            { $size ->
                [trace] This adds a trace of lime, and the { claim-place } needs acid.
               *[plain] This adds lime, and the { claim-place } needs acid.
            }
    }
claim-sheet-trace =
    { $needs ->
        [lime] This adds less than 1% of the lime the { claim-place } needs.
       *[acid] This adds less than 1% of the acid the { claim-place } needs.
    }
# $pace is "slow" where much of it has not reacted after a year.
claim-sheet-part =
    { $needs ->
        [lime]
            { $pace ->
                [slow] This adds { $share } of the lime the { claim-place } needs, but takes years to react.
               *[quick] This adds { $share } of the lime the { claim-place } needs.
            }
       *[acid]
            { $pace ->
                [slow] This adds { $share } of the acid the { claim-place } needs, but takes years to react.
               *[quick] This adds { $share } of the acid the { claim-place } needs.
            }
    }
claim-sheet-peat = This adds { $share } of the acid needed, but stops at its own pH.
claim-sheet-enough =
    { $needs ->
        [lime]
            { $pace ->
                [slow] This adds about as much lime as the { claim-place } needs, but takes years to react.
               *[quick] This adds about as much lime as the { claim-place } needs.
            }
       *[acid]
            { $pace ->
                [slow] This adds about as much acid as the { claim-place } needs, but takes years to react.
               *[quick] This adds about as much acid as the { claim-place } needs.
            }
    }
claim-sheet-too-much =
    { $needs ->
        [lime]
            { $pace ->
                [slow] This adds { $times } the lime the { claim-place } needs, but takes years to react.
               *[quick] This adds { $times } the lime the { claim-place } needs: too much.
            }
       *[acid]
            { $pace ->
                [slow] This adds { $times } the acid the { claim-place } needs, but takes years to react.
               *[quick] This adds { $times } the acid the { claim-place } needs: too much.
            }
    }

claim-sheet-column-usual = usual amount
claim-sheet-column-rate = that is
claim-sheet-rate = { $rate }
claim-sheet-column-ph = pH after a year
claim-sheet-column-verdict = in one sentence
claim-sheet-heading-each = Each on its own
# In the picture: a remedy with its amount.
claim-sheet-bar = { CAPITAL($material) }, { $usual }
claim-sheet-figure = What each adds in the end, on one scale
# Read aloud in place of its bar.
claim-sheet-line = { $material } ({ $said })
claim-sheet-elsewhere = what loamshift claim --sheet prints

## Bars on one scale, in letters, cards, pages and pictures

claim-figure-title = Added in the end, beside what is needed
claim-figure-need = What the { claim-place } needs
claim-figure-limes = limes
claim-figure-acidifies = acidifies
claim-figure-column = adds in the end, as pure
claim-worth-in-figure =
    { $brings ->
        [acid] { $amount } of sulphur
        [lime] { $amount } of limestone
       *[none] nothing that lasts
    }
# At the end of a bar. $way: none, right, or wrong-acid and wrong-lime for what works against the need.
claim-figure-brought =
    { $way ->
        [none] nothing that lasts
        [wrong-acid] { claim-worth-in-figure }, the wrong way
        [wrong-lime] { claim-worth-in-figure }, the wrong way
       *[right] { claim-worth-in-figure }, { claim-part }
    }
# Read aloud in place of the bars. $lines are one phrase for each bar.
claim-figure-sentence =
    { $needs ->
        [none] The { claim-place } needs neither acid nor lime: { $lines }.
        [lime] The { claim-place } needs lime equivalent to { $need }: { $lines }.
       *[acid] The { claim-place } needs acid equivalent to { $need }: { $lines }.
    }
claim-figure-line =
    { $way ->
        [none] nothing that lasts from { $material }
        [wrong-acid] acid instead from { $material }, equivalent to { $amount } of sulphur
        [wrong-lime] lime instead from { $material }, equivalent to { $amount } of limestone
       *[right] { claim-part } of that from { $material }
    }

## Pictures for a talk or a class

claim-talk-title = What { WORD($n) } materials add, beside what this soil needs
# One sentence. $size: unneeded, tiny, enough or part.
claim-talk-best =
    { $size ->
        [unneeded] This { claim-place } needs neither acid nor lime now.
        [tiny]
            { $needs ->
                [lime] None of these { WORD($n) } adds as much as 1% of the lime this { claim-place } needs.
               *[acid] None of these { WORD($n) } adds as much as 1% of the acid this { claim-place } needs.
            }
        [enough]
            { $needs ->
                [lime] Of these { WORD($n) }, { $material } would add the most, and that is enough lime for this { claim-place }.
               *[acid] Of these { WORD($n) }, { $material } would add the most, and that is enough acid for this { claim-place }.
            }
       *[part]
            { $needs ->
                [lime] Of these { WORD($n) }, { $material } would add the most: { $share } of the lime this { claim-place } needs.
               *[acid] Of these { WORD($n) }, { $material } would add the most: { $share } of the acid this { claim-place } needs.
            }
    }
claim-talk-source =
    { $texture ->
        [none] Soil pH { $ph }. Calculated with loamshift { $version } from its tables of materials.
       *[other] { CAPITAL($texture) }, pH { $ph }. Calculated with loamshift { $version } from its tables of materials.
    }
# The same for a sheet of folk remedies at usual amounts.
claim-talk-source-usual =
    { $texture ->
        [none] Soil pH { $ph }. Usual amounts: common practice. Calculated with loamshift { $version }.
       *[other] { CAPITAL($texture) }, pH { $ph }. Usual amounts: common practice. Calculated with loamshift { $version }.
    }
# Refused: there is nothing to draw the bars against.
claim-talk-nothing = This { claim-place } needs neither acid nor lime, so there is no picture to draw. Give another target, for example: --target-ph 6.5

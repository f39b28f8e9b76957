### Putting right a bed that has had too much, and helping plants where the pH cannot change.
### Steps whose key begins with "rescue-today-" are the short list for the first hour.

## What is wrong

# $ph is the pH below which the roots suffer.
rescue-too-acid = { $ground ->
    [container] This mix
   *[bed] This soil
} is too acid. Below pH { $ph }, aluminium and manganese harm roots more than the acid itself does.
# $sulfur is pure sulphur that would make as much acid.
rescue-acid-to-come = Beyond what the reading shows, the material already applied releases acid equal to { $sulfur } of pure sulphur. That is more than { soil-this } can absorb without falling below pH { $ph }.
# How much slower it goes without air, and for how long, nobody has measured.
rescue-as-if-drained = The figures are those of ground that drains. While water stands here, sulphur turns to a poisonous gas and makes almost no acid: the acid comes once the water has gone.
rescue-acid-at-once = Beyond what the reading shows, the material already applied releases acid equal to { $sulfur } of pure sulphur. The pH may end where you want it, but so much acid at once injures roots on the way.
# Stands after a sentence that says how much was applied.
rescue-so-much-at-once = So much at once injures roots, whatever pH { soil-the } ends at.
rescue-over-limed = { $ground ->
    [container] This mix
   *[bed] This soil
} has had too much lime: its pH is above { $ph }, or soon will be.
# Stands after a sentence that says how much was applied.
rescue-unread = How far the pH has moved, only a test can tell.
rescue-sodic = Sodium controls { soil-this }. Its structure breaks down, and its pH is only a symptom.
rescue-salty = { $ground ->
    [container] This mix
   *[bed] This soil
} is already too salty, and every material that changes the pH adds more salt.
rescue-waterlogged = { $ground ->
    [container] This mix
   *[bed] This ground
} is waterlogged. Without air, sulphur turns into hydrogen sulphide instead of acid, and that kills roots.
rescue-relief =
    { $bed ->
        [pot] The pH in these pots cannot be brought down and held there. Until the plants are repotted, this helps them.
       *[ground] The pH of this ground cannot be brought down and held there, so the plants already there need help in another way.
    }

## Where it is heading

# Percentiles 5 and 95 of the pH to come.
rescue-expected = If you do nothing, the pH would end between { $low } and { $high } in 9 of 10 cases.
rescue-expected-near = If you do nothing, the pH is likely to end near { $ph }.

## Today: the first hour

rescue-today-stop-acid = Stop everything that acidifies: sulphur, iron sulphate, aluminium sulphate, ammonium and urea fertilisers, and acidified water.
rescue-today-stop-lime = Stop everything that limes: lime, wood ash and mushroom compost. Use rainwater where you can, because mains water often contains lime.
rescue-today-stop-all = Apply nothing more of any kind: no fertiliser, no lime, no acid.
rescue-today-stop-feeds = Stop all fertilisers and soil improvers until the salt level is down.
rescue-today-stop-ph = Apply nothing that is meant to change the pH.
rescue-today-drain = { $ground ->
    [container] Let the pot drain before anything else: clear its holes, and lift it out of any saucer.
   *[bed] Drain { bed-the } or raise it before anything else.
} Until air reaches the roots, nothing you apply will work.
# $what: grains of prills, or whatever is left. $direction: which way the material moves the pH.
rescue-today-take-up =
    { $what ->
        [grains] Pick up or rake off the grains you can see, with the top { $units ->
            [us] half inch
           *[metric] centimetre
        } of { soil-one }.
       *[rest] Pick up or rake off what is still on the surface, with the top { $units ->
            [us] half inch
           *[metric] centimetre
        } of { soil-one }.
    } Work while { soil-the } is damp and the air is still, and do not dig anything in. { $direction ->
        [lime] What you remove cannot raise the pH.
       *[acidify] What you remove needs no lime.
    }
rescue-today-acid-spill = { $ground ->
    [container] Keep people and animals away from the wet pots. Put on goggles and gloves, stand upwind, and run plenty of water through the pots from a hose: it thins the acid that is in the mix already.
   *[bed] Keep people and animals off the wet ground. Put on goggles and gloves, stand upwind, and water the ground with plenty of water from a hose: it thins the acid that is in the soil already.
} Never pour water into a container of acid.
rescue-today-caustic = Hydrated and burnt lime burn skin and eyes. { $ground ->
    [container] Wear gloves and goggles, and keep children and pets away.
   *[bed] Wear gloves and goggles, keep children and pets off, and water it in well before anybody walks there.
}
rescue-today-sweep-lime = Sweep up or rake off what is still on the surface, before rain washes it in.
# $top is the depth of the first sample.
rescue-today-test =
    { $what ->
        [ph] Send samples for a laboratory test of pH:
       *[ph-salt] Send samples for a laboratory test of pH and salt (EC):
    } { $ground ->
        [container] from the top { $top } and from the lower half of the pot, each in its own bag.
       *[bed] from the top { $top }, from the depth you treated and from below it, each in its own bag.
    }{ $lies ->
        [no] {""}
       *[yes] {" "}What is on top has not reached the roots yet.
    }
# Salt that has dissolved. $water is the depth of one watering.
rescue-today-wash =
    { $drainage ->
        [free] Water { bed-the } through with { $water } of low-salt water, such as rainwater, and again a few days later.
       *[unknown] If water drains away freely, water { bed-the } through with { $water } of low-salt water, such as rainwater, and again a few days later.
    } That takes the salt below the roots.
rescue-today-no-wash = Do not flush { bed-the }: it drains too slowly, and standing water does more harm than the salt. Rain takes the salt down in time.

## Then, in this order

rescue-test-drained = Once it is drained, { $ground ->
    [container] have a laboratory test the pH of the top { $top } and of the lower half of the pot.
   *[bed] have a laboratory test the pH of the top { $top }, of the depth you treated and of the soil below.
}
rescue-test-sodic = Have a laboratory test sodium, salt (EC) and free lime at several depths.
rescue-sodic-advice = Take specialist advice on gypsum, drainage and flushing, in that order. Flushing a sodic soil without calcium seals it.
# $limit is salt in the saturated paste, $water the depth of one flushing.
rescue-flush =
    { $drainage ->
        [free] If the salt reads above { $limit } in saturated paste (ECe), flush it out with { $water } of low-salt water. Repeat a few days later.
       *[unknown] If the salt reads above { $limit } in saturated paste (ECe) and water drains away freely, flush it out with { $water } of low-salt water. Repeat a few days later.
    } This removes salt, but nothing that has yet to react.
rescue-no-flush = Do not flush { bed-the }: it drains too slowly, and standing water does more harm than the salt.
# $limit is salt in saturated paste, $range the pH wanted or "none".
rescue-salt-test = About { $day }, have a laboratory test salt (EC) and pH { $ground ->
    [container] of the whole depth of the mix
   *[bed] of the depth you treated
}. { $planted ->
    [yes] Apply nothing before the salt comes to { $limit } or less in saturated paste (ECe). Then the pH decides what follows.
   *[no] Plant nothing and apply nothing before the salt comes to { $limit } or less in saturated paste (ECe){ $range ->
        [none] {""}
       *[other] {" "}and the pH reads { $range }
    }.
}
# $rate is ground limestone as bought.
rescue-first-lime =
    { $how ->
        [surface] Lime in small applications. Start with { $rate } of ground limestone from the bag, spread thinly on the surface and watered in.
       *[mixed] Lime in small applications. Start with { $rate } of ground limestone from the bag, mixed into the depth you treated.
    } Aim no higher than pH { $ph }.
rescue-test-before-next = Test again about { $wait } later. Apply more only if the pH still reads below { $ph }. Stop once it reads { $ph }: the last application is still working.
rescue-no-lime-needed = Do not lime. The soil takes up this acid: the pH should not fall below { $ph }. Around the grains it is far more acid than a mixed sample shows, and that is what harms roots.
rescue-no-lime-ahead = Do not lime ahead of the acid: the acid comes over years, but lime works within months. Test twice a year, and apply a little ground limestone each time the pH reads below { $ph }.
rescue-lime-at-work = Do not lime again before the test: the lime already applied is still working. Apply a little more ground limestone only if the pH then still reads below { $ph }.
# Shares of what the reading had not seen yet.
rescue-clock = { $pace ->
    [years] Of what the reading had not seen yet, hardly anything acts within a month and { $year } within a year.
    [done] Nearly all of what the reading had not seen has acted by now.
    [fast] Of what the reading had not seen yet, { $now ->
        [none] hardly anything
       *[other] { $now }
    } has acted by today, and nearly all will have within a month.
   *[slow] Of what the reading had not seen yet, { $now ->
        [none] hardly anything
       *[other] { $now }
    } has acted by today, { $month } will have within a month and { $year } within a year.
}
rescue-part-now = { $first ->
    [specialist] Once that is ruled out and the laboratory confirms that { bed-the } is too acid, apply { $rate } of { $product } from the bag, on about { $day } at the earliest, and no more: the rest follows the tests.
   *[laboratory] If the laboratory confirms that { bed-the } is too acid, apply { $rate } of { $product } from the bag on about { $day }, and no more: the rest follows the tests.
}
rescue-part-not-yet = { $what ->
    [acted] Apply no { $product } yet: only a test shows how far the pH has gone.
   *[pending] Apply no { $product } yet: what lies there has still to act, and only a test shows how far it takes the pH.
}
rescue-part-test = Test on { $day }. The table in the letter says what each reading calls for.
# $low and $high bound what the plants bear; $half and $nine are days, $nine none where out of sight.
rescue-safe = { $half ->
    [none] Of 100 beds like this one, 90 stay between pH { $low } and { $high }, which the plants bear, from { $nine } on. Plant then, if tests of pH and salt agree.
   *[other] Of 100 beds like this one, 50 stay between pH { $low } and { $high }, which the plants bear, from { $half } on. { $nine ->
        [none] The forecast does not see 90 of them there, so plant only when two tests half a year apart read between them.
       *[other] From { $nine } on, 90 do. Plant then, if tests of pH and salt agree.
    }
}
rescue-safe-by-ph = The pH alone does no harm: of 100 beds like this one, at least 90 stay between pH { $low } and { $high }, which the plants bear. So much at once can still injure roots. Plant once a test of pH and salt is back and shows that both are safe.
rescue-not-safe = Most beds like this one do not come to stay between pH { $low } and { $high }, which the plants bear, before { $day }. Plant elsewhere until two tests half a year apart read between them.
# Stands under the course of the pH in a pot.
rescue-safe-repotted = This is the old mix, if it were kept. Plants that are repotted in fresh compost are out of it at once.
rescue-too-much-to-undo = Within the published limits, this treatment would make { $share } of 100 beds like this one safe by { $day }. Replacing the soil to the depth it was treated is surer.
rescue-repot = Do not treat the mix in the pots. Tip the plants out, shake off the old mix and repot them in fresh compost. Put the old mix where nothing grows.
rescue-hurt = If a person or an animal has swallowed it, breathed it in or has it in the eyes, see to that before all else. Rinse with plain water and get medical or veterinary help.
rescue-lift-until-steady = Move plants you value into fresh compost until the tests are steady. Roots that have turned brown and stubby will not recover where they are.
rescue-lift-if-scorched = If leaves wilt or their edges turn brown, move plants you value into fresh compost until the test is back.
rescue-lift-until-result = Move plants you value into fresh compost, and wait for the result.
rescue-keep-moist = Keep { soil-the } evenly moist with rainwater until the result is in. When it dries, the salt rises to the roots.
rescue-acid-sulfate = If nobody has acidified this ground, a pH below { $ph } in coastal or drained clay, or in mine spoil, may mean acid sulphate soil. Leave it undug and undrained, and ask a specialist.
rescue-fizz = Drip dilute hydrochloric acid (or vinegar) on a dried sample, and watch and listen for fizzing. If it fizzes, { soil-the } still contains free lime.
# $first is the most for one application, $least and $most what it may take in all, pure sulphur.
rescue-sulfur-after-fizz =
    While it fizzes, wait: sulphur would only dissolve the free lime. Once the fizzing stops, bring the pH back to { $ph } with small applications of sulphur in warm soil. Make the first no more than { $first } of pure sulphur, and test before the next. { $least ->
        [none] In all it may take up to { $most }, or perhaps none.
       *[other] In all it may take { $range }.
    }
rescue-feed-ammonium = Use ammonium fertiliser instead of nitrate, within the nitrogen the plants need. It lowers the pH too, slowly and safely.
rescue-rotten-eggs = A smell of rotten eggs or a black layer means there is hydrogen sulphide already. Open the surface and let it air. Plant again only when the smell and the colour are gone.

## What not to do

rescue-never-caustic = No hydrated lime or quicklime: both overshoot and burn roots.
rescue-never-lime-on-ammonium = No lime or wood ash within a month of ammonium or urea fertiliser: ammonia gas is given off.
rescue-never-ammonium-on-lime = No ammonium or urea fertiliser within a month of the lime: ammonia gas is given off.
rescue-never-second = No second application before the test: sulphur and lime both go on working for months.
rescue-never-more-acid = No more acid of any kind, coffee grounds and vinegar included, to even things out.
rescue-never-acid-on-bed = No vinegar, battery acid or other acid on { $ground ->
    [container] the mix
   *[bed] { bed-the }
}: it burns roots and does not last.
rescue-never-bleach = Never let acid or acid salts meet bleach, pool chlorine or any hypochlorite: poisonous chlorine gas is given off.
rescue-never-second-correction = No second correction before a test shows what the first one did.
rescue-never-guess =
    { $direction ->
        [lime] No acid or sulphur on a guess: while there is free lime, it only dissolves that.
       *[acidify] No lime on a guess: it overshoots as easily as the acid did.
    }
rescue-never-dig-in = Do not dig in what is still on the surface.
rescue-never-water-alone = No flushing with water alone in the hope of washing the sodium out.
rescue-never-ordinary-rates = No lime or sulphur at { $ground ->
    [container] the usual rates for pots
   *[bed] the rates for ordinary soil
}.
rescue-never-sulfates = No sulphate of iron, aluminium, ammonium or potassium, and no gypsum unless a test shows too much sodium.
rescue-never-dry = Do not let { $ground ->
    [container] a salty mix
   *[bed] salty ground
} dry out: the salt rises to the roots.
rescue-never-sulfur-wet = No sulphur and no sulphates while { $ground ->
    [container] the mix
   *[bed] the ground
} is wet.
rescue-never-dig-wet = { $ground ->
    [container] Do not tip out a wet pot that smells of rotten eggs indoors, and keep your face away from it.
   *[bed] Do not dig deep in wet ground that smells of rotten eggs, and keep your face away from the hole.
} At dangerous levels you can no longer smell the gas.
rescue-never-outrun = Do not keep adding sulphur in the hope of outrunning the lime: { soil-the } gets salty and the pH comes back.
rescue-never-plain-iron = Do not use plain iron sulphate for the iron { $ground ->
    [container] in a limy mix
   *[bed] on chalky or limy soil
}: it is locked up within days.

## Yellowing plants in soil nobody can acidify

rescue-iron-or-not = Make sure that iron is the problem: the youngest leaves turn yellow between green veins. If the oldest leaves turn yellow first, the plant is short of nitrogen or magnesium, and iron will not help.
# The pH up to which each kind of chelate holds its iron.
rescue-chelate-eddha = Water in an EDDHA iron chelate at the rate on its label, in spring as growth starts. It holds its iron up to about pH { $eddha }, where DTPA stops at { $dtpa } and EDTA at { $edta }.
rescue-chelate-dtpa = Water in an iron chelate at the rate on its label, in spring as growth starts. At this pH a DTPA chelate still holds its iron. Above about pH { $dtpa }, only EDDHA does.
rescue-iron-spray = For quick greening, spray the leaves with an iron chelate or iron sulphate sold for leaves, on a dull day and at the rate on the label. It greens only the leaves it touches, so repeat it as new ones come.
rescue-iron-feed = Use ammonium fertiliser instead of nitrate, within the nitrogen the plants need, and avoid waterlogging. Nitrate and wet roots both keep plants short of iron.
rescue-rainwater = Use rainwater where you can: the lime in mains water adds to the problem.
rescue-arborist = For a tree, call a qualified arborist. Iron put into the trunk or the root zone takes 12 to 24 months to show, and has to be repeated.
rescue-next-tree = When the tree has to be replaced, choose one that suits { soil-this }.
rescue-own-place =
    { $bed ->
        [pot] Repot in fresh ericaceous compost and water with rainwater. Or grow something that suits this water.
        [stock] In the long run, plant a rootstock or variety that is sold for limy soil. Or plant something that suits this soil.
       *[ground] In the long run, grow the plants in a raised bed or pot filled with lime-free compost, watered with rainwater. Or plant something that suits this soil.
    }

## The section of the letter, and the sheet

rescue-heading = Putting it right
rescue-heading-relief = Helping the plants already there
rescue-today = Today:
# In the working, where the front sheet has said the first steps.
rescue-then-today = After the steps on the front sheet, in this order:
rescue-then = Then, in this order:
rescue-not = What not to do:
# $low, $high and $mid are pure lime, $least is "none" where the soil may need none.
rescue-lime-range =
    { $least ->
        [none] To come back to the lower limit, this soil needs up to { $high } of pure lime, or perhaps none.{ $mid ->
            [none] {""}
           *[other] {" "}Our best estimate is { $mid }.
        }
       *[some] To come back to the lower limit, this soil needs { $range } of pure lime. Our best estimate is { $mid }.
    } Apply it in small amounts, and test before each.
rescue-sheet-today = Today
rescue-sheet-then = Then, in this order
rescue-sheet-never = Never
rescue-sheet-ask = Whom to ask
rescue-sheet-test = When to test
rescue-sheet-readings = Readings
rescue-sheet-care = Precautions

## The course of a rescue, day by day

rescue-course-caption = How it goes on: the median of the simulated { $ground ->
    [container] pots
   *[bed] beds
}, and 90 in 100 of them
rescue-course-on = on
rescue-course-come = has acted
rescue-course-untreated = pH left alone
rescue-course-treated = pH with this plan
rescue-course-ph = { $mid } ({ $range })

## Whom to ask

rescue-ask-hurt = Emergency services, a poison centre or a vet, where a person or an animal is hurt.
rescue-ask-laboratory = A soil laboratory for pH and salt (EC), always by the same method.
rescue-ask-adviser = A local or licensed adviser, before you apply anything more or give up plants of value.
rescue-ask-acid-sulfate = A specialist, before you dig or drain, if soil this acid is near the coast or smells of rotten eggs.
rescue-ask-sodium = A soil chemist, before you buy gypsum: the amount depends on the sodium.

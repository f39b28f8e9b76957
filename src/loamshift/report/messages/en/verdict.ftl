### Why the advice is what it is, and what would change it: one or two messages a reason.
### $plants is the list of plants wanted, or "none" where only a target pH was given.
### $range is the pH range wanted, $ph a pH as it was read, $rate an amount of pure sulphur or lime.

## What the bed reads and wants, inside other messages

# $given is the reading itself where it is taken as another figure in water, else "none"; $method how
# it was read. $salt is "yes" where several readings in a salt are told together, as in water.
verdict-reading = { $method ->
    [none] { $salt ->
        [yes] pH { $ph } in water
       *[no] pH { $ph }
    }
    [cacl2] pH { $given } in calcium chloride (about { $ph } in water)
    [kcl] pH { $given } in potassium chloride (about { $ph } in water)
    [unknown] pH { $given } by a method not stated (most likely about { $ph } in water)
    [paste] pH { $given } in a paste with water (about { $ph } in water 1:2.5)
   *[other] pH { $given } in { field-ph-by } (about { $ph } in water 1:2.5)
}
verdict-range = { $plants ->
    [none] the target range, pH { $range }
   *[other] the range for { $plants }, pH { $range }
}

## What goes on first

verdict-start = Start with { $rate } of { $product }.
verdict-start-test = Test on { $day }: that test decides what follows.
verdict-start-nothing = Apply nothing yet.

## One published table is followed on request

# $source is the table's citation, $recalled "yes" where its figures are cited from memory.
verdict-table = { $recalled ->
    [yes] You asked us to follow one published table, cited from memory and not checked: { $source }.
   *[no] You asked us to follow one published table: { $source }.
}
verdict-table-rate = { $direction ->
    [lime] For this soil and this change in pH it gives { $rate } of pure lime.
   *[acidify] For this soil and this change in pH it gives { $rate } of pure sulphur.
}
# $beside says whether the table gives as much as we do, more or less; $times and $share compare them.
verdict-table-ours = { $beside ->
    [same] Our own best estimate of the need is about the same, { $own }.
    [more] That is { $times } our own best estimate of the need, { $own }.
   *[less] That is { $share } of our own best estimate of the need, { $own }.
}
verdict-table-limits = Published tables do not allow for free lime, for your water, or for how much may be applied at once.
verdict-table-nothing = We give no amounts and dates for it, for the reason above.

## Nothing can be judged

verdict-no-ph = We have no pH reading, and without one nobody can advise on pH.
verdict-ph-too-old = The last pH test, of { $day }, is too old to go by, and without one nobody can advise on pH.
verdict-no-ph-change = A laboratory pH, measured in water, with the depth sampled.
verdict-no-aim = You have not said what you want to grow, so no pH is right or wrong for { soil-this }. It tested at { $reading }.
verdict-no-aim-change = The plant you want to grow, or a target pH.

## Nothing may go on

verdict-overdose = The material already applied is more than { soil-this } can absorb.
verdict-overdose-past = The material already applied is more than the plants can bear.
# $acted is "yes" where nearly all of it has acted by now, though the test could not see it.
verdict-overdose-course = { $acted ->
    [yes] It has acted since { soil-the } tested at pH { $ph }: we put the pH at about { $expected } now.
   *[no] It is still reacting: { soil-the } tested at pH { $ph }, and we expect about pH { $expected } before it has finished.
}
verdict-overdose-change = A weighed amount well below this one.
verdict-overdose-change-test = { $ground ->
    [container] A pH and salt test of the whole depth of the mix in a few weeks, showing that less has reacted than we estimate.
   *[bed] A pH and salt test in a few weeks, at the depth it was dug in, showing that less has reacted than we estimate.
}
verdict-too-acid = { $ground ->
    [container] The mix tested at { $reading }. Below pH { $limit }, roots are injured. Apply nothing that acidifies, and repot if a second test reads the same.
   *[bed] The soil tested at { $reading }. Below pH { $limit }, aluminium injures roots, and this may be an acid sulphate soil. Apply nothing that acidifies, and lime only after a specialist has looked at it.
}
verdict-too-acid-change = A second laboratory test above pH { $limit }.
verdict-sodic = Sodium holds { $sodium } of the exchange sites. From { $limit } a soil is called sodic, and lime and acid alone do not explain its pH.
verdict-sodic-change = A laboratory report that shows less sodium.
# $ece is the same as it would read in saturated paste.
verdict-salt = { CAPITAL(soil-the) } already holds too much salt: { $paste ->
    [yes] { $ece } in saturated paste
   *[no] { $salt } by { $method }, about { $ece } in saturated paste
}, where the limit is { $limit }. Every material here would add more.
# $ece is the most that what was applied lately may bring, $limit what the plants bear.
verdict-salt-put-on = { $products-count ->
    [one] Until it is washed down, the { $products } may bring
   *[other] Until they are washed down, the { $products } may bring
} { soil-the } to a salinity (ECe) of { $ece }, where the limit here is { $limit }.
verdict-salt-put-on-change = A test of salt (EC), taken after the last application, that comes to { $limit } or less in saturated paste.
verdict-salt-change = A low reading after { bed-the } has been flushed with good water.
verdict-waterlogged = { $ground ->
    [container] The mix is waterlogged.
   *[bed] The ground is waterlogged.
} Without air, sulphur turns to hydrogen sulphide instead of acid.
verdict-waterlogged-change = Drainage that lets { bed-the } dry out between rains.
# $ranges lists each plant with its range.
verdict-no-common-range = No single pH suits these plants together: { $ranges }.
# $suits are those of the plants whose range holds the reading.
verdict-suits-now = { CAPITAL(soil-this) } tested at { $reading }, which suits { $suits } as it is.
verdict-beyond-all = { CAPITAL(soil-this) } tested at { $reading }, { $side ->
    [above] above the ranges of them all.
   *[below] below the ranges of them all.
}
verdict-lime-holds = Its free lime holds it there, so choose plants that bear lime, or grow these in other soil.
verdict-plant-apart = Plant them apart, each in soil of its own. A pot or a raised bed suits those that do not like this ground.
verdict-plant-range = { $plant } { $range }
verdict-no-common-range-change = A choice of plants that share a range.

## Leave it

verdict-in-range = It tested at { $reading }, within { $wanted }.
# In the three messages about where it is now, $applied lists what has moved it since the test ("none"
# where that is not known), $way says which way, and $reading is the test.
verdict-in-range-now = { $applied ->
    [none] All its readings together, and what has happened since, put it at about pH { $ph } now, within { $wanted }.
   *[other] { verdict-since } We put it at about pH { $ph } now, within { $wanted }.
}
verdict-since = { $applied-count ->
    [one] { $way ->
        [rise] It tested at { $reading }, and { $applied } has raised it since.
       *[fall] It tested at { $reading }, and { $applied } has lowered it since.
    }
   *[other] { $way ->
        [rise] It tested at { $reading }, and { $applied } have raised it since.
       *[fall] It tested at { $reading }, and { $applied } have lowered it since.
    }
}
# $aim is the pH asked for, where the bed lies elsewhere in the range of its plants.
verdict-target-within = Your target, pH { $aim }, is in that range too, so the plants do not need the change. If you want it for another reason, such as a disease, ask again without the plants.
verdict-in-range-change = A careful test outside pH { $range }.
verdict-stay = Of 100 { bed-alike } like this one left alone, { $stay } would stay in or close to that range { $until ->
    [none] over the next few years
   *[other] until { $until } and for a year after
}.
verdict-at-work = The material already applied is still reacting. By itself it will bring { soil-this } to about pH { $expected }, from pH { $ph } when it was sampled.
verdict-at-work-within = That is within { $wanted }. More now would overshoot.
verdict-at-work-near = That is so close to { $wanted }, that a second test could not show the difference.
verdict-at-work-change = A test after it has reacted that is still outside the range.
verdict-small-gain = It tested at { $reading }, at the edge of { $wanted }.
verdict-small-gain-now = { $applied ->
    [none] It is now at about pH { $ph }, at the edge of { $wanted }.
   *[other] { verdict-since } It is now at about pH { $ph }, at the edge of { $wanted }.
}
verdict-small-gain-scatter = A change of less than { $gain } is no bigger than the usual difference between two tests.
verdict-small-gain-change = A repeat test more than { $gain } outside pH { $range }.

## Measure first

verdict-lime-contradicts = The pH and the free lime do not fit together: a soil at { $reading } does not hold so much lime. One of the two belongs to another sample, or shells or limestone grit got into it. Apply nothing on the strength of them.
verdict-lime-below = This soil holds free lime, yet it tests at { $reading }, below { $wanted }. It does not lack lime: either the lime is coarse and still dissolving, or one of the two figures belongs to another sample. Apply nothing on the strength of them.
verdict-new-sample-both = A new, mixed sample with both pH and free lime (CaCO3) tested by a laboratory.
verdict-hardly-a-soil = A { $method } reading of pH { $ph } is more likely to be faulty than true. Apply nothing on the strength of it.
verdict-readings-unfit = The readings do not fit what was applied here, so we cannot advise on the strength of them yet.
verdict-new-sample-depth = A new, mixed sample tested by a laboratory, with its depth.
verdict-doubt = { $unknown ->
    [doubtful-reading] One thing we do not know could change this advice: how accurate this pH reading is.
    [unknown-lime] One thing we do not know could change this advice: whether { soil-the } holds free lime, and how much.
    [unknown-water] One thing we do not know could change this advice: how much alkalinity the water carries.
    [unknown-amount] One thing we do not know could change this advice: how much water { bed-the } gets.
   *[unknown-texture] One thing we do not know could change this advice: how strongly { soil-the } resists a change.
}
verdict-doubt-chance = There is a chance of { $chance } in 100 that a test would { $shift ->
    [go] make the plan an easier one
    [effort] call for more applications, or for some every year
    [elsewhere] send the plants elsewhere
    [leave] tell you to leave { soil-the } alone
    [stop] tell you to stop
   *[none] change the advice
}.
verdict-unknown-sodium = A soil at { $reading } nearly always owes it to sodium: free lime alone holds a soil at pH { $limit } or below. Where sodium is the cause, gypsum and drainage put it right and sulphur does not. Apply nothing before sodium has been tested.
verdict-one-source = The range, pH { $range }, rests on one source, on memory, or on sources that contradict each other. That is too little to change a whole bed for.

## Somewhere else

# $undone is what keeps it from getting there although the limits allow as much as it takes, or "none".
verdict-reach = To reach pH { $aim } would take about { $need } of pure { $direction ->
    [lime] lime
   *[acidify] sulphur
}. Published limits allow { $most } until { $day }. { $undone ->
    [none] Of 100 { bed-alike } like this one, { $covered } would get there.
    [water] That would be enough if your water did not undo it. As it is, of 100 { bed-alike } like this one, { $covered } would get there.
    [feed] That would be enough if your fertiliser did not undo it. As it is, of 100 { bed-alike } like this one, { $covered } would get there.
   *[time] That would be enough in the end, but too little of it would have acted by then: of 100 { bed-alike } like this one, { $covered } would get there.
}
verdict-reach-lime = Most of it would be used up by free lime.
verdict-reach-water = Your water keeps raising the pH again.
# $suit is a list of plants that suit the soil as it is, or "none".
verdict-suit = { $suit ->
    [none] Choose plants that suit this soil as it is.
   *[other] Choose plants that suit this soil as it is, such as { $suit }.
}
verdict-repot = Repot in fresh lime-free compost, and water with rainwater or treated water.
verdict-help-plants = The plants already there can be helped without changing the pH.
verdict-suit-later = When they are replaced, choose plants that suit this soil, such as { $suit }.
verdict-pot-instead = { $suit ->
    [none] Use a pot or a raised bed filled with lime-free compost, and water it with rainwater or low-alkalinity water.
   *[other] Use a pot or a raised bed filled with lime-free compost, and water it with rainwater or low-alkalinity water. Or choose plants that suit this soil, such as { $suit }.
}
verdict-less-lime-change = A laboratory figure for free lime far below our estimate.
# $day is the day asked for.
verdict-later-day-change = A later day than { $day }: each further season allows another application.
verdict-empty-bed-change = An empty bed, which can take larger applications.
# $test is "jar" or "buffer": the test of the soil's buffering that nobody has made.
verdict-buffering-change = { $test ->
    [jar] A jar titration showing that { soil-this } resists far less.
   *[buffer] A buffer pH or jar titration showing that { soil-this } resists far less.
}
verdict-buffering-either-change = { $test ->
    [jar] A jar titration showing that { soil-this } resists far more, or far less.
   *[buffer] A buffer pH or jar titration showing that { soil-this } resists far more, or far less.
}
verdict-fizz-change = A fizz test that shows free lime.
verdict-free-lime-change = A laboratory figure for free lime (CaCO3).
verdict-same-in-a-year-change = A test a year from now that still reads within pH { $range }.
# $far is "yes" where no slip of a test explains how far the reading lies from the range.
verdict-repeat-change = { $far ->
    [yes] Nothing that a test is likely to show.
   *[no] A repeat test that reads within pH { $range }.
}
# Instead of it where a plan has a test that decides.
verdict-planned-test-change = A test on { $day } that reads nearer to pH { $range } than we expect.

## The water decides

# $inside is "yes" where the reading lies in the range.
verdict-water-soil-good = { $inside ->
    [yes] { CAPITAL(soil-the) } is right: it tested at { $reading }, within { $wanted }. The water is not.
   *[no] { CAPITAL(soil-the) } is nearly right: it tested at { $reading }, close to { $wanted }. The water is not.
}
verdict-water-soil-good-now = { $inside ->
    [yes] { CAPITAL(soil-the) } is right: all its readings together, and what has happened since, put it at about pH { $ph } now, within { $wanted }. The water is not.
   *[no] { CAPITAL(soil-the) } is nearly right: all its readings together, and what has happened since, put it at about pH { $ph } now, close to { $wanted }. The water is not.
}
verdict-water-takes = With this water we expect about pH { $expected } by { $day }; with rainwater it would be { $rise } lower.
verdict-water-decides = The water decides here, not { soil-the }. By itself it raises the pH by about { $rise } by { $day }. Even if { soil-the } were known exactly, { $held } of 100 { bed-alike } like this one could be kept within { $wanted }.
verdict-water-first = Treat the water first: use rainwater, or acidify the water.
verdict-water-first-then = Treat the water first: use rainwater, or acidify the water. Then test again.
verdict-rainwater-change = Rainwater, or water with less alkalinity.
verdict-water-alkalinity-change = A figure for the alkalinity of your water well below our guess.
verdict-water-weekly-change = Far less water in a week than we had to guess.

## The fertiliser decides

# $inside is "yes" where the reading lies in the range.
verdict-feed-soil-good = { $inside ->
    [yes] { CAPITAL(soil-the) } is right: it tested at { $reading }, within { $wanted }. The fertiliser is not.
   *[no] { CAPITAL(soil-the) } is nearly right: it tested at { $reading }, close to { $wanted }. The fertiliser is not.
}
verdict-feed-soil-good-now = { $inside ->
    [yes] { CAPITAL(soil-the) } is right: all its readings together, and what has happened since, put it at about pH { $ph } now, within { $wanted }. The fertiliser is not.
   *[no] { CAPITAL(soil-the) } is nearly right: all its readings together, and what has happened since, put it at about pH { $ph } now, close to { $wanted }. The fertiliser is not.
}
verdict-feed-takes = With this fertiliser we expect about pH { $expected } by { $day }; with one that makes no acid it would be { $fall } higher.
verdict-feed-decides = The fertiliser decides here, not { soil-the }. With it, lime within the published limits would bring { $covered } of 100 { bed-alike } like this one to { $wanted } by { $day }; with one that makes no acid it would bring { $unfed }.
# $lime is what the acid of the fertiliser uses up in a year.
verdict-feed-acid = In a year the fertiliser makes as much acid as { $lime } of pure lime neutralises.
# $gentle is "nitrate" where the plants take nitrate well.
verdict-feed-first = { $gentle ->
    [nitrate] Change the fertiliser first: give most or all of its nitrogen as nitrate, for example calcium nitrate, or give less.
   *[urea] Change the fertiliser first: give its nitrogen as urea, or give less.
}
verdict-feed-first-then = { $gentle ->
    [nitrate] Change the fertiliser first: give most or all of its nitrogen as nitrate, for example calcium nitrate, or give less. Test again in a year, and lime by that test.
   *[urea] Change the fertiliser first: give its nitrogen as urea, or give less. Test again in a year, and lime by that test.
}
verdict-feed-cause = The fertiliser does most to make { soil-this } acid: in a year it makes as much acid as { $lime } of pure lime neutralises. { $gentle ->
    [nitrate] Give most or all of its nitrogen as nitrate, for example calcium nitrate, or give less.
   *[urea] Give its nitrogen as urea, or give less.
}

## Go, or go with effort

verdict-upkeep-inside = It is within { $wanted } now, but will not stay there: left alone, we expect about pH { $expected } in a few years.
# Before all else, where something applied lately acts against what the bed needs.
# $further is "yes" where the bed stays as it is, and it would only be taken further from the range.
verdict-no-more = { $further ->
    [yes] Apply no more { $products } here: that would only take the pH further from the range.
   *[no] { verdict-no-more-now }
}
verdict-no-more-now = { $direction ->
    [lime] Apply no more { $products } here: { $products-count ->
        [one] it lowers
       *[other] they lower
    } the pH, which has to go up.
   *[acidify] Apply no more { $products } here: { $products-count ->
        [one] it raises
       *[other] they raise
    } the pH, which has to come down.
}
# $since is "none" where nothing applied has moved the bed since the test; "undo" where it moved it the
# other way, "on" where it moved it the same way.
verdict-need = { $since ->
    [undo] { $direction ->
        [lime] Raising it to { $aim } takes about { $need } of pure lime, which includes undoing what was applied.
       *[acidify] Lowering it to { $aim } takes about { $need } of pure sulphur, which includes undoing what was applied.
    }
    [on] { $direction ->
        [lime] Raising it further, to { $aim }, takes about { $need } more of pure lime.
       *[acidify] Lowering it further, to { $aim }, takes about { $need } more of pure sulphur.
    }
   *[none] { $direction ->
        [lime] Raising it from { $reading } to { $aim } takes about { $need } of pure lime.
       *[acidify] Lowering it from { $reading } to { $aim } takes about { $need } of pure sulphur.
    }
}
# Where the beds now lie elsewhere than the last test read, and the forecast begins.
verdict-stands-now = { $applied ->
    [none] All its readings together, and what has happened since, put it at about pH { $ph } now, and the forecast starts there.
   *[other] { verdict-since } We put it at about pH { $ph } now, and the forecast starts there.
}
verdict-upkeep-pull = { $direction ->
    [lime] Leaching and feed would then lower it by about { $pull } a year, so you would need to add some every year.
   *[acidify] Your water would then raise it by about { $pull } a year, so you would need to add some every year.
}
verdict-upkeep-gentle-feed-change = A fertiliser that does not acidify.
verdict-several = { $planted ->
    [yes] Around living roots, apply no more than { $cap } at a time, so spread it over several applications and more than a year.
   *[no] Apply no more than { $cap } at a time, so spread it over several applications and more than a year.
}

## What would settle it, by the field of the case file

settle-soil-ph = A laboratory pH, measured in water.
settle-soil-ph-method = The method behind the pH: ask the laboratory.
settle-soil-sodium-pct = Exchangeable sodium and salt (EC), tested by a laboratory.
settle-soil-fizz = A fizz test: ten drops of acid on a spoonful of dry { soil-one }.
settle-soil-carbonate-pct = A laboratory figure for free lime (CaCO3).
settle-water-alkalinity = The alkalinity of the water, from the supplier or a drop kit.
settle-water-weekly = How much water { bed-the } gets in a week.
settle-titration = A jar titration of { soil-this }, or a buffer pH.
settle-jar-titration = A jar titration of { soil-this }.
settle-soil-texture = The texture, by feel or from a laboratory.
settle-aim-plant = The plant, or a target pH.
settle-aim-target-ph = A second source for this plant's range, or a target pH of your own.
settle-a-test = A test.

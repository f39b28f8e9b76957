### The section that compares pots with the ground.

pot-title = Pot or ground, over five years

## Which is better; the counts are of 100 beds or pots

# $cause is why the ground cannot be brought into the range.
pot-no-ground = { $cause ->
    [lime] This ground cannot work: its free lime takes up the acid.
    [water] This ground cannot work with your water.
   *[limits] This ground cannot be brought into the range within published limits.
}
pot-neither = Pots left alone would not hold it either: averaged over the years, { $pot } of 100 are in the range at best. Test the mix every spring, and renew it when it leaves the range.
pot-ground-alone = The ground is the surer way: averaged over the years, { $ground } of 100 beds like this one are in the range{ $near ->
    [yes] {" "}or near it
   *[no] {""}
}, and { $pot } of 100 pots at best.
# $water is "rain" where pots work with rainwater alone, "better" where it improves them; $pot is the
# better of both, $tap that with the water as it is.
pot-alone = { $water ->
    [rain] Pots work if you water them with rainwater: averaged over the years, { $pot } of 100 are in the range. With your water it is { $tap }.
    [better] Pots work: averaged over the years, { $pot } of 100 are in the range with rainwater and { $tap } with your water.
   *[any] Pots work: averaged over the years, { $pot } of 100 are in the range.
}
pot-both = { $which ->
    [pot] Pots are the surer way
    [ground] The ground is the surer way
   *[alike] Neither is clearly surer, so cost and work decide
}. Averaged over the years, { $ground } of 100 beds like this one are in the range{ $near ->
    [yes] {" "}or near it
   *[no] {""}
}, and { $pot } of 100 pots{ $water ->
    [rain] {" "}with rainwater; with your water it is { $tap }.
    [better] {" "}with rainwater; with your water it is { $tap }.
   *[any] .
}

## The table

pot-caption = How many of 100 are in the range, and what each takes
pot-head = { $place ->
    [ground] in this bed
    [pot] pots, your water
    [pot-mains] pots, mains water
   *[pot-with-rainwater] pots, rainwater
}
pot-row-buy = to buy
pot-row-cost = cost
pot-row-hours = work, hours
pot-row-lasts = lasts, years
pot-row-year = { $year ->
    [one] after 1 year
   *[other] after { $year } years
}
pot-none = –
pot-nothing = nothing
pot-need-pots = { $count ->
    [one] 1 pot
   *[other] { $count } pots
}
pot-need-mix = { $litres } of mix
pot-need-product = { $amount } of { $product }
pot-cost-part = { $cost } without { $unpriced }
pot-unpriced = { $item ->
    [pots] the pots
    [mix] the mix
   *[product] the product
}
pot-no-price = no price given
pot-lasts-longer = more than { $years }
pot-lasts-never = not one year

## What it rests on; $pots is the number of pots

pot-assumed-label = Assumed
pot-assumed = { $pots ->
    [one] One pot of { $volume }
   *[other] { $pots } pots of { $volume } each{ $counted ->
        [no] , one for each { $area } of bed,
       *[yes] {""}
    }
} with { $medium ->
    [peat-mix] a peat mix
    [bark-mix] a bark mix
    [coir-mix] a coir mix
   *[peat-free-mix] a peat-free mix
} of about pH { $ph } (test it first), watered twice a week. A third of the mix is replaced every second year{ $renewed }, and all of it once half of them have left the range.
pot-ground-treated = The bed follows its plan; it lasts so long with no more applied.
pot-mains = The alkalinity of your water is not known; ordinary mains water is taken.
pot-hard-water = With lime in the water, how soon pots leave the range is less sure: no measured course of such pots was found to hold the forecast against.
pot-times = Hours are common practice, without a source; cost leaves out plants, fertiliser, tests and rainwater.

### Products of an office: what each brings, what that costs, and what they would do for one bed.
###
### "Sulphur's worth of acid" is the acid that so much pure sulphur makes in the end, whatever
### product brings it. "Pure lime's worth" is what so much pure calcium carbonate neutralises.

## What a product brings, in a table

# $worth is a weight, such as 30 kg; in US units it is in pounds.
products-brings-sulfur = { $units ->
    [us] { $worth } of sulphur's worth of acid per 100 lb
   *[metric] { $worth } of sulphur's worth of acid per 100 kg
}
products-brings-lime = { $units ->
    [us] { $worth } of pure lime's worth per 100 lb
   *[metric] { $worth } of pure lime's worth per 100 kg
}
products-brings-sulfate = no acid: its sulphur is already sulphate
products-brings-nothing = neither acid nor lime
# $cost is an amount of money with its currency.
products-price-sulfur = { $units ->
    [us] { $cost } per lb of sulphur's worth of acid
   *[metric] { $cost } per kg of sulphur's worth of acid
}
products-price-lime = { $units ->
    [us] { $cost } per lb of pure lime's worth
   *[metric] { $cost } per kg of pure lime's worth
}
# Below the table: what the two names mean.
products-scale-sulfur = { $units ->
    [us] A pound of sulphur's worth of acid is what a pound of pure sulphur makes in open ground.
   *[metric] A kilogram of sulphur's worth of acid is what a kilogram of pure sulphur makes in open ground.
}
products-scale-lime = { $units ->
    [us] A pound of pure lime's worth neutralises as much as a pound of calcium carbonate.
   *[metric] A kilogram of pure lime's worth neutralises as much as a kilogram of calcium carbonate.
}
products-scale-bed = How fast a product works, and how much of it is lost, depends on the bed.

# $given is the percentage that somebody typed.
products-purity-outside = { $given } is not a strength. It must be more than 0 and no more than 100%.

## Two products compared; $of is what both bring, sulfur or lime

# $cost and $dear are money, $less a percentage.
products-cheaper = { $of ->
    [lime] { $units ->
        [us] { $product } is cheaper: { $cost } per lb of pure lime's worth, against { $dear } for { $other }. That is { $less } less.
       *[metric] { $product } is cheaper: { $cost } per kg of pure lime's worth, against { $dear } for { $other }. That is { $less } less.
    }
   *[sulfur] { $units ->
        [us] { $product } is cheaper: { $cost } per lb of sulphur's worth of acid, against { $dear } for { $other }. That is { $less } less.
       *[metric] { $product } is cheaper: { $cost } per kg of sulphur's worth of acid, against { $dear } for { $other }. That is { $less } less.
    }
}
products-same-cost = { $of ->
    [lime] Both cost the same for the lime they bring.
   *[sulfur] Both cost the same for the acid they bring.
}
# $weight is a weight in kilograms or pounds.
products-stronger = { $units ->
    [us] 1 lb of { $product } does the work of { $weight } of { $other }.
   *[metric] 1 kg of { $product } does the work of { $weight } of { $other }.
}
products-no-price = Enter a pack size and a price for both products to see which is cheaper.
products-two-currencies = Their prices are in two currencies, which we do not convert.
# $brings is one of the messages products-brings-….
products-one-brings = { $product }: { $brings }.
products-different-work = They do different work, so their prices cannot be compared.

## Products for one bed

products-nothing-to-compare = There is no amount to apply, so no products are compared.
# $direction is which way the pH should go, acidify or lime.
products-left-out = { $direction ->
    [lime] { $products-count ->
        [one] { $products } does not raise the pH and is left out.
       *[other] { $products } do not raise the pH and are left out.
    }
   *[acidify] { $products-count ->
        [one] { $products } does not lower the pH and is left out.
       *[other] { $products } do not lower the pH and are left out.
    }
}
# A usual material that is none of the office's own products.
products-not-yours = { CAPITAL($product) } (not among your products)
products-column-packs = packs
# Of the amount that goes on, whatever is left in the last pack.
products-column-cost = { $currency ->
    [none] cost of the amount
   *[other] cost of the amount, { $currency }
}
products-column-precautions = precautions
products-published-label = Published tables
products-order-label = Order
products-order = { $by ->
    [none] Products with a price come first, the cheapest by what reacts within a year at the top. The others follow, the gentlest first. Those that burn, or pass the limits for three seasons, come last.
   *[other] Products with a price come first, the cheapest by what reacts by { $by } at the top. The others follow, the gentlest first. Those that burn, or pass the limits for three seasons, come last.
}
products-rate-label = Rate
products-rate = Each rate does the same as the first step of the plan. The letter says when to apply it, and in how many applications.

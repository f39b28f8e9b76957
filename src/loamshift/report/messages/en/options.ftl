### Products that would bring the same acid or lime, side by side in a table.

options-heading = Products that would do it
options-caption = Equivalent amounts
options-column-product = product
options-column-rate = rate, as bought
# $currency is None where prices are in several currencies.
options-column-cost =
    { $currency ->
        [none] cost
       *[other] cost, { $currency }
    }
options-column-per-mole =
    { $currency ->
        [none] per mole of acid
       *[other] per mole of acid, { $currency }
    }
options-column-per-lime =
    { $currency ->
        [none] { $units ->
            [us] per lb of pure lime
           *[metric] per kg of pure lime
        }
       *[other] { $units ->
            [us] per lb of pure lime, { $currency }
           *[metric] per kg of pure lime, { $currency }
        }
    }
options-column-half = half has reacted after
options-column-salt = rise in salt (ECe)
options-salt = +{ $rise }

## How long until half of it has reacted

options-half-days = days
options-half-weeks = about { $weeks }
# $years is a whole number.
options-half-years =
    { $years ->
        [one] about { $years } year
       *[other] about { $years } years
    }
options-half-longer = over 3 years

## Remarks below the table

options-price-label = Price
# $sulfur is the weight of pure sulphur that makes one mole of acid.
options-price-mole = Compare prices by the mole of acid ({ $sulfur } of pure sulphur makes one), not by the bag.
options-price-lime =
    { $units ->
        [us] Compare prices by the pound of pure lime, not by the bag.
       *[metric] Compare prices by the kilogram of pure lime, not by the bag.
    }
options-salt-label = Salt
# $limit is the salinity from which sensitive roots suffer.
options-salt-note = How much soil salinity (ECe) may rise until rain has washed the salt down. Sensitive roots suffer from about { $limit } in all.
options-salt-gypsum = What sulphur leaves behind is gypsum, which roots tolerate better than other salts.

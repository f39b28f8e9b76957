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
options-column-per-sulfur =
    { $currency ->
        [none] { $units ->
            [us] per lb of sulphur's worth of acid
           *[metric] per kg of sulphur's worth of acid
        }
       *[other] { $units ->
            [us] per lb of sulphur's worth of acid, { $currency }
           *[metric] per kg of sulphur's worth of acid, { $currency }
        }
    }
options-column-per-lime =
    { $currency ->
        [none] { $units ->
            [us] per lb of pure lime's worth
           *[metric] per kg of pure lime's worth
        }
       *[other] { $units ->
            [us] per lb of pure lime's worth, { $currency }
           *[metric] per kg of pure lime's worth, { $currency }
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
options-price-sulfur =
    { $units ->
        [us] Compare prices by the pound of sulphur's worth of acid, not by the bag. That is the acid that a pound of pure sulphur makes.
       *[metric] Compare prices by the kilogram of sulphur's worth of acid, not by the bag. That is the acid that a kilogram of pure sulphur makes.
    }
options-price-lime =
    { $units ->
        [us] Compare prices by the pound of pure lime's worth, not by the bag. Only grains that dissolve within three years count.
       *[metric] Compare prices by the kilogram of pure lime's worth, not by the bag. Only grains that dissolve within three years count.
    }
options-magnesium-label = Magnesium
# $product is the magnesian lime.
# $planned is "yes" where the plan applies it.
options-magnesium = { $unit ->
    [percent] This soil is short of magnesium, which holds { $found } of its exchange sites; less than { $limit } is low.
   *[mg-kg] This soil is short of magnesium: it has { $found } mg/kg, and less than { $limit } is low.
} { $planned ->
    [yes] So the plan uses magnesian lime ({ $product }), which brings magnesium as well.
   *[no] Magnesian lime ({ $product }) brings magnesium as well, so use it instead, at the rate in this table.
}{ $source }
options-salt-label = Salt
# $limit is the salinity from which sensitive roots suffer.
options-salt-note = How much soil salinity (ECe) may rise until rain has washed the salt down. Sensitive roots suffer from about { $limit } in all.
options-salt-gypsum = What sulphur leaves behind is gypsum, which roots tolerate better than other salts.

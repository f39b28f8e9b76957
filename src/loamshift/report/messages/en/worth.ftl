### What further tests are worth, and which comes first.

## Tests, as they are named inside a sentence

worth-test = { $test ->
    [fizz] a fizz test
    [carbonate] a laboratory test for free lime
    [laboratory-ph] a laboratory pH
    [core] one more sample tested the same way
    [buffer-ph] a buffer pH
    [jars] a jar titration
    [texture] the texture by feel
    [organic-matter] the organic matter content
    [water] the alkalinity of the water
    [water-amount] the amount of water given
   *[later-reading] a later test
}
# The same at the head of a line of a table.
worth-row = { $test ->
    [fizz] Fizz test
    [carbonate] Free lime, laboratory
    [laboratory-ph] Laboratory pH
    [core] One more sample, tested the same way
    [buffer-ph] Buffer pH
    [jars] Jar titration
    [texture] Texture by feel
    [organic-matter] Organic matter
    [water] Alkalinity of the water
    [water-amount] Amount of water given
   *[later-reading] { $day ->
        [none] Later test
       *[other] Test on { $day }, part of the plan
    }
}

## How to make those that nothing else in a letter asks for

worth-core-how = Take one more mixed sample from the same places and depth, and have it tested the same way.
worth-buffer-ph-how = Ask the laboratory for a buffer pH as well as the pH.
worth-jars-how = Add measured amounts of acid or lime to jars of this soil and read the pH after some days.
worth-later-reading-how = Test on the date of the plan, in the same way as the first time.

## What it comes to

worth-best = The test most worth its price is { $test }. With it, { $gain } more of 100 { bed-alike } like this one would come into the range and stay.
worth-waits = { $test ->
    [laboratory-ph] First have a laboratory test the pH.
    [texture] First find out the texture.
    [water] First find out the alkalinity of the water.
    [water-amount] First find out how much water is given.
   *[other] First make { $named }.
} For { $changes } of 100 { bed-alike } like this one, the result would change what you do.
worth-none = No further test is worth its price now: the best would bring { $most } more of 100 { bed-alike } like this one into the range. The tests of the plan are enough.
worth-none-no-test = No further test is worth its price now: the best would bring { $most } more of 100 { bed-alike } like this one into the range.
worth-first = { $test ->
    [none] The verdict waits for one fact, so no other test is weighed yet.
   *[other] The verdict waits for { $named }, so no other test is weighed yet.
}
worth-stop = The steps that put this bed right come first, with the tests they ask for. No other test is weighed until then.
worth-leave = This soil can stay as it is: { $stays } of 100 { bed-alike } like this one stay in or near the range untreated. A further test could help { $most } at most.
worth-nothing-planned = Nothing is planned for this soil, so no further test of it is weighed.
worth-no-soil = The pH comes first: without it no other test can be weighed.

## A test on a day that somebody names

worth-on-day = { $enough ->
    [yes] A test on { $day } would be worth it: with it, { $gain } more of 100 { bed-alike } like this one would come into the range and stay.
   *[no] A test on { $day } would hardly pay: it would bring { $gain } more of 100 { bed-alike } like this one into the range{ $planned ->
        [none] .
       *[other] , and the plan tests on { $planned } as it is.
    }
}
worth-day-late = { $planned ->
    [none] By { $day } this plan is carried out, so a test then decides nothing more: it tells whether the plan worked.
   *[other] The plan goes on by its own test on { $planned }, so put that result in before you ask about { $day }.
}
worth-day-past = { $day } is not a day to come: name one after { $today }.
worth-day-unread = “{ $given }” is not a date. Write a date such as 2027-06-01.
worth-day-ask = Would another test pay?
worth-day-on = A test on
worth-day-button = Work it out

## How many cores and samples

# $one and $mixed are differences of pH.
worth-cores = { $looks ->
    [uneven] Your readings differ as on uneven ground. Mix
   *[even] Mix
} each sample from { $cores } cores: one core alone may read { $one } above or below the whole { $kind ->
    [lawn] lawn
    [field] field
   *[ground] bed
}, the mix of them { $mixed }.
# $now and $then are differences of pH.
worth-samples = With { $test ->
    [laboratory-ph] { $samples ->
        [one] a laboratory pH of one such sample
       *[other] laboratory pHs of { WORD($samples) } such samples
    }
   *[core] { $samples ->
        [one] one more sample, tested the same way
       *[other] { WORD($samples) } more samples, tested the same way
    }
}, the error of your reading would fall from ±{ $now } to ±{ $then }{ $gain ->
    [none] .
   *[other] , and { $gain } more of 100 { bed-alike } like this one would come into the range{ $little ->
        [yes] { $test ->
            [laboratory-ph] .
           *[core] : what you have is enough.
        }
       *[no] .
    }
}
worth-samples-next = One more would only bring it to ±{ $then }, because the difference from year to year stays.
worth-samples-caption = What further samples bring
worth-column-samples = { $test ->
    [laboratory-ph] samples sent to a laboratory
   *[core] further samples
}
worth-column-error = error of the reading, 95 cases in 100

worth-samples-prices = { $whose ->
    [own] The price of a sample is yours.
   *[listed] Prices are those of laboratories at universities in the United States, with postage.
}

## The table

worth-heading = What to test next
worth-caption = Further tests, those that gain most for their price first
worth-column-test = test
worth-column-gain = more beds of 100 in the range
worth-column-changes = chance it changes the first application
worth-column-price = { $currency ->
    [none] price
   *[other] price, { $currency }
}
worth-column-days = days to wait
worth-how-reckoned = Each test was tried on the simulated beds: the plan was chosen again for every result it may give. Prices are in { $listed }, as laboratories at universities in the United States charge, with postage. They only serve to compare.
worth-how-reckoned-own = Each test was tried on the simulated beds: the plan was chosen again for every result it may give. The prices are yours where you gave them.
# Some prices are the reader's own, in $own; of the other tests none is known in that currency.
worth-how-reckoned-mixed = Each test was tried on the simulated beds: the plan was chosen again for every result it may give. The prices in { $own } are yours; where there is none, we know of none in your currency. The order of the tests follows what laboratories at universities in the United States charge; a test that costs you nothing counts as free.
# No price is known in the reader's currency.
worth-how-reckoned-unpriced = Each test was tried on the simulated beds: the plan was chosen again for every result it may give. We know of no prices in your currency: give those of your own laboratory to see them here. The order follows what laboratories at universities in the United States charge.
worth-not-added = The gains do not add up: after one test, another tells less.
worth-price-name = --price: “{ $text }” names no test. The tests are { $names }. For example: --price buffer-ph=12
worth-price-figure = --price: “{ $text }” has no price of 0 or more. For example: --price { $name }=12
worth-chance = { $share } in 100

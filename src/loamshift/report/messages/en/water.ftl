### One irrigation water: the lime it adds, the acid that takes it out, and the card for the tank.

## Acids as they are sold. Keys are water-acid-NAME, where NAME is the product with hyphens.

water-acid-sulfuric-acid-35 = sulphuric acid 35%
water-acid-sulfuric-acid-93 = sulphuric acid 93%
water-acid-sulfuric-acid-98 = sulphuric acid 98%
water-acid-phosphoric-acid-75 = phosphoric acid 75%
water-acid-phosphoric-acid-85 = phosphoric acid 85%
water-acid-nitric-acid-67 = nitric acid 67%
water-acid-citric-acid = citric acid

# $amount is a volume or a weight in the reader's units; $exact the same in mL or g, to be read
# off a measuring cylinder or a balance.
water-dose =
    { $units ->
        [us] { $amount } ({ $exact })
       *[metric] { $exact }
    }
water-adds =
    { $nutrient ->
        [n] { $amount } of nitrogen
        [p] { $amount } of phosphorus
       *[s] { $amount } of sulphur
    }

## Remarks on an acid

water-remark-battery = Battery-acid strength. Buy a technical grade: used battery acid contains lead.
# $most per 100 L in mL, $most_us per 100 US gallons.
water-remark-phosphorus-most =
    { $units ->
        [us] Too much: a fact sheet allows { $most_us } per 100 US gallons at most, because of the phosphorus it adds.
       *[metric] Too much: a fact sheet allows { $most } mL per 100 L at most, because of the phosphorus it adds.
    }
water-remark-protons = It gives { $protons } hydrogen ions per molecule at this pH.
water-remark-phosphorus = Count its phosphorus as fertiliser.
water-remark-nitrogen = Count its nitrogen as fertiliser: plants that take up nitrate give some alkalinity back.
water-remark-citric = Soil microbes break it down and give the alkalinity back, so it cleans pipes but removes no lime from a bed.

## Remarks on the water

# $limit is the alkalinity from which acid is often advised.
water-below-advice = Acid is often advised for young plants in pots only from { $limit }: this water has { $alkalinity }. An acid-forming fertiliser may be enough.
water-above-advice = Acid is often advised for young plants in pots from { $limit }: this water has { $alkalinity }.
water-hardness-left-out = The hardness was left out of the calculation. Hardness counts calcium and magnesium. Alkalinity counts the bicarbonate that neutralises acid. Hard water can have little alkalinity, and water from a softener can have a lot. Ask your supplier or a laboratory for alkalinity or bicarbonate, or use an aquarium KH test: 1 degree KH is 18 mg/L CaCO3.
water-only-stops = The acid only stops the water from liming: it does not acidify the soil. In a tree nursery, three years of water at pH 6.0 left the soil pH unchanged.
water-open-tank = In an open tank, carbon dioxide escapes and the pH rises again. That does no harm: what counts is the alkalinity removed. Add the calculated amount, and do not keep adding until the pH stays down.
water-rainwater = Rainwater has almost no alkalinity: mixed half and half with your water, it halves the alkalinity.

## The page

water-title = The water
water-subtitle = Alkalinity { $alkalinity }
# $lime and $sulfur are pure, a year.
water-limes = In a year, { $depth } of this water has the same effect as liming with **{ $lime }** of pure lime. It would take { $sulfur } of pure sulphur a year to balance it.
water-no-acid = **No acid is needed** for this target.
water-needs-for-ph = To bring this water to pH { $ph } in a closed line takes **{ $acid } of acid**.
water-needs-to-leave = To leave an alkalinity of { $left } takes **{ $acid } of acid**.
# The pH that the water starts from is not known.
water-needs-range = It could take { $range }, depending on the pH of the water as it comes.
# $lime is None where nobody said how much water is given.
water-leaves =
    { $lime ->
        [none] This leaves an alkalinity of about { $left }.
       *[other] This leaves an alkalinity of about { $left }, which adds { $lime } of pure lime a year.
    }
water-still-limes = What is left adds { $lime } of pure lime a year.
water-then-reads = In a closed line, the water then reads pH { $ph }.
water-assumed-label = Assumption
water-assumed-ph = You did not give the pH of the water. We took { $ph }, and allowed for { $range }. Measure it and add it with --ph.
water-one-of-these =
    { $units ->
        [us] For 100 US gallons of water, one of these
       *[metric] For 100 L of water, one of these
    }
water-column-acid = acid
water-column-amount = amount
water-column-adds = adds to the water
water-column-remark = remark
water-handling = Handling
water-caution = Caution
water-keep-in-mind = Keep in mind

## The card for the tank

water-card-title = Acid for the tank: { $tank }
water-card-water =
    { $assumed ->
        [yes] Water with an alkalinity of { $alkalinity }, pH taken as { $ph }.
       *[no] Water with an alkalinity of { $alkalinity } and pH { $ph }.
    }
water-target-ph = Target: pH { $ph } in a closed line.
water-target-left = Target: an alkalinity of { $left }.
water-card-no-acid = No acid is needed for this target.
water-card-one = Add one of these acids to { $tank } of water, never two.
water-card-dose = Add { $dose } of { $acid } to { $tank } of water.
water-card-least = Start with the smaller amount and check.
water-card-choice = For { $tank }, one of these
water-card-steps = In this order
water-card-never = Never
water-card-check = Then check
water-card-figures = The figures
water-card-filled = Filled
water-card-care = Precautions
water-card-elsewhere = what loamshift water prints
water-log-date = date
water-log-tank = tank
water-log-acid = acid
water-log-reads = strip reads
water-log-by = by

water-figure-alkalinity = Alkalinity as it comes
water-figure-left = Alkalinity left
water-figure-acid = Acid it takes
water-figure-adds =
    { $nutrient ->
        [n] Nitrogen it adds
        [p] Phosphorus it adds
       *[s] Sulphur it adds
    }
# An injector adds one part of stock to so many parts of water.
water-figure-injector = Injector at 1:{ $parts }
water-figure-stock = { $stock } in each litre of stock

## Steps at the tank. $dose and $acid are None where the choice is still open.

water-step-protect = Put on goggles, acid-proof gloves and an apron. Stand upwind, with clean water for rinsing within reach.
water-step-fill = Fill the tank with the water nearly to the { $tank } mark.
water-step-measure =
    { $acid ->
        [none] Measure the amount of the acid you chose in plastic or glass kept for acid alone.
       *[other] Measure **{ $dose }** of { $acid } in plastic or glass kept for acid alone.
    }
water-step-weigh = Weigh **{ $dose }** of { $acid } in plastic or glass kept for acid alone.
water-step-pour = Pour the acid slowly into the water, stirring all the time: acid into water, never water into acid.
water-step-stir-in = Stir the crystals into the tank little by little until they have dissolved.
water-step-fill-up = Fill up to { $tank } and stir again. Close the acid container before you do anything else.

water-never-water-into-acid = Water into acid: it boils up and spatters.
water-never-chlorine = Acid near bleach, pool chlorine or line chlorine: it gives off chlorine gas.
water-never-metal = Acid in galvanised, copper or brass containers and fittings.
water-never-one-stock = Acid and fertiliser in one stock solution: salts settle out, and nobody knows the dose any more.

# $left is the alkalinity to be read.
water-check-alkalinity = Dip an alkalinity (KH) strip, or use an aquarium drop test: it should read about **{ $left }**, where one degree of KH is 18 mg/L. If it reads far above that, something was measured wrong: calculate again before you add more. If it reads far below, dilute with untreated water before any of it reaches a plant.
water-check-ph = Read the pH at once, before carbon dioxide escapes: it should be **{ $ph }**. It rises by itself later, and that is no reason to add acid.

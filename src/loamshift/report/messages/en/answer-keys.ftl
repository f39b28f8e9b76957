### What every key of the answer means, by its part and its name.

## Answer

answer-means-answer-answer = Version of the answer's form, 1.
answer-means-answer-name = Name of the bed, from the case.
answer-means-answer-today = The date the advice is for.
answer-means-answer-made-by = What made the answer.
answer-means-answer-verdict = The decision and the number behind it.
answer-means-answer-findings = Every check, passed or not.
answer-means-answer-missing = What nobody gave and what matters most to know.
answer-means-answer-worth = What further tests are worth, and which comes first.
answer-means-answer-wanted = The range the bed should come to, or null.
answer-means-answer-dose = How much acid or lime the curve and the free lime ask for.
answer-means-answer-plan = The plan as a rule: what to apply, and what the test decides.
answer-means-answer-branches = The advice for each outcome of an open question.
answer-means-answer-applications = The first path through the plan, date by date.
answer-means-answer-options = Other ways to bring the same acid or lime, cheapest first.
answer-means-answer-too-early-before = A test before this day says nothing yet.
answer-means-answer-retest = Days to test again.
answer-means-answer-forecast = The course of the pH; null where no forecast was run.
answer-means-answer-soil-temperature = Soil temperature of an average year from today, or null without a place.
answer-means-answer-subsoil = What lies below the sample, and what reaches it, or null.
answer-means-answer-pot-or-ground = Pots and the ground side by side over five years, or null where they are not compared.
answer-means-answer-refit = What the readings taught about this bed, or null.
answer-means-answer-rescue = What to do about a bed that has had too much, or null.
answer-means-answer-upkeep = How to hold the pH, or null.
answer-means-answer-ledger = The yearly acid ledger, or null.
answer-means-answer-claims = Each proposal of the case, settled.
answer-means-answer-cautions = What to take care of.
answer-means-answer-sources = Every source used.
answer-means-answer-balance-error = What the forecast's acid balance fails to close.

## MadeBy

answer-means-made-by-version = Version of loamshift.
answer-means-made-by-model = Version of the model.
answer-means-made-by-tables = Fingerprint of the shipped tables.
answer-means-made-by-seed = Seed of the ensemble, or null.
answer-means-made-by-members = Members of the ensemble, or null.
answer-means-made-by-years = Length of the forecast, or null.

## Verdict

answer-means-verdict-decision = What is advised.
answer-means-verdict-because = The sentence with the number that decided.
answer-means-verdict-would-change-if = The cheapest test or fact that could change it.
answer-means-verdict-reason = The code every sentence about the decision is made from.
answer-means-verdict-ph-now = Where the bed stands today by all that was read and has gone on since, in water.

## Finding

answer-means-finding-check = What was checked.
answer-means-finding-value = What was found.
answer-means-finding-operator = How it is compared with the limit.
answer-means-finding-limit = What it is compared with.
answer-means-finding-unit = Unit of value and limit.
answer-means-finding-passed = Whether the check is passed.
answer-means-finding-severity = How grave it is.
answer-means-finding-comment = The finding in a sentence.
answer-means-finding-source-key = Where the limit comes from, or null.

## Missing

answer-means-missing-field = Path of the case file, such as soil.fizz.
answer-means-missing-why = What it would decide.
answer-means-missing-how = How to get it.

## Worth

answer-means-worth-best = The test to make first, or null.
answer-means-worth-words = The worth of further tests in a sentence.
answer-means-worth-now = Share of the beds in the range by the plan as it is, or null.
answer-means-worth-most = What knowing everything about the bed would add to it, or null.
answer-means-worth-tests = Each further test, the one with most gain for its price first.
answer-means-worth-samples = How many samples the ground needs, where the error of its reading makes the forecast wide; else null.

## WorthOfTest

answer-means-worth-of-test-test = The test.
answer-means-worth-of-test-field = Path of the case file that its result fills.
answer-means-worth-of-test-gain = Share of the beds that come into the range because of it.
answer-means-worth-of-test-changes = Chance that the first application would be another, or none.
answer-means-worth-of-test-cost = Its price, with postage.
answer-means-worth-of-test-currency = Currency of the price; null where you named none for a price of your own.
answer-means-worth-of-test-days = Days until the result is there.
answer-means-worth-of-test-gain-per-cost = Gain for each unit of the price by which the tests are compared.
answer-means-worth-of-test-how = How to make it.
answer-means-worth-of-test-on = Day of a later test; null for a test made now.
answer-means-worth-of-test-planned = Whether the plan counts on it already.
answer-means-worth-of-test-source-key = Where the price comes from; null for a price of your own.

## SamplesOfGround

answer-means-samples-of-ground-cores = Cores to mix into each sample.
answer-means-samples-of-ground-core-error-ph = How far one core may read from the whole bed, in 95 of 100 cases.
answer-means-samples-of-ground-mixed-error-ph = The same for the mix of them.
answer-means-samples-of-ground-test = The test that each further sample gets.
answer-means-samples-of-ground-words = How many cores and samples, and what they bring, in sentences.
answer-means-samples-of-ground-lines = The reading with no further sample, one, two and so on.
answer-means-samples-of-ground-source-key = Where the price of a sample comes from; null for a price of your own.

## SamplesLine

answer-means-samples-line-samples = Further samples.
answer-means-samples-line-error-ph = How far the mean of the readings may lie from the bed, in 95 of 100 cases.
answer-means-samples-line-gain = Share of the beds that come into the range because of them, or null.
answer-means-samples-line-cost = Their price, with postage once.
answer-means-samples-line-currency = Currency of the price; null for a price of your own.

## Wanted

answer-means-wanted-ph-low = Lower end, in water.
answer-means-wanted-ph-high = Upper end, in water.
answer-means-wanted-ph-aim = The point aimed at, in water.
answer-means-wanted-names = Plants whose published ranges it is; none for a target pH.

## Dose

answer-means-dose-direction = Which way the pH is moved.
answer-means-dose-provisional = Whether a named test should come first.
answer-means-dose-acid-mmolc-kg = Acid per soil; positive acidifies.
answer-means-dose-sulfur-as-s-g-m2 = The same as elemental sulfur, or null.
answer-means-dose-lime-as-caco3-g-m2 = The same as calcium carbonate, or null.
answer-means-dose-carbonate-share = Share of the acid that free lime takes up, or null.
answer-means-dose-published-g-m2 = What published tables say for the same step, or null.
answer-means-dose-by-forecast = Of answers before `plan`; null in a new one.

## DoseByForecast

answer-means-dose-by-forecast-sulfur-as-s-g-m2 = Elemental sulfur, or null.
answer-means-dose-by-forecast-lime-as-caco3-g-m2 = Lime that works, as calcium carbonate, or null.
answer-means-dose-by-forecast-by = The day by which the median should be at the aim.
answer-means-dose-by-forecast-limited-by = What keeps it below what the aim would take.
answer-means-dose-by-forecast-share-in-range = Share of beds like this one in the range on that day.
answer-means-dose-by-forecast-share-past-limit = Share of beds like this one that pass the far end of the range at any time.
answer-means-dose-by-forecast-median-ph-by = The median of the bed on that day, in water.
answer-means-dose-by-forecast-median-in-range-on = First day the median is in the range, or null where it never is.
answer-means-dose-by-forecast-because = Why it is more or less than the curve alone asks for, in sentences.

## Band

answer-means-band-lo90 = Lower end: one in twenty is less.
answer-means-band-mid = The median.
answer-means-band-hi90 = Upper end: one in twenty is more.

## PublishedSpread

answer-means-published-spread-n-sources = Independent published tables.
answer-means-published-spread-low = The least of them.
answer-means-published-spread-high = The most of them.

## Application

answer-means-application-date = Day to put it on.
answer-means-application-material = What, and in which form.
answer-means-application-rate-g-m2 = Product per area.
answer-means-application-amount-g = Product for one bed, or null where the area is not known.
answer-means-application-incorporate-cm = How deep to work it in; 0 is the surface.
answer-means-application-only-if = What a test must show first, or null.

## PlanRule

answer-means-plan-rule-material = What, and in which form.
answer-means-plan-rule-parts = What to apply whatever a test reads.
answer-means-plan-rule-decides = What the next test decides, a line for each range of readings.
answer-means-plan-rule-share-in-range = Share of beds in the range on `on` and a year later, with the tests of this plan.
answer-means-plan-rule-share-in-range-without-tests = The same with the best single amount and no test.
answer-means-plan-rule-share-if-known = The same if the soil were known exactly.
answer-means-plan-rule-share-harmed = Share of beds that the plan takes past the harmful limit of the plant.
answer-means-plan-rule-median-ph = The median of the beds on `on`, in water.
answer-means-plan-rule-on = The day the shares are for.
answer-means-plan-rule-acted-on = Day by which nine tenths of prills have acted, or null for other products.

## PlanPart

answer-means-plan-part-date = Day to put it on.
answer-means-plan-part-material = What, and in which form.
answer-means-plan-part-rate-g-m2 = Product per area.
answer-means-plan-part-amount-g = Product for one bed, or null where the area is not known.

## TestLine

answer-means-test-line-test = Day of the test.
answer-means-test-line-reads-from = The lowest reading of this line, in water to a tenth; null for no lower end.
answer-means-test-line-reads-to = The highest reading of this line; null for no upper end.
answer-means-test-line-part-g-m2 = Product that goes on then; 0 for nothing.
answer-means-test-line-then = What such a reading calls for.
answer-means-test-line-part-on = Day it goes on, or null for nothing.
answer-means-test-line-ph-after = Median course of the simulated beds that read so, one value a week from the last date of the forecast not after the test, to the plan's `on`; null without a forecast.

## Branch

answer-means-branch-field = Path of the case file that would settle it, such as soil.fizz.
answer-means-branch-outcome = What the test would show: no-lime, some-lime, more-lime or much-lime.
answer-means-branch-probability = Probability of this outcome.
answer-means-branch-decision = What would be advised then.
answer-means-branch-sulfur-as-s-g-m2 = Sulfur it would take in the median case, or null.
answer-means-branch-lime-as-caco3-g-m2 = Lime it would take in the median case, as calcium carbonate, or null.

## Refit

answer-means-refit-used = False where the readings were set aside on request.
answer-means-refit-readings = Readings that were weighed.
answer-means-refit-acid-scale = How strongly the soil resists, before the readings and now.
answer-means-refit-effective-members = How many simulated beds carry the weight; few mean a thin answer.
answer-means-refit-doubted = Readings that fit no simulated bed, in sentences.
answer-means-refit-words = What was learnt, in a sentence.

## AcidScale

answer-means-acid-scale-prior = Resistance by texture and organic matter alone; 1 is the usual curve.
answer-means-acid-scale-now = The same after the readings.

## Option

answer-means-option-material = What, and in which form.
answer-means-option-rate-g-m2 = Product per area.
answer-means-option-amount-g = Product for one bed, or null.
answer-means-option-cost = Price of that amount, or null.
answer-means-option-currency = Three letters, or null.
answer-means-option-cost-per-mol-acid = Price of one mole of acid, or null.
answer-means-option-cost-per-kg-caco3-eq = Price of the lime worth of 1 kg CaCO3, or null.
answer-means-option-weeks-to-half = Until half of it has acted, or null.
answer-means-option-ec-rise-ds-m = Salt it adds to a saturated paste, or null.
answer-means-option-cautions = Codes of its cautions.

## Forecast

answer-means-forecast-dates = Weekly dates.
answer-means-forecast-ph = pH in water as the sampling depth reads.
answer-means-forecast-do-nothing = The same with nothing done.
answer-means-forecast-width = What makes the range wide, the largest share first.

## WidthShare

answer-means-width-share-cause = What nobody knows exactly.
answer-means-width-share-share = Its share of the variance.

## ForecastPh

answer-means-forecast-ph-q05 = One in twenty lies below.
answer-means-forecast-ph-q25 = One in four lies below.
answer-means-forecast-ph-q50 = The median.
answer-means-forecast-ph-q75 = One in four lies above.
answer-means-forecast-ph-q95 = One in twenty lies above.

## DoNothing

answer-means-do-nothing-q50 = The median with nothing done.

## SoilTemperature

answer-means-soil-temperature-depth-cm = Depth it holds at, the middle of the treated depth.
answer-means-soil-temperature-dates = Weekly dates, one year.
answer-means-soil-temperature-c = Soil temperature.
answer-means-soil-temperature-weather = Which weather the answer rests on: where the climate figures come from, and what your own soil thermometer corrects.

## Subsoil

answer-means-subsoil-layers = The layers below the sample as they were found, the uppermost first.
answer-means-subsoil-depths = What every depth does; empty where no forecast was run.
answer-means-subsoil-on = The last day simulated for it, or null.
answer-means-subsoil-treated = Whether the plan applies anything.

## SubsoilLayer

answer-means-subsoil-layer-top-cm = Where the layer begins.
answer-means-subsoil-layer-bottom-cm = Where it ends.
answer-means-subsoil-layer-ph-water = Its pH, in water.
answer-means-subsoil-layer-carbonate-pct = Its free lime, as CaCO3; the best estimate where nobody measured it.
answer-means-subsoil-layer-roots = What it means for the roots of the plants wanted, or null.
answer-means-subsoil-layer-limit-ph = The pH in water past which it does harm, where it does, or null.

## SubsoilDepth

answer-means-subsoil-depth-top-cm = Where the depth begins.
answer-means-subsoil-depth-bottom-cm = Where it ends.
answer-means-subsoil-depth-ph-today = Median pH of the simulated beds today, in water.
answer-means-subsoil-depth-ph-untreated = The same on the last day, left alone.
answer-means-subsoil-depth-ph-planned = The same on the last day, with the plan.
answer-means-subsoil-depth-shows-from = First yearly day on which the plan has changed it by 0.1, or null.

## PotOrGround

answer-means-pot-or-ground-years = Years compared.
answer-means-pot-or-ground-pots = Pots, one for each plant.
answer-means-pot-or-ground-volume-l = Volume of one pot.
answer-means-pot-or-ground-medium = The potting mix.
answer-means-pot-or-ground-mix-ph = The pH that a fresh mix is taken to have, in water.
answer-means-pot-or-ground-water-known = Whether the alkalinity of the water is known; false where that of ordinary mains water is taken.
answer-means-pot-or-ground-ways = The ground, pots with your water, and pots with rainwater where that matters.
answer-means-pot-or-ground-words = Which is better, in a few sentences.

## PlantingWay

answer-means-planting-way-place = Where the plants stand, and what waters them.
answer-means-planting-way-works = False where it cannot be done.
answer-means-planting-way-in-range = Share of the simulated beds or pots in the range at the end of each year.
answer-means-planting-way-share = The same, averaged over the years.
answer-means-planting-way-lasts-years = Until half of them have left the range without renewal; 0 where they never reach it, null where longer than compared.
answer-means-planting-way-hours = Work over the years, or null where it cannot be done.
answer-means-planting-way-cost = Cost of what has a price, or null where nothing has.
answer-means-planting-way-currency = Currency of the cost; null where nobody named one.
answer-means-planting-way-needs = What has to be bought.

## PlantingNeed

answer-means-planting-need-item = What it is.
answer-means-planting-need-material = The product, or null.
answer-means-planting-need-amount = How much: litres of mix, pots, or grams of product.
answer-means-planting-need-cost = Its price, or null where nobody gave one.

## Rescue

answer-means-rescue-problem = What is wrong.
answer-means-rescue-ph-expected = Where the pH goes by itself, or null.
answer-means-rescue-steps = What to do, in order.
answer-means-rescue-never = What not to do.
answer-means-rescue-lime-as-caco3-g-m2 = Lime that would undo it, or null.
answer-means-rescue-course = How it comes back over time, or null.

## RescueCourse

answer-means-rescue-course-plan = What to apply first, and what each test decides.
answer-means-rescue-course-stages = The pH by date, untreated and with the plan.
answer-means-rescue-course-limit-low-ph = The lowest pH that the plants bear, in water.
answer-means-rescue-course-limit-high-ph = The highest pH that the plants bear, in water.
answer-means-rescue-course-safe-on = Day from which half of the beds stay between them, or null.
answer-means-rescue-course-safe-90-on = Day from which 90 in 100 do, or null.
answer-means-rescue-course-safe-untreated-on = Day from which half of the untreated beds do, or null.
answer-means-rescue-course-look-to = The last day simulated for it.

## RescueStage

answer-means-rescue-stage-on = The day.
answer-means-rescue-stage-come-frac = Share that has acted by then of what was still to act, or null.
answer-means-rescue-stage-untreated = pH of the untreated beds.
answer-means-rescue-stage-treated = pH with the plan.

## Upkeep

answer-means-upkeep-drift-ph-year = How the pH moves left as it is, by its forecast; negative falls.
answer-means-upkeep-drift-held-ph-year = How it would move by itself where the plan takes it, or null.
answer-means-upkeep-nitrogen-needed-g-m2-year = Nitrogen the plants need, or null.
answer-means-upkeep-feed = The feed that keeps the ledger even.
answer-means-upkeep-net-with-feed-mmolc-m2-year = The ledger with that feed; positive acidifies.
answer-means-upkeep-sulfur-as-s-g-m2-year = Sulfur that closes the rest.
answer-means-upkeep-lime-as-caco3-g-m2-year = Lime that closes the rest.
answer-means-upkeep-years-water-undoes-dose = Until the water has undone the dose, or null.
answer-means-upkeep-comment = The upkeep in a sentence.

## FeedLine

answer-means-feed-line-material = What.
answer-means-feed-line-n-g-m2-year = Nitrogen it brings.
answer-means-feed-line-rate-g-m2-year = Product.
answer-means-feed-line-acid-mmolc-m2-year = Acid it brings; negative for base.

## Ledger

answer-means-ledger-unit = Always mmolc_m2_year.
answer-means-ledger-lines = One line for each thing that pushes the pH.
answer-means-ledger-net = Their sum; positive acidifies.

## LedgerLine

answer-means-ledger-line-name = What pushes.
answer-means-ledger-line-value = How hard; positive acidifies.

## ClaimResult

answer-means-claim-result-material = What was proposed.
answer-means-claim-result-acid-brought-mmolc-m2 = Acid it brings in the long run.
answer-means-claim-result-acid-needed-mmolc-m2 = Acid the aim needs.
answer-means-claim-result-share = Brought over needed, or null where none is needed.
answer-means-claim-result-ph-change-now = What it does within days, or null.
answer-means-claim-result-ph-change-1-year = What it has done after a year, or null.
answer-means-claim-result-comment = The answer in a sentence.

## Caution

answer-means-caution-code = Code of the caution.
answer-means-caution-text = The caution in words.
answer-means-caution-source-key = Where its figures come from, or null.
answer-means-caution-short = What must be done, in a sentence or two.
answer-means-caution-handling = Whether it is a hazard of something that this advice has you handle.

## SourceLine

answer-means-source-line-key = Key that the answer uses.
answer-means-source-line-citation = The source itself.

## What is kept beside them

answer-means-kept-said = The messages behind the texts, each under the JSON pointer of its text (`/verdict/because`): its key, and its figures in our own units by their kind. A reader in other units or another language is served from here, never from a text.
answer-means-kept-case = What was asked: the keys of the case file that have a value, in our own units; `noticed` lists what the reader of the file remarked on, `climate` says where climate figures of one's own came from. Null where it was not kept.
answer-means-kept-letter = The letter as it was said, with the reader's spelling and units; `loamshift reprint` prints it again. Null where it was not kept.

## Units that are words

answer-unit = { $unit ->
    [as-its-key] as the key it stands under
    [count] count
    [currency] currency
    [currency-kg] currency/kg
    [currency-molc] currency/molc
    [date] date
    [days] days
    [g-m2-year] g/m2/year
    [mmolc-m2-year] mmolc/m2/year
    [ph-year] pH/year
    [times] times
    [unit] unit
    [weeks] weeks
   *[years] years
}

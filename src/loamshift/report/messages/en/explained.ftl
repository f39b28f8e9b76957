### What each number of an answer means in general: `loamshift why KEY`, its page, and the
### reference of the keys. For each key a title, its paragraphs by number, and its equations.

## The answer itself

explained-answer = Version of the answer's form
explained-answer-1 = The meaning of every key stays the same within one version.

explained-name = Name of the bed
explained-name-1 = As in the case file.

explained-today = The date the answer is for
explained-today-1 = The program does not look at the clock: the same case and the same date give the same answer.

explained-made-by = What made the answer
explained-made-by-1 = The version of the program and of the model, and a fingerprint of all tables shipped. seed, members and years belong to the forecast and are empty without one.

## Verdict

explained-verdict-decision = The decision
explained-verdict-decision-1 = The first of these that holds, in this order:
explained-verdict-decision-2 = stop: what has been applied is more than the ground may carry, or takes the bed past the limit that harms the plant; or the pH, salt, sodium or waterlogging is harmful already.
explained-verdict-decision-3 = leave: left alone, more than 50 in 100 beds, and their median, stay closer to the range than two tests can tell apart. That must hold until a year after the day wanted. Or what was applied earlier brings the bed there.
explained-verdict-decision-4 = measure-first: one fact not yet known changes the decision with more than the probability below, and a named test settles it. The plan is then provisional.
explained-verdict-decision-5 = elsewhere: the plants share no range, or fewer beds than the share below would reach it within the limits of three seasons even if each were known. Use a pot, a raised bed or another plant.
explained-verdict-decision-6 = effort: more applications than usual, more than 12 months, something every year, or a water that must be treated.
explained-verdict-decision-7 = go: in every other case.
explained-verdict-decision-8 = It is made from the same simulated beds as the plan, the forecast and the upkeep, so none of them can contradict it.

explained-verdict-reason = Why the decision is what it is
explained-verdict-reason-1 = One code. Every sentence about the decision is made from it and its numbers.
explained-verdict-reason-2 = no-ph: nobody has tested the pH. no-aim: you have not said what you want to grow.
explained-verdict-reason-3 = overdose: what has been applied is more than the ground may carry. too-acid, salt, sodic, waterlogged: the bed is being harmed already.
explained-verdict-reason-4 = no-common-range: the plants share no range of pH that is wide enough to hold.
explained-verdict-reason-5 = in-range: left alone, the bed stays in the range. at-work: what was applied earlier brings it there. small-gain: it is closer to the range than a second test could show. upkeep: it is in the range and needs something now and then to stay there.
explained-verdict-reason-6 = unknown-lime, doubtful-reading, unknown-water, unknown-texture: one test would settle the decision. unknown-sodium: a pH so high comes from sodium more often than from lime. one-source-range: only one source gives a range for the plant.
explained-verdict-reason-7 = free-lime: lime in the soil uses up more than anybody would apply. caps: the published limits do not allow so much. water: the water undoes whatever is done to the soil. feed: the acid of the fertiliser takes a good soil out of its range.
explained-verdict-reason-8 = parts: more applications than usual. months: longer than a year. within-reach: none of these.
explained-verdict-reason-9 = An answer kept by version 0.1.0 has none.

explained-verdict-ph-now = The pH of the bed today
explained-verdict-ph-now-1 = The median of its simulated beds: every reading counts by its error, and so does what was applied, watered, fed and washed out since. There is none without a pH, or where a fact decides before the beds are looked at.

explained-verdict-because = The number that decided
explained-verdict-because-1 = One sentence with the figure, its limit, and whose limit it is.

explained-verdict-would-change-if = What would change the decision
explained-verdict-would-change-if-1 = The smallest change of one doubtful or missing figure that changes the decision, and the cheapest test that would show it.

explained-findings = Findings
explained-findings-1 = Every check as a row: the value, the limit it is compared with, whether it passed, and what that means. A finding never stops an answer; an error does.

explained-missing = What was not given and matters
explained-missing-1 = A field is listed where its plausible range changes the answer. We used a range in its place, not a guess, and that makes the range of the dose wider.

explained-worth = What further tests are worth
explained-worth-1 = Each of the simulated beds gives each result of a test with a certain probability, by the error of the test. For every result the beds are weighed by that probability, and the plan is chosen again from the courses that are simulated already.
explained-worth-2 = The gain is the share of beds in the range after that, less the share without the test. A plan is chosen on one half of the beds and judged on the other, so that a test which tells nothing gains nothing. The chance of another first application counts the results after which keeping to the plan would cost more than three beds in 100.
explained-worth-3 = The best test is the one with most gain for its price among those that gain at least three beds in 100. Where the verdict waits for a test, that one comes first. A test on the day of the plan counts already: its gain is what the plan would lose without tests.
explained-worth-4 = Where the error of the reading makes much of what the forecast does not know, one further sample, two and three are weighed in the same way. What their mean is wrong by falls with the root of their number; the difference from year to year stays. How many cores a sample is mixed from follows from how much single cores differ.
explained-worth-equation-1 = gain = Σ over results of the best plan's share after it − the best plan's share now

explained-wanted = The range wanted
explained-wanted-1 = What the published ranges of the plants have in common, in pH in water, or a narrow range around the target pH. ph_aim is the target pH, or halfway up the range.

## Dose

explained-dose-direction = Which way the dose goes
explained-dose-direction-1 = acidify, lime or none: the range wanted is below, above or around the reading.

explained-dose-provisional = A provisional dose
explained-dose-provisional-1 = True where the verdict is to measure first: the dose may change with that test.

explained-dose-acid-mmolc-kg = Acid per kilogram of soil
explained-dose-acid-mmolc-kg-1 = How much acid moves the soil from its pH to the pH wanted; negative where it must be limed. The curve is the soil's own base content. One scale, k, says how far this bed departs from the average soil, and measurements narrow it. Free carbonate comes on top: all of it must be used up before the pH changes for good.
explained-dose-acid-mmolc-kg-2 = 90 in 100 such soils need between lo90 and hi90: the spread of k, of the reading and of the carbonate.
explained-dose-acid-mmolc-kg-equation-1 = acid = k [Q(pH now) − Q(pH wanted)] + carbonate
explained-dose-acid-mmolc-kg-equation-2 = carbonate = 200 mmolc/kg × % CaCO3
explained-dose-acid-mmolc-kg-equation-3 = log10 k ~ N(mean, sd); sd² = between sources² + (weak soil × weak slope / slope)² + between soils², and more where organic matter is unknown or the texture was felt

explained-dose-sulfur-as-s-g-m2 = Elemental sulphur per area
explained-dose-sulfur-as-s-g-m2-1 = The acid above, spread over the soil that is treated, as pure sulphur that has all turned to acid. A product of less than 100% S takes more.
explained-dose-sulfur-as-s-g-m2-equation-1 = S [g/m²] = acid [mmolc/kg] × soil [kg/m²] × 32.06 / 2000
explained-dose-sulfur-as-s-g-m2-equation-2 = soil [kg/m²] = 10 × depth [cm] × bulk density [g/cm³]

explained-dose-lime-as-caco3-g-m2 = Lime per area
explained-dose-lime-as-caco3-g-m2-1 = What neutralises the acid, as pure calcium carbonate. A limestone of a neutralising value below 100%, or too coarse to react in time, takes more.
explained-dose-lime-as-caco3-g-m2-equation-1 = CaCO3 [g/m²] = −acid [mmolc/kg] × soil [kg/m²] × 100.09 / 2000
explained-dose-lime-as-caco3-g-m2-equation-2 = product = CaCO3 / (neutralising value × share fine enough to react)

explained-dose-carbonate-share = Share of the acid that free lime uses up
explained-dose-carbonate-share-1 = The part of the best estimate that only dissolves free carbonate. Near 1, calcite and carbon dioxide hold the pH of the bed, and most of the sulphur changes nothing.
explained-dose-carbonate-share-equation-1 = share = carbonate / (curve + carbonate)

explained-dose-published-g-m2 = What published tables say for the same change
explained-dose-published-g-m2-1 = The lowest and highest rate of the published tables that have a row for this texture and change in pH, scaled to the same depth. Copies of one original count once. A rate printed for every soil alike is left out. They appear beside our dose and are never mixed into it. advise --table follows one of them.

explained-dose-by-forecast = The amount by the forecast, in answers kept by 0.1.0
explained-dose-by-forecast-1 = New answers have the key plan instead, and null here.
explained-dose-by-forecast-2 = It was the smallest amount that brought the median of the simulated beds to the target on the day wanted. It was reduced so that fewer than 10 in 100 beds passed the far end of the range, and to what the published limits allow.

## What to apply

explained-applications = The dated applications
explained-applications-1 = The first path through the plan, in applications that each stay within the limit for a planted or bare bed. The soil is warm enough to use up one application before the next. A later one has a condition: usually a new reading that still calls for it.
explained-applications-2 = Applications of one season are the waiting time apart. Seasons follow each other by a year, each after a test.
explained-applications-3 = A product on hand is used unless it is too slow. It is too slow if, by the day wanted, less of it has reacted than the stated share of what the usual product would have.
explained-applications-equation-1 = applications of a season = amount / limit of one application, rounded up

explained-options = Other ways to the same pH
explained-options-1 = Every suitable material, in the amount that brings the same acid or lime, with price, speed and side effects. Cost is compared for the active ingredient, not for the bag.

explained-options-cost-per-mol-acid = Cost of a mole of acid
explained-options-cost-per-mol-acid-1 = The price of the pack over the acid in it once all has reacted. Letters show it for a kilogram of sulphur's worth of acid: the acid that a kilogram of pure sulphur makes.
explained-options-cost-per-mol-acid-equation-1 = cost = price / (pack [kg] × acid [mol/kg])

explained-options-cost-per-kg-caco3-eq = Cost of a kilogram of lime value
explained-options-cost-per-kg-caco3-eq-1 = The price of the pack over the lime in it that acts in the field. That is its neutralising value, without grains that would take more than three years to dissolve, times the field efficiency of the liming trials. Letters show the price of pure lime as it is spread, which is lower by that efficiency.
explained-options-cost-per-kg-caco3-eq-equation-1 = cost = price / (pack [kg] × neutralising value [0-1] × share dissolved [0-1] × field efficiency [0-1])

explained-options-weeks-to-half = Weeks until half has reacted
explained-options-weeks-to-half-1 = For sulphur, the shrinking-particle law over its particle sizes, in the soil temperatures of the place. Aluminium and iron salts take days; lime depends on its fineness.

explained-options-ec-rise-ds-m = Rise of soluble salts
explained-options-ec-rise-ds-m-1 = The salt that the product leaves in the water of the treated depth before rain takes it away, as conductivity of the saturation extract.

explained-too-early-before = The day before which a test is too early
explained-too-early-before-1 = By this day the first application has moved the median of the simulated beds by the stated share of what it does until the next. It has also moved it by more than the error of a reading, where it ever moves so far. A reading before it shows sulphur that has not reacted yet, and invites a second dose on top of the first.
explained-too-early-before-2 = Sulphur-oxidising microbes work at less than half the rate for every ten degrees colder, and hardly at all in winter soil.
explained-too-early-before-equation-1 = radius shrinks at a rate r(T, moisture); mass left = Σ share (1 − r t / r0)³
explained-too-early-before-equation-2 = rate follows Arrhenius in soil temperature

explained-retest = Days to test again
explained-retest-1 = After the date before which it is too early, in the same season and at the same depth, by the same method as the first reading. Then the differences between seasons are not mistaken for a change.

## Forecast

explained-forecast = The forecast of the pH
explained-forecast-1 = The median and the ranges of the pH at the sampling depth, beside the untreated bed. Empty where no forecast was run.
explained-forecast-2 = width lists what makes the range wide after a year, with each cause's share of the variance between the simulated beds.

explained-soil-temperature = Soil temperature over the year
explained-soil-temperature-1 = The yearly wave of the air, damped and delayed down to the middle of the treated depth, and corrected by your own soil thermometer where there is one. A few readings move it by their mean difference. Readings in eight or more months correct the swing between summer and winter and its delay too, by least squares, as a damped wave of the same law. It is an average year, not the weather of this one. Empty without a place.
explained-soil-temperature-equation-1 = D = √(2 α / ω)

explained-subsoil = What lies below the sample
explained-subsoil-1 = The layers below the sample as they were found, each held against the range of the plants and the pH that harms them. A layer more acid than that range is said to hold toxic aluminium where it lies below the published limit, which is given in calcium chloride and converted to water.
explained-subsoil-2 = depths has the layers of the same simulated beds today and at the end of the forecast, left alone and with the plan. A depth is reached on the first yearly day on which the plan has changed its median pH by 0.1. A layer without figures of its own starts like the sample.

explained-pot-or-ground = Pot or ground
explained-pot-or-ground-1 = Pots and the ground side by side over five years, where somebody asks for it or the ground cannot be brought into the range of plants that live in pots. Both are forecast by the same column with the same seed: the ground under its plan with the tests, or left alone where there is none, and the pots from a fresh mix with their water and fertiliser. Beyond the end of the plan the ground is taken as held by its upkeep.
explained-pot-or-ground-2 = A way lasts from when half of its beds or pots are in the range until fewer are, without renewal. The whole mix of a pot is renewed after so many whole years. A third of it is replaced every second year for its structure, which counts in cost and work alone.
explained-pot-or-ground-3 = The cost counts pots, mix and products that have a price. The hours are common practice without a source: filling, watering, feeding and repotting of pots; spreading, digging in, feeding and watering of ground.

explained-rescue = Too much was applied
explained-rescue-1 = What to do, in order, and what not to do, where earlier material has made or will make the bed harmful; with the pH to expect.
explained-rescue-2 = course has the same simulated beds over time, untreated and with lime or sulphur given back in parts within the published limits. What each test calls for is chosen like any plan, for the most beds between the limits that the plants bear.

## The year

explained-upkeep = Keeping the pH
explained-upkeep-1 = The yearly ledger left to itself, and the feed within the nitrogen the plants need that keeps it nearest to balance. Sulphur or lime makes up the rest.
explained-upkeep-equation-1 = smallest |net acid| over the feeds, with the total N that the plants need and no feed below zero: a small linear program

explained-upkeep-drift-ph-year = Drift of the pH in a year
explained-upkeep-drift-ph-year-1 = How far the simulated beds, left as they are, move in a year: their median over the first three years of the forecast. The ledger beside it says where that comes from: its net over the buffering of the treated soil.
explained-upkeep-drift-held-ph-year = Drift once the plan has been carried out
explained-upkeep-drift-held-ph-year-1 = How far the simulated beds move in a year where the plan has taken them, if nothing more is done: their median. It differs from the drift of the bed left as it is, because how fast a pH drifts depends on where it stands. Empty where nothing is planned.
explained-upkeep-drift-ph-year-equation-1 = drift = −net [mmolc/m²/yr] / (buffering [mmolc/kg/pH] × soil [kg/m²])

explained-upkeep-years-water-undoes-dose = Years until the water has undone the dose
explained-upkeep-years-water-undoes-dose-1 = The acid of the dose over what the water's alkalinity neutralises in a year.
explained-upkeep-years-water-undoes-dose-equation-1 = years = dose [mmolc/m²] / (alkalinity [mmolc/L] × water [mm/yr])

explained-ledger = The yearly acid ledger
explained-ledger-1 = What moves the pH each year, with acid positive: water, rain, feed, sulphur still to react, old organic matter rotting, leaching and uptake, harvest. All lines share one unit, so they add up.
explained-ledger-equation-1 = net = Σ lines [mmolc/m²/yr]
explained-ledger-equation-2 = water = −alkalinity [mmolc/L] × depth [mm/yr]

explained-claims = A claim checked
explained-claims-1 = The acid that the material adds, beside the acid that this bed needs, on one scale. Acid that microbes break down again counts at first and not after a year. Base that decay releases counts after a year.
explained-claims-equation-1 = share = acid added / acid needed

explained-cautions = Cautions
explained-cautions-1 = By code, with the source of every figure in them; loamshift why CODE opens one.

explained-sources = Sources
explained-sources-1 = Every source that a figure of this answer relies on.

explained-balance-error = Does the acid add up?
explained-balance-error-1 = What the forecast's own acid balance fails to close: stores at the end, less stores at the start, less all that came and went. Empty without a forecast.

## The plan

explained-plan = The plan as a rule
explained-plan-1 = What to apply first, the day of the next test, and what that test decides. It is chosen among amounts that can be weighed: the one with the most simulated beds in the range on the day wanted and a year later, and few harmed by it.
explained-plan-2 = A rule with a test keeps more beds in the range than any single amount, because soils that look alike differ by a factor of two and more. After the test the bed is fitted again and the next table is printed.
explained-plan-equation-1 = share = Σ w [pH(on) and pH(on + 1 year) in the range], over beds m with weight w
explained-plan-equation-2 = best rule = greatest share with harmed ≤ limit, decided by bins of the reading

explained-plan-parts = What to apply whatever a test reads
explained-plan-parts-1 = The first application, or more where one season allows several.

explained-plan-decides = What the test decides
explained-plan-decides-1 = A line for each range of readings, in water and to a tenth: an amount, nothing yet with another test a year later, or nothing more.
explained-plan-decides-2 = The amounts follow from where such beds go after the test, not from how far the reading is from the target: what was applied first may still be working.
explained-plan-decides-3 = test-again appears where waiting for a second test keeps more beds in the range than any amount now.

explained-plan-share-in-range = How often the plan works
explained-plan-share-in-range-1 = Of beds like this one, the share in the range on the day wanted and a year later, with the tests of this plan. It is judged on beds not used to choose the plan, because a plan looks too good on its own beds.
explained-plan-share-in-range-2 = It counts the bed itself: a test may read outside the range while the bed is inside.

explained-plan-share-in-range-without-tests = How often one amount without a test works
explained-plan-share-in-range-without-tests-1 = The share for the best single amount, under the same limit on harm.

explained-plan-share-if-known = How often it would work if the soil were known exactly
explained-plan-share-if-known-1 = No plan can do better than this. Where even this is small the soil is not the problem: the water undoes whatever is done.

explained-plan-share-harmed = How often the plan does harm
explained-plan-share-harmed-1 = The share of beds that pass the limit that harms the plant because of the plan: with it they do, and left alone they would not.

explained-plan-median-ph = The best estimate of the pH
explained-plan-median-ph-1 = The median of the simulated beds on the day the shares are for, in water.

explained-plan-on = The day the shares are for
explained-plan-on-1 = The day wanted in the case, or three years after the first application. With prills it is the end of the year in which nine tenths of them have acted, if that is later.
explained-plan-acted-on = The day by which nine tenths of the prills have acted
explained-plan-acted-on-1 = Prills first have to break up, and the kind of prill decides how fast: with much clay in weeks, with a little in years, without any hardly at all. The day is worked out for the usual speed of the product, for the soil temperature here and for how deep it is dug in.

explained-branches = The advice for each outcome of an open question
explained-branches-1 = Where nobody knows whether the soil holds lime, one figure in between would fit neither case. Each outcome has its chance, its decision and its amount.

explained-refit = What the readings taught about the bed
explained-refit-1 = Simulated beds are run from the first reading through everything that was applied, and weighted by how well they fit the later readings. The weights then hold for the decision, the plan and the forecast.
explained-refit-2 = --no-refit shows the answer without; used is then false.
explained-refit-equation-1 = log w = Σ log t5((reading − pH) / √(method² + year²)), over the later readings

explained-refit-acid-scale = How strongly the soil resists
explained-refit-acid-scale-1 = How many times the acid of the usual curve for this texture the soil takes, before the readings and after them. Where lime was not tested, lime may be the cause.

explained-refit-effective-members = How many simulated beds carry the weight
explained-refit-effective-members-1 = Few mean that the readings are where very few beds were expected. Then more beds are drawn there; if that does not help, the readings are doubted.
explained-refit-effective-members-equation-1 = n = 1 / Σ w²

explained-refit-doubted = Readings that fit no bed
explained-refit-doubted-1 = A reading that no simulated bed can fit is doubted before the soil is.

## Other things that open

# A remark as it stands in the tables.
explained-note = { $text }
# $topic is the name of a topic.
explained-topic = Parameters of { $topic }
explained-topic-1 = { $n ->
    [1] 1 figure; loamshift why { $topic }.NAME opens it.
   *[other] { $n } figures; loamshift why { $topic }.NAME opens one.
}
explained-limit-1 = { $ground ->
    [unplanted] At most { $limit } of { $of } per { $per } on bare ground.
    [planted] At most { $limit } of { $of } per { $per } on planted beds.
    [lawn] At most { $limit } of { $of } per { $per } on a lawn.
    [field] At most { $limit } of { $of } per { $per } on ground under a crop.
    [container] At most { $limit } of { $of } per { $per } in pots.
   *[other] At most { $limit } of { $of } per { $per }.
}
explained-limit-governs = { $governs ->
    [yes] This row is the one we use.
   *[no] Kept for the record; another row is used for this situation.
}
explained-limit-wait = Then wait { $months } months.
explained-material = loamshift why “{ $material }.FIGURE” opens one figure; loamshift materials shows everything about it.
explained-source-grade = Grade: { $grade }.
explained-source-used = Parameters that rely on it: { $rows }.
explained-figure-spread = { $figure }, { $spread } in 95 of 100 cases; { $evidence }
explained-figure-alone = { $figure }; { $evidence }

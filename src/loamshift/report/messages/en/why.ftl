### Where a number comes from: the sum with the figures of one bed, step by step.
### The explanations that hold for every bed are in why-general.ftl.

## Headings of a sum

why-heading-sum = { $ground ->
    [container] The sum for this pot
   *[bed] The sum for this bed
}
why-heading-inputs = What goes into it
why-heading-sure = How sure this is
why-heading-narrow = What would make it surer
why-heading-keys = Numbers of this advice that open
why-heading-general = In general
why-heading-equation = Equation
why-heading-figure = Figure
why-heading-figures = What goes in
why-heading-see = See also
why-heading-sources = Sources
# The line under the title of a sum. $name is the bed.
why-subtitle-bed = { $key }, for { $name }
why-subtitle-unnamed = { $key }, for this bed
why-subtitle-kind = { $key } ({ $kind })
why-title-keys = What can be opened
why-subtitle-keys = loamshift why KEY
why-subtitle-keys-case = loamshift why KEY --case CASE.toml

## Kinds of what can be opened

why-kind = { $kind ->
    [answer] key of the answer
    [parameter] parameter of the model
    [topic] topic of the parameter table
    [caution] caution
    [limit] limit
    [material] material
    [material-figure] figure of a material
   *[source] source
}
why-kinds = { $kind ->
    [answer-keys] Keys of the answer
    [parameter-topics] Topics of the parameter table
    [cautions] Cautions
    [limits] Limits
   *[materials] Materials
}

## Columns of the table of inputs

why-column-symbol = symbol
why-column-what = figure
why-column-value = value
why-column-range = likely
why-column-unit = unit
why-column-evidence = evidence
why-column-from = where from
why-column-source = source

## Where a figure comes from

why-from-case = your case: { $field }
why-from-table = our tables: { $row }
why-from-place = the climate of the place
why-from-published = published figures
# $field is what nobody said.
why-from-assumed = assumed, because the case does not give: { $field }
why-from-beds = the simulated beds
why-from-fixed = chemistry and arithmetic
why-from-step = an earlier step

## Notes about a sum

why-metric = The sum is worked in metric units; the result is in yours as well.
why-result = That is { $result }.
why-result-in-100 = That is { $result } in 100.
why-result-day = That is { $day }.
why-differs = This answer was made with other tables. With those of today the sum gives { $today }; the answer says { $then }.
why-with-case = See the sum for one bed: loamshift why { $key } --case CASE.toml

## Units in a sum. $n is the number; the space before a unit never breaks over a line.

why-unit-none = { $n }
why-unit-g-m2 = { $n } g/m²
why-unit-g = { $n } g
why-unit-kg-m2 = { $n } kg/m²
why-unit-g-cm3 = { $n } g/cm³
why-unit-cm = { $n } cm
why-unit-m2 = { $n } m²
why-unit-mm = { $n } mm
why-unit-ph = { $n }
why-unit-percent = { $n }%
why-unit-deg-c = { $n }°C
why-unit-deg-days = { $n } degree days
why-unit-days = { $n ->
    [1] 1 day
   *[other] { $n } days
}
why-unit-weeks = { $n ->
    [1] 1 week
   *[other] { $n } weeks
}
why-unit-years = { $n ->
    [1] 1 year
   *[other] { $n } years
}
why-unit-beds = { $n ->
    [1] 1 bed
   *[other] { $n } beds
}
why-unit-mmolc-kg = { $n } mmolc/kg
why-unit-mmolc-kg-ph = { $n } mmolc/kg per pH
why-unit-mmolc-m2 = { $n } mmolc/m²
why-unit-mmolc-m2-ph = { $n } mmolc/m² per pH
why-unit-mmolc-l = { $n } mmolc/L
why-unit-mmolc-g = { $n } mmolc/g
why-unit-g-mmolc = { $n } g/mmolc
why-unit-mg-l-caco3 = { $n } mg/L CaCO3
why-unit-ds-m = { $n } dS/m
why-unit-price = { $n }
why-unit-price-mol = { $n } per mol
why-unit-price-kg = { $n } per kg

## Titles of sums

why-sum-acid = Acid per kilogram of { soil-this }
why-sum-sulfur = Sulphur { soil-this } needs
why-sum-lime = Lime { soil-this } needs
why-sum-lime-share = Share of the acid that free lime uses up
why-sum-ph-now = The pH of { bed-the } today
why-sum-application = The application on { $day }
why-sum-bag = { $way ->
    [lime] The need as lime from the bag
   *[acidify] The need as sulphur from the bag
}
why-sum-amount = The amount for the whole bed on { $day }
why-sum-share = { $which ->
    [in-range] How often the plan works
    [without-tests] How often one amount without a test works
    [if-known] How often it would work if { soil-the } were known exactly
   *[harmed] How often the plan does harm
}
why-sum-median = The best estimate of the pH on { $day }
why-sum-quantile = The forecast for { $day }
why-sum-line = { $open ->
    [low] What a reading of { $to } or lower calls for
    [high] What a reading of { $from } or higher calls for
    [one] What a reading of { $from } calls for
   *[none] What a reading from { $from } to { $to } calls for
}
why-sum-too-early = The day before which a test is too early
why-sum-line-of-ledger = { $line ->
    [water] What the water does in a year
    [rain] What the carbonic acid of the rain does in a year
    [air] What acid from the air does in a year
    [leaching] What leaching and uptake do in a year
    [feed] What the feed does in a year
    [tail] What the sulphur already applied still does in a year
    [washed-out] What draining water carries out in a year
    [humus] What old organic matter that rots does in a year
   *[free-lime] What the free lime does in a year
}
why-sum-net = The net effect of a year
why-sum-drift = The drift of the pH in a year
why-sum-net-with-feed = The net effect of a year with this feed
why-sum-closing-acidify = Sulphur to add each year
why-sum-closing-lime = Lime to add each year
why-sum-feed = { $acid ->
    [yes] Acid from this feed in a year
   *[no] Amount of this feed in a year
}
why-sum-undone = Years until the water has undone the dose
why-sum-way = { $what ->
    [rate] How much of this product does the same
    [amount] How much of this product the bed takes
    [cost] What this product costs
    [price-acid] Price of a mole of acid
    [price-lime] Price of a kilogram of lime value
    [half] Weeks until half has reacted
   *[salt] Rise of the salt in the soil
}
why-sum-claim = { $what ->
    [brought] Acid this material adds
    [needed] Acid { bed-the } needs
    [share] What this material adds, beside what the bed needs
    [now] Change of the pH at first
   *[year] Change of the pH after a year
}

## Steps: the reading

why-step-in-water = Turn the reading in salt solution into pH in water.
why-step-together = Combine the readings of one season, weighting each by its error.
why-step-ph-now = Simulate beds that fit every reading and everything added since, and take their median.

## Steps: the need

why-step-curve = { $way ->
    [lime] Read from the average buffer curve of such a { soil-one } how much acid lime must neutralise to raise it that far.
   *[acidify] Read from the average buffer curve of such a { soil-one } how much acid it takes to bring it down that far.
}
why-step-curve-own = Read from the buffer curve of { soil-this } how much acid it takes to bring it down that far.
# What is added to the curve of this bed.
why-step-best = { $lime ->
    [yes] { $coming ->
        [yes] Allow for how strongly { soil-this } resists, add the acid its free lime uses up, and take off what earlier material still brings.
       *[no] Allow for how strongly { soil-this } resists, and add the acid its free lime uses up. This is with every figure at its best estimate.
    }
   *[no] { $coming ->
        [yes] Allow for how strongly { soil-this } resists, and take off what earlier material still brings.
       *[no] Allow for how strongly { soil-this } resists. This is with every figure at its best estimate.
    }
}
why-step-weighed = { $end ->
    [low] Let the reading, the resistance and the free lime vary together within their ranges. In 5 of 100 such { soil-many } the need is less than this.
    [high] Let the reading, the resistance and the free lime vary together within their ranges. In 5 of 100 such { soil-many } the need is more than this.
   *[middle] Let the reading, the resistance and the free lime vary together within their ranges. In 50 of 100 such { soil-many } the need is less than this: the best estimate.
}
why-step-sign = Count lime as negative acid.
why-step-mass = Weigh { soil-the } to be treated.
why-step-pure = { $way ->
    [lime] Turn that into pure lime for each square metre.
   *[acidify] Turn that into pure sulphur for each square metre.
}
why-step-lime-share = Divide the acid for the free lime by the whole need.

## Steps: what to apply

why-step-bag = { $way ->
    [lime] Turn pure lime into the product in the bag, and allow for the part that works in the field.
   *[acidify] Turn pure sulphur into the product in the bag.
}
why-step-limit = { $way ->
    [lime] Turn the published limit for one application into this product.
   *[acidify] Turn the published limit for one application of sulphur into this product.
}
# $beds simulated beds.
why-step-chosen = Try every amount that can be weighed, up to that limit, on { $beds } simulated beds. Keep the one with the most beds in the range on the day wanted and a year later, and few harmed.
why-step-chosen-later = Try every amount for this season on { $beds } simulated beds. Keep the one that is best for beds that read as this one most likely will.
why-step-split = Take off what is applied at the other { $parts ->
    [2] application
   *[other] applications
} of the season.
why-step-amount = Multiply by the area.

## Steps: counted among the simulated beds

# $found of $beds beds; $low to $high is the range wanted; $day the day the shares are for.
why-step-share = { $which ->
    [in-range] Follow the plan and its tests on { $beds } simulated beds, each counting by the chance of what its tests would read. About { $found } of them are between pH { $low } and { $high } on { $day } and a year later.
    [without-tests] Give { $beds } simulated beds the best single amount. About { $found } of them are between pH { $low } and { $high } on { $day } and a year later.
    [if-known] Give each of { $beds } simulated beds the amount that is best for that bed. About { $found } of them are between pH { $low } and { $high } on { $day } and a year later.
   *[harmed] Follow the plan on { $beds } simulated beds. About { $found } of them pass the limit that harms the plants, and would not if left alone.
}
why-step-median = Follow the plan on { $beds } simulated beds, and take their median on { $day }.
why-step-quantile = { $which ->
    [alone] Leave { $beds } simulated beds alone. On { $day }, { $below } in 100 of them are below this pH.
   *[planned] Follow the plan on { $beds } simulated beds. On { $day }, { $below } in 100 of them are below this pH.
}
why-step-line = { $then ->
    [part] Take the simulated beds, { $beds } in all, that would read so on { $day }. Keep the amount that has the most of them in the range on the day wanted and a year later.
    [test-again] Take the simulated beds, { $beds } in all, that would read so on { $day }. Waiting for another test keeps more of them in the range than any amount now.
    [beyond] Few of the simulated beds, { $beds } in all, would read so on { $day }. More would take such a bed past the range, or it comes to the aim by itself.
   *[done] Take the simulated beds, { $beds } in all, that would read so on { $day }. Nothing more keeps most of them in the range on the day wanted and a year later.
}

## Steps: the day too early

# $days from $start to $day; what comes out are degrees above the lowest working temperature, added up.
why-step-warmth = Add up the warmth of the soil from { $start } to { $day }: the degrees above the lowest working temperature on each of { $days } days.
why-step-reacted = { $way ->
    [lime] In that time this share of the lime has reacted.
   *[acidify] In that much warmth this share of the sulphur has turned to acid.
}
why-step-too-early = Find the first week in which the median of { $beds } simulated beds has moved by { $percent }% of what the application does. It must also have moved by more than { $error }, the error of a test. Count the days from the application.

## Steps: the year

why-step-water-depth = Add up the water of a year.
why-step-alkalinity = Turn the alkalinity into charge.
why-step-water = Multiply the two. Water makes a soil more alkaline, so the line is negative.
why-step-rain = Multiply the rain by the acid in it.
why-step-air = Work out the acid of the sulphur and nitrogen that fall from the air, less the base that falls with them. Nitrogen makes acid only as far as it is washed out, and only part of that shows in the topsoil.
why-step-faster = Work out how much faster this soil loses base than one at pH 5: more at a high pH, and more the more water drains.
why-step-leaching = Multiply the usual loss by that, and take off what weathering gives. The usual loss was measured with the acid from the air of its own place and years inside; take that off too, as this bed has a line of its own for it.
why-step-feed = Work out the acid of the feed as it is given now, with the part of it that stays in the soil.
why-step-tail = Take the acid of the sulphur already applied that will have come in a year, less what has come so far.
why-step-washed-out = Work out the bicarbonate that draining water carries away at this pH. The saltier the water, the more acid it is beside the same soil, and the less bicarbonate it holds.
why-step-free-lime = Take the free lime that dissolves in a year, or what it takes to reach the pH that lime holds, whichever is less.
why-step-humus-nitrogen = Work out the nitrogen that old organic matter sets free in a year, from its share that rots fast and the years since the ground was dug.
why-step-humus-base = Work out the base that this organic matter held at this pH, for each mole of its nitrogen.
why-step-humus = Multiply the nitrogen by the part of it that is washed out as nitrate, less the base that comes free, and by the weight of { soil-the }.
why-step-per-ph = Work out the acid that moves this bed by one pH unit.
why-step-net = Add the lines up.
why-step-with-feed = { $feeds ->
    [0] Take the lines without feed: none is advised.
   *[other] Add the acid of the feed advised.
}
why-step-drift = Divide the net effect by that. Acid lowers the pH, so the sign changes.
why-step-drift-counted = Run { $beds } simulated beds, left as they are, for three years or as long as the forecast goes, and take how far their median moves in a year.
why-step-closing = { $way ->
    [lime] Turn what is left into lime, up to the yearly limit.
   *[acidify] Turn what is left into sulphur, up to the yearly limit.
}
why-step-nothing = { $way ->
    [lime] No lime is called for: what is left is too small, calls for acid, or must not be limed.
   *[acidify] No sulphur is called for: what is left is too small, calls for lime, or is a matter of the water.
}
why-step-feed-product = Divide the nitrogen by what the product holds.
why-step-feed-acid = Multiply by the acid in each gram.
why-step-undone = Divide the acid of the dose by what the water neutralises in a year.

## Steps: products

why-step-way = Divide what the first season brings by what a gram of this product brings.
why-step-cost = Multiply by the price of a gram.
why-step-price = { $way ->
    [lime] Divide the price of the pack by what it neutralises.
   *[acidify] Divide the price of the pack by the acid in it once all has reacted.
}
why-step-price-lime = Turn that into the price of a kilogram of pure lime.
why-step-half = Let it react in the soil temperatures of the place from { $day }, day by day, until half has reacted.
why-step-salt = { $gypsum ->
    [yes] Divide its salt by the water of the saturated soil. Sulphur leaves gypsum, which can raise the salt only so far.
   *[no] Divide its salt by the water of the saturated soil.
}

## Steps: claims

why-step-brought = Multiply the amount by the acid in each gram that lasts. Lime counts as negative.
why-step-claim-need = { $aim ->
    [yes] Work out the best estimate of the need, as for the dose.
   *[no] No target was given, so work out the need for one pH unit.
}
why-step-claim-needed = { $coming ->
    [yes] Multiply by the weight of { soil-the }, and take off what earlier material still brings.
   *[no] Multiply by the weight of { soil-the }.
}
why-step-claim-share = Divide the one by the other.
why-step-change = { $when ->
    [now] Compare simulated beds with and without it, and take the largest change of the first two weeks.
   *[year] Compare simulated beds with and without it after a year.
}

## Names of figures in a sum

why-in-parameter = figure of the model
why-in-ph-read = pH in water, as tested
why-in-ph-as-read = pH as read
why-in-ph-converted = pH in water
why-in-ph-aim = pH wanted
why-in-conversion = { $part ->
    [shift] what is added to turn the reading into pH in water
   *[slope] what the reading is multiplied by
}
why-in-weight = weight of a reading
why-in-clay = { $measured ->
    [yes] clay
   *[no] clay, by texture
}
why-in-carbon = organic carbon
why-in-depth = depth to treat
why-in-density = dry weight of the soil by volume
why-in-scale = { $measured ->
    [yes] how strongly { soil-this } resists, measured against the average curve
   *[no] how strongly { soil-this } resists, against the average curve
}
why-in-curve = acid by the average curve
why-in-best = sum of best estimates
why-in-free-lime = acid that free lime uses up
why-in-coming = acid that earlier material still brings, in the direction wanted
why-in-coming-area = acid that earlier material still brings
why-in-need = need of a kilogram of soil
why-in-mass = weight of { soil-the }
why-in-gram-sulfur = sulphur for each unit of acid
why-in-gram-lime = lime for each unit of acid
why-in-pure = { $way ->
    [lime] pure lime needed
   *[acidify] pure sulphur needed
}
why-in-holds = { $way ->
    [lime] neutralising value of the product
   *[acidify] sulphur in the product
}
why-in-substance = { $way ->
    [lime] lime value that the limit counts
   *[acidify] sulphur that the limit counts
}
why-in-limit = { $per ->
    [year] published limit for a year
   *[dose] published limit for one application
}
why-in-beds = simulated beds
why-in-found = { $which ->
    [harmed] beds harmed by the plan
   *[other] beds in the range
}
why-in-season = amount of the season
why-in-other-days = amount on its other days
why-in-rate = amount per square metre
why-in-area = area
why-in-amount = amount for the bed
why-in-test-error = error of a test
why-in-warmth = mean temperature of the soil
why-in-weekly = water in a week
why-in-weeks-a-month = weeks in a month
why-in-months = months watered
why-in-water-year = water in a year
why-in-alkalinity = alkalinity of the water
why-in-charge = alkalinity as charge
why-in-rain = rain in a year
why-in-rain-ph = pH of rain
why-in-held = pH to be held
why-in-drainage = water that drains in a year
why-in-faster = times the loss at pH 5
why-in-background = usual loss at pH 5
why-in-weathering = base from weathering
why-in-water-anions = salt that the watering adds to draining water
why-in-air-in-load = acid from the air inside that usual loss
why-in-air-sulfur-acid = acid in a gram of sulphur
why-in-air-nitrogen-acid = acid in a gram of nitrogen
why-in-air = { $what ->
    [sulfur] sulphur
    [nitrogen] nitrogen
   *[base] base
} from the air { $region ->
    [british-isles] in the British Isles
    [northern-europe] in northern Europe
    [central-europe] in central Europe
    [southern-europe] in southern Europe
    [eastern-north-america] in eastern North America
    [western-north-america] in western North America
    [east-asia] in East Asia
    [australia-new-zealand] in Australia and New Zealand
   *[elsewhere] where no better figure is known
}, { $year }
why-in-nitrogen = nitrogen in a year
why-in-nitrogen-chosen = nitrogen chosen for this feed
why-in-nitrogen-share = nitrogen in the product
why-in-feed-rate = amount of feed each time
why-in-feed-times = times a year
why-in-feed-acid = acid of the feed advised
why-in-acid-per-gram = lasting acid in a gram
why-in-acid-by-then = acid come in a year from now
why-in-acid-so-far = acid come so far
why-in-buffering = buffering at this pH
why-in-per-ph = acid for one pH unit
why-in-other-acid = acid of the other lines together, which takes up lime too
why-in-lime-left = share of the free lime not dissolved since the first reading used
why-in-dissolved = share of the free lime that dissolves in a year
why-in-humus-nitrogen = nitrogen set free in a year
why-in-humus-washed = part of it that is washed out
why-in-humus-base = base set free with it
why-in-humus-labile = part of the organic matter that rots fast
why-in-humus-rate = rate at which that rots
why-in-humus-ratio = carbon over nitrogen of the organic matter
why-in-humus-years = years since the ground was dug
why-in-humus-slow = rate at which the rest rots in bare ground
why-in-line = { $line ->
    [water] irrigation water
    [rain] carbonic acid of rain
    [air] acid from the air
    [leaching] leaching and uptake
    [feed] nitrogen feed
    [tail] sulphur of earlier years
    [washed-out] bicarbonate washed out
    [humus] old organic matter rotting
   *[free-lime] free lime dissolving
}
why-in-net = net effect of a year
why-in-net-alone = net effect without feed
why-in-first-season = acid or lime of the first season
why-in-works-per-gram = { $way ->
    [lime] base that works in a gram
   *[acidify] acid in a gram
}
why-in-price = price of the pack
why-in-pack = weight of the pack
why-in-price-mol = price of a mole
why-in-lime-mol = moles of base in a kilogram of pure lime
why-in-salt-per-gram = salt in a gram
why-in-paste-water = water in the saturated soil, per kilogram
why-in-claimed = amount claimed
why-in-brought = acid it adds
why-in-needed = acid { bed-the } needs

## The plain sum beside a figure that was counted

why-aside-reading = The reading alone says { $ph }.
why-aside-all-acted = The reading alone says { $ph }. If all the earlier material had reacted and nothing else had happened, it would be { $after }.
why-aside-need = The need alone is { $need } of pure { $way ->
    [lime] lime
   *[acidify] sulphur
}; the plan may stop short of it, because you can add more after a test but take nothing out.
why-aside-plan = By the buffer curve alone, the { $pure } of pure { $way ->
    [lime] lime
   *[acidify] sulphur
} in the plan would bring an untouched soil to about pH { $after }. The simulated beds add time, water, feed and rain.
why-aside-drift = By the ledger alone, held where it is to be held, it would be { $plain } a year. The simulated beds start at the pH of today, count the fertiliser you give now and what was applied before, and let the loss change as the pH moves.
why-aside-line = By the buffer curve alone, going from { $middle } to { $aim } would take { $product } of the product. What was applied first may still be working, so the plan can call for less.
why-aside-claim = By the buffer curve alone, all of it would take the bed from { $before } to { $after }.

## How sure a figure is

why-sure-reading = With the error of the test, the true pH is between { $range } in 90 of 100 such { soil-many }.
why-sure-need = 90 in 100 { soil-many } like yours need { $range } of pure { $way ->
    [lime] lime
   *[acidify] sulphur
}.
why-wide-need = { $cause ->
    [reading] The error of the pH test makes that range wide.
    [scale] { $ground ->
        [container] Mixes that look alike resist very differently, which makes that range wide.
       *[bed] Soils of one texture resist very differently, which makes that range wide.
    }
   *[lime] The free lime makes that range wide.
}
why-wide-need-all = No single cause makes that range wide.
why-sure-plan = In { $share } of 100 such cases the pH would be in the range on { $day } and a year later. The plan would harm { $harmed } in 100.
why-sure-share = The beds counted were not used to choose the plan. A real bed can still differ from all of them.
why-sure-forecast = 90 in 100 tests on that day would read { $range }.
# $cause is a noun phrase, such as: the error of the first reading.
why-wide-forecast = What adds most to that range is { $cause } ({ $percent }% of it).
why-sure-scatter = The reading it starts from has an error of { $error }.
why-sure-line = Of 100 tests of one bed, 90 read within { $error } of its true pH.
why-sure-too-early = A cool or dry season makes it later. Believe a careful test over this date.
why-sure-ledger = { $line ->
    [water] It is as sure as the amount and the alkalinity of the water.
    [leaching] What beds lose by themselves differs up to sixfold either way.
    [feed] The part of the acid of a feed that stays in the soil differs by about half from place to place.
    [humus] How much organic matter rots, and how much of its nitrogen is washed out, differs up to threefold either way.
   *[other] This is an order of size, good to about a factor of two.
}
why-sure-feed = The weight is as sure as the label.
why-sure-way = { $what ->
    [half] A cool or dry season makes it slower, by up to half.
    [salt] Rain takes most of it away within a season.
   *[other] It is as sure as the label on the bag.
}
why-sure-claim = What a material holds differs from batch to batch; the need differs more.

## What would make it surer, the cheapest first

# $range is what would be left if what the test measures were known exactly.
why-narrow = { $test ->
    [laboratory-ph] A laboratory pH test, which costs little, could at best narrow that to { $range }.
    [second-ph] A second careful pH test, which costs little, could at best narrow that to { $range }.
    [fizz] A fizz test, which costs nothing, could at best narrow that to { $range }.
    [laboratory-lime] A laboratory figure for free lime could at best narrow that to { $range }.
    [texture] Feeling the texture, which costs nothing, could at best narrow that to { $range }.
    [organic-matter] A laboratory figure for organic matter could at best narrow that to { $range }.
    [buffer-ph] A laboratory buffer pH could at best narrow that to { $range }.
   *[jars] A test in jars with weak acid, which takes a week, could at best narrow that to { $range }.
}
why-narrow-none = No cheap test would make this range much narrower.
why-narrow-reading = { $rough ->
    [yes] A laboratory pH test, measured in water.
   *[no] A second careful test halves the effect of chance.
}
why-narrow-share = If { soil-the } were known exactly it would be { $known } in 100: no test can do better.
why-narrow-test = The next careful test settles more than anything you can measure now.
why-narrow-mean = Send a sample made of many spots, and test the same way each time.
why-narrow-thermometer = A soil thermometer at half the depth treated.
why-narrow-water = { $missing ->
    [yes] The alkalinity of the water: your supplier knows it, and a drop kit costs little.
   *[no] Note how much water { bed-the } really gets.
}
why-narrow-yearly-test = One careful test a year, in the same month, shows the real drift.
why-narrow-lime-line = A laboratory figure for free lime.
why-narrow-humus = Say how many years ago the ground was dug.
why-narrow-claim = A laboratory analysis of the material, or its label.
why-sure-bag = It is as sure as the need, and as the label on the bag.
why-sure-limit = { $per ->
    [year] The published limit for a year is { $limit } of it.
   *[dose] The published limit for one application is { $limit } of it.
}
why-narrow-bag = A cheaper bag does as well if it holds as much and is as fine.

## The page

why-title-all = All figures and sources
why-page-all = All figures and sources
why-page-all-under = Every number in a letter, and every figure behind it, with its source.
why-page-back = Back to the plan
why-page-near = Near this
why-page-unknown = No such number
# $name is what the address names.
why-page-unknown-key = No number, parameter, caution, limit, material or source is called “{ $name }”.
why-page-nearest = Did you mean:

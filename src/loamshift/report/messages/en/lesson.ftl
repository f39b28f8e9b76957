### The page for a class: one material on one soil, layer by layer, with the sums.

lesson-title = What happens below
lesson-under = Choose a soil, water and a material. The layers show what a class cannot see: how deep a change goes, how fast it comes, and what undoes it.
lesson-way = For a class: what happens in the layers below.
lesson-show = Show
lesson-worksheet = Worksheet for a class, answers on the second sheet (PDF)
lesson-empty = Choose, then press Show.

# The form. Choices of a list say what they mean in figures.
lesson-texture = Soil
lesson-ph = Its pH in water
lesson-organic = Organic matter
lesson-organic-low = little, 1.5%
lesson-organic-usual = usual, 3.5%
lesson-organic-high = rich, 8%
lesson-lime = Free lime
lesson-lime-none = none
lesson-lime-trace = a trace, 0.3%
lesson-lime-some = some, 2%
lesson-lime-much = much, 10%
lesson-water = Watered with
lesson-water-rain = rain alone
lesson-water-soft = low-alkalinity water, 30 mg/L as CaCO3
lesson-water-medium = water of medium alkalinity, 120 mg/L as CaCO3
lesson-water-hard = high-alkalinity water, 280 mg/L as CaCO3
lesson-material = Material
lesson-usual-material = sulphur powder
lesson-amount = Amount
lesson-month = Month of application
lesson-place = Place

# The page.
lesson-head-layers = Layer by layer
lesson-head-sum = The sum, step by step
lesson-head-tries = Change one thing and look again
lesson-head-predict = Before you turn over: write the pH you expect in each layer
lesson-head-answers = Answers
lesson-lead = { CAPITAL($material) }, { $rate }: { LOWER($said) }
lesson-figure-title = pH of each layer over two years
lesson-with = With { $material }
lesson-alone = Left alone
lesson-layer-top = Top { $to }
lesson-layer = { $top } to { $to }
# $same is 1 where the two read alike; $top is yes for the uppermost layer.
lesson-figure-sentence =
    { $same ->
        [1] After a year no layer reads differently from the bed left alone by as much as 0.05.
       *[other]
            { $top ->
                [yes] After a year the top { $to } differ most: pH { $with_it } with { $material }, { $alone } left alone.
               *[no] After a year the soil from { $above } to { $to } deep differs most: pH { $with_it } with { $material }, { $alone } left alone.
            }
    }
lesson-column-layer = Layer
lesson-column-step = What it is
lesson-column-symbols = In symbols
lesson-column-figures = In figures
# $way is down, up or still.
lesson-clock =
    { $way ->
        [still] The curve alone knows no days. Run through a year of weather, a sample of the whole depth reads as the same bed left alone would.
        [down] The curve alone knows no days. Run through a year of weather, a sample of the whole depth falls by { $change } against the same bed left alone.
       *[up] The curve alone knows no days. Run through a year of weather, a sample of the whole depth rises by { $change } against the same bed left alone.
    }
lesson-try-lime = Free lime from none to much: which layer stops moving, and for how long?
lesson-try-water = Rain alone, then high-alkalinity water: which layer comes back first?
lesson-try-month = The same material in spring and in late autumn: when does the pH start to move?
lesson-try-grain = Powder, then pellets: how long do they lag behind?
lesson-try-texture = Sand, then clay: what does the same amount do?

# The worksheet.
lesson-sheet-title = What happens below: worksheet
lesson-sheet-opening = { CAPITAL($material) } goes on this bed: { $rate }. Work out what it does before you look at the second sheet.
lesson-question = { $n }. { $asked }
# $worked is yes for the outcome of an earlier question.
lesson-given =
    { $worked ->
        [yes] { $name } ({ $symbol }), as worked out
       *[no] { $name } ({ $symbol }): { $value }
    }
lesson-room = Your working
lesson-curve = { $asked } Its curve gives { $given }.
lesson-paper-next = Answers: next sheet.

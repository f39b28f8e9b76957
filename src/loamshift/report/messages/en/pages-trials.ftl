# The pages of trials and jars.
trial-page-title = Trials
trial-page-intro = Design it, print the sheets, enter the readings, and see what they show.
trial-page-find = Find a trial
trial-page-new = New trial
trial-page-needs-bed = A trial belongs to a bed or a client. Add one first.
trial-page-none = No trials yet.
trial-page-none-found = No results for “{ $find }”.
trial-page-state = { $read ->
    [0] { $due ->
        [none] nothing to read
       *[other] { $late ->
            [yes] first reading was due { $due }
           *[no] first reading { $due }
        }
    }
   *[other] { $due ->
        [none] all { $read } days read
       *[other] { $late ->
            [yes] next reading was due { $due }
           *[no] next reading { $due }
        }
    }
}
trial-page-added = Trial “{ $trial }” added.
trial-page-changed = Trial “{ $trial }” changed.
trial-page-deleted = Trial “{ $trial }” deleted.
trial-page-read = Readings of day { $day } saved in “{ $trial }”.
trial-page-uploaded = Readings of “{ $file }” saved in “{ $trial }”.
trial-page-edit = Edit trial
trial-page-delete = Delete trial
trial-page-delete-hint = It can be restored for { $days } days, under History.
trial-page-design = Design
trial-page-readings = Readings
trial-page-readings-of = Readings of “{ $trial }”
trial-page-days = Days of the trial
trial-page-day-head = Day { $day }, due { $on }
trial-page-due = due { $on }
trial-page-is-read = read
trial-page-not-read = not read yet
trial-page-enter = Enter readings
trial-page-type = { $unit ->
    [strip] One reading for each strip.
    [bed] One reading for each bed.
    [plot] One reading for each plot.
   *[pot] One reading for each pot.
} Leave a field empty where there is none. Where you read twice, write both, such as 7.1; 7.2.
trial-page-note = Note
trial-page-ph = pH
trial-page-block = block { $n }
trial-page-ph-of = pH of { $label }
trial-page-note-of = Note on { $label }
trial-page-save-day = Save readings
trial-page-upload = Upload a record sheet
trial-page-read-sheet = Read file
trial-page-some-left = The readings that can be used have been saved. These could not, and are still only in your file:
trial-page-sheets = Sheets to print and fill in
trial-page-protocol = Protocol (PDF)
trial-page-protocol-html = Protocol (web page)
trial-page-labels = Labels and map (PDF)
trial-page-record-pdf = Record sheet for a pen (PDF)
trial-page-record-csv = Record sheet (CSV)
trial-page-record-xlsx = Record sheet (Excel)
trial-page-key = Key: which is which (CSV)
trial-page-toml = Trial as text
trial-page-forecast = Forecast (JSON)
trial-page-forecast-kept = The forecast was made on { $on }, before the first reading, and cannot be made again once there are readings.
trial-page-no-forecast = There is no forecast for this trial: its soil is beyond what the forecast covers, or it had readings first.
trial-page-share = For people who were not there
trial-page-share-how = Each says the question, the size of the trial, the effect with its interval, and whose trial it was.
trial-page-one-pdf = One page (PDF)
trial-page-one-html = One page (web page)
trial-page-picture = Picture (PNG)
trial-page-square = Square picture (PNG)
trial-page-svg = Picture (SVG)
trial-page-report-pdf = Report (PDF)
trial-page-report-html = Report (web page)
trial-page-data = Data (CSV)
trial-page-script = Script that works it out again
trial-page-nothing-to-share = Nothing can be compared yet, so there is nothing to share. The page of the trial says what stands in the way.
trial-page-for-bed = What this says of the bed
trial-page-for-bed-row = { $on }: pH { $ph } ({ $method }), the mean of { $n ->
    [one] one untreated reading
   *[other] { $n } untreated readings
}
trial-page-held = { $held ->
    [not-of-bed] The soil of this trial is not that of the bed, so none of its readings is a reading of the bed.
    [no-control] Nothing was left untreated, so none of these readings is a reading of the bed.
    [whole-beds] Untreated beds of this trial are beds of their own. Add their readings to them.
    [pots-later] Soil in pots is the bed's soil on the day it was dug. Later readings in pots say nothing of the bed, and neither do treated pots.
   *[none] Untreated ground is the bed. What was treated is not: nothing was applied to the rest of it.
}
trial-page-to-bed = Add these readings to the bed
trial-page-to-bed-done = Untreated readings of “{ $trial }” added to { $bed }.
trial-page-to-bed-none = The bed has all of these readings already.
trial-page-in-bed = The bed has these readings.
trial-page-of-bed = Trials of this bed:
trial-page-of-client = Trials

trial-form-intro = Only the name, whose it is, and two treatments are needed. Nothing is saved until you say so.
trial-form-question = Question
trial-form-question-hint = What you want to know, as you would ask it aloud.
trial-form-belongs = Bed or client
trial-form-belongs-missing = Choose the bed or the client that the trial belongs to.
trial-form-client = Client { $name }
trial-form-treatments = What is compared
trial-form-treatments-hint = Leave the product empty for the untreated one.{ $factors ->
    [yes] { " " }Each treatment has one level of either factor; name the factors below.
   *[no] { "" }
}
trial-form-treatment = Name
trial-form-material = Product
trial-form-rate = Rate or amount
trial-form-level-1 = Level of the first factor
trial-form-level-2 = Level of the second factor
trial-form-row = row { $n }
trial-form-more-rows = More rows
trial-form-doses = Or work out a series of doses
trial-form-doses-hint = The doses come from the soil's own buffer curve and reach a quarter past the pH you name. They replace what is typed above.
trial-form-dose-material = Product
trial-form-dose-count = How many doses, nothing among them
trial-form-dose-to-ph = pH to reach
trial-form-dose-all = A series of doses needs the product, how many, and the pH.
trial-form-dose-too-much = To get past this pH the highest dose would be { $most }, more than anybody spreads. Most often that is free lime. Choose a pH nearer to that of the soil.
trial-form-dose-between = Enter a number from { $low } to { $high }.
trial-form-how-many = How, and how many
trial-form-design = Design
trial-design-randomised = Shuffled over all places
trial-design-blocks = In blocks: each block holds every treatment once
trial-design-paired = In pairs: one treatment beside the untreated one
trial-design-two-factor = Two factors: every level of one with every level of the other
trial-design-doses = Series of doses of one product
trial-design-strips = Strips in a field
trial-design-side-by-side = Whole beds side by side
trial-design-before-after = Whole beds, before and after
trial-form-kind = Where
trial-form-kind-pots = In pots
trial-form-kind-plots = In plots on the ground
trial-form-replicates = Number of each treatment
trial-form-replicates-hint = Pots, plots, strips or beds. With one of each it is a demonstration; take three or more, better five.
trial-form-area = Area of each
trial-form-area-hint = For example 0.03 m2 or 20 x 20 cm. Without it there are rates and no grams.
trial-form-matters = Smallest difference that matters
trial-form-matters-hint = In pH; 0.2 if you leave it empty. Soils closer than this you would treat alike.
trial-form-more = Own readings of the error, factors, blocks, labels without names
trial-form-slurry = Own repeated readings
trial-form-slurry-hint = One soil a line, such as 7.1; 7.2; 7.1. The size is worked out from how they differ.
trial-form-sd = Or their standard deviation, if you know it
trial-form-control = Untreated one
trial-form-control-hint = By name; the first with no product if you leave it empty.
trial-form-factor-1 = First factor
trial-form-factor-2 = Second factor
trial-form-in-blocks = Put a series of doses or two factors into blocks
trial-form-by-lot = The lot decides which get what
trial-form-blind = Leave the treatments off sheets and labels
trial-form-seed = Number that the layout is shuffled by
trial-form-when = When, and how it is read
trial-form-start = Start
trial-form-days = Days of reading
trial-form-days-hint = Counted from the start, such as 0, 1, 3, 9, 30. Leave it empty for the days worth reading by the forecast.
trial-form-method = pH method
trial-form-which-soil = Which soil
trial-form-soil = Soil
trial-form-soil-bed = The soil of the bed, as it is
trial-form-soil-own = Another soil or a mix, described below
trial-form-soil-hint = Readings of the bed's own soil can be added to the bed later; those of a mix cannot.
trial-form-soil-own-head = Another soil
trial-form-try = See what it can show
trial-form-save = Save trial
trial-form-has-readings = There are readings already, so treatments, number, order and start stay as they are: the readings belong to these places. Name, question, what matters and days can still be changed. For another layout, design a new trial.
trial-form-read-on = Read on
trial-form-sheet = Record sheet
trial-form-sheet-hint = CSV, Excel or ODS, as you downloaded it and filled it in.
trial-form-unreadable = “{ $given }” cannot be read.{ $column ->
    [ph] { " " }A pH lies between 2 and 11, such as 7.1.
    [date] { " " }Write the date as year-month-day.
   *[other] { "" }
}

jars-page-of = Jars of { $bed }
jars-page-link = Jar titration
jars-page-intro = A titration shows how strongly this very soil resists acid or lime, and narrows the dose. It takes a meter, six jars and a week.
jars-page-series = Series
jars-page-one = Set up { $on }, past pH { $ph }
jars-page-new = New series
jars-page-set-up = Set up the jars
jars-page-all = All series
jars-page-added = Jars of { $bed } set up.
jars-page-read = Readings of the jars of { $bed } saved.
jars-page-deleted = Series of jars of { $bed } deleted.
jars-page-in-bed = Titration added to { $bed }.
jars-page-is-in-bed = The bed has this titration.
jars-page-to-bed = Add this titration to the bed
jars-page-read-head = pH after a week
jars-page-ml = Acid, mL
jars-page-lime = Limestone powder, g
jars-page-ph-of = pH of jar { $n }
jars-page-save = Save readings
jars-page-upload = Upload the sheet
jars-page-pdf = Protocol (PDF)
jars-page-csv = Sheet (CSV)
jars-page-protocol = Protocol
jars-page-delete = Delete series
jars-page-other = No jar of this series got { $acid } mmolc/kg. Upload the sheet of this series.
jars-form-to-ph = pH to pass
jars-form-count = Jars
jars-form-soil = Dry soil in each, g
jars-form-acid = Strength of the acid, mol/L
jars-form-acid-hint = Hydrochloric acid; only needed when lowering the pH.
jars-form-between = Enter a number from { $low } to { $high }.

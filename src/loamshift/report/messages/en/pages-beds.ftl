### The list of beds, and what each of them needs next.

beds-search = Search beds
beds-search-hint = a bed, plant, garden or client
beds-sort = Sort by
beds-sort-client = Client
beds-sort-due = Due date
beds-without-garden = Without a garden
beds-clients-without = Clients without beds
beds-clients-found = Clients with that name, without beds
beds-no-results = No results for “{ $q }”. You can search by the name of a bed, its plants, its garden or its client. Part of a word is enough.
beds-show-all = Show all beds
beds-none = No beds yet. A bed is a border, lawn, pot or field with one soil and one purpose. It belongs to a garden, and the garden to a client.
beds-none-next = The quickest start: get quick advice, then save the bed. Or add a bed with everything you know about it. You can add the client later.
beds-add = Add a bed
beds-add-client = Add a client
beds-add-garden = Add a garden
beds-timeline = Timeline
beds-timeline-of = Timeline of { $bed }
beds-last-ph = last test
# A pH in a list, as it was read.
beds-ph = pH { $ph }
beds-deleted = { $bed } deleted.

## What is next; short, in the last column of a list

beds-decided = { $decision ->
    [leave] leave it as it is
    [go] worth changing
    [effort] possible, with effort
    [elsewhere] better elsewhere
    [measure-first] measure first
   *[stop] apply nothing more
}
beds-text-faulty = its text needs correcting
# What to find out before anything is applied; $field is its key in the bed's file.
beds-test-first = { $field ->
    [soil-ph] first: a laboratory pH
    [soil-ph-method] first: the method behind the pH
    [soil-fizz] first: a fizz test
    [soil-carbonate-pct] first: a laboratory test for free lime
    [soil-sodium-pct] first: a laboratory test for sodium and salt
    [soil-texture] first: the texture
    [titration] first: a jar titration or a buffer pH
    [water-alkalinity] first: the alkalinity of the water
    [water-weekly] first: how much water it gets in a week
    [aim-plant] first: the plant, or a target pH
    [aim-target-ph] first: a target pH
   *[other] first: a test
}
beds-apply-on = { $product } on { $day }
beds-apply-late = { $product } was due on { $day }
beds-test-on = test again on { $day }
beds-test-late = a test was due on { $day }

## Adding a test, or logging an application, from the bed's own page

beds-add-test = Add a test
beds-test-date = Date of the sample
beds-test-ph = pH
beds-test-method = Method
beds-test-depth = Depth
beds-test-sheet = How to take the sample, on one page
beds-log-application = Log an application
beds-log-planned = Log the planned { $rate } of { $product }
beds-planned-for = Planned for { $day }. Change anything you did differently, then save.
beds-applied-on = Date
beds-applied-material = Material
beds-applied-amount = Total amount
beds-applied-rate = Or rate
beds-applied-depth = Worked in to
beds-test-added = Test added to { $bed }.
beds-application-logged = Application logged for { $bed }.
beds-quick-wrong = This has not been added yet. Nothing you typed is lost.
beds-nothing-entered = Nothing was filled in, so nothing was added.
beds-unnamed = Unnamed bed
beds-garden-gone = That garden no longer exists. Choose another.

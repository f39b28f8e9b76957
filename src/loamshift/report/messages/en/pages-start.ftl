### The home page, and the first steps that it shows.

## The home page

start-heading = Change the soil, or change the plan?
# One sentence with fields in it: $ph, $method, $texture, $town and $plant are fields to fill in.
# Put them in the order your language wants.
start-asking = My soil tests at pH { $ph }, measured by { $method }. It is { $texture }, near { $town }, and I want to grow { $plant }.
start-get-advice = Get advice
start-leave-blank = Leave blank anything you do not know.
# A link for somebody new, and what the bed it leads to is called.
start-example = See a finished example: the letter for an invented bed of blueberries
start-example-name = Example: blueberries (invented bed)
start-aside = About the advice
start-get-heading = What you get
start-get = A letter saying whether to change the pH at all, how much of what to use, when, what to expect, and when it is too early to judge. “Leave it” is an answer too.
start-ph-heading = How the pH was measured
start-ph = Laboratories can differ by half a unit or more. Your report names the method: water 1:1, water 1:2.5 or calcium chloride.
start-your-beds = Your beds
start-all-beds = All beds
start-no-beds = No beds yet. Fill in the sentence above, then choose “Save this bed” in the letter.
start-example-bed = example bed

# What stands in an empty field of the sentence.
start-empty-ph = number
start-empty-texture = sand, loam, clay …
start-empty-plant = which plant
start-empty-town = nearest town

## First steps, one at a time

tour-label = First steps
tour-position = { $n } of { $of }
tour-close = Close tour
tour-finish = Finish
tour-delete-examples = Delete the example beds
tour-alone = Say what you know about a soil, and you get a letter.
tour-start = Say what you know about a soil, and you get a letter. Two example beds are here to explore: Berry border needs acid, Kitchen plot needs lime.
tour-fields = You can change any word or figure with dots under it; the letter follows. What you leave blank counts as unknown, and makes the range of the answer wider.
tour-verdict = The verdict comes before the amount, and it may be “leave it”. The notes beside it say why, where the figures come from, and which cheap test would tell you more.
tour-letters = Mark a letter as sent, and it stays exactly as it is. Anything you change or delete can be undone for { $days } days, under History.
tour-closed = The tour is closed. You can show it again from Settings.
tour-examples-deleted = Example beds deleted.

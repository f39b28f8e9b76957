### A bed's own page, which is its letter with the facts in it to change; quick advice has the same page.

# What a page without a bed is called: what is to grow, and where.
advice-title = { CAPITAL($plant) }
advice-title-where = { CAPITAL($plant) }, { $place }
# Links at the top of the page, seen when somebody comes to them by Tab.
advice-skip-verdict = Skip to the advice
advice-skip-send = Skip to “Mark as sent” and downloads
advice-skip-save = Skip to saving and downloads
advice-empty-verdict = Say what the pH is and what you want to grow.
advice-correct-first = Please correct the marked answers.
advice-letter-comes = Your letter will appear here: how much, when, what to expect, what it costs, and what to be careful about. Anything you leave blank is assumed, and the letter says so. It also says which of it would be worth measuring.
advice-course-coming = Working out the course… The verdict and the amounts may still change.
advice-course-preparing = This computer is preparing its first forecast, which takes about a minute. The course of the pH appears here as soon as it is ready.
advice-course-failed = The course could not be worked out, so the verdict and the amounts are not final. Nothing you typed is lost.
advice-course-again = Try again
# Before links to the places that a name could mean.
advice-choose-place = Choose one, or type the latitude and longitude:
advice-get-advice = Get advice
advice-update = Update
advice-beside = Beside the verdict
advice-try-heading = Try it out
advice-try-aim = Target pH
advice-try-first = Try an amount
advice-unsaved = You have unsaved changes.
advice-save-changes = Save changes
advice-discard-changes = Discard changes
advice-save-this = Save this bed
advice-client-hint = Choose a client or type a new name. Leave blank for your own bed.
advice-mark-sent = Mark as sent
advice-download = Download:
advice-handouts = One-page handouts:
advice-sheet-card = bed card
advice-sheet-rescue = putting it right
advice-sheet-sampling = taking a sample
advice-timeline = Timeline
advice-edit-all = Edit everything
# $facts are further facts about the bed, separated by commas.
advice-also = Also known: { $facts }.
advice-also-fact = { $field } { $value }
advice-also-more = { $n ->
    [one] one more fact
   *[other] { $n } more facts
}
advice-also-claims = { $n ->
    [one] one claim to check
   *[other] { $n } claims to check
}
advice-also-applied = { $n ->
    [one] one application
   *[other] { $n } applications
}
advice-also-readings = { $n ->
    [one] one other test
   *[other] { $n } other tests
}
advice-also-products = { $n ->
    [one] one product to hand
   *[other] { $n } products to hand
}
advice-also-titration = { $n ->
    [one] a titration with one step
   *[other] a titration with { $n } steps
}
advice-also-layers = { $n ->
    [one] one layer below the sample
   *[other] { $n } layers below the sample
}
advice-also-other-ph = { $n ->
    [one] a second pH of the sample
   *[other] { $n } more pHs of the sample
}
advice-also-soil-temp = { $n ->
    [one] one reading of the soil thermometer
   *[other] { $n } readings of the soil thermometer
}
advice-also-other = { $n } × { $what }
advice-conflict-fact = Fact
advice-conflict-now = There now
advice-conflict-yours = Yours
advice-conflict-next = The page below shows yours. Save your changes again, or discard them.
advice-garden-name = Garden
advice-cannot-save = This cannot be saved until the marked answers are corrected.
advice-saved = { $bed } saved.
advice-changed = { $bed } changed.
advice-letter-sent = Letter for { $bed } marked as sent.
advice-letter-not-sent = The letter was not marked as sent: somebody else changed “{ $bed }” at { $at } (UTC), after you opened it. This is the bed as it is now. Read it, then mark it as sent.
advice-nothing-to-put-right = There is nothing to put right in this bed, so there is no such handout.

## Links in the margin to where a number comes from

advice-why-verdict = Why this verdict
advice-why-plan = How the plan is chosen
advice-why-branches = Why there are several answers
advice-why-amount = How the amount is worked out
advice-why-dates = How the applications and dates are chosen
advice-why-course = How the forecast is worked out
advice-why-options = How the products are compared
advice-why-ledger = How the year’s acid is added up
advice-why-claims = How a claim is checked
advice-figures-in-table = The figures in a table

## What the sliders say while they are moved

# $rate is a range, $middle the best estimate, both of pure lime or sulphur; $bed is the amount for
# the whole bed, or "none" where its size is not known.
advice-try-amount = { $direction ->
    [lime] { $bed ->
        [none] pH { $aim } needs { $rate } of pure lime. Our best estimate is { $middle }.
       *[other] pH { $aim } needs { $rate } of pure lime. Our best estimate is { $middle }, or { $bed } for the bed.
    }
   *[acidify] { $bed ->
        [none] pH { $aim } needs { $rate } of pure sulphur. Our best estimate is { $middle }.
       *[other] pH { $aim } needs { $rate } of pure sulphur. Our best estimate is { $middle }, or { $bed } for the bed.
    }
}
advice-try-nothing = pH { $aim } needs nothing.
# $ph is filled in while the slider is moved.
advice-try-until = By { $day }, 50 in 100 such beds would read pH { $ph } or less.

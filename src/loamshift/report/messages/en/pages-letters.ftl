### Letters: those to write, and those that were sent.

letters-intro = When you mark a letter as sent, it is kept exactly as it is. Later changes to the bed do not touch it.
letters-to-write = To write
letters-sent = Sent
letters-search = Search by bed, client or note
letters-no-results = No results for “{ $find }”.
letters-all-written = Every bed has an up-to-date letter.
letters-none-yet = no letter yet
letters-changed-since = changed on { $day }, after its letter
letters-mark-sent-of = Mark as sent: the letter for { $bed }
letters-more = { $n ->
    [one] There is one more bed. Search to narrow the list.
   *[other] There are { $n } more beds. Search to narrow the list.
}
letters-none-sent = No letters sent yet. When you give a client a letter, mark it as sent. A year later, with the next test in hand, you can see exactly what you said.
letters-day = { $day }

## One letter; $bed is a link with the name of the bed

letters-sent-on = { $client ->
    [none] Sent on { $day } about { $bed }.
   *[other] Sent to { $client } on { $day } about { $bed }.
}
letters-as-sent = The letter as it was sent
letters-compare = Compare with today
letters-compare-intro = The letter of { $day } beside what we would advise today for the same bed, with everything tested, applied or changed since. The letter itself does not change.
letters-comparing = Comparing … This takes a few seconds.
letters-show-comparison = Show the comparison when it is ready
letters-bed-now = The bed as it is now
letters-note = Your note
letters-note-hint = For your office only. It is not part of the letter.
letters-save-note = Save note
letters-note-changed = Note on the letter “{ $letter }” changed.
letters-delete = Delete letter
letters-delete-hint = You can undo this for { $days } days.
letters-deleted = Letter “{ $letter }” of { $day } deleted.
letters-no-letter = This file contains an answer but no letter.
letters-cannot-draw = One of the figures in this letter can no longer be drawn.
letters-bed-faulty = The bed as it is now cannot be answered, so there is nothing to compare. Open the bed and correct what is marked there.
letters-no-case = This letter contains no bed to compare with today.

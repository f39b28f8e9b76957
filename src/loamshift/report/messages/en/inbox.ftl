### Cases waiting: people's questions in their own words, and the reply to each.
### $sender is who asked, or how the words begin; $n is a count.

inbox-title = Questions
inbox-under = What people have asked, in their own words. The most dangerous come first, then those that can be answered soonest.
inbox-waiting = Waiting
inbox-answered = Answered
inbox-search = Find a question
inbox-none = No question is waiting.
inbox-none-answered = No question has been answered yet.
inbox-no-results = No results for “{ $find }”.
inbox-more = Only the first { $n } are listed. Answer some, or search.
inbox-later = not read yet; reload this page
inbox-ready = Everything needed for an answer is known.
inbox-missing = { $n ->
    [one] one fact missing: { $fields }
   *[other] { $n } facts missing: { $fields }
}
# In front of a question, in as few words as possible.
inbox-urgent = { $danger ->
    [hurt] Somebody may be hurt.
    [caustic] Caustic product.
    [stop] Too much applied.
   *[near] Children or animals.
}

## Adding

inbox-add = Add a question
inbox-words = The question, as it was asked; an e-mail can be pasted whole
inbox-sender = Who asked (otherwise taken from the “From:” line)
inbox-add-one = Add question
inbox-import = Import questions from a file
inbox-import-hint = A saved e-mail (.eml), or a table (CSV, Excel, OpenDocument) with a heading row; each further row is one question
inbox-import-add = Import questions
inbox-added = { $n ->
    [one] Question from { $sender } added.
   *[other] { $n } questions imported.
}
inbox-nothing = Nothing was entered. Type or paste the question.
inbox-too-long = A question can have { $most } characters; this one has { $count }. Remove what does not belong to it.
inbox-file-large = The file is too large. Import up to { $most } questions at a time, in a file of up to 1 MB.
inbox-file-unread = This file is not a table in plain text. Save it as CSV (UTF-8) and choose it again.
inbox-mail-empty = This e-mail has no text that can be read. Paste its text into the form instead.
inbox-file-empty = The file has no rows below its heading. Each row below the heading is one question.

## One question

inbox-question = Question
inbox-question-of = Question from { $sender }
inbox-received = Received on { $day }
inbox-understood = What we understood
inbox-column-fact = fact
inbox-column-value = read as
inbox-column-words = from the words
inbox-check = Check this against the question. Anything read wrongly can be corrected once it is a bed.
inbox-nothing-understood = No pH, plant, place or size could be read from these words.
inbox-to-ask = What is missing
inbox-reply = A reply to send
inbox-reply-hint = Copy it, add a greeting of your own, and send it
inbox-make-bed = Make a bed of it
inbox-close = Mark as answered
inbox-delete = Delete question
inbox-made-bed = Bed made from the question of { $sender }.
inbox-has-bed = This question has a bed already. Open the bed from its page.
inbox-closed = Question from { $sender } marked as answered.
inbox-deleted = Question from { $sender } deleted.
inbox-bed-name = Bed from a question
# On the timeline of a bed.
inbox-of-bed = The question of { $day } that this bed was made from
inbox-open = Open the question

## The reply

inbox-reply-hello = Thank you for your question.
inbox-reply-understood = This is what we understood. Please correct anything that is wrong:
inbox-reply-ask = { $n ->
    [one] Before we can advise you, we need one more thing:
   *[other] Before we can advise you, we need { WORD($n) } more things. Leave out what you cannot find out:
}
# One line of the list; $field is the name of a fact, $how a whole sentence.
inbox-reply-item = { $field }. { $how }
inbox-reply-enough = We have all we need for an answer. Our letter follows.
# $minutes is how long to rinse.
inbox-danger = { $danger ->
    [hurt] If anybody, or any animal, has swallowed it, breathed it in or has it in their eyes, get medical help at once: in the UK call 111, or 999 in an emergency; for an animal, call a vet. Rinse eyes and skin with plenty of clean water for at least { $minutes } minutes. Keep the pack to show.
    [caustic] Burnt and hydrated lime, strong acids and bleach burn eyes and skin. Do not open, spread or mix them until you have heard from us. Never mix bleach with an acid, and never pour water into an acid.
    [stop] Put nothing more on this bed for now, neither more of the product nor anything meant to undo it. Sweep up and keep what still lies dry on the surface.
   *[near] Keep children and animals off the bed, and away from the packs, until you have heard from us.
}

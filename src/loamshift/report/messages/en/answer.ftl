### What is wrong with the file of an answer (JSON).

answer-too-large = It is far too large for an answer.
answer-too-deep = It is nested too deeply.
# $why is what the reader of the file format says, in English.
answer-not-json = This is not valid JSON ({ $why }).
answer-not-version-1 = “{ $given }” is not version 1 of an answer.
answer-without-case = { $file } contains no case: it was written by an older version, or without one. Name the case file instead.
answer-unknown-key = This key is not known.
answer-kind-needed = { $kind ->
    [table] A table of keys and values is needed here.
    [list] A list is needed here.
    [null] Null is needed here.
    [number] A number is needed here.
    [whole-number] A whole number is needed here.
    [true-or-false] True or false is needed here.
    [date] A date such as 2026-04-12 is needed here.
   *[text] Text is needed here.
}
answer-list-of = A list of { $count } is needed here.
answer-one-of = It must be { $names }.
answer-number-too-large = This number is far too large.
answer-control-codes = This text contains control characters.
# $why is what the program says, in English.
answer-impossible = These values cannot go together ({ $why }).
answer-not-a-message = This is not a message.
answer-name-one = Name a file that --json wrote.
answer-correct-or-name-one = Correct the file, or name one that --json wrote.

### What can go wrong while things are saved, undone, exported and restored, and what was done.
### $name is what somebody called a thing; $kind is client, garden, bed, letter or product.

## Two people at once, and undoing

# $at is a time of day in UTC; $how is "changed" or "deleted".
store-overtaken = { $how ->
    [deleted] Somebody else deleted “{ $name }” at { $at } (UTC). Nothing you typed is lost: undo the deletion under History, then save again.
   *[changed] Somebody else changed “{ $name }” at { $at } (UTC). Nothing you typed is lost: look at what is there now, then save again.
}
store-parent-missing = { $kind ->
    [client] “{ $name }” cannot be saved: its client does not exist. Choose another client.
    [garden] “{ $name }” cannot be saved: its garden does not exist. Choose another garden.
   *[bed] “{ $name }” cannot be saved: its bed does not exist. Choose another bed.
}
store-parent-deleted = { $kind ->
    [client] “{ $name }” belongs to the client “{ $above }”, which was deleted. Undo that deletion first, under History, or choose another client.
    [garden] “{ $name }” belongs to the garden “{ $above }”, which was deleted. Undo that deletion first, under History, or choose another garden.
   *[bed] “{ $name }” belongs to the bed “{ $above }”, which was deleted. Undo that deletion first, under History, or choose another bed.
}
store-removed = “{ $name }” no longer exists. It was deleted permanently.
store-no-such-act = There is no such change. Changes older than { $days } days cannot be undone.
# $what is the line that the history has for a change, a sentence with its full stop.
store-already-undone = This was undone already: { $what }
store-touched-removed = This cannot be undone, because what it changed was deleted permanently: { $what }
store-changed-again = “{ $name }” was changed again afterwards, so this cannot be undone yet: { $what } Undo the later change first, under History.
store-something-inside = “{ $inside }” has since been added to “{ $name }”. Undo that first, or delete “{ $name }” as a whole.
store-undone = Undone: { $what }
store-redone = Redone: { $what }

## Why something cannot be saved

store-unfit = “{ $name }” cannot be saved:
# A place in a file or form, what was there, and what is wrong with it.
store-fault-line = { $quoted ->
    [yes] { $path }, “{ $given }”: { $text }
   *[no] { $path }: { $text }
}
store-missing = Nothing is entered.
store-empty = Nothing is entered.
store-fill-in = Fill it in.
store-wrong-kind = This is not the kind of value that belongs here.
store-write-like-others = Write it as in the other rows.
store-not-a-number = This is not a number.
store-write-a-number = Write a number such as 12.5, or leave it blank.
store-outside = This must be a whole number from 1 to { NUMBER($most, useGrouping: 0) }.
store-write-whole-number = Write a whole number such as 1.
store-not-a-text = This is not text.
store-write-a-text = Write text in quotation marks.
store-bad-character = This contains a character that cannot be stored.
store-remove-character = Remove that character.
store-too-long = This has { $count } characters.
store-shorten = Use no more than { $most } characters.
# $why is what the reader of the file format says, in English.
store-not-toml = This is not valid TOML ({ $why }).
store-fix-bed-text = Correct the bed's text.
store-trial-unread = The trial's file cannot be read.
store-fix-trial = Correct the trial's file and try again.
store-fix-file = Correct the file and try again.
store-not-json = This is not valid JSON ({ $why }).
store-use-answer-as-is = Use the answer exactly as loamshift wrote it.
store-not-a-table = A table of keys and values is needed here.
store-write-a-table = For example: name = "Minneapolis" in a table of its own.
store-not-storable = This contains something that cannot be stored, or is nested too deeply.
store-use-storable = Use text, numbers, true or false, lists and tables, no more than { $deepest } levels deep.
store-plan-too-large = This is larger than 1 MB.
store-draw-less = Draw fewer corners.

## Zips

store-nothing-restored = { $more ->
    [0] Nothing was restored:
   *[other] Nothing was restored. These are the first problems; there are { $more } more:
}
store-use-own-zip = Use a zip file that loamshift made, unchanged.
store-use-other-zip = Copy the zip file again, or use another one.
store-zip-large = The zip file has { $mb } MB. The limit is { $most } MB.
store-restore-by-command = Restore it on the computer that runs the workbench, where there is no such limit; the guide says how.
store-zip-many-files = The zip file contains more than { $most } files.
store-zip-unpacks = The zip file would unpack to more than { $most } MB.
store-zip-file-unpacks = “{ $file }” in the zip file would unpack to { $mb } MB.
store-not-unpacked = It was not unpacked. Use a zip file that loamshift made.
store-zip-damaged = This is not a zip file, or it is damaged.
store-zip-no-head = The zip file does not contain { $file }.
store-file-twice = This file is in the zip twice.
store-file-outside = The path of this file leads out of the zip.
store-file-locked = This file cannot be unpacked ({ $why }).
store-zip-without-password = Make the zip again without a password.
store-file-damaged = This file is damaged.
store-zip-later-version = The zip was made by a later version of loamshift ({ $version }).
store-install-later-version = Install that version or a later one, and restore it there.
store-head-unknown = This file does not say what the zip is.
store-head-no-date = The line made_at is missing.
store-put-back-made-at = For example: made_at = 2026-04-12T09:30:00Z
store-head-no-office = The table [office] is missing.
store-put-back-office = Add the table [office]; it may be empty.
store-setting-unusable = This setting cannot be used.
store-write-one-of = Write one of these: { $choices }.
store-shorten-or-leave-out = Shorten it, or leave it out.
store-file-strange = This file does not belong in a zip of loamshift.
store-remove-it = Remove it.
store-wrong-columns = These are not the columns of this table.
store-use-columns = Use these: { $columns }.
store-cells = { $count ->
    [one] This row has one cell.
   *[other] This row has { $count } cells.
}
store-cells-needed = It needs { $count }.
store-row-broken = This row cannot be read ({ $why }).
store-fix-row = Correct the row and try again.
store-cell-unread = This cell cannot be read.
store-write-yes-no = Write yes or no.
store-write-moment = Write a date and time with its zone, such as 2026-04-12T09:30:00+00:00.
store-write-date = Write a date such as 2026-04-12.
store-write-id = Write an id of 32 hexadecimal digits.
store-write-number = Write a number with a decimal point, such as 1200.5.
store-garden-keys = These keys are missing, unknown or of the wrong kind.
store-id-twice = This id appears twice.
store-remove-one = Remove one of the two.
store-id-missing = { $kind ->
    [client] The zip contains no client with this id.
    [garden] The zip contains no garden with this id.
   *[bed] The zip contains no bed with this id.
}
store-put-back = { $kind ->
    [client] Add the client, or remove this row.
    [garden] Add the garden, or remove this row.
   *[bed] Add the bed, or remove this row.
}
store-above-deleted = { $kind ->
    [client] Its client was deleted, but this was not.
    [garden] Its garden was deleted, but this was not.
   *[bed] Its bed was deleted, but this was not.
}
store-same-moment = Write the same date and time in both, or in neither.
store-file-missing = This file is missing.
store-file-put-back = Put it back, or take its line out of SHA256SUMS.txt if you removed it on purpose.
store-file-changed = This file has changed since the zip was made. It may be incomplete.
store-file-changed-mend = Use another copy of the zip. If you edited the file on purpose, take its line out of { $list }.
store-forecasts-unread = These are not forecasts of saved plans as this version of loamshift keeps them.
store-digests-unread = A line is not a digest and a file name.
store-add-file = Add it, or remove the row it belongs to.
store-not-utf-8 = This file is not UTF-8 text.
store-save-utf-8 = Save it as UTF-8 and try again.
store-id-elsewhere = This id belongs to another office.
store-ask-for-export = Ask that office to export what it wants to hand over.

## The text file in every zip; the names of the files stay as they are

store-about =
    Beds, gardens, letters and products from loamshift, as plain files.

    loamshift.toml   what this zip is, and the settings of the office
    clients.csv      clients
    gardens/         one TOML file per garden, with its place and plan
    beds.csv         beds; the folder beds/ holds the text of each bed
    letters.csv      letters sent; the folder letters/ holds each one as it was sent (JSON)
    products.csv     products
    forecasts/       forecasts of saved plans; one file per bed (JSON)
    SHA256SUMS.txt   digests, for sha256sum --check

    The tables open in any spreadsheet. Text that a spreadsheet would take for a formula has an
    apostrophe in front, and so has text that starts with an apostrophe. Loamshift removes it when
    it reads the file back. Ids connect the files. Dates and times include their zone. Anything
    with a date under deleted_at was deleted then. To restore the zip, use Settings, Data and
    backups, or the command loamshift restore.

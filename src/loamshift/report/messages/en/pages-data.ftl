### Data and backups: exporting, restoring, importing beds, and deleting a client.

data-intro = Everything here is yours. You can export it, restore it, or delete it and leave nothing behind.

## Export and restore

data-export-heading = Export
data-export-about = One zip of plain files: clients, beds, letters and products as tables, gardens and the text of each bed. It opens without loamshift, and loamshift can restore all of it. It includes what was deleted in the last { $days } days, but not user accounts or the history.
data-export = Export all data
data-restore-heading = Restore from a zip file
data-restore = Restore
data-zip = Zip file
data-zip-most = No more than { $most } MB here. Larger files can be restored on the computer that runs the workbench; the guide says how.
data-how = What is here already
data-how-add = Keep it, and add only what is missing
data-how-replace = Replace everything, including settings and history (we make a backup first)
data-sure = { $beds ->
    [0] Yes, replace everything here
    [one] Yes, replace everything here, including one bed
   *[other] Yes, replace everything here, including { $beds } beds
}
data-is-one-client = This zip contains one client, not a whole office.
data-add-instead = Choose to add what is missing.
data-not-sure = Everything here would be replaced, and you have not confirmed that.
data-tick-box = Tick “Yes, replace everything here”, then choose the file again.
data-before-kept = What was here before is in the backup { $file }.
# $day is the day on which the zip was made.
data-restored-from = Restored from a zip of { $day }.
data-added = { $n ->
    [0] Nothing was added.
    [one] One item was added.
   *[other] { $n } items were added.
}
data-left = { $n ->
    [one] One item was here already and has not been changed.
   *[other] { $n } items were here already and have not been changed.
}
data-differing = { $n ->
    [one] One of these differs from the zip.
   *[other] { $n } of these differ from the zip.
}

## Import beds

data-import = Import beds
data-import-into = Import beds into { $garden }
data-import-intro = Choose case files (TOML). Each file becomes a bed. Files with a problem are shown here for you to correct; nothing in them is lost.
data-import-correct = { $file }, to correct here
data-import-files = Case files
data-import-most = No more than { $most } at once.
data-import-none = No file was chosen.
data-import-choose = Choose one or more files.
data-import-large = This file is larger than 1 MB.
data-import-small = A case file is small. Choose another file.
data-import-not-text = This file is not UTF-8 text.
data-import-utf-8 = Save it as UTF-8 text.
data-import-over = There are more than { $most } files.
data-import-later = Import this one with the next files.
data-imported = { $n ->
    [one] One bed imported into { $garden }.
   *[other] { $n } beds imported into { $garden }.
}

## One client: export or delete

data-clients-heading = One client
data-no-clients = No clients yet. You can export each client from here, or delete it with its gardens, beds and letters.
data-client-export = Export
data-client-export-of = Export { $client }
data-delete-client-named = Delete { $client }
data-deleted-heading = Deleted clients
data-deleted-on = deleted on { $day }
data-delete-permanently = Delete permanently
data-delete-ask = Delete { $client }?
data-delete-beds = { $beds ->
    [0] The client has no beds.
    [one] One bed is deleted too.
   *[other] { $beds } beds are deleted too.
}
data-delete-letters = { $letters ->
    [0] No letters have been sent.
    [one] One letter is deleted with it.
   *[other] { $letters } letters are deleted with it.
}
data-delete-until = You can undo this for { $days } days, under History. After that, everything is removed.
data-delete-export-first = Export as a zip first
data-delete-nothing-left = Were you asked to leave nothing behind?
data-permanent-title = Delete { $client } permanently
data-permanent-ask = Delete { $client } permanently?
data-permanent-what = This deletes the client with all gardens, beds and letters, and everything the history says about them. It cannot be undone.
data-permanent-backups-in = Earlier backups still contain the client. They are in { $folder }, and you can delete them there.
data-permanent-backups = Earlier backups still contain the client.
data-permanent-sent = So does anything you have sent or exported.
data-permanent-type = To confirm, type the name: { $client }
data-permanent-wrong = That is not the name. Type { $client }. Nothing was deleted.
data-permanent-done = Client deleted permanently, { $n } items in all.

## Backups

data-backups-heading = Backups
data-backups-about = A backup is a copy of the whole database, with the history. We make one before the database changes its format, and before everything is replaced.
data-backups-restore = A backup is restored on the computer that runs the workbench; the guide says how.
data-backups-place = Backups are in { $folder }.
data-back-up-now = Back up now
data-backed-up = Backup made: { $file }

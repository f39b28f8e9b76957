### A file of a laboratory, read and understood: what cannot be read, what is asked, what was found.

## Files that cannot be read

intake-unreadable = { $file } cannot be read: { $why }. Check the name of the file and whether you may read it.
intake-too-large = { $file } is larger than { $most } MB. Split it, or save only the sheet with the results.
intake-empty = { $file } is empty. Export the results again, or type them into a new case file.
intake-picture = { $file } is a picture, which holds no text to read. Type the figures in yourself, or ask the laboratory for a spreadsheet.
intake-not-a-table = { $file } is not a table: it holds bytes that are no text. Save it as CSV or as an Excel workbook, or type the figures in yourself.
intake-markup = { $file } is a web page or a document, whatever its name says. Open it in a spreadsheet program and save it as CSV or as an Excel workbook.
intake-too-many-cells = { $file } has a sheet with too many cells to be a table of results. Delete the empty rows and columns round the results, and save it again.
intake-bomb = { $file } would unpack to { $mb } MB, far more than a file of results needs. Save the sheet with the results as CSV, and use that.
intake-zip = { $file } is a zip that holds no workbook. Unpack it first, and use one of the files in it.
intake-damaged = { $file } is damaged and cannot be opened. Download or export it again, or type the figures in yourself.
intake-encrypted = { $file } is protected with a password. Save a copy without the password, or type the figures in yourself.
intake-needs-lab = Reading { $file } needs a part that is not installed. Install it with: pip install "loamshift[lab]"
intake-pdf-long = { $file } has { $pages } pages; at most { $most } are read at once. Split it, or ask the laboratory for a spreadsheet.
intake-pdf-scanned = { $file } is a scan: its pages are pictures without text. Type the figures in yourself, or ask the laboratory for a spreadsheet.

## Noticed while reading

intake-note-latin = { $file } does not say which letters it is written in; it was read as Western European.
intake-note-quote = The quotation mark on line { $line } is never closed, so quotation marks were read as letters.
intake-note-old = { $file } is in the older Excel format, which does not show which cells are formulas.
intake-note-macros = { $file } holds macros. They were not run.
intake-note-formulas = { $count ->
    [one] 1 cell of sheet “{ $sheet }” is a formula{ $cells ->
        [none] {""}
       *[other] {" "}({ $cells })
    }. The value stored with it was read; nothing was calculated.
   *[other] { $count } cells of sheet “{ $sheet }” are formulas{ $cells ->
        [none] {""}
       *[other] {", such as "}{ $cells }
    }. The values stored with them were read; nothing was calculated.
}
intake-note-formulas-empty = { $count ->
    [one] The formula in { $cells } of sheet “{ $sheet }” has no stored value, so the cell reads as empty. Open the file in a spreadsheet program and save it again.
   *[other] { $count } formulas of sheet “{ $sheet }”, such as { $cells }, have no stored value, so their cells read as empty. Open the file in a spreadsheet program and save it again.
}
intake-note-pages = { $count ->
    [one] Page { $page } is a picture without text and was not read.
   *[other] { $count } pages, the first of them page { $page }, are pictures without text and were not read.
}

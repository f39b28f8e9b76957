### What Python says besides answers: parts that are not installed, and faults of tables.
### Names of extras, columns and arguments are never translated.

# $extra is the extra of the package: letters, web, office, lab, polars or scale.
extra-missing = { $extra ->
    [letters] PDF and PNG need a part that is not installed. Install it with: pip install "loamshift[letters]"
    [web] The workbench in the browser needs parts that are not installed. Install them with: pip install "loamshift[web]"
    [office] An office on PostgreSQL needs a part that is not installed. Install it with: pip install "loamshift[office]"
    [lab] A pandas table needs pandas, which is not installed. Install it with: pip install "loamshift[lab]"
    [polars] A Polars table needs Polars, which is not installed. Install it with: pip install "loamshift[polars]"
   *[scale] Long tables need parts that are not installed. Install them with: pip install "loamshift[scale]"
}
python-not-a-case = “{ $given }” is not a case: give what new_case or read_case returned, the path of a case file, or a dictionary with its keys.
python-no-frame-library = A table needs pandas or Polars, and neither is installed. Install one with: pip install "loamshift[lab]"
python-no-such-table = There is no table called “{ $given }”. Write { $tables }.
python-table-is-empty = This answer has no { $table }.
python-no-such-picture = This answer has no picture called “{ $given }”. It has { $pictures }.
python-no-picture = This answer has no picture.
python-picture-ending = A picture is written as .svg or .png: { $path } has another ending.
python-letter-ending = A letter is written as { $endings }: { $path } has another ending.
python-no-forecast = No forecast could be made for this case. { $why }
python-case-or-keys = Give a case, or the keys of a soil, not both.
python-no-soil-ph = This needs a soil pH: give soil = { $example }.
python-not-a-table = This is not a table. Give a pandas or Polars data frame, or a dictionary of columns.
python-columns-missing = The table needs the columns { $columns }. It has { $found }. Name them with columns={ $example }.
python-row-without = { $column } is empty. Enter a value.
python-column-twice = Two columns of the table are meant as “{ $column }”. Rename one.
python-column-taken = The table has a column “{ $column }” already, which is written here. Rename it first.
python-row-organic = Only mineral soil can be worked out in a table. Advise on a potting mix as one case.
python-curve-range = The curve was measured from pH { $low } to { $high }. Beyond that nobody has tested it.
python-curve-ph = pH in water
python-curve-acid = acid added, mmolc/kg; base is negative
python-curve-sentence = The buffer curve of this soil. From pH { $start } to { $end } it takes up { $acid } of acid. Of 10 soils like it, 9 take up between { $low } and { $high }.

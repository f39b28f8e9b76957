### What is wrong with a line of a case file that is not TOML.

## What is wrong

toml-table-twice = The table [{ $name }] appears twice.
toml-opened-two-ways = This table or list is started in two different ways.
toml-keys-too-deep = This line has far too many dots in a key.
toml-brackets-too-deep = Its brackets are nested far too deeply.
toml-not-key-value = “{ $given }” is not of the form key = value.
toml-two-equals-signs = This line has two equals signs.
toml-no-value = Nothing follows the equals sign.
toml-text-not-closed = The text is not closed, or contains a backslash.
toml-list-not-closed = A bracket is not closed, or two values lack a comma between them.
toml-decimal-comma = “{ $given }” has a decimal comma.
toml-quotes-missing = Text must be in quotation marks.
# $why is what the reader of the file format says, in English.
toml-not-toml = This is not valid TOML ({ $why }).
toml-value-unreadable = A value cannot be read ({ $why }).

## What works instead

toml-one-table = Put its keys together under one [{ $name }]. A list of entries uses [[{ $name }]].
toml-one-header-each = Write its name once in single brackets, or in double brackets above each entry of a list.
toml-use-headers = Use a table in square brackets, such as [soil].
toml-two-levels = A case file needs two levels.
toml-key-value = Write key = value, with text in quotation marks.
toml-key-value-such-as = A comment starts with #. For example: { $line }
toml-check-dates = Check dates and long numbers.

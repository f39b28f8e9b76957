### What is wrong with a file as a whole. $why is what the computer says, in English.

file-missing = There is no such file.
file-check-name = Check its name and folder.
file-check-or-new = Check its name and folder, or write a first one with: loamshift new
file-is-folder = This is a folder.
file-inside-folder = Name the case file inside it.
file-unreadable = It cannot be read ({ $why }).
file-who-may-read = Check its name, and whether you are allowed to read it.
file-not-utf8 = It is not UTF-8 text.
file-line-not-utf8 = A character on line { NUMBER($line, useGrouping: 0) } is not UTF-8.
file-utf16 = It is saved as UTF-16.
file-binary = It is binary, not text.
file-save-as-utf8 = Save it as plain text in UTF-8.
file-name-case-file = Name a case file, which is text (TOML).
file-too-large = It has { $megabytes } MB. A case file has a few kilobytes.
file-name-itself = Name the case file itself. At most 1 MB is read.
file-empty = It is empty.
file-start-with-case = Start it with case = 1, or write a first one with: loamshift new

## The first lines of a new case file

write-head = A case for loamshift. Quantities may have a unit in quotes; docs/case.md lists every key.
write-leave-out = Leave out what you do not know; a line that starts with # is not read.

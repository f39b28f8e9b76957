### Settings of an office.

settings-name = Name of your office, or your own
settings-name-missing = Enter a name. Your own will do.
settings-units = Units in letters and on pages
settings-units-metric = Metric: g/m², cm, °C
settings-units-us = US: lb per 100 sq ft, inches, °F
settings-words = Words and spelling
settings-words-uk = UK: sulphur, colour
settings-words-us = US: sulfur, color
settings-paper = Paper for PDF letters
settings-paper-a4 = A4
settings-paper-letter = US Letter
settings-currency = Currency for prices without one
settings-currency-hint = Three letters, such as GBP
settings-currency-wrong = Enter three letters, such as GBP, or leave it blank.
settings-letterhead = Letterhead
settings-letterhead-hint = Name, address and phone number, one per line. They appear at the top of letters that you print or download. Letters already sent keep theirs.
settings-letterhead-long = Use no more than { $lines } lines and { $most } characters in all.
settings-letterhead-unprintable = This contains characters that cannot be printed. Type it again.
settings-saved = Settings saved. Letters already sent stay as they are.
# $folder is a folder on this computer.
settings-folder = All your data is in one folder on this computer: { $folder }. Nothing is sent anywhere else.
settings-database = Your data is in your office's database.
settings-data-link = Export, restore, and backups
settings-api-link = API: use loamshift from other programs
settings-show-tour = Show the tour again
settings-always = Safety rules that always apply
settings-not-organic = Nothing here certifies anything as organic.
settings-about = About
settings-version = loamshift { $version }, model { $model }, tables { $tables }. Licence: { $licence }. Every letter names all three, so that you can tell why two letters differ.

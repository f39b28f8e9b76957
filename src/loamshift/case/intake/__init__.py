"""Files of laboratories and instruments: read as they are, understood with a reason, confirmed.

A door calls four functions, one after the other: ``sheets.read_sheets`` turns any file into sheets
of text cells; ``propose.propose`` says what each column is, with rows and findings, and enters
nothing; ``propose.answered`` gives the proposal again with a person's answers, and
``propose.confirmed`` the rows to be entered. ``entered`` makes case files or one table of these,
``answers`` remembers what was answered, ``field_notes`` matches readings to beds.
"""

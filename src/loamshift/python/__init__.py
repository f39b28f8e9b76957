"""The door for programs: a case in, answers with tables, a page and pictures out."""

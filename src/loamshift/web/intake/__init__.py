"""Files of laboratories and field notes into beds: understood, asked about, entered, undone."""

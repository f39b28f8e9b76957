"""The review of a year: of a bed, a client, an office, as a page and on paper."""

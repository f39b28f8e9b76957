"""Files of laboratories and instruments: read as they are, understood with a reason, confirmed."""

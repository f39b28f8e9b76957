"""The case file and the answer file: reading, checking, writing. The only user of units text."""

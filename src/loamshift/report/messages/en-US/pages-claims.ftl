### Where an American says something on the page "Check a claim" in other words.

claims-an-amount = how much: 5 lb/100 sq ft or 1 cup per plant
claims-say-amount = For example: 1 cup per plant, 1 lb/100 sq ft, or 4 lb for the whole bed.

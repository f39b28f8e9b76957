### What is known about a bed: what an American says in other words.

facts-soil-organic-matter-pct = Organic matter, percent

### Data and backups: what an American says in other words.

data-tick-box = Check “Yes, replace everything here”, then choose the file again.

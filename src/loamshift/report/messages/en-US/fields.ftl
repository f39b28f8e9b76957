### Names of keys that an American says in other words.

field-soil-ph = A lab pH
field-soil-carbonate-pct = A lab figure for free lime
field-soil-buffer-ph-method = Which buffer the lab used
field-soil-lab-lime-requirement = The lab's lime figure
field-soil-lab-lime-requirement-in-text = lab's lime figure
field-feed = The yearly fertilizer
field-feed-in-text = fertilizer
field-feed-material = Fertilizer used
field-feed-material-in-text = fertilizer used
field-feed-label = Analysis on the bag of fertilizer
field-feed-label-in-text = analysis on the bag of fertilizer
field-feed-rate = Rate of the fertilizer
field-feed-rate-in-text = rate of the fertilizer
field-feed-times = How often it is fertilized
field-feed-times-in-text = how often it is fertilized

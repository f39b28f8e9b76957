### Keys of the case file: water, feed, products, what was applied, readings, claims.

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
means-feed = The yearly fertilizer: nitrogen and its form, or a material with its rate.
means-feed-material = The fertilizer itself, instead of `n_g_m2_year` and `form`.
means-feed-rate = Rate of that fertilizer, each time.

### Help texts that an American says in other words.

cli-help-options-words = Spelling: UK (sulphur, 20 April) or US (sulfur, April 20). Otherwise as in LOAMSHIFT_WORDS, or it follows the units.
cli-help-claim-label = The analysis on the bag, in percent. MATERIAL can then be any name.
cli-help-materials-label = The analysis on a bag, in percent: what that product adds.

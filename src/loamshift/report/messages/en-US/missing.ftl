### What is worth measuring, where an American says it in other words.

missing-ph-how = Get a lab pH, measured in water, of a mixed sample, and note its depth.
missing-rough-how = Send a mixed sample to a lab and ask for the pH in water.
missing-carbonate-how = Ask a lab for free lime (CaCO3 by gas volume).
missing-sodium-how = Ask a lab for exchangeable sodium and salt (EC), at two depths.
missing-alkalinity-how = Ask the water utility for the alkalinity of the water, or measure it with an aquarium drop kit.
missing-organic-matter-how = Look for organic matter on the soil report, or ask a lab for loss on ignition.

### Where an American says something about sampling in other words.

sample-heading-ask = Tests to ask the lab for
sample-where-away-too = Avoid old fire pits and compost piles, the drip line of trees and roofs, and the edges of the bed.
sample-where-field = Leave out gateways, headlands, old fencerows and manure piles.
sample-how-slice = Use a straight slice from a garden spade, or a soil probe.
sample-how-dry = If it must wait, air-dry it on clean paper: not in an oven, in the sun or on a heater.
sample-tool-corer = A garden spade or a soil probe, marked at { $depth }
sample-tool-corer-pot = A soil probe or an apple corer, long enough for the pot
sample-why-laboratory = The lab's own error and the variation from year to year, about 0.15 pH, come on top.

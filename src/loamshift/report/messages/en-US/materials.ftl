### Where an American says something about a material in other words.

material-ammonium-nitrate-comment = Less than half as acidifying as ammonium sulfate for the same nitrogen. Its sale is controlled in many places.
material-ferric-sulfate-anhydrous-comment = Strong and immediate, but a water-plant chemical rather than a garden one.
material-ericaceous-compost-comment = Made for pots of acid-loving plants. Dug into calcareous ground, it loses its effect within weeks or a season.
material-iron-chelate-eddha-comment = The one that greens plants in calcareous soil. It supplies iron and does not change the pH.
material-iron-chelate-edta-comment = Cheap, and fine below about pH 6.5 or on leaves, but of little use in calcareous soil.
material-pelletised-limestone-comment = Fine limestone without the dust. It works fast once rain has softened the pellets, and costs more per pound.
material-eggshell-ground-comment = Ground to flour, eggshell is as good as limestone, pound for pound.

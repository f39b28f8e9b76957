### Products of an office: what an American says in other words.

products-material-hint = Any trade name: flowers of sulfur, garden lime, ammonium sulfate. Leave blank if you copy the analysis.
products-purity-hint = Sulfur in a sulfur product, calcium carbonate equivalent (CCE) of a lime, nitrogen of a fertilizer. Leave blank for the usual strength.
products-pack-hint = With its unit: 50 lb, 25 kg
products-fineness-hint = 60% through 100 mesh, 95% through 8 mesh
products-strength-lime = { $share } calcium carbonate equivalent
products-label-lime = Lime: calcium carbonate equivalent (CCE)
products-label-nv-caco3 = CCE, as CaCO3
products-label-nv-cao = as CaO (UK bags)
prices-refused = Nothing was imported

### The page "Check a claim".

claims-title = Check a claim
claims-under = Somebody says it helps. See what it really adds, beside what the soil needs.
# Labels of fields; $n counts the materials.
claims-material-label = Material { $n }
claims-amount-label = Amount of material { $n }
claims-a-material = a material
claims-another-material = another material
claims-an-amount = how much: 1 kg/m2 or 1 cup per plant
claims-another-amount = how much
# $material and $amount are fields.
claims-row = { $material }, { $amount }

# The gaps are fields to fill in. $where is a list of beds.
claims-on-bed = Applied to { $where }.
claims-on-soil = Applied to { $where }: { $texture }, pH { $ph } measured by { $method }. Target: pH { $target } for { $plant }. Area: { $area }, worked { $depth } deep.
claims-where-label = Which soil
claims-where-told = a soil described here
claims-where-bed = { $bed }
claims-where-bed-client = { $bed }, { $client }
claims-where-example = { $bed } (example bed)
claims-texture-label = Texture
claims-texture-any = any texture
claims-ph-label = Soil pH
claims-method-label = How the pH was measured
claims-method-unknown = an unknown method
claims-target-label = Target pH
claims-target-any = what suits
claims-plant-label = Plant wanted
claims-plant-any = a plant
claims-area-label = Area
claims-area-any = any size
claims-depth-label = Depth worked

claims-check = Check it
claims-sheet = Compare ten folk remedies
claims-clear = Clear
claims-edit-bed = Edit { $bed }
claims-fault-of-field = { $field }: { $text }
claims-handouts = One-page handouts: { $cards }
claims-handout-sheet = the whole sheet
claims-pictures = Pictures for a talk: { $pictures }
claims-picture-slide = slide (PNG)
claims-picture-slide-svg = slide (SVG)
claims-picture-square = square (PNG)
claims-picture-square-svg = square (SVG)
claims-empty = Name a material, how much of it, and the soil it is for. Any name used in the trade or in the kitchen will do.
claims-example-coffee = Coffee grounds on a neutral loam for blueberries
claims-example-ash = Wood ash or garden lime on an acid plot
claims-example-sheet = Ten folk remedies on a neutral loam for blueberries

claims-no-material = Enter the name of a material.
claims-no-amount = Enter how much of it.
claims-say-amount = For example: 1 cup per plant, 50 g/m2, or 2 kg for the whole bed.
claims-give-ph = Enter the pH that was measured.

### Keys of the case file: the soil.
### field- is the label, as it stands alone or in bold at the start of a line, and its -in-text is the
### name within a sentence, without an article; in a list (an application, a reading) it names what
### belongs to one entry. means- is the meaning, for the reference and the editor of a file. ask- and
### hint- are what a form says instead, where it says something else; a label there has its unit last.

## Soil

means-soil = What is known of the soil; leave out what nobody measured.

field-soil-ph = A laboratory pH
field-soil-ph-in-text = pH of the soil
means-soil-ph = The soil's pH as read.
ask-soil-ph = pH
hint-soil-ph = The pH of the soil as it was read.

field-soil-ph-method = How the pH was measured
field-soil-ph-method-in-text = how the pH was measured
means-soil-ph-method = How the pH was read; a missing method counts as unknown.
hint-soil-ph-method = Leave it blank if you do not know.

field-soil-texture = Texture
field-soil-texture-in-text = texture
means-soil-texture = Texture class, by feel or by laboratory.
hint-soil-texture = By feel or from a laboratory.

field-soil-sand-pct = Sand
field-soil-sand-pct-in-text = sand
means-soil-sand-pct = Sand of the mineral part.
hint-soil-sand-pct = Share of the mineral part.

field-soil-silt-pct = Silt
field-soil-silt-pct-in-text = silt
means-soil-silt-pct = Silt of the mineral part.
hint-soil-silt-pct = Share of the mineral part.

field-soil-clay-pct = Clay
field-soil-clay-pct-in-text = clay
means-soil-clay-pct = Clay of the mineral part.
hint-soil-clay-pct = Share of the mineral part.

field-soil-organic-matter-pct = Organic matter
field-soil-organic-matter-pct-in-text = organic matter
means-soil-organic-matter-pct = Organic matter, loss on ignition.
hint-soil-organic-matter-pct = As loss on ignition.

field-soil-organic-carbon-pct = Organic carbon
field-soil-organic-carbon-pct-in-text = organic carbon
means-soil-organic-carbon-pct = Organic carbon, about 0.58 of the organic matter.
hint-soil-organic-carbon-pct = About 0.58 of the organic matter.

field-soil-medium = Growing medium
field-soil-medium-in-text = growing medium
means-soil-medium = What the roots grow in.

field-soil-carbonate-pct = A laboratory figure for free lime
field-soil-carbonate-pct-in-text = free lime
means-soil-carbonate-pct = Free lime, as CaCO3.
ask-soil-carbonate-pct = Free lime, % CaCO3
hint-soil-carbonate-pct = Carbonate as a laboratory measures it.

field-soil-fizz = A fizz test
field-soil-fizz-in-text = fizz test
means-soil-fizz = What a drop of acid on the soil did.
ask-soil-fizz = Fizz test

field-soil-fizz-acid = Which acid the fizz test used
field-soil-fizz-acid-in-text = acid of the fizz test
means-soil-fizz-acid = The acid of that test: hydrochloric acid of 10%, or vinegar.
ask-soil-fizz-acid = Acid of the fizz test
hint-soil-fizz-acid = Hydrochloric acid of 10%, or vinegar.

field-soil-buffer-ph = Buffer pH
field-soil-buffer-ph-in-text = buffer pH
means-soil-buffer-ph = Buffer pH of the laboratory, not a soil pH; a lime test index of 48 to 80 is read as ten times the buffer pH.
hint-soil-buffer-ph = From the laboratory; it is not a soil pH. A lime test index of 48 to 80 is read as ten times the buffer pH.

field-soil-buffer-ph-method = Which buffer the laboratory used
field-soil-buffer-ph-method-in-text = name of the buffer
means-soil-buffer-ph-method = The laboratory's buffer.
ask-soil-buffer-ph-method = Buffer
hint-soil-buffer-ph-method = Which buffer the laboratory used.

field-soil-lab-lime-requirement = The laboratory's lime figure
field-soil-lab-lime-requirement-in-text = laboratory's lime figure
means-soil-lab-lime-requirement = The lime the laboratory's own report asks for.
ask-soil-lab-lime-requirement = Lime the laboratory asks for
hint-soil-lab-lime-requirement = As the laboratory's own report has it.

field-soil-cec-cmolc-kg = Cation exchange capacity
field-soil-cec-cmolc-kg-in-text = cation exchange capacity
means-soil-cec-cmolc-kg = Cation exchange capacity.
hint-soil-cec-cmolc-kg = CEC on most reports; meq/100 g is the same figure.

field-soil-base-saturation-pct = Base saturation
field-soil-base-saturation-pct-in-text = base saturation
means-soil-base-saturation-pct = Base saturation; free lime may push it past 100.
hint-soil-base-saturation-pct = Free lime can push it past 100.

field-soil-exchangeable-al-cmolc-kg = Exchangeable aluminium
field-soil-exchangeable-al-cmolc-kg-in-text = exchangeable aluminium
means-soil-exchangeable-al-cmolc-kg = Exchangeable aluminium.
hint-soil-exchangeable-al-cmolc-kg = From the laboratory, in very acid soil.

field-soil-mg-saturation-pct = Magnesium
field-soil-mg-saturation-pct-in-text = magnesium saturation
means-soil-mg-saturation-pct = Share of the exchange sites that magnesium holds; decides whether dolomitic lime is better.
ask-soil-mg-saturation-pct = Magnesium saturation, %
hint-soil-mg-saturation-pct = Share of the exchange sites that magnesium holds. It decides whether dolomitic lime is better.

field-soil-mg-mg-kg = Magnesium in the soil
field-soil-mg-mg-kg-in-text = magnesium in the soil
means-soil-mg-mg-kg = Magnesium that a laboratory extracts; decides whether dolomitic lime is better.
ask-soil-mg-mg-kg = Magnesium, mg/kg
hint-soil-mg-mg-kg = What a laboratory extracts, in mg/kg, mg/L or ppm. It decides whether dolomitic lime is better.

field-soil-p-level = Phosphorus
field-soil-p-level-in-text = level of phosphorus
means-soil-p-level = How the laboratory rates the phosphorus; decides whether hydrangeas can turn blue. An index of the UK counts as 0 and 1 low, 2 medium, 3 high, 4 very high.
hint-soil-p-level = As the laboratory rates it. It decides whether hydrangeas can turn blue.

field-soil-sodium-pct = Sodium
field-soil-sodium-pct-in-text = exchangeable sodium
means-soil-sodium-pct = Exchangeable sodium percentage.

field-soil-ec-ds-m = Salt (conductivity)
field-soil-ec-ds-m-in-text = conductivity
means-soil-ec-ds-m = Electrical conductivity.
hint-soil-ec-ds-m = Electrical conductivity, from the laboratory.

field-soil-ec-method = How the salt was measured
field-soil-ec-method-in-text = extract of the conductivity
means-soil-ec-method = Extract the conductivity was read in.
hint-soil-ec-method = The extract that the conductivity was read in.

field-soil-bulk-density-g-cm3 = Bulk density
field-soil-bulk-density-g-cm3-in-text = bulk density
means-soil-bulk-density-g-cm3 = Dry bulk density.
hint-soil-bulk-density-g-cm3 = Of the dry soil.

field-soil-clay-type = Clay type
field-soil-clay-type-in-text = clay type
means-soil-clay-type = Kind of clay; soils from volcanic ash buffer far more.
hint-soil-clay-type = Soils from volcanic ash resist a change of pH far more.

field-soil-sampled = Date of the sample
field-soil-sampled-in-text = date of the sample
means-soil-sampled = Day the sample was taken.
hint-soil-sampled = The day it was taken.

field-soil-sample-depth = Depth of the sample
field-soil-sample-depth-in-text = depth of the sample
means-soil-sample-depth = Depth the sample was taken to, from the surface.
hint-soil-sample-depth = From the surface down.

## Further readings of the sample

field-soil-other-ph = Second pH
field-soil-other-ph-in-text = second pH
means-soil-other-ph = A second pH of the same sample, by another method.

field-soil-other-ph-ph = pH
field-soil-other-ph-ph-in-text = pH
means-soil-other-ph-ph = The reading.

field-soil-other-ph-ph-method = How the pH was measured
field-soil-other-ph-ph-method-in-text = how the pH was measured
means-soil-other-ph-ph-method = How it was read.
ask-soil-other-ph-ph-method = How it was measured
hint-soil-other-ph-ph-method = Leave it blank if you do not know.

## Layers below the sample

field-soil-layer = Layers below
field-soil-layer-in-text = layer below the sample
means-soil-layer = What lies below the sample: acid or limy layers that roots, lime and water reach. What lies between is taken to be like the sample.

field-soil-layer-top = From depth
field-soil-layer-top-in-text = top of the layer below
means-soil-layer-top = Depth at which the layer begins, from the surface.
hint-soil-layer-top = Where the layer begins, from the surface down.

field-soil-layer-bottom = To depth
field-soil-layer-bottom-in-text = bottom of the layer below
means-soil-layer-bottom = Depth at which it ends, from the surface, or the depth to which you looked.
hint-soil-layer-bottom = Where it ends, or how deep you looked.

field-soil-layer-ph = pH
field-soil-layer-ph-in-text = pH of the layer below
means-soil-layer-ph = The pH of that layer.

field-soil-layer-ph-method = How the pH was measured
field-soil-layer-ph-method-in-text = how the pH of the layer below was measured
means-soil-layer-ph-method = How it was measured.
hint-soil-layer-ph-method = Leave it blank if you do not know.

field-soil-layer-carbonate-pct = Free lime
field-soil-layer-carbonate-pct-in-text = free lime of the layer below
means-soil-layer-carbonate-pct = Free carbonate in that layer, in per cent of CaCO3 by weight.
hint-soil-layer-carbonate-pct = Carbonate in per cent of the soil, where a laboratory measured it.

field-soil-layer-fizz = Fizz test
field-soil-layer-fizz-in-text = fizz test of the layer below
means-soil-layer-fizz = What a drop of acid showed on soil from that layer.

field-soil-layer-fizz-acid = Acid used
field-soil-layer-fizz-acid-in-text = acid used on the layer below
means-soil-layer-fizz-acid = The acid of that fizz test.

### Keys of the case file: the soil.

field-soil-ph = A lab pH
hint-soil-texture = By feel or from a lab.
field-soil-carbonate-pct = A lab figure for free lime
hint-soil-carbonate-pct = Carbonate as a lab measures it.
hint-soil-buffer-ph = From the lab; it is not a soil pH. A lime test index of 48 to 80 is read as ten times the buffer pH.
field-soil-buffer-ph-method = Which buffer the lab used
hint-soil-buffer-ph-method = Which buffer the lab used.
field-soil-lab-lime-requirement = The lab's lime figure
field-soil-lab-lime-requirement-in-text = lab's lime figure
ask-soil-lab-lime-requirement = Lime the lab asks for
hint-soil-lab-lime-requirement = As the lab's own report has it.
hint-soil-exchangeable-al-cmolc-kg = From the lab, in very acid soil.
hint-soil-ec-ds-m = Electrical conductivity, from the lab.
hint-soil-mg-mg-kg = What a lab extracts, in mg/kg, mg/L or ppm. It decides whether dolomitic lime is better.
hint-soil-p-level = As the lab rates it. It decides whether hydrangeas can turn blue.
hint-soil-layer-carbonate-pct = Carbonate in per cent of the soil, where a lab measured it.
means-soil-mg-mg-kg = Magnesium that a lab extracts; decides whether dolomitic lime is better.
means-soil-p-level = How the lab rates the phosphorus; decides whether hydrangeas can turn blue. An index of the UK counts as 0 and 1 low, 2 medium, 3 high, 4 very high.
means-soil-texture = Texture class, by feel or from a lab.
means-soil-buffer-ph = Buffer pH from the lab, not a soil pH; a lime test index of 48 to 80 is read as ten times the buffer pH.
means-soil-buffer-ph-method = The lab's buffer.
means-soil-lab-lime-requirement = The lime the lab's own report asks for.

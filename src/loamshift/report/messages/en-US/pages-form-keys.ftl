### What an American form asks in other words.

hint-place-soil-temp-depth = How deep the thermometer was: 4 in if you leave it blank.
hint-bed-area = The area of one bed or pot. You can also write 15 x 4 ft, or 16 in diameter.
hint-soil-texture = By feel or from a lab.
hint-soil-carbonate-pct = Carbonate as a lab measures it.
hint-soil-buffer-ph = From the lab; it is not a soil pH. A lime test index of 48 to 80 is read as ten times the buffer pH.
hint-soil-buffer-ph-method = Which buffer the lab used.
ask-soil-lab-lime-requirement = Lime the lab asks for
hint-soil-lab-lime-requirement = As the lab's own report has it.
hint-soil-exchangeable-al-cmolc-kg = From the lab, in very acid soil.
hint-soil-ec-ds-m = Electrical conductivity, from the lab.

### What an American says in other words.

water-hardness-left-out = The hardness was left out of the calculation. Hardness counts calcium and magnesium. Alkalinity counts the bicarbonate that neutralizes acid. Hard water can have little alkalinity, and water from a softener can have a lot. Ask your water utility or a lab for alkalinity or bicarbonate, or use an aquarium KH test: 1 degree KH is 18 mg/L CaCO3.
water-never-metal = Acid in galvanized, copper or brass containers and fittings.

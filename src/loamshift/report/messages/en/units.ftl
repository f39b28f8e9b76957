### Figures with their units. The space before a unit never breaks over a line.
### $n is the number in the digits of the reader.

unit-g-m2 = { $n } g/m²
unit-kg-m2 = { $n } kg/m²
unit-t-ha = { $n } t/ha
unit-kg-ha = { $n } kg/ha
unit-lb-100-sq-ft = { $n } lb/100 sq ft
unit-oz-100-sq-ft = { $n } oz/100 sq ft
unit-lb-1000-sq-ft = { $n } lb/1,000 sq ft
unit-lb-acre = { $n } lb/acre
unit-oz-yd2 = { $n } oz/yd²
unit-t = { $n } t
unit-kg = { $n } kg
unit-g = { $n } g
unit-lb = { $n } lb
unit-oz = { $n } oz
unit-ha = { $n } ha
unit-m2 = { $n } m²
unit-acre = { $n } acre
unit-sq-ft = { $n } sq ft
unit-cm = { $n } cm
unit-m = { $n } m
unit-mm = { $n } mm
unit-in = { $n } in
unit-ft = { $n } ft
unit-m3 = { $n } m³
unit-l = { $n } L
unit-ml = { $n } mL
unit-gal = { $n } gal
unit-fl-oz = { $n } fl oz
unit-l-m2 = { $n } L/m²
unit-gal-sq-ft = { $n } gal/sq ft
unit-deg-c = { $n }°C
unit-deg-f = { $n }°F
unit-none = { $n }
unit-mmolc-kg = { $n } mmolc/kg
unit-mmolc-m2 = { $n } mmolc/m²
unit-ds-m = { $n } dS/m
unit-mmol-l = { $n } mmol/L
unit-mg-l = { $n } mg/L
unit-mg-l-caco3 = { $n } mg/L CaCO3
unit-percent = { $n }%
unit-weeks =
    { $n ->
        [1] 1 week
       *[other] { $n } weeks
    }
unit-years =
    { $n ->
        [1] 1 year
       *[other] { $n } years
    }
unit-times = { $n } times

# A range: both ends in one unit, which stands behind the second.
unit-range = { $low } to { $high }
unit-about = about { $figure }
# A range that nobody could tell from one figure.
unit-band-about = about { $figure }

# Counts of a hundred beds, tests or chances, without the words "in 100".
share-about = about { $n }
share-fewer = fewer than 1
share-more = more than 99

# Of two amounts, how many times the one is the other.
times-just-over = just over

number-0 = no
number-1 = one
number-2 = two
number-3 = three
number-4 = four
number-5 = five
number-6 = six
number-7 = seven
number-8 = eight
number-9 = nine
number-10 = ten

# A text that an earlier version worded.
verbatim = { $text }

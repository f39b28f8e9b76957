### Findings that an American says in other words.

check-salt-water-odd = The reading in a salt solution is above the one in water. That is very unusual: one of the two is probably mislabeled, so ask the lab.
check-method-laboratory = Measured by a lab method: { $reading }.
check-hardness = Hardness counts calcium and magnesium; only alkalinity (bicarbonate) raises the pH. Ask the water utility for the alkalinity.
check-laboratory-lime = Your lab advises { $lime } of lime. Its target pH, depth and lime quality may differ from ours. If the two amounts differ by more than a factor of two, ask the lab.
check-rough-only = None of the { WORD($n) } readings was made by a named lab method. Probes, strips and unnamed methods can all be wrong in the same direction, so several of them are not much better than one. A single lab test would count for more.
check-rough-first = { $readings-count ->
    [one] One rough reading is older than the first lab test and is not used: { $readings }.
   *[other] Some rough readings are older than the first lab test and are not used: { $readings }.
}

verdict-repot = Repot in fresh acidic potting mix, and water with rainwater or treated water.
verdict-pot-instead = { $suit ->
    [none] Use a pot or a raised bed filled with acidic potting mix, and water it with rainwater or low-alkalinity water.
   *[other] Use a pot or a raised bed filled with acidic potting mix, and water it with rainwater or low-alkalinity water. Or choose plants that suit this soil, such as { $suit }.
}
settle-soil-ph = A lab pH, measured in water.
settle-soil-carbonate-pct = A lab figure for free lime (CaCO3).
verdict-no-ph-change = A lab pH, measured in water, with the depth sampled.

### The sheets that hang in the shed.

card-first = Find out first
card-testing = Testing
card-readings = Readings
card-never = Never on this bed
# Where the rest is, should a card not hold it all.
card-elsewhere = the letter about this bed
card-aim = { $plants ->
    [none] The aim is pH { $range }; **aim for { $aim }**, measured in water.
   *[other] For { $plants } the range is pH { $range }; **aim for { $aim }**, measured in water.
}

### Notes in the margin of a letter: the sum behind the number beside them, in one line. The label
### of a note is the title of the sum, in why.ftl.

# $sum is an equation with its figures, such as: 26 mmolc/kg × 200.9 kg/m² = 5,223 mmolc/m².
margin-sum = { $sum }.
# $sum without its outcome; $result is that, as the letter says it.
margin-sum-to = { $sum } = { $result }.
# $result is the outcome in the reader's units, where the sum is in others.
margin-sum-yours = { $sum }, which is { $result }.
# The same, where the figure of the letter is rounded.
margin-sum-rounded = { $sum }, rounded to { $result }.
# $sum without its outcome; $result is that as a count of a hundred: about 79.
margin-sum-in-100 = { $sum } = { $result } in 100.

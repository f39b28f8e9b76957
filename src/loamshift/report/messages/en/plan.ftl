### The plan: what goes on, when, and what a test decides.

## Under which reading a later application goes on

plan-if-test-asks = only if a test on { $day } still asks for it
plan-if-at-most = only if a test on { $day } reads pH { $ph } or less
plan-if-at-least = only if a test on { $day } reads pH { $ph } or more
plan-if-between = only if a test on { $day } reads pH { $ph }

### What cannot be converted, and what loamshift convert prints.

convert-no-soil-ph = { $ph } is not a soil pH. Readings are from 2 to 11. Check the decimal point.
# $method is a method of measuring the pH, as a case file has it.
convert-same-method = Both methods are “{ $method }”, so there is nothing to convert. Name another with --to.
convert-no-conversion = We know no conversion from “{ $from }” to “{ $to }”. Have the soil tested again by the method you need.

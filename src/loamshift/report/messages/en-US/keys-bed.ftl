### Keys of the case file: its head, place, bed and aim.

hint-place-soil-temp-depth = How deep the thermometer was: 4 in if you leave it blank.
hint-bed-area = The area of one bed or pot. You can also write 15 x 4 ft, or 16 in diameter.

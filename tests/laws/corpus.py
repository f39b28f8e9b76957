"""Which random cases the ordinary run holds to the laws without a forecast.

Of the first 400 seeds the fewest, chosen one after another, that between them meet everything the
400 meet: every decision with its reason, every check passed and failed, every caution, question,
branch and product, every number of parts and of lines of a plan, every key and word of the case.
``tools/check random`` tries all 400, and as many that nobody tried before.
"""

from __future__ import annotations

from typing import Final

ALL: Final = range(400)
# fmt: off
CHOSEN: Final = (
    1, 2, 3, 5, 8, 9, 11, 12, 14, 15, 16, 17, 20, 21, 24, 25, 27, 28, 29, 30, 31, 34, 36, 39, 40,
    41, 45, 47, 48, 50, 56, 61, 62, 67, 69, 70, 71, 76, 77, 83, 84, 88, 94, 98, 100, 104, 106,
    107, 118, 126, 129, 130, 131, 132, 135, 136, 137, 139, 142, 145, 146, 147, 150, 160, 161,
    164, 167, 172, 174, 179, 182, 183, 184, 186, 188, 189, 190, 192, 194, 195, 197, 199, 203,
    204, 205, 206, 212, 213, 215, 216, 217, 219, 222, 226, 228, 229, 234, 236, 239, 245, 246,
    248, 249, 255, 258, 262, 264, 266, 269, 271, 273, 279, 288, 289, 291, 297, 299, 303, 304,
    316, 319, 320, 321, 326, 330, 332, 333, 340, 341, 346, 348, 350, 354, 356, 359, 363, 365,
    368, 370, 384, 385, 388, 389, 390, 391, 394, 396,
)
# fmt: on

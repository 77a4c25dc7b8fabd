"""The presets on a plain body, drafted beforehand so that no screen waits for them: a test drafts them anew.

For each preset, by the names of its garment and its own, the right half of the outline, from the neck's corner round
to the hem at the side, then where the overarm begins, whole mm as in drafting.contract.front_view, and how far the arm
hangs below level, thousandths of a radian.
"""

from typing import Final

PRESET_OUTLINES: Final[dict[str, tuple[tuple[tuple[int, int], ...], tuple[int, int], int]]] = {
    "cut_in_one.pullover": (
        (
            (69, -90),
            (69, -7),
            (75, 1),
            (197, 47),
            (586, 441),
            (523, 503),
            (424, 417),
            (233, 282),
            (210, 271),
            (186, 276),
            (162, 311),
            (148, 390),
            (154, 445),
            (183, 575),
            (186, 661),
        ),
        (197, 47),
        793,
    ),
    "cut_in_one.tunic": (
        (
            (69, -50),
            (69, -7),
            (75, 1),
            (197, 47),
            (430, 283),
            (326, 386),
            (213, 305),
            (192, 299),
            (175, 312),
            (168, 341),
            (172, 445),
            (219, 839),
            (196, 841),
        ),
        (197, 47),
        793,
    ),
    "cut_in_one.dress": (
        (
            (69, -140),
            (69, -16),
            (75, 1),
            (197, 47),
            (586, 441),
            (543, 478),
            (470, 523),
            (360, 559),
            (352, 415),
            (330, 353),
            (286, 303),
            (228, 266),
            (202, 261),
            (178, 277),
            (164, 308),
            (151, 365),
            (149, 410),
            (183, 591),
            (228, 1023),
            (186, 1027),
        ),
        (197, 47),
        793,
    ),
    "cut_in_one.wing": (
        (
            (69, -50),
            (69, -7),
            (75, 1),
            (238, 58),
            (607, 419),
            (527, 507),
            (463, 454),
            (345, 377),
            (202, 293),
            (179, 295),
            (169, 311),
            (166, 351),
            (172, 434),
            (193, 567),
            (195, 661),
        ),
        (197, 47),
        737,
    ),
}

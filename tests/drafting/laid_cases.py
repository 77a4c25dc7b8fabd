"""Garments laid in every way there is, for tests of what is drawn, said and written about the cloth."""

from functools import cache

from drafting.layout import Layout, candidates
from drafting.order import Result
from tests.drafting.bodies import BODIES, Data, draft

ALIKE: Data = {"stretch_across": 40, "stretch_along": 40}
JOINED: Data = {"lower_sleeve": "joined"}
SEAM: Data = {"centre_back": "seam"}

#: Name: body, style, cloth, and the way in which it is laid.
CASES: dict[str, tuple[str, Data, Data, str]] = {
    "half": ("median woman", {}, {"lay": "half"}, "half"),
    "half, one way": ("median woman", {"neck_height": 0}, {"one_way": True}, "half"),
    "half, joined": ("median woman", JOINED, {"width": "140 cm"}, "half"),
    "open": ("median woman", {"sleeve_length": "elbow"}, {"width": "180 cm"}, "open"),
    "open, joined with a seam": ("median woman", {**JOINED, **SEAM}, {"width": "140 cm"}, "open"),
    "seam": ("median woman", SEAM, {"width": "160 cm"}, "half"),
    "seam, joined": ("median woman", {**JOINED, **SEAM}, {"width": "140 cm"}, "half"),
    "two folds": ("child of 6", {"sleeve_length": "60 mm"}, {"width": "180 cm", "one_way": True}, "two_folds"),
    "part fold, joined": ("median woman", JOINED, {"width": "140 cm"}, "part_fold"),
    "crosswise": ("median woman", {}, {"width": "140 cm", "lay": "crosswise", **ALIKE}, "crosswise"),
    "crosswise, joined with a seam": (
        "median woman", {**JOINED, **SEAM}, {"width": "160 cm", "lay": "crosswise", **ALIKE}, "crosswise",
    ),
}  # fmt: skip


@cache
def laid_case(name: str) -> tuple[Result, Layout]:
    """The draft and its layout in the way that the case names."""
    body, style, cloth, way = CASES[name]
    result = draft(BODIES[body], style, cloth)
    return result, candidates(result.draft.pieces, result.ready.cloth, (way,))[0]

"""The cases of `poncho`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

#: Lengths and slopes that no common width takes are drafted for wide cloth.
WIDE: Final = {"width": "280 cm"}

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "waist, boat": Case({"length": "waist", "neck": "boat"}),
    "V, steep": Case({"neck": "v", "shoulder_slope": 40}),
    "level": Case({"shoulder_slope": 15}, WIDE),
    "mid-thigh, V": Case({"length": "mid_thigh", "neck": "v"}, WIDE),
    "knee": Case({"length": "knee"}, WIDE),
    "large allowances": Case({"allowances": {"shoulder": "25 mm", "hem": "15 mm", "neck": "15 mm"}}),
    "small allowances": Case({"allowances": {"shoulder": "6 mm", "hem": "6 mm", "neck": "6 mm"}}),
    "shrinking": Case({"length": "waist"}, {"shrink_across": 3, "shrink_along": 6}),
    "stiff cloth": Case({}, {"stretch_across": 15, "stretch_along": 10}),
}

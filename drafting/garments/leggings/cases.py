"""The cases of `leggings`: each shows another construction, or both ends of what a key may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case({}, {"stretch_across": 50}),
    "mid-calf, turned": Case({"length": "mid_calf", "waistband": "turned"}, {"stretch_across": 50}),
    "knee, high band": Case({"length": "knee", "waistband_height": "80 mm"}, {"stretch_across": 50}),
    "mid-thigh, casing": Case({"length": "mid_thigh", "waistband": "casing", "waistband_height": "20 mm"}),
    "jersey": Case({"waistband": "jersey"}, {"stretch_across": 100, "stretch_along": 80}),
    "band of rib": Case({"waistband": "jersey", "band_cloth": "rib", "band_stretch": 120}),
    "flared": Case({"hem_girth": "40 cm"}, {"stretch_across": 60}),
    "stiff cloth": Case({}, {"stretch_across": 15, "stretch_along": 10}),
    "shrinks unevenly": Case({}, {"shrink_across": 2, "shrink_along": 6, "stretch_across": 60}),
    "large allowances": Case({"allowances": {"waist": "20 mm", "seams": "15 mm", "hem": "40 mm"}}),
    "small allowances, turned": Case(
        {"waistband": "turned", "allowances": {"waist": "6 mm", "seams": "6 mm", "hem": "10 mm"}}
    ),
}

"""The cases of `knit_trousers`: each shows another construction, or both ends of what a key may be. Our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "wide": Case({"silhouette": "wide"}),
    "wide, knee, turned": Case({"silhouette": "wide", "length": "knee", "waistband": "turned"}),
    "mid-calf, casing": Case({"length": "mid_calf", "waistband": "casing", "waistband_height": "20 mm"}),
    "ankle, high band": Case({"length": "ankle", "waistband_height": "80 mm"}),
    "jersey": Case({"waistband": "jersey"}, {"stretch_across": 100, "stretch_along": 80}),
    "band of rib": Case({"waistband": "jersey", "band_cloth": "rib", "band_stretch": 120}),
    "own hem, wide": Case({"hem_girth": "66 cm"}),
    "own hem, narrow": Case({"hem_girth": "34 cm", "length": "ankle"}),
    "stiff cloth": Case({}, {"stretch_across": 15, "stretch_along": 10}),
    "shrinks unevenly": Case({"silhouette": "wide"}, {"shrink_across": 2, "shrink_along": 6}),
    "pockets in the sides": Case({"pockets": "in_seam"}),
    "wide, turned, pockets": Case(
        {"silhouette": "wide", "length": "mid_calf", "waistband": "turned", "pockets": "in_seam"}
    ),
    "large allowances, turned": Case(
        {"waistband": "turned", "allowances": {"waist": "20 mm", "seams": "20 mm", "hem": "40 mm"}}
    ),
    "small allowances": Case({"allowances": {"waist": "6 mm", "seams": "6 mm", "hem": "10 mm"}}),
}

"""The cases of `knit_skirt`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "A-line": Case({"silhouette": "a_line"}),
    "pegged": Case({"silhouette": "pegged"}),
    "straight, mid-calf": Case({"length": "mid_calf"}),
    "pegged, mid-calf, close": Case({"silhouette": "pegged", "length": "mid_calf", "fit": "close"}),
    "A-line, ankle, loose": Case({"silhouette": "a_line", "length": "ankle", "fit": "loose"}),
    "mid-thigh, turned": Case({"length": "mid_thigh", "waistband": "turned"}),
    "turned, high": Case({"silhouette": "a_line", "waistband": "turned", "waistband_height": "80 mm"}),
    "casing": Case({"waistband": "casing", "waistband_height": "20 mm"}),
    "jersey": Case({"waistband": "jersey", "silhouette": "pegged"}, {"stretch_across": 100, "stretch_along": 80}),
    "band of rib": Case({"waistband": "jersey", "band_cloth": "rib", "band_stretch": 120}),
    "own hem, wide": Case({"hem_girth": "150 cm", "length": "mid_calf"}),
    "own hem, narrow": Case({"hem_girth": "60 cm"}),
    "own slit": Case({"slit": "12 cm", "length": "mid_calf"}),
    "no slit": Case({"slit": "none", "silhouette": "pegged"}),
    "stiff cloth": Case({}, {"stretch_across": 15, "stretch_along": 10}),
    "shrinks unevenly": Case({"silhouette": "a_line"}, {"shrink_across": 2, "shrink_along": 6}),
    "pockets in the sides": Case({"silhouette": "a_line", "pockets": "in_seam"}),
    "flounce": Case({"hem_finish": "flounce"}),
    "full flounce": Case(
        {
            "silhouette": "a_line",
            "length": "mid_calf",
            "hem_finish": "flounce",
            "hem_flounce_fullness": "one_and_half",
            "hem_flounce_depth": "25 cm",
        }
    ),
    "large allowances": Case({"allowances": {"waist": "20 mm", "side": "25 mm", "hem": "40 mm"}}),
    "small allowances": Case({"silhouette": "pegged", "allowances": {"waist": "6 mm", "side": "6 mm", "hem": "10 mm"}}),
}

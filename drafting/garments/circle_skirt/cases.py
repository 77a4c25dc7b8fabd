"""The cases of `circle_skirt`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "full to the knee": Case({"circle": "full"}),
    "three quarters to the calf": Case({"circle": "three_quarter", "length": "mid_calf"}),
    "quarter to the ankle": Case({"circle": "quarter", "length": "ankle"}),
    "full to the ankle": Case({"circle": "full", "length": "ankle"}),
    "half in one": Case({"length": "mid_thigh", "panels": "1"}, {"width": "240 cm"}),
    "full in two": Case({"circle": "full", "length": "mid_thigh", "panels": "2"}),
    "half in three": Case({"panels": "3", "length": "mid_calf"}),
    "eight panels": Case({"circle": "full", "length": "ankle", "panels": "8"}),
    "quarter in one": Case({"circle": "quarter", "panels": "1", "length": "mid_thigh"}),
    "casing": Case({"waistband": "casing", "waistband_height": "60 mm"}),
    "jersey": Case({"waistband": "jersey", "waistband_height": "25 mm"}, {"stretch_across": 100, "stretch_along": 80}),
    "band of rib": Case({"waistband": "jersey", "band_cloth": "rib", "band_stretch": 120}),
    "unwashed": Case({"circle": "three_quarter"}, {"shrink_across": 3, "shrink_along": 3}),
    "shrinks unevenly": Case({}, {"shrink_across": 2, "shrink_along": 5}),
    "large allowances": Case({"allowances": {"waist": "20 mm", "side": "25 mm", "hem": "30 mm"}}),
    "small allowances": Case({"allowances": {"waist": "6 mm", "side": "6 mm", "hem": "6 mm"}}),
}

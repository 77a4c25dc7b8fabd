"""The cases of `drop_shoulder`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "roll collar, cuffs and hem band": Case(
        {"neck_finish": "roll", "sleeve_finish": "cuff", "hem_finish": "band", "fit": "loose"}
    ),
    "boat, cropped": Case({"neck": "boat", "length": "cropped", "sleeve_length": "elbow"}),
    "V dress": Case({"neck": "v", "length": "knee", "body": "flared", "sleeve_length": "short"}),
    "V, turned": Case({"neck": "v", "neck_finish": "turned", "length": "mid_thigh", "body": "pegged"}),
    "round, turned": Case({"neck_finish": "turned", "cap_height": 0, "extension": 0}),
    "rib bands": Case({"band_cloth": "rib", "band_stretch": 90, "sleeve_finish": "cuff", "hem_finish": "band"}),
    "close and shaped": Case({"fit": "close", "waist": "shaped", "length": "mid_calf"}),
    "level shoulder": Case({"shoulder_slope": 12, "length": "ankle"}),
    "steep shoulder": Case({"shoulder_slope": 28, "waist": "shaped", "sleeve_finish": "cuff"}),
    "flounces": Case({"sleeve_finish": "flounce", "sleeve_flounce_depth": "80 mm", "hem_finish": "flounce"}),
    "full flounces, shrinking": Case(
        {
            "sleeve_length": "elbow", "sleeve_finish": "flounce", "sleeve_flounce_fullness": "three_quarter",
            "hem_finish": "flounce", "hem_flounce_fullness": "double", "length": "knee",
        },
        {"shrink_across": 3, "shrink_along": 6},
    ),
    "hood": Case({"neck_finish": "hood", "sleeve_finish": "cuff", "hem_finish": "band"}),
    "hood with a cord": Case({"neck_finish": "hood", "hood_cord": "cord", "allowances": {"neck": "6 mm"}}),
    "pockets in the sides": Case({"pockets": "in_seam", "length": "mid_calf", "waist": "shaped"}),
    "patch pockets": Case({"pockets": "patch", "length": "mid_thigh"}),
    "lined hood with a cord": Case({"neck_finish": "hood", "hood_lining": "lined", "hood_cord": "cord"}),
    "hood and pouch": Case({"neck_finish": "hood", "pouch": "front", "hem_finish": "band"}),
    "large allowances": Case(
        {
            "allowances": {
                "shoulder": "15 mm", "armhole": "15 mm", "side": "25 mm", "hem": "40 mm", "sleeve_end": "30 mm",
                "neck": "15 mm",
            }
        }
    ),
    "small allowances": Case(
        {
            "allowances": {
                "shoulder": "6 mm", "armhole": "6 mm", "side": "6 mm", "hem": "10 mm", "sleeve_end": "10 mm",
                "neck": "6 mm",
            }
        }
    ),
    "shrinking": Case({"sleeve_finish": "cuff"}, {"shrink_across": 3, "shrink_along": 6}),
    "stiff cloth": Case({"neck_finish": "turned"}, {"stretch_across": 20, "stretch_along": 10}),
}  # fmt: skip

"""The cases of `set_in`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "short sleeve": Case({"sleeve_length": "short"}),
    "roll collar, cuffs and hem band": Case(
        {"neck_finish": "roll", "sleeve_finish": "cuff", "hem_finish": "band", "fit": "loose", "waist": "straight"}
    ),
    "boat, cropped": Case({"neck": "boat", "length": "cropped", "sleeve_length": "elbow"}),
    "V dress": Case({"neck": "v", "length": "knee", "body": "flared", "sleeve_length": "short"}),
    "V, turned": Case({"neck": "v", "neck_finish": "turned", "length": "mid_thigh", "body": "pegged"}),
    "round, turned": Case({"neck_finish": "turned", "waist": "straight"}),
    "rib bands": Case({"band_cloth": "rib", "band_stretch": 90, "sleeve_finish": "cuff", "hem_finish": "band"}),
    "close": Case({"fit": "close", "length": "mid_calf"}),
    "loose and short": Case({"fit": "loose", "sleeve_length": "short", "waist": "straight"}),
    "level shoulder": Case({"shoulder_slope": 12, "length": "ankle", "waist": "straight"}),
    "steep shoulder": Case({"shoulder_slope": 28, "sleeve_finish": "cuff", "sleeve_length": "elbow"}),
    "flounces": Case({"sleeve_finish": "flounce", "hem_finish": "flounce", "length": "knee"}),
    "full flounces, gathered": Case(
        {
            "sleeve_finish": "flounce", "sleeve_flounce_fullness": "full", "sleeve_flounce_seam": "gathered",
            "hem_finish": "flounce", "hem_flounce_fullness": "one_and_half",
        }
    ),
    "hood": Case({"neck_finish": "hood"}),
    "hood, shrinking": Case({"neck_finish": "hood", "fit": "loose"}, {"shrink_across": 3, "shrink_along": 6}),
    "pockets in the sides": Case({"pockets": "in_seam", "length": "knee"}, {"shrink_across": 3, "shrink_along": 6}),
    "patch pockets": Case({"pockets": "patch", "length": "hip", "fit": "close"}),
    "hood with a strip, shrinking": Case(
        {"neck_finish": "hood", "hood_panels": "three"}, {"shrink_across": 3, "shrink_along": 6}
    ),
    "pouch, shrinking": Case({"pouch": "front", "length": "knee"}, {"shrink_across": 3, "shrink_along": 6}),
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
    "stiff cloth": Case({"neck_finish": "turned"}, {"stretch_across": 25, "stretch_along": 10}),
}  # fmt: skip

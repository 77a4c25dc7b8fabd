"""The cases of `cut_in_one`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "level overarm, slight": Case({"overarm_angle": 0, "flare": "slight"}),
    "bell": Case({"flare": "bell", "length": "mid_thigh"}),
    "steep and wide": Case({"overarm_angle": 30, "flare": "wide", "length": "hip"}),
    "plain hip-length pullover": Case({"length": "hip", "sleeve_length": "wrist"}),
    "elbow, flared": Case({"sleeve_length": "elbow", "body": "flared", "length": "mid_calf"}),
    "cap": Case({"sleeve_length": "60 mm", "body": "pegged"}),
    "deep and loose": Case({"underarm": "deep", "fit": "loose", "overarm_angle": 0}),
    "close to the ankle": Case({"fit": "close", "body": "flared", "length": "ankle"}),
    "scooped": Case({"neck_height": 0, "overarm_angle": 10}),
    "leaning": Case({"neck_lean": 12, "neck_height": "80 mm"}),
    "slanted": Case({"neck_slant": 10}),
    "folded": Case({"neck_layers": "folded", "neck_height": "200 mm"}),
    "open back": Case({"neck_opening": "centre_back"}),
    "steep shoulder": Case({"shoulder_slope": 28, "overarm_angle": 0}),
    "level shoulder": Case({"shoulder_slope": 12, "overarm_angle": 30}),
    "large allowances": Case(
        {"allowances": {"shoulder": "15 mm", "side": "25 mm", "hem": "40 mm", "sleeve_end": "30 mm"}}
    ),
    "cuff": Case({"sleeve_finish": "cuff", "length": "hip"}),
    "high cuff, band at a scooped neck": Case(
        {"sleeve_finish": "cuff", "cuff_height": "8 cm", "neck_height": 0, "neck_finish": "band", "overarm_angle": 10}
    ),
    "bands of rib": Case(
        {"sleeve_finish": "cuff", "neck_height": 0, "neck_finish": "band", "band_cloth": "rib", "length": "hip"}
    ),
    "cuff on a joined sleeve": Case({"sleeve_finish": "cuff", "lower_sleeve": "joined"}),
    "flounces": Case({"sleeve_finish": "flounce", "hem_finish": "flounce", "overarm_angle": 10}),
    "full flounces, joined sleeve": Case(
        {
            "sleeve_finish": "flounce",
            "sleeve_flounce_fullness": "full",
            "lower_sleeve": "joined",
            "neck_height": 0,
            "hem_finish": "flounce",
            "hem_flounce_fullness": "one_and_half",
            "centre_back": "seam",
            "length": "hip",
        }
    ),
    "hood": Case({"neck_finish": "hood", "neck_height": 0, "length": "hip", "overarm_angle": 10}),
    "pockets in the sides": Case({"pockets": "in_seam", "length": "knee", "body": "flared"}),
    "patch pockets": Case({"pockets": "patch", "length": "knee"}),
    "lined hood with a strip": Case(
        {
            "neck_finish": "hood",
            "hood_panels": "three",
            "hood_lining": "lined",
            "neck_height": 0,
            "length": "hip",
            "overarm_angle": 10,
        }
    ),
    "pouch": Case({"pouch": "front", "length": "hip", "body": "flared"}),
    "small allowances": Case(
        {"allowances": {"shoulder": "6 mm", "side": "6 mm", "hem": "10 mm", "sleeve_end": "10 mm"}}
    ),
}

"""The cases of `kaftan`: between them every key is used at both ends of what it may be. All are our choice."""

from typing import Final

from drafting.contract.cases import Case

CASES: Final[dict[str, Case]] = {
    "default": Case(),
    "hip, elbow, straight sleeve": Case({"length": "hip", "sleeve_length": "elbow", "sleeve_shape": "straight"}),
    "joined, to the ankle": Case({"lower_sleeve": "joined", "length": "ankle"}),
    "level overarm": Case({"overarm_angle": 0, "length": "knee", "neck_slit": "20 cm"}),
    "steep overarm": Case({"overarm_angle": 15, "sleeve_shape": "straight", "length": "mid_thigh"}),
    "narrow, slit sides": Case({"ease_bust": "15 cm", "slit": "35 cm"}),
    "short sleeve of its own girth": Case({"sleeve_length": "32 cm", "sleeve_end_girth": "36 cm", "length": "knee"}),
    "large allowances, joined": Case(
        {
            "lower_sleeve": "joined",
            "sleeve_shape": "straight",
            "allowances": {
                "shoulder": "25 mm", "side": "25 mm", "hem": "50 mm", "sleeve_end": "40 mm", "sleeve_joint": "25 mm"
            },
        }
    ),
    "small allowances": Case(
        {"allowances": {"shoulder": "6 mm", "side": "6 mm", "hem": "10 mm", "sleeve_end": "10 mm", "neck": "6 mm"}}
    ),
    "shrinking": Case({"length": "knee", "lower_sleeve": "joined"}, {"shrink_across": 3, "shrink_along": 6}),
    "pockets in the sides": Case({"length": "knee", "pockets": "in_seam"}),
    "patch pockets": Case({"length": "hip", "pockets": "patch"}, {"shrink_across": 3, "shrink_along": 6}),
}  # fmt: skip

"""Starting points for a shape, and the numbers offered for a tap. All are our choice, because a start is needed.

Each preset names the same keys, so that going from one to another leaves nothing of the first behind. An empty text
leaves the core its default, which follows the other choices.
"""

from collections.abc import Mapping

from drafting.units import Unit

PRESETS: dict[str, dict[str, str]] = {
    "pullover": {"length": "hip", "sleeve_length": "wrist", "flare": "none", "neck_height": "9 cm", "fit": "regular",
                 "body": "straight", "underarm": "regular", "overarm_angle": ""},
    "tunic": {"length": "mid_thigh", "sleeve_length": "elbow", "flare": "none", "neck_height": "5 cm", "fit": "loose",
              "body": "flared", "underarm": "regular", "overarm_angle": ""},
    "dress": {"length": "knee", "sleeve_length": "wrist", "flare": "bell", "neck_height": "14 cm", "fit": "regular",
              "body": "flared", "underarm": "regular", "overarm_angle": ""},
    "wing": {"length": "hip", "sleeve_length": "wrist", "flare": "none", "neck_height": "5 cm", "fit": "loose",
             "body": "straight", "underarm": "deep", "overarm_angle": "15"},
}  # fmt: skip


def preset_of(style: Mapping[str, str]) -> str | None:
    """The preset that this style is still like."""
    return next((name for name, preset in PRESETS.items() if preset.items() <= style.items()), None)


CLOTH_WIDTHS: dict[Unit, tuple[str, ...]] = {
    "cm": ("140", "150", "160", "180"),
    "in": ("55", "60", "63", "70"),
}
"""Widths at which knitted cloth is sold: common practice, no source."""

SKETCH_CLOTH: dict[str, str] = {"width": "150 cm", "stretch_across": "40", "stretch_along": "20"}
"""The cloth a shape is sketched on before its own is known: our choice, because such knits are common."""

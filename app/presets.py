"""Starting points for a shape, as its garment has them, and the numbers offered for a tap. All are our choice."""

from collections.abc import Mapping, Sequence

from app.state import GarmentRecord
from drafting.contract.fields import Preset
from drafting.garments import Garment, garments
from drafting.units import Unit

CLOTH_WIDTHS: dict[Unit, tuple[str, ...]] = {
    "cm": ("140", "150", "160", "180"),
    "in": ("55", "60", "63", "70"),
}
"""Widths at which knitted cloth is sold: common practice, no source."""

SKETCH_CLOTH: dict[str, str] = {"width": "150 cm", "stretch_across": "40", "stretch_along": "20"}
"""The cloth a shape is sketched on before its own is known: our choice, because such knits are common."""


def sketch_cloth(garment: str) -> dict[str, str]:
    """The cloth that a shape of this garment is sketched on: without a stretch where it is made of woven cloth."""
    if "knit" in garment_named(garment).cloths:
        return SKETCH_CLOTH
    return {key: text for key, text in SKETCH_CLOTH.items() if not key.startswith("stretch_")}


def garment_named(name: str) -> Garment:
    """A garment by its name; the first of all where a record names one that is not here."""
    known = garments()
    return known.get(name) or next(iter(known.values()))


def of_a_new_one(before: Sequence[str]) -> str:
    """Which garment a new one is until another is chosen: that of the newest of those `before`, where it is here."""
    known = garments()
    return next((name for name in (*before, GarmentRecord("").garment) if name in known), next(iter(known)))


def preset_of(garment: str, style: Mapping[str, str]) -> Preset | None:
    """The starting point of a garment that this style is still like."""
    return next((each for each in garment_named(garment).presets if each.style.items() <= style.items()), None)

"""A garment in work that becomes another one: what was chosen for the first is put aside, and comes back with it.

The cloth, the tape and the person stay. The way of laying goes with the choices, since it was taken for their pieces.
"""

from dataclasses import replace

from app.state import GarmentRecord
from drafting.garments import garments

STYLE, LAY = "style.", "cloth.lay"


def several() -> bool:
    """Whether there is more than one garment to choose from."""
    return len(garments()) > 1


def made_as(garment: GarmentRecord, which: str) -> GarmentRecord:
    """The same record as another garment, by its name; as it was where it is that garment already."""
    if which == garment.garment:
        return garment
    mine = {STYLE + key: text for key, text in garment.style.items()}
    if "lay" in garment.cloth:
        mine[LAY] = garment.cloth["lay"]
    theirs = garment.aside.get(which, {})
    aside = {name: each for name, each in garment.aside.items() if name != which}
    cloth = {key: text for key, text in garment.cloth.items() if key != "lay"}
    return replace(
        garment,
        garment=which,
        style={key.removeprefix(STYLE): text for key, text in theirs.items() if key.startswith(STYLE)},
        cloth=cloth | ({"lay": theirs[LAY]} if LAY in theirs else {}),
        aside=aside | ({garment.garment: mine} if mine else {}),
        sewn=garment.sewn if garment.chalking else (),
    )

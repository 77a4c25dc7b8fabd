"""A second garment for the tests of the app, which must not know the first: a skirt of few measures and one field.

It is set out as the first garment is, so it has pieces, checks and papers; what a person is asked is its own.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest

from drafting.contract.fields import Field, Option, Preset
from drafting.contract.set_out import SetOut
from drafting.garments import garments

GARMENT = garments()["cut_in_one"]
NAME = "sample_skirt"
LABEL = "Sample skirt"
USES = ("waist_girth", "hip_girth", "waist_to_hip", "knee_height")
ASKED = ("stature", "waist_girth", "hip_girth", "waist_to_hip")
PRESETS = (
    Preset("short", "Short", "Short skirt", "A short skirt", {"length": "hip"}),
    Preset("long", "Long", "Long skirt", "A long skirt", {"length": "ankle"}),
)
FIELD = Field(
    "length", "choice_or_length", "How long it is", tuple(Option(each, each.capitalize()) for each in ("hip", "ankle")),
    usual=lambda chosen: "hip", length_words="Length of the skirt",
)  # fmt: skip


def as_a_skirt(set_out: Callable[..., SetOut]) -> Callable[..., SetOut]:
    """The same setting-out under the name of the skirt, with a picture from the waist down."""

    def skirt(*given: Any) -> SetOut:
        made = replace(set_out(*given), garment=NAME)
        if made.worn is None:
            return made
        below = tuple(place for place in made.worn.outline if place.y > made.body.back_neck_point_to_waist)
        return replace(made, worn=replace(made.worn, outline=below, lines=()))

    return skirt


SKIRT = replace(
    GARMENT, name=NAME, label=LABEL, title="Sample skirt", named="", uses=USES, fields=(FIELD,), first=("length",),
    presets=PRESETS, set_out=as_a_skirt(GARMENT.set_out), required=("waist_girth", "hip_girth"),
)  # fmt: skip


def only(*names: str) -> None:
    """Leave just these garments, of the real ones and the skirt, in this order; for a process of its own."""
    every = {**garments(), NAME: SKIRT}
    garments().clear()
    garments().update({name: every[name] for name in names})


@pytest.fixture
def two() -> Iterator[None]:
    """The first garment and the skirt, and no other."""
    before = dict(garments())
    only(GARMENT.name, NAME)
    yield
    garments().clear()
    garments().update(before)


@pytest.fixture
def alone() -> Iterator[None]:
    """The first garment alone."""
    before = dict(garments())
    only(GARMENT.name)
    yield
    garments().clear()
    garments().update(before)

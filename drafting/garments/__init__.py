"""Garments, one module or package each, found by discovery: whatever here has a `GARMENT` is a garment.

A garment takes a body, choices and cloth and sets out pieces; every check, chalk plan, layout and drawing works on what
it returns, so a new garment is one new module in this folder.
"""

import pkgutil
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from importlib import import_module
from typing import Any

from pydantic import BaseModel

from drafting.after_cut import AfterCut
from drafting.asked import Asked
from drafting.chalked_line import ChalkedLine
from drafting.cloth import ClothFacts
from drafting.front_view import Worn
from drafting.geometry.point import Point
from drafting.measures import Body
from drafting.pieces import FinishedFigure, FinishedGirth, Piece, Stage
from drafting.problems import Adjustment, Problem, Shaping
from drafting.units import Unit


@dataclass(frozen=True, slots=True)
class SetOut:
    """A garment set out for one body on one cloth: what every check reads and every output draws.

    `facts` are the numbers that checks judge (mm, radians, or shares as their name says). `refused` holds
    the ids of the checks that stopped the setting-out itself; `pieces` is then empty. `points` are finished
    construction points, measured from the side-neck level. `figures` say where things lie that no girth says.
    `after_cut` is how it is sewn and tried on; None where nothing was set out. `asked` is every length, girth and
    angle that the style asks for, with how it is measured on the finished outline. `shapings` are the choices that
    shape edges, the likeliest cause of a crossed outline first; `crossed` names the edges for which no piece was made.
    `worn` is how it is seen on the person from the front.
    `chalked_facts` gives the facts that depend on the tape, as the same outline is chalked with another one; None where
    nothing was set out.
    """

    body: Body
    choices: Any
    cloth: ClothFacts
    chalked: ChalkedLine
    pieces: tuple[Piece, ...] = ()
    girths: tuple[FinishedGirth, ...] = ()
    figures: tuple[FinishedFigure, ...] = ()
    adjusted: tuple[Adjustment, ...] = ()
    facts: dict[str, float] = field(default_factory=dict)
    points: dict[str, Point] = field(default_factory=dict)
    refused: tuple[str, ...] = ()
    after_cut: AfterCut | None = None
    asked: tuple[Asked, ...] = ()
    shapings: tuple[Shaping, ...] = ()
    crossed: tuple[str, ...] = ()
    worn: Worn | None = None
    chalked_facts: Callable[[ChalkedLine], dict[str, float]] | None = field(default=None, compare=False, repr=False)

    @property
    def stages(self) -> tuple[Stage, ...]:
        """The stages of chalking that the pieces name, each once, in their order."""
        return tuple(dict.fromkeys(stage for piece in self.pieces for stage in piece.stages))


@dataclass(frozen=True, slots=True)
class Garment:
    """One garment: its name, its style model, how a style is read and how it is set out.

    `uses` names the measures it is set out from; `read_style(style, unit, body)` returns choices or problems;
    `set_out(body, choices, cloth, chalked)` knows the tape and the line that will be chalked, since a ring that
    something must pass is judged as it will be chalked. `first` names the choices that somebody who begins makes, in
    their order; all others may wait.
    """

    name: str
    label: str
    style: type[BaseModel]
    read_style: Callable[[Any, Unit, Body], tuple[Any | None, tuple[Problem, ...]]]
    set_out: Callable[[Body, Any, ClothFacts, ChalkedLine], SetOut]
    uses: tuple[str, ...]
    first: tuple[str, ...] = ()


@cache
def garments() -> dict[str, Garment]:
    """All garments in this folder by name, in alphabetical order."""
    found: dict[str, Garment] = {}
    for module in sorted(pkgutil.iter_modules(__path__), key=lambda m: m.name):
        garment = getattr(import_module(f"{__name__}.{module.name}"), "GARMENT", None)
        if isinstance(garment, Garment):
            found[garment.name] = garment
    return found

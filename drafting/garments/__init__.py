"""Garments, one folder each, found by discovery: whatever stands here must have a `GARMENT`.

A garment takes a body, choices and cloth and sets out pieces; every check, chalk plan, layout and drawing works on what
it returns, and every test of a garment drafts its `cases`, so a new garment is one new folder here.
"""

import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any

from pydantic import BaseModel

from drafting.cloth import ClothFacts, ClothKind
from drafting.contract.cases import Case
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.fields import Chosen, Field, Preset
from drafting.contract.judging import Change, Way
from drafting.contract.set_out import SetOut
from drafting.person.measures import MEASURES, Body, Kind, all_for, asked_for, feeding, required_for
from drafting.problems import Problem
from drafting.units import Unit


@dataclass(frozen=True, slots=True)
class Garment:
    """One garment: its name, its label, its style model, how a style is read and how it is set out.

    `uses` names the measures it is set out from, `may_use` those that only some of its styles rest on, each with
    whether a style does; `required` those that must be taken though they could be estimated, `asked` those that a
    screen asks for beside the usual ones; `read_style(style, unit, body)` returns choices or problems;
    `set_out(body, choices, cloth, chalked)` knows the tape and the line that will be chalked, since a ring that
    something must pass is judged as it will be chalked. `fields` are what it asks, in order; `first` names those
    that somebody who begins chooses, all others may wait; `presets` are its starting points. `checks` are its own,
    beside those of every garment; `ways` are ways out of the shared ones that change its style, by the check's id;
    `to_fit` and `to_save` are changes that make it go on its cloth, or on less of it. `title` heads its papers when
    none is given, and `named` is what it is called in a name where that is shorter. `cases` are the styles, by name,
    that every test of a garment drafts for every test body. `cloths` are the kinds of cloth that it is made of, the
    usual one first; any other is refused in words.
    """

    name: str
    label: str
    style: type[BaseModel]
    read_style: Callable[[Any, Unit, Body], tuple[Any | None, tuple[Problem, ...]]]
    set_out: Callable[[Body, Any, ClothFacts, ChalkedLine], SetOut]
    uses: tuple[str, ...]
    fields: tuple[Field, ...]
    first: tuple[str, ...] = ()
    presets: tuple[Preset, ...] = ()
    checks: tuple[ModuleType, ...] = ()
    ways: Mapping[str, tuple[Way, ...]] = field(default_factory=dict)
    to_fit: tuple[Change, ...] = ()
    to_save: tuple[Change, ...] = ()
    title: str = "Garment"
    named: str = ""
    required: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    may_use: Mapping[str, Callable[[Chosen], bool]] = field(default_factory=dict)
    cloths: tuple[ClothKind, ...] = ("knit",)
    cases: Mapping[str, Case] = field(kw_only=True)

    @property
    def called(self) -> str:
        """What one of these is called in a name, where no starting point says it: "Circle skirt"."""
        return self.named or self.title

    def required_of(self, kind: Kind) -> tuple[str, ...]:
        """The measures that must be taken of this kind of person, in the order of taking them."""
        without = {name for name in required_for(kind) if name in self.uses}
        return tuple(name for name in MEASURES if name in {"stature", *without, *self.required})

    def asked_of(self, kind: Kind) -> tuple[str, ...]:
        """The measures that a screen asks this kind of person for, in the order of taking them."""
        usual = {name for name in asked_for(kind) if name in self.uses}
        wanted = {*usual, *self.required_of(kind), *self.asked}
        return tuple(name for name in all_for(kind) if name in wanted)

    def others_of(self, kind: Kind) -> tuple[str, ...]:
        """The measures that are not asked for, each of which takes the place of an estimate or makes one closer."""
        asked, felt = self.asked_of(kind), feeding((*self.uses, *self.may_use), kind)
        return tuple(name for name in all_for(kind) if name in felt and name not in asked)

    def rests_on(self, style: Mapping[str, Any]) -> tuple[str, ...]:
        """The measures that a style of it, as it is typed, is set out from."""
        return (*self.uses, *(name for name, does in self.may_use.items() if does(Chosen(style))))

    def field(self, key: str) -> Field | None:
        """What is asked for a key of the style; None where nothing is."""
        return next((one for one in self.fields if one.key == key), None)

    @property
    def numbers(self) -> frozenset[str]:
        """The keys of the style that are plain numbers and no lengths."""
        plain = (float, float | None)
        return frozenset(key for key, one in self.style.model_fields.items() if one.annotation in plain)


@cache
def garments() -> dict[str, Garment]:
    """All garments in this folder by name, in alphabetical order.

    Raises TypeError for whatever stands here and hands over no `GARMENT`, or one that is not called as its folder is.
    """
    names = sorted(module.name for module in pkgutil.iter_modules(__path__))
    return {name: _garment_of(import_module(f"{__name__}.{name}"), name) for name in names}


def _garment_of(module: ModuleType, name: str) -> Garment:
    """What a module here hands over, which must be a garment of its name."""
    garment = getattr(module, "GARMENT", None)
    if not isinstance(garment, Garment):
        raise TypeError(f"drafting/garments/{name} has no GARMENT; whatever stands in this folder must be a garment")
    if garment.name != name:
        raise TypeError(
            f'the garment in drafting/garments/{name} is called "{garment.name}"; give it its folder\'s name'
        )
    return garment

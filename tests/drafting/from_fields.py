"""Styles made from what a garment asks, and from nothing else: its fields, with every option and both ends of each."""

from collections.abc import Iterator
from functools import cache
from typing import Any

from hypothesis import strategies as st

from drafting.contract.fields import Chosen, Field
from drafting.contract.set_out import SetOut
from drafting.garments import Garment, garments
from drafting.ways_out.find import changed
from tests.drafting.bodies import BODIES, Data, set_out

#: Cloth on which hardly anything stops.
GIVING: Data = {"width": "200 cm", "stretch_across": 60, "stretch_along": 40}


@cache
def usual(garment: str) -> SetOut:
    """The garment as it is when nothing is said, for one body."""
    return set_out(BODIES["median woman"], {}, GIVING, garment=garment)


def known_length(garment: str, field: Field) -> float | None:
    """A length that a field may well be, mm; None where only the person knows."""
    drafted = field.drafted(usual(garment)) if field.drafted else None
    return field.begins if drafted is None else drafted


def each_choice(garment: Garment) -> Iterator[tuple[str, Data]]:
    """A style for every option of every field, for both ends of its slider, and for a length near the usual."""
    for field in garment.fields:
        chosen = Chosen({})
        values: list[Any] = [*field.values]
        if field.kind == "slide":
            values += [f"{mm:g} mm" for mm in (field.low, field.high(chosen))]
        if field.kind in {"degrees", "percent"}:
            values += [field.low, field.high(chosen)]
        known = known_length(garment.name, field) if field.kind in {"length", "choice_or_length"} else None
        if known is not None:
            values.append(f"{known + 6:.1f} mm")
        for value in values:
            yield f"{field.key} {value}", changed({}, field.key, value)


def of_field(garment: str, field: Field) -> st.SearchStrategy[Any]:
    """Whatever may be chosen or typed for a field, and lengths about what is usual."""
    chosen = Chosen({})
    found: list[st.SearchStrategy[Any]] = []
    if field.values:
        found.append(st.sampled_from(field.values))
    if field.kind == "slide":
        found.append(st.floats(field.low, field.high(chosen)).map(lambda mm: f"{mm:.1f} mm"))
    if field.kind in {"degrees", "percent"}:
        found.append(st.floats(field.low, field.high(chosen)).map(lambda degrees: round(degrees, 1)))
    if field.kind in {"length", "choice_or_length"}:
        known = known_length(garment, field)
        low, high = (5.0, 1300.0) if known is None else (min(0.6 * known, 1.4 * known), max(0.6 * known, 1.4 * known))
        if field.signed:
            low, high = low - 60, high + 120
        found.append(st.floats(low, high).map(lambda mm: f"{mm:.1f} mm"))
    return st.one_of(found)


@st.composite
def styles(draw: st.DrawFn, garment: str, most: int = 4) -> Data:
    """At most so many fields chosen, so that many orders are drafted and not refused."""
    fields = {field.key: field for field in garments()[garment].fields}
    keys = draw(st.lists(st.sampled_from(sorted(fields)), max_size=most, unique=True))
    style: Data = {}
    for key in keys:
        style = changed(style, key, draw(of_field(garment, fields[key])))
    return style

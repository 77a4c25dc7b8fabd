"""A mark's name and its tape readings, the largest thing on their screen; number and fraction never break apart.

Readings have the first claim on the room. What all marks of a chalking need is reckoned once (`zone_for`), so that no
number moves from one mark to the next. All sizes here are px on the screen; `text` is how many times larger than usual
the device shows its letters, and the letters asked of it are so many times smaller.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import flet as ft

from app.parts.fitted import LINE, fitted, height_of
from app.parts.signs import sign
from app.parts.words import letters
from app.theme import BIG, BODY, EDGE, GAP, LARGE, READING, SMALL, STRONG, Look
from drafting.drawing.piece import text_width

SIZES = (READING, 64, 56, 50, BIG)
"""The sizes of readings, the largest that fits first."""
_NUMBER = 1.1
"""The height of a reading's box, in sizes of its letters."""
_UNIT = 0.55
"""The most that the unit takes of the size of its number."""
_ABOVE, _BELOW, _BETWEEN = GAP, 12, 4
_TICK = 28.0
"""Kept free beside the name for the sign of a mark that is done."""

Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Zone:
    """The room that name and readings take, the same for all marks of a chalking; px on the screen.

    room: width. name, label: heights of their boxes. number: size of the readings. unit: size of their unit.
    rows: how many readings stand under each other, 0 where they stand side by side. value: width of number and unit.
    """

    room: float
    name: float
    label: float
    number: float
    unit: float
    value: float
    rows: int
    text: float = 1.0

    @property
    def readings(self) -> float:
        """Height of the readings together."""
        if self.rows:
            return self.rows * self.number * _NUMBER + (self.rows - 1) * _BETWEEN
        return self.label + self.number * _NUMBER

    @property
    def height(self) -> float:
        """Height of all of it."""
        return _ABOVE + self.name + _BETWEEN + self.readings + _BELOW

    @property
    def beside(self) -> float:
        """Width of a label beside its reading, or above it."""
        return self.room - self.value - GAP if self.rows else (self.room - 2 * EDGE) / 2


@lru_cache(maxsize=8)
def zone_for(
    names: tuple[str, ...],
    readings: tuple[tuple[Pair, ...], ...],
    unit: str,
    *,
    rare: tuple[str, ...] = (),
    room: float,
    height: float,
    largest: float,
    text: float = 1.0,
    lying: bool = False,
) -> Zone:
    """The zone for these names and readings in a room of `room` by `height` px, `largest` px high with large letters.

    On a page that is not `lying` on its side, readings stand under each other unless the largest go side by side. The
    numbers are as large as with letters of the usual size; names and labels then grow with `text` as far as there is
    room, and never shrink below the usual size for it. `rare` are names that are long and seldom: smaller if need be.
    """
    zone = _zone(names, rare, readings, unit, room, height, lying)
    values = [value for pairs in readings for _, value in pairs]
    usual = _rows_label(readings, zone)
    for larger in _between(text):
        beside = min(LARGE * larger, zone.number * _UNIT)
        wide = _value(values, unit, zone.number, beside)
        grown = replace(zone, unit=beside, value=wide)
        fits = _rows_label(readings, grown) >= usual if zone.rows else wide <= zone.beside
        if fits:
            zone = grown
            break
    for larger in () if zone.rows else _between(text):
        label = _label(readings, zone, LARGE * larger)
        if label is not None and (grown := replace(zone, label=label)).height <= largest:
            zone = grown
            break
    for larger in _between(text):
        grown = replace(zone, name=_name(names, rare, room, LARGE * larger))
        if grown.height <= largest:
            zone = grown
            break
    return replace(zone, text=text)


def _between(text: float) -> list[float]:
    """How many times larger letters may be, the largest first, in tenths; at the end as usual."""
    return [tenth / 10 for tenth in range(round(text * 10), 9, -1)] or [1.0]


def _zone(
    names: Sequence[str],
    rare: Sequence[str],
    readings: Sequence[Sequence[Pair]],
    unit: str,
    room: float,
    height: float,
    lying: bool,
) -> Zone:
    values = [value for pairs in readings for _, value in pairs]
    most = max((len(pairs) for pairs in readings), default=2)
    name = _name(names, rare, room, LARGE)

    def at(size: float, rows: int) -> Zone:
        zone = Zone(room, name, LARGE * LINE, size, LARGE, _value(values, unit, size, LARGE), rows)
        label = None if rows else _label(readings, zone, LARGE)
        return Zone(room, name, label or zone.label, size, LARGE, zone.value, rows)

    def side_by_side(zone: Zone) -> bool:
        return most <= 2 and zone.value <= zone.beside and _label(readings, zone, LARGE) is not None

    if not lying and side_by_side(largest := at(READING, 0)) and largest.height <= height:
        return largest
    for size in SIZES:
        zone = at(size, 0 if lying and most <= 2 else most)
        fits = side_by_side(zone) if not zone.rows else _rows_label(readings, zone) >= SMALL
        if fits and zone.height <= height:
            return zone
    return at(SIZES[-1], most)


def _value(values: Sequence[str], unit: str, size: float, beside: float) -> float:
    """Width of the widest number with its unit."""
    return max((text_width(each, size, True) for each in values), default=0.0) + 2 * GAP + text_width(unit, beside)


def _name(names: Sequence[str], rare: Sequence[str], room: float, size: float) -> float:
    """Height of the box for a name, in letters of a size: two lines at most, but room for the longest at the usual one.

    What is longer stands in smaller letters, and what is rare in small ones.
    """
    heights = [height_of(each, size, room - _TICK, True) or 0.0 for each in names]
    least = [height_of(each, LARGE, room - _TICK, True) or 0.0 for each in names]
    least += [height_of(each, BODY, room - _TICK, True) or 0.0 for each in rare]
    return max(min(max(heights, default=0.0), 2 * size * LINE), *least, size * LINE)


def _label(readings: Sequence[Sequence[Pair]], zone: Zone, size: float) -> float | None:
    """Height of the highest label above readings side by side; None where a word of one is too wide."""
    heights = [height_of(label, size, zone.beside) for pairs in readings if len(pairs) > 1 for label, _ in pairs]
    return None if None in heights else max((each for each in heights if each is not None), default=size * LINE)


def _wide(zone: Zone, pairs: Sequence[Pair]) -> float:
    """Width of a label: a reading that stands alone has all of the room above it."""
    return zone.room if not zone.rows and len(pairs) == 1 else zone.beside


def _rows_label(readings: Sequence[Sequence[Pair]], zone: Zone) -> float:
    """The size at which every label stands beside its reading."""
    high = zone.number * _NUMBER
    return min((fitted(label, zone.beside, high, LARGE) for pairs in readings for label, _ in pairs), default=LARGE)


def named_readings(
    look: Look,
    zone: Zone,
    *,
    identifier: str,
    name: str,
    pairs: Sequence[Pair],
    unit: str,
    done: str = "",
    lit: bool = True,
) -> ft.Control:
    """The name over its readings, in the boxes of the zone; each reading is named identifier-1, identifier-2 ...

    `done` are the words for a mark that is done, read out with its sign. A mark that is only looked at is not `lit`.
    """
    each = [
        _reading(look, zone, f"{identifier}-{number}" if len(pairs) > 1 else identifier, label, value, unit, lit, pairs)
        for number, (label, value) in enumerate(pairs, start=1)
    ]  # fmt: skip
    below: ft.Control
    if zone.rows:
        below = ft.Column(each, spacing=_BETWEEN, tight=True)
    else:
        below = ft.Row(each, spacing=2 * EDGE, vertical_alignment=ft.CrossAxisAlignment.END)
    size = fitted(name, zone.room - _TICK, zone.name, LARGE * zone.text, True)
    called = ft.Semantics(
        identifier=f"{identifier}-name",
        container=True,
        content=ft.Container(
            ft.Text(name, style=_letters(look, zone, size, strong=True)),
            width=zone.room - _TICK,
            height=zone.name,
            alignment=ft.Alignment.BOTTOM_LEFT,
        ),
    )
    tick: list[ft.Control] = []
    if done:
        tick = [ft.Semantics(identifier=f"{identifier}-done", label=done, content=sign("check", look.good, 24))]
    return ft.Container(
        ft.Column(
            [
                ft.Row(
                    [called, *tick], spacing=0, height=zone.name, vertical_alignment=ft.CrossAxisAlignment.END
                ),
                ft.Container(below, height=zone.readings),
            ],
            spacing=_BETWEEN,
            tight=True,
        ),
        height=zone.height,
        padding=ft.Padding.only(left=EDGE, right=EDGE, top=_ABOVE, bottom=_BELOW),
    )  # fmt: skip


def _letters(look: Look, zone: Zone, size: float, *, strong: bool = False, soft: bool = False) -> ft.TextStyle:
    """Letters that are `size` px on the screen, however large the device shows its letters."""
    style = letters(look, size / zone.text, strong=strong, soft=soft)
    style.height = LINE
    return style


def _reading(
    look: Look, zone: Zone, identifier: str, label: str, value: str, unit: str, lit: bool, pairs: Sequence[Pair]
) -> ft.Control:
    """The label beside its reading or above it, the unit small behind the number."""
    high = zone.number * _NUMBER
    size = zone.number / zone.text
    number = ft.Text(
        value=value,
        style=ft.TextStyle(
            size=size,
            font_family=STRONG,
            color=look.accent if lit else look.ink,
            height=_NUMBER,
            letter_spacing=-size / READING,
            weight=ft.FontWeight.NORMAL,
        ),
        no_wrap=True,
        max_lines=1,
    )
    beside = ft.Text(value=unit, style=_letters(look, zone, zone.unit, soft=True), no_wrap=True, max_lines=1)
    line = ft.Row(
        [number, ft.Container(beside, padding=ft.Padding.only(bottom=zone.number * 0.1))],
        spacing=GAP - 2,
        tight=True,
        vertical_alignment=ft.CrossAxisAlignment.END,
        height=high,
    )
    box = high if zone.rows else zone.label
    letter = min(fitted(each, _wide(zone, pairs), box, LARGE * zone.text) for each, _ in pairs)
    called = ft.Text(label, style=_letters(look, zone, letter, soft=True))
    content: ft.Control
    if zone.rows:
        content = ft.Row(
            [ft.Container(called, width=zone.beside, height=high, alignment=ft.Alignment.CENTER_LEFT), line],
            spacing=GAP,
            alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
            height=high,
        )
    else:
        content = ft.Column(
            [ft.Container(called, height=zone.label, alignment=ft.Alignment.BOTTOM_LEFT), line],
            spacing=0,
            tight=True,
            width=_wide(zone, pairs),
        )
    return ft.Semantics(
        identifier=identifier,
        label=f"{label} {value} {unit}".strip(),
        exclude_semantics=True,
        container=True,
        content=content,
    )

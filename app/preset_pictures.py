"""Small pictures of garments and their presets: each as its own draft is worn by a plain body."""

from collections.abc import Callable
from functools import cache, lru_cache, partial

import flet as ft

from app import parts
from app.canvas import thinned
from app.preset_outlines import PRESET_OUTLINES
from app.presets import garment_named, sketch_cloth
from app.theme import Look
from drafting.contract.fields import Preset
from drafting.contract.front_view import Worn, figure
from drafting.geometry.point import Point
from drafting.order import glance, read_order
from drafting.person.measures import Body, Person, read_person

PICTURE = 68.0
"""Width and height of a picture, px: our choice, because two stand beside each other on the narrowest phone."""
PLAIN_BODY = {"stature": "165 cm", "bust_girth": "90 cm", "waist_girth": "71.88 cm", "hip_girth": "96.715 cm"}
"""The body that presets are shown on: our choice, because it is common; waist and hip are what is estimated for it, as
is all else."""
THIN = 4.0
"""How near the kept outlines lie to the drafted ones, mm: a fifth of a pixel in so small a picture."""

Outlined = tuple[tuple[tuple[int, int], ...], tuple[int, int], int]


def named(garment: str, preset: str) -> str:
    """The name of a preset's picture."""
    return f"{garment}.{preset}"


def drafted_for(garment: str, preset: Preset) -> Outlined:
    """What is kept of a preset (app.preset_outlines), drafted here and now; ValueError where it cannot be drafted."""
    cloth = {key: float(text) if text.isdecimal() else text for key, text in sketch_cloth(garment).items()}
    style = {key: float(text) if text.isdecimal() else text for key, text in preset.style.items() if text}
    must = {key: f"{getattr(plain_body(), key):.1f} mm" for key in garment_named(garment).required_of("woman")}
    person = {"kind": "woman", "unit": "cm", "measures": must | PLAIN_BODY}
    order, _ = read_order({"person": person, "garment": garment, "style": style, "cloth": {**cloth, "one_way": False}})
    worn = None if order is None else glance(order, judged=False).draft.worn
    if worn is None:
        raise ValueError(f"{preset.key} cannot be drafted")
    half = [(place.x, place.y) for place in worn.outline if place.x > 0]
    kept = tuple((round(x), round(y)) for x, y in thinned(half, THIN))
    return kept, (round(worn.shoulder.x), round(worn.shoulder.y)), round(1000 * worn.arm)


def worn_as(kept: Outlined) -> Worn:
    """The whole garment of what is kept."""
    half, shoulder, arm = kept
    right = [Point(float(x), float(y)) for x, y in half]
    left = [Point(-place.x, place.y) for place in reversed(right)]
    return Worn((*right, *left), (), Point(float(shoulder[0]), float(shoulder[1])), arm / 1000)


@cache
def _kept(garment: str, key: str) -> Outlined | None:
    """What is kept of a preset, or drafted now where nothing was kept; None where it cannot be drafted.

    An empty key is that of the garment as it is without a choice.
    """
    name, presets = named(garment, key), {each.key: each for each in garment_named(garment).presets}
    if name in PRESET_OUTLINES:
        return PRESET_OUTLINES[name]
    try:
        return drafted_for(garment, presets.get(key, Preset("", "", "", "", {})))
    except ValueError:
        return None


def preset_outline(garment: str, preset: Preset | None) -> tuple[tuple[float, float], ...]:
    """The outline of a preset as it is worn; empty for none."""
    kept = _kept(garment, preset.key) if preset else None
    return tuple((place.x, place.y) for place in worn_as(kept).outline) if kept else ()


@cache
def plain_body() -> Body:
    """The body that presets are shown on, with all its measures."""
    body, _ = read_person(Person(kind="woman", unit="cm", measures=dict(PLAIN_BODY)))
    assert body is not None
    return body


def picture(look: Look, kept: Outlined, size: float) -> ft.Control:
    """One preset on the plain body, in a square of so many px."""
    worn = worn_as(kept)
    plain = figure(plain_body(), worn.shoulder, worn.arm)
    return parts.worn_view(look, worn, plain, identifier="", words="", width=size, height=size)


@cache
def preset_picture(garment: str, key: str, size: float = PICTURE) -> Callable[[Look], ft.Control] | None:
    """What draws a preset on a surface, the same each time; None where it cannot be drafted."""
    kept = _kept(garment, key)
    return None if kept is None else partial(picture, kept=kept, size=size)


@lru_cache(maxsize=64)
def garment_picture(garment: str, size: float) -> Callable[[Look], ft.Control] | None:
    """What draws a garment on a surface: its first preset, or what it is without a choice."""
    presets = garment_named(garment).presets
    return preset_picture(garment, presets[0].key if presets else "", size)

"""Shape: the outline above, the choices below; every choice changes the outline at once."""

from collections.abc import Callable, Sequence

import flet as ft

from app import actions as act
from app import parts
from app.preset_pictures import PICTURES
from app.names import garment_name
from app.presets import PRESETS, preset_of
from app.screens.as_drafted import KEYS, as_drafted
from app.screens.changed_band import changed_card
from app.screens.outline import outline
from app.screens.scene import Scene, frame
from app.screens.trade_words import trade_word
from app.state import GarmentRecord
from app.text import words
from app.typed import ALLOWANCE, at_field, keep_length, number, plain, sentence
from drafting.garments.cut_in_one import GARMENT
from drafting.garments.cut_in_one.style import sides_are_straight, usual_overarm
from drafting.problems import Problem
from drafting.sources import ALLOWANCES
from drafting.units import CM, LengthProblem, Unit, read_length, say_length

OWN = "own"


class Fields:
    """Makes the fields of one garment's style."""

    def __init__(self, scene: Scene, garment: GarmentRecord, problems: tuple[Problem, ...]) -> None:
        self.scene, self.garment, self.problems = scene, garment, problems
        person = scene.state.book.person(garment.person)
        self.unit: Unit = person.unit if person else scene.state.book.settings.unit
        self.kind = person.kind if person else "woman"
        drafted = scene.state.drafted
        made = None if drafted is None or drafted.garment != garment.id else drafted.result or drafted.sketch
        self.known = {key: say_length(mm, self.unit) for key in KEYS if (mm := as_drafted(made, key)) is not None}

    def set(self, key: str, text: str | None) -> None:
        """Send one choice."""
        self.scene.send(act.SetStyle(self.garment.id, key, text))

    def problem(self, key: str) -> str:
        """What is wrong with a key, in words."""
        found = at_field(self.problems, f"style.{key}")
        return sentence(found) if found is not None else ""

    def region(self, key: str, build: Callable[[], ft.Control], *more: object) -> ft.Control:
        """The control of one key, built again when its text, its problem or its surroundings change."""
        style = self.garment.style
        return self.scene.region(key, (self.scene.paper, self.unit, style.get(key), self.problem(key), *more), build)

    def choice(self, key: str, options: Sequence[str], *, fallback: str, usual: str = "") -> ft.Control:
        """Chips for a key that is one of some words; the first of them reads `usual` where that is given."""
        return self.region(key, lambda: self._choice(key, options, fallback, usual), usual)

    def _choice(self, key: str, options: Sequence[str], fallback: str, usual: str) -> ft.Control:
        chosen = self.garment.style.get(key, fallback)
        named = {each: words(f"style.{key}.{each}") for each in options[bool(usual):]}
        return parts.choices(
            self.scene.paper, identifier=key, label=words(f"style.{key}"), chosen=chosen,
            options=[parts.Option(each, named.get(each, usual)) for each in options],
            on_choose=lambda value: self.set(key, value), problem=self.problem(key),
        )  # fmt: skip

    def choice_or_length(
        self, key: str, options: Sequence[str], *, fallback: str, signed: bool = False
    ) -> list[ft.Control]:
        """Chips for a key that is a word or a length, with the field for the length when that is chosen."""
        own = self.garment.style.get(key, fallback) not in options
        chips = self.region(key, lambda: self._chips(key, options, fallback), own, self.known.get(key))
        return [chips, self.length(key, signed=signed)] if own else [chips]

    def _chips(self, key: str, options: Sequence[str], fallback: str) -> ft.Control:
        text = self.garment.style.get(key, fallback)
        own = text not in options
        return parts.choices(
            self.scene.paper, identifier=key, label=words(f"style.{key}"), chosen=OWN if own else text,
            options=[*(parts.Option(each, self._option(key, each, text)) for each in options),
                     parts.Option(OWN, words("style.own"))],
            on_choose=lambda value: self.set(key, "" if value == OWN and not own else text if value == OWN else value),
            problem="" if own else self.problem(key),
        )  # fmt: skip

    def _option(self, key: str, option: str, chosen: str) -> str:
        """The words of a choice, with its length where the draft has worked it out."""
        known = self.known.get(key)
        if option == chosen == "auto" and known is not None:
            return words("style.worked_out", length=known)
        return words(f"style.{key}.{option}")

    def length(self, key: str, *, usual: bool = False, signed: bool = False) -> ft.Control:
        """A field for a length; with `usual` it says what holds while nothing is typed, `signed` may be below zero."""
        estimate = "" if not usual else self._usual(key)
        depends = (self.scene.paper, self.unit, self.garment.style.get(key), self.problem(key), estimate)
        return self.scene.region(f"{key}-length", depends, lambda: self._length(key, estimate, signed))

    def _usual(self, key: str) -> str:
        return words("style.given", length=self.known[key]) if key in self.known else words("style.auto")

    def _length(self, key: str, estimate: str, signed: bool) -> ft.Control:
        return parts.field(
            self.scene.paper, identifier=f"{key}-length".replace(".", "-"), label=words(f"style.{key}.length"),
            value=self.garment.style.get(key, ""), unit=self.unit, fractions=self.unit == "in", keys=self.unit, signed=signed,
            estimate=estimate, problem=self.problem(key) if self.garment.style.get(key, "").strip() else "",
            on_change=lambda text: self.set(key, text),
        )  # fmt: skip

    def degrees(self, key: str, low: float, high: float, *, fallback: float, step: float = 1) -> ft.Control:
        """A slider for an angle."""
        return self.region(key, lambda: self._degrees(key, low, high, fallback, step), fallback)

    def _degrees(self, key: str, low: float, high: float, fallback: float, step: float) -> ft.Control:
        value = number(self.garment.style.get(key, "")) if self.garment.style.get(key) else fallback
        return parts.slider(
            self.scene.paper, identifier=key, label=words(f"style.{key}"), low=low, high=high, step=step,
            value=min(max(fallback if value is None else value, low), high), says=lambda each: f"{each:g}°",
            on_change=lambda each: self.set(key, plain(each)),
            ends=(words(f"style.{key}.low"), words(f"style.{key}.high")),
        )  # fmt: skip

    def slide_length(self, key: str, high: float, *, fallback: float) -> ft.Control:
        """A slider for a length from 0 to `high` mm, in steps of half a centimetre or a quarter inch."""
        return self.region(key, lambda: self._slide_length(key, high, fallback), high, fallback)

    def _slide_length(self, key: str, high: float, fallback: float) -> ft.Control:
        inch = read_length("1 in", "in")
        size = CM if self.unit == "cm" else inch if isinstance(inch, float) else CM
        typed = read_length(self.garment.style.get(key, ""), self.unit)
        mm = fallback if isinstance(typed, LengthProblem) else typed
        step = 0.5 if self.unit == "cm" else 0.25
        top = int(high / size / step) * step
        return parts.slider(
            self.scene.paper, identifier=key, label=words(f"style.{key}"), low=0, high=top, step=step,
            value=min(max(round(mm / size / step) * step, 0), top), says=lambda each: _said(each, self.unit),
            on_change=lambda each: self.set(key, keep_length(plain(each), self.unit, _other(self.unit))),
            ends=(words(f"style.{key}.low"), words(f"style.{key}.high")),
        )  # fmt: skip


def _other(unit: Unit) -> Unit:
    return "in" if unit == "cm" else "cm"


def _said(value: float, unit: Unit) -> str:
    if unit == "cm":
        return f"{value:g} cm"
    whole, part = divmod(round(value * 4), 4)
    return f"{whole if whole or not part else ''}{('', '¼', '½', '¾')[part]} in"


def shape(scene: Scene) -> ft.Control:
    """The shape of the garment in work."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("shape.title"), children=[], on_back=scene.go_home)
    drafted = scene.state.drafted
    problems = drafted.problems if drafted is not None and drafted.garment == garment.id else ()
    make = Fields(scene, garment, problems)
    drawn = outline(scene, garment, height=scene.beside[1] if scene.wide else _drawn_height(scene))
    preset, name = preset_of(garment.style), garment_name(scene.state.book, garment)
    asked, first = _asked(make), GARMENT.first
    rest = [key for key in asked if key not in first]
    children: list[ft.Control] = [
        *changed_card(scene, look, garment),
        scene.region("preset", (look, preset), lambda: parts.choices(
            look, identifier="preset", label=words("shape.preset"), chosen=preset,
            options=[parts.Option(each, words(f"preset.{each}"), picture=PICTURES[each], spoken=words(f"preset.{each}.heard")) for each in PRESETS],
            on_choose=lambda value: scene.send(act.UsePreset(garment.id, value)),
        )),
        scene.region("title", (look, garment.title, name), lambda: parts.field(
            look, identifier="title", label=words("garment.title"), value=garment.title, name=True,
            estimate=words("garment.title.usual", name=name),
            on_change=lambda text: scene.send(act.TypeTitle(garment.id, text)),
        )),
        *(control for key in first for control in asked[key]()),
        scene.region(
            "more", (look, make.unit, make.kind, tuple(garment.style.items()), problems, tuple(make.known.items())),
            lambda: parts.section_fold(
                look, identifier="more-shape", title=words("shape.more"),
                opened=any(make.problem(key) for key in rest),
                children=[control for key in rest for control in asked[key]()],
            ),
        ),
    ]  # fmt: skip
    foot = [scene.region("next", (look,), lambda: parts.primary_button(
        look, words("shape.on"), scene.go("cloth"), identifier="next"
    ))]  # fmt: skip
    return frame(
        scene, look, title=name, children=children, on_back=scene.go("person"),
        foot=foot, drawn=drawn,
    )  # fmt: skip


def _usual_sides(kind: str) -> str:
    return words("style.waist.auto.straight" if sides_are_straight("auto", kind) else "style.waist.auto.shaped")


def _drawn_height(scene: Scene) -> float:
    return min(max(scene.height * 0.36, 200), 360)


def _asked(make: Fields) -> dict[str, Callable[[], list[ft.Control]]]:
    """How each choice of the garment is shown, in the order in which those that wait are folded away."""
    style, scene = make.garment.style, make.scene
    folded, straight = style.get("neck_layers") == "folded", sides_are_straight(style.get("waist", "auto"), make.kind)
    lengths = ("hip", "mid_thigh", "knee", "mid_calf", "ankle")
    neck, most = (5 if make.kind == "child" else 14) * CM, (28 if folded else 18) * CM
    slanted = not folded and bool(number(style.get("neck_slant", "0")))
    own, choice = make.choice_or_length, make.choice
    return {
        "length": lambda: own("length", lengths, fallback="knee"),
        "neck_height": lambda: [make.slide_length("neck_height", most, fallback=neck)],
        "sleeve_length": lambda: own("sleeve_length", ("wrist", "elbow"), fallback="wrist"),
        "flare": lambda: own("flare", ("none", "slight", "bell", "wide"), fallback="none"),
        "fit": lambda: [choice("fit", ("close", "regular", "loose"), fallback="regular")],
        "body": lambda: [choice("body", ("straight", "flared", "pegged"), fallback="straight"),
                         trade_word(scene, "pegged")],
        "waist": lambda: [choice("waist", ("auto", "shaped", "straight"), fallback="auto",
                                 usual=_usual_sides(make.kind))],
        "overarm_angle": lambda: [make.degrees("overarm_angle", 0, 30, fallback=usual_overarm(straight=straight))],
        "underarm": lambda: [choice("underarm", ("regular", "deep"), fallback="regular")],
        "underarm_above_waist": lambda: [make.length("underarm_above_waist", usual=True)],
        "neck_opening": lambda: [choice("neck_opening", ("none", "centre_back"), fallback="none")],
        "neck_layers": lambda: [choice("neck_layers", ("single", "folded"), fallback="single")],
        "neck_lean": lambda: [make.degrees("neck_lean", 0, 15, fallback=0)],
        "neck_slant": lambda: [] if folded else [make.degrees("neck_slant", 0, 12, fallback=0)],
        "neck_slant_side": lambda: (
            [choice("neck_slant_side", ("left", "right"), fallback="left")] if slanted else []
        ),
        "neck_half_width": lambda: own("neck_half_width", ("auto",), fallback="auto"),
        "shoulder_drop": lambda: [make.length("shoulder_drop", usual=True)],
        "narrowest_girth": lambda: own("narrowest_girth", ("auto",), fallback="auto"),
        "hem_girth": lambda: own("hem_girth", ("auto",), fallback="auto"),
        "slit": lambda: own("slit", ("auto", "none"), fallback="auto"),
        "centre_back": lambda: [choice("centre_back", ("fold", "seam"), fallback="fold")],
        "lower_sleeve": lambda: [choice("lower_sleeve", ("whole", "joined"), fallback="whole")],
        "ease_bust": lambda: [trade_word(scene, "ease"), *own("ease_bust", ("auto",), fallback="auto", signed=True)],
        "ease_waist": lambda: own("ease_waist", ("auto",), fallback="auto", signed=True),
        "ease_hip": lambda: own("ease_hip", ("auto",), fallback="auto", signed=True),
        "allowances": lambda: [trade_word(scene, "allowance"),
                               *(make.length(f"{ALLOWANCE}{edge}", usual=True) for edge in ALLOWANCES)],
    }  # fmt: skip

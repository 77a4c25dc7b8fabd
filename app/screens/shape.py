"""Shape: the outline above, the choices below; every choice changes the outline at once."""

from collections.abc import Callable

import flet as ft

from app import actions as act
from app import parts
from app.other_garment import several
from app.preset_pictures import preset_picture
from app.names import garment_name
from app.presets import garment_named, preset_of
from app.screens.as_drafted import as_drafted
from app.screens.changed_band import changed_card, changed_near
from app.screens.outline import outline
from app.screens.scene import Scene, frame
from app.screens.trade_words import trade_word
from app.state import GarmentRecord
from app.text import words
from app.typed import at_field, keep_length, number, plain, sentence
from drafting.contract.fields import Chosen, Field
from drafting.problems import Problem
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
        self.made, self.chosen = garment_named(garment.garment), Chosen(garment.style, self.kind)
        found = {field.key: as_drafted(made, field) for field in self.made.fields}
        self.known = {key: say_length(mm, self.unit) for key, mm in found.items() if mm is not None}

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

    def controls(self, key: str) -> list[ft.Control]:
        """The controls of one field, with the words of the trade that it explains; none while it is not asked."""
        field = self.made.field(key)
        if field is None or not field.shown(self.chosen):
            return []
        made = {
            "choice": self._choice, "choice_or_length": self._choice_or_length, "length": self._typed,
            "slide": self._slide, "degrees": self._degrees, "percent": self._percent,
        }[field.kind](field)  # fmt: skip
        before, after = (
            [trade_word(self.scene, word)] if word else [] for word in (field.explained_by, field.explains)
        )
        return [*before, *made, *after]

    def _options(self, field: Field) -> list[parts.Option]:
        """The options in their words; the one that is chosen has its length where the draft has worked it out."""
        chosen = self.chosen(field.key, str(field.usual(self.chosen)))
        found = []
        for option in field.options:
            told = field.option_words(self.chosen, option.value) or option.words
            if field.drafted and option.value == chosen and field.key in self.known:
                told = words("style.worked_out", length=self.known[field.key])
            found.append(parts.Option(option.value, told))
        return found

    def _choice(self, field: Field) -> list[ft.Control]:
        """Chips for a key that is one of some words."""
        options = self._options(field)
        depends = tuple((option.value, option.words) for option in options)
        return [self.region(field.key, lambda: parts.choices(
            self.scene.paper, identifier=field.key, label=field.words,
            chosen=self.garment.style.get(field.key, str(field.usual(self.chosen))), options=options,
            on_choose=lambda value: self.set(field.key, value), problem=self.problem(field.key),
        ), depends)]  # fmt: skip

    def _choice_or_length(self, field: Field) -> list[ft.Control]:
        """Chips for a key that is a word or a length, with the field for the length when that is chosen."""
        text = self.garment.style.get(field.key, str(field.usual(self.chosen)))
        own = text not in field.values
        chips = self.region(field.key, lambda: parts.choices(
            self.scene.paper, identifier=field.key, label=field.words, chosen=OWN if own else text,
            options=[*self._options(field), parts.Option(OWN, words("style.own"))],
            on_choose=lambda value: self.set(
                field.key, "" if value == OWN and not own else text if value == OWN else value
            ),
            problem="" if own else self.problem(field.key),
        ), own, self.known.get(field.key))  # fmt: skip
        return [chips, self._length(field, field.length_words, "")] if own else [chips]

    def _typed(self, field: Field) -> list[ft.Control]:
        """A field for a length that says what holds while nothing is typed."""
        known = self.known.get(field.key)
        return [self._length(field, field.words, words("style.given", length=known) if known else words("style.auto"))]

    def _length(self, field: Field, label: str, estimate: str) -> ft.Control:
        key, text = field.key, self.garment.style.get(field.key, "")
        depends = (self.scene.paper, self.unit, text, self.problem(key), estimate)
        return self.scene.region(f"{key}-length", depends, lambda: parts.field(
            self.scene.paper, identifier=f"{key}-length".replace(".", "-"), label=label,
            value=text, unit=self.unit, fractions=self.unit == "in", keys=self.unit, signed=field.signed,
            estimate=estimate, problem=self.problem(key) if text.strip() else "",
            on_change=lambda text: self.set(key, text),
        ))  # fmt: skip

    def _percent(self, field: Field) -> list[ft.Control]:
        """A field for a percentage that says what holds while nothing is typed."""
        key, text, usual = field.key, self.garment.style.get(field.key, ""), float(field.usual(self.chosen))
        return [self.region(key, lambda: parts.field(
            self.scene.paper, identifier=key.replace("_", "-"), label=field.words, value=text, unit="%", keys="number",
            estimate=words("style.given", length=f"{usual:g} %"), problem=self.problem(key),
            on_change=lambda text: self.set(key, text),
        ), usual)]  # fmt: skip

    def _degrees(self, field: Field) -> list[ft.Control]:
        """A slider for an angle."""
        key, usual, high = field.key, float(field.usual(self.chosen)), field.high(self.chosen)

        def build() -> ft.Control:
            value = number(self.garment.style.get(key, "")) if self.garment.style.get(key) else usual
            return parts.slider(
                self.scene.paper, identifier=key, label=field.words, low=field.low, high=high, step=1,
                value=min(max(usual if value is None else value, field.low), high), says=lambda each: f"{each:g}°",
                on_change=lambda each: self.set(key, plain(each)), ends=field.ends,
            )  # fmt: skip

        return [self.region(key, build, usual)]

    def _slide(self, field: Field) -> list[ft.Control]:
        """A slider for a length, in steps of half a centimetre or a quarter inch."""
        key, usual, high = field.key, float(field.usual(self.chosen)), field.high(self.chosen)

        def build() -> ft.Control:
            inch = read_length("1 in", "in")
            size = CM if self.unit == "cm" else inch if isinstance(inch, float) else CM
            typed = read_length(self.garment.style.get(key, ""), self.unit)
            mm = usual if isinstance(typed, LengthProblem) else typed
            step = 0.5 if self.unit == "cm" else 0.25
            top = int(high / size / step) * step
            return parts.slider(
                self.scene.paper, identifier=key, label=field.words, low=field.low / size, high=top, step=step,
                value=min(max(round(mm / size / step) * step, field.low / size), top),
                says=lambda each: _said(each, self.unit),
                on_change=lambda each: self.set(key, keep_length(plain(each), self.unit, _other(self.unit))),
                ends=field.ends,
            )  # fmt: skip

        return [self.region(key, build, high, usual)]


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
    preset, name = preset_of(garment.garment, garment.style), garment_name(scene.state.book, garment)
    preset_key = preset.key if preset else None
    children: list[ft.Control] = [
        *changed_card(scene, look, garment),
        *([scene.region("preset", (look, preset_key), lambda: parts.choices(
            look, identifier="preset", label=words("shape.preset"), chosen=preset_key,
            options=[
                parts.Option(
                    each.key, each.words, picture=preset_picture(garment.garment, each.key), spoken=each.heard
                )
                for each in make.made.presets
            ],
            on_choose=lambda value: scene.send(act.UsePreset(garment.id, value)),
        ))] if make.made.presets else []),
        *scene.below(lambda: _below_presets(scene, make, name, problems)),
    ]  # fmt: skip
    foot = [*changed_near(scene, look, garment), scene.region("next", (look,), lambda: parts.primary_button(
        look, words("shape.on"), scene.go("cloth"), identifier="next"
    ))]  # fmt: skip
    return frame(
        scene, look, title=name, children=children, on_back=scene.go("person"),
        foot=foot, drawn=drawn,
    )  # fmt: skip


def _below_presets(scene: Scene, make: Fields, name: str, problems: tuple[Problem, ...]) -> list[ft.Control]:
    """The garment's own name, what its style asks, and the way to another shape."""
    look, garment = scene.paper, make.garment
    rest = [field.key for field in make.made.fields if field.key not in make.made.first]
    return [
        scene.region("title", (look, garment.title, name), lambda: parts.field(
            look, identifier="title", label=words("garment.title"), value=garment.title, name=True,
            estimate=words("garment.title.usual", name=name),
            on_change=lambda text: scene.send(act.TypeTitle(garment.id, text)),
        )),
        *(control for key in make.made.first for control in make.controls(key)),
        scene.region(
            "more", (look, make.unit, make.kind, tuple(garment.style.items()), problems, tuple(make.known.items())),
            lambda: parts.section_fold(
                look, identifier="more-shape", title=words("shape.more"),
                opened=any(make.problem(key) for key in rest),
                children=[control for key in rest for control in make.controls(key)],
            ),
        ),
        *([scene.region("which", (look, garment.id), lambda: parts.quiet_button(
            look, words("shape.which"), scene.go("which"), identifier="which", wide=True,
        ))] if several() else []),
    ]  # fmt: skip


def _drawn_height(scene: Scene) -> float:
    return min(max(scene.height * 0.36, 200), 360)

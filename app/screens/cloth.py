"""Cloth: how wide, how far it stretches, how it washes, what is in hand."""

import math

import flet as ft

from app import actions as act
from app import parts
from app.presets import CLOTH_WIDTHS, garment_named
from app.screens.kept_cloth import from_kept, keeping
from app.screens.judged import Judged, judged
from app.screens.scene import Scene, frame
from app.screens.trade_words import trade_word
from app.state import GarmentRecord
from app.pulled import Pulled, marked_length, read_test, step_words
from app.text import words
from app.typed import TAPES, kind_of
from drafting.cloth import KIND_WORDS, Cloth
from drafting.problems import Problem
from drafting.units import TAPE_LENGTHS, USUAL_TAPE, Unit, read_length, say_length

PICTURE = 420.0
"""The widest picture of the stretch test, px."""


def cloth(scene: Scene) -> ft.Control:
    """The cloth of the garment in work."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("cloth.title"), children=[], on_back=scene.go_home)
    person = scene.state.person
    unit: Unit = person.unit if person else scene.state.book.settings.unit
    drafted = scene.state.drafted
    problems = drafted.problems if drafted is not None and drafted.garment == garment.id else ()
    set_to = Setting(scene, garment, problems, unit)
    width = garment.cloth.get("width", "")
    children: list[ft.Control] = [
        *from_kept(scene, garment),
        _kind(set_to),
        parts.choices(
            look, identifier="width", label=words("cloth.width"), chosen=width,
            options=[parts.Option(each, f"{each} {unit}") for each in CLOTH_WIDTHS[unit]],
            on_choose=lambda value: set_to("width", value),
        ),
        set_to.length("width", how=(words("cloth.width.how"),)),
        *(_stretching(set_to) if kind_of(garment) == "knit" else []),
        parts.choices(
            look, identifier="one-way", label=words("cloth.one_way"),
            options=[
                *(parts.Option(each, words(f"cloth.one_way.{each}")) for each in ("yes", "no")),
                parts.Option("", words("cloth.one_way.unsure")),
            ],
            chosen=garment.cloth.get("one_way", ""), how=(words("cloth.one_way.says"),),
            on_choose=lambda value: set_to("one_way", value or None),
        ),
        trade_word(scene, "nap"),
        set_to.length("length", how=(words("cloth.length.how"),)),
        parts.section_fold(
            look, identifier="more-cloth", title=words("cloth.more"),
            children=[parts.say(look, words("cloth.more.says"), soft=True), set_to.percent("shrink_across"),
                      set_to.percent("shrink_along"),
                      set_to.length("selvage", estimate=words("style.given", length=_usual_selvage(unit)))],
        ),
        parts.choices(
            look, identifier="tape", label=words("cloth.tape"), chosen=dict(TAPES)[garment.tape],
            options=[parts.Option(key, words(f"tape.{key}")) for _, key in TAPES],
            on_choose=lambda value: scene.send(act.SetTape(garment.id, {key: tape for tape, key in TAPES}[value])),
        ),
        _tape_length(scene, garment, problems, unit),
        parts.choices(
            look, identifier="line", label=words("cloth.line"), chosen=garment.line,
            options=[parts.Option(each, words(f"line.{each}")) for each in ("cut", "stitch")],
            on_choose=lambda value: scene.send(act.SetLine(garment.id, "stitch" if value == "stitch" else "cut")),
        ),
        keeping(scene, garment),
    ]  # fmt: skip
    foot = [parts.primary_button(look, words("cloth.on"), scene.go("proof"), identifier="next")]
    return frame(scene, look, title=words("cloth.title"), children=children, on_back=scene.go("shape"), foot=foot)


def _tape_length(scene: Scene, garment: GarmentRecord, problems: tuple[Problem, ...], unit: Unit) -> ft.Control:
    """The field for how long the tape is, in the person's unit."""
    typed = garment.tape_length
    told = judged(problems, "tape.length", typed)
    least, most = (say_length(mm, unit) for mm in TAPE_LENGTHS[unit])
    usual = say_length(USUAL_TAPE["in" if "/" in garment.tape else "cm"], unit)
    return scene.region("tape-length", (scene.paper, unit, typed, told, usual), lambda: parts.field(
        scene.paper, identifier="tape-length", label=words("tape.length"), value=typed, unit=unit,
        fractions=unit == "in", how=(words("tape.length.how", least=least, most=most),), problem=told.problem,
        warning=told.warning, keys=unit,
        estimate=words("style.given", length=usual),
        on_change=lambda text: scene.send(act.TypeTapeLength(garment.id, text)),
    ))  # fmt: skip


def _usual_selvage(unit: Unit) -> str:
    usual = read_length(Cloth.model_fields["selvage"].default, unit)
    assert isinstance(usual, float)
    return say_length(usual, unit)


class Setting:
    """Sets one key of the cloth, and makes its fields."""

    def __init__(self, scene: Scene, garment: GarmentRecord, problems: tuple[Problem, ...], unit: Unit) -> None:
        self.scene, self.garment, self.problems, self.unit = scene, garment, problems, unit

    def __call__(self, key: str, text: str | None) -> None:
        self.scene.send(act.SetCloth(self.garment.id, key, text))

    def _told(self, key: str) -> Judged:
        return judged(self.problems, f"cloth.{key}", self.garment.cloth.get(key, ""))

    def length(self, key: str, *, how: tuple[str, ...] = (), estimate: str = "", label: str = "", spoken: str = "") -> ft.Control:
        """A field for a length, built again when its text or its problem changes."""
        depends = (self.scene.paper, self.unit, self.garment.cloth.get(key), self._told(key))
        return self.scene.region(key, depends, lambda: self._length(key, how, estimate, label, spoken))

    def _length(self, key: str, how: tuple[str, ...], estimate: str, label: str, spoken: str) -> ft.Control:
        told = self._told(key)
        return parts.field(
            self.scene.paper, identifier=f"cloth-{key}".replace("_", "-"), label=label or words(f"cloth.{key}.label"),
            value=self.garment.cloth.get(key, ""), unit=self.unit, fractions=self.unit == "in", how=how,
            keys=self.unit, problem=told.problem, warning=told.warning, instead=told.instead, estimate=estimate,
            on_change=lambda text: self(key, text), spoken=spoken,
        )  # fmt: skip

    def percent(self, key: str, *, how: tuple[str, ...] = ()) -> ft.Control:
        """A field for a percentage."""
        depends = (self.scene.paper, self.garment.cloth.get(key), self._told(key))
        return self.scene.region(key, depends, lambda: self._percent(key, how))

    def _percent(self, key: str, how: tuple[str, ...]) -> ft.Control:
        told = self._told(key)
        return parts.field(
            self.scene.paper, identifier=f"cloth-{key}".replace("_", "-"), label=words(f"cloth.{key}.label"), unit="%",
            value=self.garment.cloth.get(key, ""), problem=told.problem, warning=told.warning, keys="number",
            how=how, on_change=lambda text: self(key, text),
        )  # fmt: skip


def _kind(set_to: Setting) -> ft.Control:
    """Knitted or woven, with what the garment is made of; a kind that it is not made of is refused here."""
    garment = set_to.garment
    takes = garment_named(garment.garment).cloths
    return parts.choices(
        set_to.scene.paper, identifier="cloth-kind", label=words("cloth.kind"), chosen=kind_of(garment),
        options=[parts.Option(each, words(f"cloth.kind.{each}")) for each in KIND_WORDS],
        how=tuple(words(f"cloth.kind.says.{each}") for each in takes),
        # The kind that is shown chosen counts as said, also where nobody tapped it.
        problem=judged(set_to.problems, "cloth.kind", kind_of(garment)).problem, on_choose=lambda value: set_to("kind", value),
    )  # fmt: skip


def _stretching(set_to: Setting) -> list[ft.Control]:
    """What is asked of cloth that stretches: how far each way, and whether it comes back."""
    return [
        *_stretch(set_to, "across"),
        *_stretch(set_to, "along"),
        parts.choices(
            set_to.scene.paper, identifier="recovery", label=words("cloth.recovery"),
            options=[parts.Option(each, words(f"cloth.recovery.{each}")) for each in ("good", "fair", "poor")],
            chosen=set_to.garment.cloth.get("recovery", "good"), on_choose=lambda value: set_to("recovery", value),
        ),
        trade_word(set_to.scene, "recovery"),
    ]  # fmt: skip


def _stretch(set_to: Setting, way: str) -> list[ft.Control]:
    """First the test: mark, pull, read, let go; then the percentage that it gives, or that a person knows."""
    scene, unit, garment = set_to.scene, set_to.unit, set_to.garment
    look, marked = scene.paper, f"{marked_length(unit)} {unit}"
    lines: list[ft.Control] = [
        parts.heading(look, words(f"test.{way}")),
        scene.region(f"picture-{way}", (look, scene.room), lambda: parts.stretch_picture(
            look, identifier=f"stretch-{way}", width=min(scene.room, PICTURE), words=words(f"test.{way}.picture"),
            folded=way == "across",
        )),
        parts.say(look, words(f"test.{way}.says", marked=marked)),
        _read(set_to, way, "marked", estimate=words("style.given", length=marked)),
        _read(set_to, way, "pulled"),
    ]  # fmt: skip
    if way == "along":
        lines.insert(3, trade_word(scene, "selvage"))
    if way == "across":
        lines.append(_read(set_to, way, "after", how=(words("test.after.how"),)))
    tested = read_test(garment.cloth, way, unit, garment.tape)
    step = step_words(garment.tape)
    for index, line in enumerate(_found(tested, step)):
        lines.append(parts.named(f"tested-{way}-{index}", parts.say(look, line, strong=True)))
    return [*lines, set_to.percent(f"stretch_{way}", how=(words("cloth.percent.how"),))]


def _read(set_to: Setting, way: str, what: str, *, estimate: str = "", how: tuple[str, ...] = ()) -> ft.Control:
    """The field for one reading of the test, read out with its test, since both tests have it."""
    label = words(f"test.{what}")
    spoken = words("test.heard", test=words(f"test.{way}"), label=label)
    return set_to.length(f"test_{way}_{what}", label=label, estimate=estimate, how=how, spoken=spoken)


def _found(tested: Pulled, step: str) -> list[str]:
    """What the test says so far, in sentences."""
    lines = [tested.wrong] if tested.wrong else []
    if tested.percent is not None and tested.within is not None and math.isfinite(tested.within):
        percent, within = round(tested.percent), math.ceil(tested.within - 1e-9)
        lines.append(words("test.stretches", percent=percent, within=within, step=step))
    if tested.recovery is not None:
        lines.append(words(f"test.recovers.{tested.recovery}", step=step))
    return lines

"""A garment that fits, measured flat: its fields, and under them what it tells of its wearer."""

import flet as ft

from app import actions as act
from app import parts
from app.flat import missing_of, read_garment, typed_flat
from app.screens.judged import judged
from app.screens.scene import Scene, frame
from app.state import PersonRecord
from app.text import words
from app.theme import GAP
from drafting.person.flat_fields import FLAT_CHOICES, FLAT_FIELDS, FlatChoice, FlatField
from drafting.person.from_garment import FromGarment, Told
from drafting.person.measures import MEASURES
from drafting.problems import Problem
from drafting.sentences import listed, lower_first
from drafting.units import say_length


def flat(scene: Scene, record: PersonRecord) -> ft.Control:
    """The page of one person's garment."""
    look = scene.paper
    found, problems = read_garment(record)
    needed = [each for each in FLAT_FIELDS if each.needed]
    rest = [each for each in FLAT_FIELDS if not each.needed]
    fit, *ends = [_choice(scene, record, each) for each in FLAT_CHOICES]
    children: list[ft.Control] = [
        parts.say(look, words("flat.says")),
        *(_field(scene, record, each, problems) for each in needed),
        fit,
        parts.heading(look, words("flat.more")),
        *(_field(scene, record, each, problems) for each in rest),
        *ends,
        *_told(scene, record, found, problems),
    ]
    take = parts.primary_button(
        look,
        words("flat.take"),
        scene.doing(act.TakeFlat(record.id)),
        identifier="take-flat",
        enabled=found is not None,
    )
    return frame(scene, look, title=words("flat.title"), children=children, on_back=scene.go("person"), foot=[take])


def _field(scene: Scene, record: PersonRecord, field: FlatField, problems: tuple[Problem, ...]) -> ft.Control:
    typed, name = typed_flat(record, field.name), f"flat-{field.name}"
    told = judged(problems, f"garment.{field.name}", typed)
    length = not field.percent
    return parts.field(
        scene.paper, identifier=name, label=field.label, value=typed, how=field.how,
        unit=record.unit if length else "%", fractions=length and record.unit == "in", keys=record.unit if length else "number",
        problem=told.problem, warning=told.warning, instead=told.instead,
        note=words("needed") if field.needed and not typed.strip() else "",
        on_change=lambda text: scene.send(act.TypeFlat(record.id, field.name, text)),
    )  # fmt: skip


def _choice(scene: Scene, record: PersonRecord, choice: FlatChoice) -> ft.Control:
    return parts.choices(
        scene.paper, identifier=f"flat-{choice.name}", label=choice.label, how=choice.how,
        options=[parts.Option(value, said) for value, said in choice.options], chosen=typed_flat(record, choice.name),
        on_choose=lambda value: scene.send(act.TypeFlat(record.id, choice.name, value)),
    )  # fmt: skip


def _told(
    scene: Scene, record: PersonRecord, found: FromGarment | None, problems: tuple[Problem, ...]
) -> list[ft.Control]:
    """What comes of it, or what is still missing."""
    look = scene.paper
    if found is None:
        missing = missing_of(record)
        if missing:
            says = words("flat.missing", what=listed([lower_first(each) for each in missing]))
        else:
            says = words("flat.wrong")
        return [parts.heading(look, words("flat.told")), parts.say(look, says, soft=True)]
    left = [lower_first(MEASURES[each.measure].label_for(record.kind)) for each in found.left]
    kept = any(record.measures.get(each.measure, "").strip() for each in found.left)
    lines = [parts.say(look, _one(one, record)) for one in found.told]
    for each in found.left:
        if each.field:
            label = MEASURES[each.measure].label_for(record.kind)
            lines.append(parts.say(look, words("flat.in_vain", label=label, why=each.why)))
    return [
        parts.heading(look, words("flat.told")),
        parts.stack(lines, GAP),
        parts.say(look, words("flat.left.some" if kept else "flat.left", what=listed(left)), soft=True),
    ]


def _one(one: Told, record: PersonRecord) -> str:
    label, unit = MEASURES[one.measure].label_for(record.kind), record.unit
    value, within = say_length(one.value, unit), say_length(one.within, unit)
    return words("flat.at_most" if one.at_most else "flat.one", label=label, value=value, within=within)

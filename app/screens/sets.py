"""What a person's page says of measures of other days: which ones a garment stays with, what changed, how a child grew."""

import flet as ft

from app import actions as act
from app import parts
from app.measured import before_words, changes_since, due, grown, two_tapes
from app.screens.scene import Scene
from app.state import PersonRecord
from app.text import words
from app.theme import GAP
from drafting.person.measures import MEASURES
from drafting.sentences import listed
from drafting.units import say_length

MOST = 6
"""So many changes are named, the greatest first: our choice, more are not read."""


def sets(scene: Scene, record: PersonRecord) -> list[ft.Control]:
    """What stands on the first page of a person who was measured before."""
    look, garment = scene.paper, scene.state.garment
    found: list[ft.Control] = []
    stays = None if garment is None else next((each for each in record.earlier if each.id == garment.measured), None)
    if garment is not None and stays is not None:
        day = stays.taken_on.strip() or words("set.no_day")
        newest = parts.quiet_button(
            look,
            words("set.use_newest"),
            scene.doing(act.UseMeasures(garment.id, "")),
            identifier="use-newest",
            wide=True,
        )
        said = words("set.stays.told" if stays.told else "set.stays", day=day)
        found += [parts.say(look, said, strong=True), newest]
    if record.told:
        found.append(parts.say(look, words("flat.set"), strong=True))
    if due(record, scene.state.today):
        found.append(parts.say(look, words("set.due"), strong=True))
    changes = changes_since(record)[:MOST]
    if changes:
        day = record.earlier[-1].taken_on.strip() or words("set.no_day")
        found.append(parts.say(look, words("set.since", day=day, changes=listed(changes))))
    growth = grown(record)
    if growth is not None:
        days = [float((each - growth.days[0]).days) for each in growth.days]
        told = [
            words("set.height", height=say_length(height, record.unit), day=day.isoformat())
            for day, height in zip(growth.days, growth.heights, strict=True)
        ]
        found.append(parts.growth_curve(
            look, identifier="growth", width=scene.room, days=days, heights=growth.heights,
            words=words("set.growth", told=listed(told)), first=told[0], last=told[-1],
        ))  # fmt: skip
    if any(text.strip() for text in record.measures.values()):
        found.append(parts.quiet_button(
            look, words("set.again"), scene.doing(act.MeasureAgain(record.id)), identifier="measure-again", wide=True
        ))  # fmt: skip
    return [parts.stack(found, GAP)] if found else []


def second_tape(scene: Scene, record: PersonRecord, name: str) -> list[ft.Control]:
    """Below a measure: what it was before, and the field for a second tape, which a button opens."""
    look, key = scene.paper, f"again.{name}"
    found: list[ft.Control] = []
    before = before_words(record, name)
    if before:
        found.append(parts.say(look, before, soft=True))
    if record.again.get(name, "").strip() or scene.state.focus == key:
        label = words("set.second", measure=MEASURES[name].label_for(record.kind))
        found.append(parts.field(
            look, identifier=f"again-{name}", label=label, value=record.again.get(name, ""), unit=record.unit,
            keys=record.unit, fractions=record.unit == "in", warning=two_tapes(record, name),
            on_change=lambda text: scene.send(act.TypeAgain(record.id, name, text)),
        ))  # fmt: skip
    elif record.measures.get(name, "").strip():
        found.append(parts.quiet_button(
            look, words("set.twice"), scene.doing(act.FocusMeasure(key)), identifier=f"twice-{name}"
        ))  # fmt: skip
    return found

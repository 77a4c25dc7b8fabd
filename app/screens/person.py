"""Person: who it is, then one measure a screen with the figure large, or all of them as a list."""

from collections.abc import Callable, Collection, Sequence

import flet as ft

from app import actions as act
from app import parts
from app.asked import Asked, asked_of
from app.other_garment import several
from app.screens.flat import flat
from app.screens.home import person_facts
from app.screens.judged import judged
from app.screens.missing import missing_list
from app.screens.sets import second_tape, sets
from app.screens.scene import ROOMY, Scene, frame
from app.screens.trade_words import trade_word, words_in
from app.state import FLAT, Kind, Measuring, PersonRecord
from app.text import words
from app.theme import COLUMN, GAP
from app.typed import number, person_of
from drafting.person.measures import MEASURES, Estimate, Person, read_person
from drafting.problems import Problem
from drafting.units import Unit, say_length

LARGE_FIGURE, SMALL_FIGURE = 0.35, 0.22
"""How much of the page the figure takes: where one measure is asked, and over a list."""
ROOM_TO_TYPE = 640.0
"""The least height of a page on which keypad, field and a small figure have room, px: measured on the screen."""
LEAST_FIGURE, MOST_FIGURE = 110.0, 420.0
"""The least and the greatest height of the figure above the words, px."""


def person(scene: Scene) -> ft.Control:
    """Choose who it is for, or go through one person's pages."""
    record = scene.state.newest
    if record is None:
        return _choose(scene)
    if scene.state.place.step == FLAT:
        return flat(scene, record)
    step, way = scene.state.place.step, scene.state.book.settings.measuring
    if step == 0:
        return _who(scene, record)
    return _all(scene, record) if way == "list" else _one(scene, record, step)


def _asked(scene: Scene, record: PersonRecord) -> Asked:
    return asked_of(record, scene.state.garment, scene.state.focus)


def _before(scene: Scene) -> Callable[[], None]:
    """What lies before the person: which garment it is to be, where that is asked."""
    return scene.go("which") if scene.state.place.garment and several() else scene.go_home


def _choose(scene: Scene) -> ft.Control:
    look, garment = scene.paper, scene.state.place.garment
    add = parts.primary_button(
        look, words("person.add"), lambda: scene.send(act.AddPerson(garment)), identifier="add-person"
    )
    cards = [
        parts.person_card(
            look,
            identifier=f"person-{each.id}",
            name=each.name.strip() or words("person.unnamed"),
            facts=person_facts(each, scene.state.garment, scene.state.today),
            on_open=scene.doing(act.ChoosePerson(garment, each.id)),
            open_words=words("choose"),
        )
        for each in scene.state.book.people
    ]
    says = [parts.say(look, words("person.choose.says"), soft=True)]
    return frame(
        scene, look, title=words("person.choose"), children=[*says, *cards], on_back=_before(scene), foot=[add]
    )


def _read(record: PersonRecord, required: Collection[str]) -> tuple[dict[str, Estimate], tuple[Problem, ...]]:
    """What is estimated, and every problem; of a person as typed, of whom these measures must be taken."""
    problems: list[Problem] = []
    body, found = read_person(Person.model_validate(person_of(record, problems)), required)
    estimates = {} if body is None else {each.measure: each for each in body.estimates}
    return estimates, (*problems, *found)


def _who(scene: Scene, record: PersonRecord) -> ft.Control:
    look, send, key = scene.paper, scene.send, record.id
    _, problems = _read(record, _asked(scene, record).required)
    children: list[ft.Control] = [
        parts.field(
            look, identifier="name", label=words("person.name"), value=record.name, name=True,
            on_change=lambda text: send(act.TypeName(key, text)),
        ),
        parts.choices(
            look, identifier="kind", label=words("person.kind"), chosen=record.kind,
            options=[parts.Option(each, words(f"kind.{each}")) for each in ("woman", "man", "child")],
            on_choose=lambda value: send(act.ChooseKind(key, _kind(value))),
        ),
    ]  # fmt: skip
    age, day = judged(problems, "person.age", record.age), judged(problems, "person.taken_on", record.taken_on)
    if record.kind == "child" or record.age.strip():
        children.append(
            parts.field(
                look, identifier="age", label=words("person.age"), value=record.age, unit=words("years"),
                problem=age.problem, warning=age.warning, keys="whole",
                note=words("needed") if record.kind == "child" and not record.age.strip() else "",
                on_change=lambda text: send(act.TypeAge(key, text)),
            )
        )  # fmt: skip
    children += [
        parts.choices(
            look, identifier="unit", label=words("person.unit"), chosen=record.unit,
            options=[parts.Option("cm", words("unit.cm")), parts.Option("in", words("unit.in"))],
            on_choose=lambda value: send(act.ChooseUnit(key, "in" if value == "in" else "cm")),
        ),
        parts.field(
            look, identifier="taken-on", label=words("person.taken_on"), value=record.taken_on,
            problem=day.problem, warning=day.warning,
            how=(words("person.taken_on.how"),), on_change=lambda text: send(act.TypeTakenOn(key, text)),
        ),
    ]  # fmt: skip
    today = parts.quiet_button(look, words("person.today"), scene.doing(act.TakeToday(key)), identifier="today")
    children += [parts.strip([today]), *sets(scene, record)]
    children.append(
        parts.quiet_button(look, words("flat.open"), scene.go("person", FLAT), identifier="measure-flat", wide=True)
    )
    children.append(
        parts.field(
            look, identifier="person-notes", label=words("person.notes"), value=record.notes,
            on_change=lambda text: send(act.TypeNotes(key, text)),
        )
    )  # fmt: skip
    if scene.state.place.garment:
        other = scene.doing(act.ChoosePerson(scene.state.place.garment, ""))
        someone = parts.quiet_button(look, words("person.other"), other, identifier="other-person")
        children.append(parts.strip([someone]))
    foot = [parts.primary_button(look, words("person.measure"), scene.go("person", 1), identifier="next")]
    title = words("person.who")
    return frame(scene, look, title=title, children=children, on_back=_before(scene), foot=foot)


def _kind(value: str) -> Kind:
    return "man" if value == "man" else "child" if value == "child" else "woman"


def _one(scene: Scene, record: PersonRecord, step: int) -> ft.Control:
    """One measure, its place on the figure large; after the last that is asked for come all others on one page."""
    look, asks = scene.paper, _asked(scene, record)
    asked, last = asks.asked, len(asks.asked) + bool(asks.others)
    step = min(step, last)
    if step > len(asked):
        return _others(scene, record, asks)
    name = asked[step - 1]
    estimates, problems = _read(record, asks.required)
    field = _fields(scene, record, (name,), asks, estimates, problems)
    field += second_tape(scene, record, name)
    on_to_next = scene.go("person", step + 1)
    forward: ft.Control = parts.primary_button(look, words("next"), on_to_next, identifier="next")
    if step == last:
        field += missing_list(scene, problems, record.kind, asks.page_of)
        forward = _on(scene)
    elif not record.measures.get(name, "").strip():
        skip = words("person.take_estimate" if name in estimates else "person.skip")
        aside = parts.quiet_button(look, skip, on_to_next, identifier="skip")
        forward = ft.Row([aside, ft.Container(forward, expand=True)], spacing=GAP)
    title = words("person.measures", name=record.name.strip() or words("person.unnamed"), page=step, pages=len(asked))
    children = [*field, parts.strip([_change_way(scene, "list", 1)])]
    if scene.typing and not scene.wide and ROOM_TO_TYPE <= scene.height < ROOMY:
        # Where the keypad leaves no room above the field, the figure shrinks and scrolls with it.
        children.insert(0, _figure(scene, record, name, 0.0))
    return frame(
        scene, look, title=title, children=children, on_back=scene.go("person", step - 1), foot=[forward],
        drawn=_figure(scene, record, name, LARGE_FIGURE),
    )  # fmt: skip


def _others(scene: Scene, record: PersonRecord, asks: Asked) -> ft.Control:
    """The measures that nobody asks for, each of which takes the place of an estimate."""
    look, rest = scene.paper, asks.others
    estimates, problems = _read(record, asks.required)
    children = [
        *missing_list(scene, problems, record.kind, asks.page_of),
        parts.say(look, words("person.more.says"), soft=True),
        *_fields(scene, record, rest, asks, estimates, problems),
        parts.strip([_change_way(scene, "list", 1)]),
    ]
    lit = scene.state.focus if scene.state.focus in rest else rest[0]
    return frame(
        scene, look, title=words("person.more"), children=children, on_back=scene.go("person", len(asks.asked)),
        foot=[_on(scene)], drawn=_figure(scene, record, lit, SMALL_FIGURE),
    )  # fmt: skip


def _all(scene: Scene, record: PersonRecord) -> ft.Control:
    """Every measure under the other."""
    look, asks = scene.paper, _asked(scene, record)
    asked, rest = asks.asked, asks.others
    estimates, problems = _read(record, asks.required)
    lit = scene.state.focus if scene.state.focus in (*asked, *rest) else asked[0]
    back_to = asks.page_of(lit)
    told: set[str] = set()
    fields, later = (_fields(scene, record, names, asks, estimates, problems, told) for names in (asked, rest))
    children = [
        parts.strip([_change_way(scene, "one", back_to)]),
        *fields,
        *missing_list(scene, problems, record.kind, asks.page_of),
    ]
    if rest:
        children.append(parts.section_fold(
            look, identifier="more-measures", title=words("person.more"), opened=scene.state.focus in rest,
            children=[parts.say(look, words("person.more.says"), soft=True), *later],
        ))  # fmt: skip
    name = record.name.strip()
    title = words("person.all", name=name) if name else words("person.all.unnamed")
    return frame(
        scene, look, title=title, children=children, on_back=scene.go("person"), foot=[_on(scene)],
        drawn=_figure(scene, record, lit, SMALL_FIGURE),
    )  # fmt: skip


def _on(scene: Scene) -> ft.Control:
    """The way on from the last measure: to the shape, or home."""
    look = scene.paper
    if scene.state.place.garment:
        return parts.primary_button(look, words("person.to_shape"), scene.go("shape"), identifier="next")
    return parts.primary_button(look, words("done"), scene.go_home, identifier="next")


def _change_way(scene: Scene, to: Measuring, step: int) -> ft.Control:
    return parts.quiet_button(
        scene.paper, words(f"person.{to}"), scene.doing(act.SetMeasuring(to, step)), identifier=f"measuring-{to}"
    )


def _figure(scene: Scene, record: PersonRecord, measure: str, share: float) -> ft.Control:
    """The figure with one tape, `share` of the page high; beside the words it has all the room there is."""
    wide = scene.beside[0] if scene.wide else min(scene.width, COLUMN)
    height = scene.beside[1] if scene.wide else min(max(scene.height * share, LEAST_FIGURE), MOST_FIGURE)
    age = number(record.age)
    drawn = parts.figure(
        scene.paper, kind=record.kind, measure=measure, height=height, age=age,
        width=wide, words=words("person.figure", measure=MEASURES[measure].label_for(record.kind)),
    )  # fmt: skip
    return ft.Row([drawn], alignment=ft.MainAxisAlignment.CENTER)


def _fields(
    scene: Scene, record: PersonRecord, names: Sequence[str], asks: Asked, estimates: dict[str, Estimate],
    problems: tuple[Problem, ...], told: set[str] | None = None,
) -> list[ft.Control]:  # fmt: skip
    """These measures, and under each the words of the trade in it that are not in `told`, where they are added."""
    known = set() if told is None else told
    found: list[ft.Control] = []
    for name in names:
        found.append(_field(scene, record, name, estimates, problems, must=name in asks.required))
        measure = MEASURES[name]
        new = [word for word in words_in((measure.label_for(record.kind), *measure.how)) if word not in known]
        known.update(new)
        found += [trade_word(scene, word) for word in new]
    return found


def _field(
    scene: Scene,
    record: PersonRecord,
    name: str,
    estimates: dict[str, Estimate],
    problems: tuple[Problem, ...],
    *,
    must: bool,
) -> ft.Control:
    """One measure: how it is taken, what was typed, what is wrong or what would be put in its place."""
    measure = MEASURES[name]
    typed = record.measures.get(name, "")
    told = judged(problems, f"person.measures.{name}", typed)
    estimate = estimates.get(name)
    guessed = "" if estimate is None or typed.strip() else _about(estimate, record.unit)
    needed = words("needed") if must and not typed.strip() else ""
    if name in record.told and typed.strip():
        needed = words("flat.by_garment")
    active = scene.state.focus == name

    def build() -> ft.Control:
        return parts.field(
            scene.paper,
            identifier=f"measure-{name}",
            label=measure.label_for(record.kind),
            value=typed,
            how=measure.how,
            unit=record.unit,
            fractions=record.unit == "in",
            active=active,
            keys=record.unit,
            problem=told.problem,
            warning=told.warning,
            instead=told.instead,
            note=needed,
            estimate=guessed,
            on_change=lambda text: scene.send(act.TypeMeasure(record.id, name, text)),
            on_focus=lambda: scene.send(act.FocusMeasure(name)),
        )

    depends = (scene.paper, record.id, record.kind, record.unit, typed, active, told, needed, guessed)
    return scene.region(name, depends, build)


def _about(estimate: Estimate, unit: Unit) -> str:
    spread = say_length(estimate.sd, unit).removesuffix(f" {unit}")
    return words(
        "person.estimate", value=say_length(estimate.value, unit).removesuffix(f" {unit}"), sd=spread, unit=unit
    )

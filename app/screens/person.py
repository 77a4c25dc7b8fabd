"""Person: who it is, then the measures a few at a time, the figure showing where the tape goes."""

from collections.abc import Sequence

import flet as ft

from app import actions as act
from app import parts
from app.presets import MEASURES_A_PAGE
from app.screens.home import person_facts
from app.screens.judged import judged
from app.screens.missing import missing_list
from app.screens.scene import Scene, frame
from app.state import Kind, PersonRecord
from app.text import words
from app.typed import person_of
from drafting.measures import MEASURES, Estimate, Person, all_for, asked_for, read_person, required_for
from drafting.problems import Problem
from drafting.units import Unit, say_length


def person(scene: Scene) -> ft.Control:
    """Choose who it is for, or go through one person's pages."""
    record = scene.state.person
    if record is None:
        return _choose(scene)
    pages = _pages(record.kind)
    step = min(scene.state.place.step, len(pages))
    if step == 0:
        return _who(scene, record)
    return _measures(scene, record, pages, step)


def _pages(kind: Kind) -> list[tuple[str, ...]]:
    asked = asked_for(kind)
    return [asked[start : start + MEASURES_A_PAGE] for start in range(0, len(asked), MEASURES_A_PAGE)]


def page_of(kind: Kind, measure: str) -> int:
    """The page on which a measure is asked; those not asked are on the last."""
    pages = _pages(kind)
    return next((number for number, names in enumerate(pages, start=1) if measure in names), len(pages))


def _choose(scene: Scene) -> ft.Control:
    look, garment = scene.paper, scene.state.place.garment
    add = parts.primary_button(
        look, words("person.add"), lambda: scene.send(act.AddPerson(garment)), identifier="add-person"
    )
    cards = [
        parts.person_card(
            look,
            identifier=f"person-{each.id}",
            name=each.name or words("person.unnamed"),
            facts=person_facts(each),
            on_open=scene.doing(act.ChoosePerson(garment, each.id)),
            open_words=words("choose"),
        )
        for each in scene.state.book.people
    ]
    says = [parts.say(look, words("person.choose.says"), soft=True)]
    return frame(scene, look, title=words("person.choose"), children=[*says, *cards], on_back=scene.go_home, foot=[add])


def _read(record: PersonRecord) -> tuple[dict[str, Estimate], tuple[Problem, ...]]:
    """What is estimated, and every problem; of a person as typed."""
    problems: list[Problem] = []
    body, found = read_person(Person.model_validate(person_of(record, problems)))
    estimates = {} if body is None else {each.measure: each for each in body.estimates}
    return estimates, (*problems, *found)


def _who(scene: Scene, record: PersonRecord) -> ft.Control:
    look, send, key = scene.paper, scene.send, record.id
    _, problems = _read(record)
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
    beside = [parts.quiet_button(look, words("person.today"), scene.doing(act.TakeToday(key)), identifier="today")]
    if scene.state.place.garment:
        other = scene.doing(act.ChoosePerson(scene.state.place.garment, ""))
        beside.append(parts.quiet_button(look, words("person.other"), other, identifier="other-person"))
    children.append(parts.strip(beside))
    foot = [parts.primary_button(look, words("person.measure"), scene.go("person", 1), identifier="next")]
    title = words("person.who")
    return frame(scene, look, title=title, children=children, on_back=scene.go_home, foot=foot)


def _kind(value: str) -> Kind:
    return "man" if value == "man" else "child" if value == "child" else "woman"


def _measures(scene: Scene, record: PersonRecord, pages: Sequence[tuple[str, ...]], step: int) -> ft.Control:
    look = scene.paper
    estimates, problems = _read(record)
    names = pages[step - 1]
    last = step == len(pages)
    rest = [name for name in all_for(record.kind) if name not in asked_for(record.kind)] if last else []
    lit = scene.state.focus if scene.state.focus in (*names, *rest) else names[0]
    fields = [_field(scene, record, name, estimates, problems) for name in names]
    if last:
        fields += missing_list(scene, problems, record.kind, page_of)
        fields.append(
            parts.section_fold(
                look,
                identifier="more-measures",
                title=words("person.more"),
                opened=scene.state.focus in rest,
                children=[
                    parts.say(look, words("person.more.says"), soft=True),
                    *(_field(scene, record, name, estimates, problems) for name in rest),
                ],
            )
        )
    height = scene.beside[1] * 0.8 if scene.wide else min(max(scene.height * 0.25, 150.0), 300.0)
    figure = parts.figure(
        look, kind=record.kind, measure=lit, height=height,
        words=words("person.figure", measure=MEASURES[lit].label_for(record.kind)),
    )  # fmt: skip
    if not last:
        on = parts.primary_button(look, words("next"), scene.go("person", step + 1), identifier="next")
    elif scene.state.place.garment:
        on = parts.primary_button(look, words("person.to_shape"), scene.go("shape"), identifier="next")
    else:
        on = parts.primary_button(look, words("done"), scene.go_home, identifier="next")
    title = words("person.measures", name=record.name or words("person.unnamed"), page=step, pages=len(pages))
    drawn = ft.Row([figure], alignment=ft.MainAxisAlignment.CENTER)
    return frame(
        scene, look, title=title, children=fields, on_back=scene.go("person", step - 1), foot=[on],
        drawn=drawn,
    )  # fmt: skip


def _field(
    scene: Scene,
    record: PersonRecord,
    name: str,
    estimates: dict[str, Estimate],
    problems: tuple[Problem, ...],
) -> ft.Control:
    """One measure: how it is taken, what was typed, what is wrong or what would be put in its place."""
    measure = MEASURES[name]
    typed = record.measures.get(name, "")
    told = judged(problems, f"person.measures.{name}", typed)
    estimate = estimates.get(name)
    guessed = "" if estimate is None or typed.strip() else _about(estimate, record.unit)
    needed = words("needed") if name in required_for(record.kind) and not typed.strip() else ""
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

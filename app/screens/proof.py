"""Proof: what is wrong with its ways out, what was adjusted, what passes; the cloth and how much to buy."""

from collections.abc import Callable

import flet as ft

from app import actions as act
from app import parts
from app.asked import asked_of
from app.screens.begin import begin, no_cloth, of_cloth, verdict
from app.screens.changed_band import changed_card
from app.screens.laid_cloth import cloth_heard, laid_cloth
from app.screens.missing import missing_list
from app.screens.outline import outline
from app.screens.scene import Scene, frame
from app.state import Drafted, GarmentRecord, PersonRecord, Place
from app.text import words
from app.theme import EDGE, LARGE
from app.typed import sentence
from drafting.layout import Layout, length_to_buy, say_bought, say_laid, way_name
from drafting.person.measures import MEASURES
from drafting.order import Result
from drafting.problems import Adjustment, Check, Problem, WayOut
from drafting.sentences import lower_first
from drafting.units import Unit, say_length

_HIGH, _ROUND = 360.0, 2 * EDGE
"""The most height of the laid cloth above the words, and what stands round cloth as wide as the page, px."""


VERDICT = "verdict"
"""The place of the verdict on the page."""


def proof(scene: Scene) -> ft.Control:
    """The proof of the garment in work."""
    look, garment = scene.paper, scene.state.garment
    back = scene.go("cloth")
    if garment is None:
        return frame(scene, look, title=words("proof.title"), children=[], on_back=scene.go_home)
    drafted = scene.state.drafted
    if drafted is None or drafted.garment != garment.id:
        waiting = parts.say(look, words("proof.waiting"), soft=True)
        return frame(scene, look, title=words("proof.title"), children=[waiting], on_back=back)
    result = drafted.result
    if result is None:
        person = scene.state.person or PersonRecord("")
        page_of = asked_of(person, garment).page_of
        return frame(
            scene, look, title=words("proof.title"), on_back=back,
            children=[parts.say(look, words("proof.missing")), *missing_list(scene, drafted.problems, person.kind, page_of)],
        )  # fmt: skip
    unit = result.order.person.unit
    wrong = [check for check in result.checks if check.result in ("stop", "warn")]
    unlaid = no_cloth(drafted)
    wrong.sort(key=lambda check: (check.result != "stop", not (unlaid and of_cloth(check)), not check.ways_out))
    passed = [check for check in result.checks if check.result in ("pass", "shown")]
    cautions = [check for check in result.checks if check.result == "caution"]
    children: list[ft.Control] = [*changed_card(scene, look, garment), _verdict(scene, drafted)]
    children += [_check(scene, garment, check, full=drafted.full) for check in wrong]
    children += [
        parts.check_card(look, identifier=f"warning-{index}", result="warn", result_words=words("result.warn"),
                         says=sentence(problem))
        for index, problem in enumerate(result.warnings)
    ]  # fmt: skip
    drawn = _layout(scene, result, unit)
    if not scene.wide and drawn is not None:
        children += [drawn]
    if result.layout is None and result.outcome != "stop" and not drafted.laid:
        children += [parts.say(look, words("proof.laying"), strong=True)]
    if result.layout is not None and result.outcome != "stop":
        children += [parts.say(look, _buy(result.layout, result, unit), strong=True),
                     parts.quiet_button(look, words("proof.lay"), scene.go("lay"), identifier="go-lay", icon="forward",
                                        wide=True)]  # fmt: skip
    if result.draft.adjusted:
        children += [parts.heading(look, words("proof.adjusted"))]
        children += [_adjusted(scene, index, each, unit) for index, each in enumerate(result.draft.adjusted)]
    children += [
        parts.section_fold(look, identifier="passed", title=words("proof.passed", count=len(passed)),
                           children=[_check(scene, garment, check, full=True) for check in passed]),
        parts.section_fold(look, identifier="girths", title=words("proof.girths"),
                           children=_girths(scene, result, unit)),
        parts.section_fold(look, identifier="cautions", title=words("proof.cautions"), opened=True,
                           children=[parts.say(look, check.with_rules()) for check in cautions]),
    ]  # fmt: skip
    return frame(
        scene, look, title=words("proof.title"), children=children, on_back=back, foot=begin(scene, garment, drafted),
        drawn=(drawn or outline(scene, garment, height=scene.beside[1])) if scene.wide else None,
    )  # fmt: skip


def _verdict(scene: Scene, drafted: Drafted) -> ft.Control:
    says = parts.say(scene.paper, verdict(drafted), size=LARGE, strong=True)
    return ft.Container(says, key=ft.ScrollKey(VERDICT))  # type: ignore[call-arg] # mypy does not see its base


def _taking(scene: Scene, garment: GarmentRecord, way: WayOut) -> Callable[[], None]:
    """What a tap on a way out does: it is taken, and the page moves to what is said of it then."""

    def take() -> None:
        scene.send(act.TakeWayOut(garment.id, way.changes, way.does))
        if scene.hand is not None:
            scene.hand.move_to(VERDICT)

    return take


def _check(scene: Scene, garment: GarmentRecord, check: Check, *, full: bool) -> ft.Control:
    ways = [
        parts.Way(
            f"way-{check.id}-{index}", way.does, _taking(scene, garment, way),
            follows=way.says.removeprefix(way.does).strip(),
        )
        for index, way in enumerate(check.ways_out)
    ]  # fmt: skip
    detail = words("proof.looking") if check.result in ("warn", "stop") and not full else ""
    return parts.check_card(
        scene.paper, identifier=f"check-{check.id}", result=check.result, result_words=words(f"result.{check.result}"),
        says=check.says, ways=ways, detail=detail,
    )  # fmt: skip


def _amount(value: float, unit: str, person: Unit) -> str:
    return (
        say_length(value, person)
        if unit == "mm"
        else f"{value:.3g}°"
        if unit == "deg"
        else f"{value:.3g} {unit}".strip()
    )


def _adjusted(scene: Scene, index: int, each: Adjustment, unit: Unit) -> ft.Control:
    return parts.adjust_card(
        scene.paper, identifier=f"adjusted-{index}", what=each.what, before=_amount(each.before, each.unit, unit),
        after=_amount(each.after, each.unit, unit), why=each.why,
    )  # fmt: skip


def _girths(scene: Scene, result: Result, unit: Unit) -> list[ft.Control]:
    lines: list[ft.Control] = [parts.say(scene.paper, words("proof.girths.says"), soft=True)]
    for girth in result.girths:
        value = say_length(girth.girth, unit)
        says = words("proof.girth", label=girth.label, value=value)
        if girth.body:
            body = say_length(girth.body, unit)
            says = words("proof.girth.over", label=girth.label, value=value, body=body)
        lines.append(parts.say(scene.paper, says))
    for figure in result.draft.figures:
        value = say_length(figure.value, unit)
        lines.append(parts.say(scene.paper, words("proof.girth", label=figure.label, value=value)))
    kind = result.ready.body.kind
    if result.told:
        names = ", ".join(lower_first(MEASURES[name].label_for(kind)) for name in result.told)
        lines.append(parts.say(scene.paper, words("proof.by_garment", names=names), soft=True))
    if result.estimates:
        names = ", ".join(lower_first(MEASURES[each.measure].label_for(kind)) for each in result.estimates)
        lines.append(parts.say(scene.paper, words("proof.estimated", names=names), soft=True))
    return lines


def _buy(layout: Layout, result: Result, unit: Unit) -> str:
    bought = length_to_buy(layout, result.ready.cloth, unit)
    return words("proof.buy", amount=say_bought(bought.buy, unit), width=say_length(bought.width, unit))


def _layout(scene: Scene, result: Result, unit: Unit) -> ft.Control | None:
    if result.layout is None or result.outcome == "stop":
        return None
    layout = result.layout
    high = min(_HIGH, scene.room * layout.length / layout.laid_width + _ROUND)
    return laid_cloth(
        scene, layout, result.draft.pieces, result.ready.cloth, unit, identifier="cloth-layout",
        says=cloth_heard(words("lay.drawn", way=way_name(result.layout.way), length=say_laid(result.layout.length, unit)), result.layout, result.draft.pieces, result.ready.tape), height=scene.beside[1] if scene.wide else high, beside=scene.wide,
    )  # fmt: skip

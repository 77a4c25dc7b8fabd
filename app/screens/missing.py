"""What keeps a draft from being made, as one calm list: what is missing, and apart from it what cannot be right."""

from collections.abc import Callable, Sequence

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene
from app.state import Kind, Place
from app.text import words
from app.typed import NEEDED_CLOTH, sentence
from drafting.person.measures import MEASURES
from drafting.problems import Problem

MISSING = "_missing"
"""How the code of a problem ends that only says that nothing was typed."""


def missing_list(
    scene: Scene, problems: Sequence[Problem], kind: Kind, page_of: Callable[[str], int]
) -> list[ft.Control]:
    """The lists for the problems that refuse, each line leading to its field; `page_of` knows a measure's page."""
    refused = [problem for problem in problems if problem.severity == "refuse"]
    found: list[ft.Control] = []
    for what in ("missing", "wrong"):
        lines = [
            parts.ToDo(f"mend-{index}", _words(problem, kind, what), _way(scene, problem.field, page_of))
            for index, problem in enumerate(refused)
            if problem.code.endswith(MISSING) == (what == "missing")
        ]
        if lines:
            title = words(f"missing.{what}")
            found.append(parts.to_do_list(scene.paper, identifier=f"list-{what}", title=title, lines=lines))
    return found


def _words(problem: Problem, kind: Kind, what: str) -> str:
    if problem.field == "garment":
        return words("missing.garment")
    label = _label(problem.field, kind)
    if what == "missing":
        return label or sentence(problem)
    return words("missing.line", label=label, says=sentence(problem)) if label else sentence(problem)


def _label(field: str, kind: Kind) -> str:
    """What a field is called on its screen; empty for those that name themselves in the problem's sentence."""
    folder, _, name = field.partition(".")
    measure = name.removeprefix("measures.")
    if measure in MEASURES:
        return MEASURES[measure].label_for(kind)
    if folder == "cloth" and name in NEEDED_CLOTH:
        return words(f"cloth.{name}.label")
    if field == "cloth.kind":
        return words("cloth.kind")
    return {"person": words("person.choose"), "person.age": words("person.age")}.get(field, "")


def _way(scene: Scene, field: str, page_of: Callable[[str], int]) -> Callable[[], None]:
    """What a line does: go to the screen of the field, and on to the field itself."""
    folder, _, name = field.partition(".")
    at = scene.state.place
    if folder == "person":
        measure = name.removeprefix("measures.")
        known = measure in MEASURES
        place = Place("person", at.garment, at.person, page_of(measure) if known else 0)
        box = f"measure-{measure}" if known else name.replace("_", "-")
    elif folder == "garment":
        place, box = Place("which", at.garment), ""
    elif folder in ("cloth", "tape"):
        place, box = Place("cloth", at.garment), field.replace(".", "-").replace("_", "-")
    else:
        place, box = Place("shape", at.garment), f"{name}-length".replace(".", "-")

    def go() -> None:
        scene.send(act.Go(place))
        if scene.hand is not None and box:
            scene.hand.lead_to(box)

    return go

"""Draws the outlines of eight bodies in every style, to be looked at.

`build/look [--garment NAME] [--only WORD] [--out FOLDER]`; of the first garment it draws every value of every key, of
another one its cases, every piece beside the others. One sheet a style, eight bodies on it at about one tenth, into
out/look: `look.pdf` and a picture of each sheet. Beside each outline stand its main numbers, what was adjusted, and the
checks that warn or stop.
"""

import argparse
import itertools
import shutil
import subprocess
import sys
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

import environment

if TYPE_CHECKING:
    from drafting.contract.set_out import SetOut
    from drafting.render.pdf import Paper

Settings = dict[str, Any]

CLOTH: Settings = {"width": 150, "stretch_across": 40, "stretch_along": 20}

#: Every value of every key of a style at least once, then some together. A second part changes the cloth.
STYLES: list[tuple[Settings, Settings]] = [
    *[({**style}, {}) for style in (
        {}, {"fit": "close"}, {"fit": "loose"},
        {"neck_height": 6}, {"neck_height": 22, "neck_layers": "folded"}, {"neck_height": 0}, {"neck_height": 3},
        {"neck_half_width": 12}, {"neck_lean": 15}, {"neck_slant": 12}, {"neck_slant": 6, "neck_slant_side": "right"},
        {"neck_lean": 10, "neck_slant": 8}, {"neck_opening": "centre_back"},
        {"neck_opening": "centre_back", "neck_height": 0},
        {"shoulder_slope": 12}, {"shoulder_slope": 28}, {"shoulder_drop": 4},
        {"overarm_angle": 0}, {"overarm_angle": 10}, {"overarm_angle": 30}, {"overarm_angle": 30, "shoulder_slope": 12},
        {"overarm_angle": 0, "shoulder_slope": 28},
        {"sleeve_length": "elbow"}, {"sleeve_length": 5}, {"sleeve_length": 10}, {"sleeve_length": 15},
        {"sleeve_length": 20}, {"sleeve_length": 10, "overarm_angle": 0}, {"sleeve_length": 10, "overarm_angle": 30},
        {"sleeve_length": "elbow", "flare": "bell"}, {"sleeve_length": 20, "flare": "slight"},
        {"narrowest_at": 0.35}, {"narrowest_at": 0.5}, {"narrowest_at": 0.7}, {"narrowest_at": 1},
        {"narrowest_girth": 30}, {"flare": "slight"}, {"flare": "bell"}, {"flare": "wide"}, {"flare": 55},
        {"flare": "slight", "narrowest_at": 0.35}, {"flare": "bell", "narrowest_at": 0.7},
        {"flare": "wide", "narrowest_at": 0.35, "overarm_angle": 0}, {"flare": "wide", "overarm_angle": 30},
        {"underarm": "deep"}, {"underarm": "deep", "underarm_above_waist": 5, "flare": "bell"},
        {"underarm": "deep", "overarm_angle": 0, "flare": "slight"}, {"underarm": "deep", "body": "pegged"},
        {"body": "flared"}, {"body": "pegged"}, {"body": "flared", "length": "ankle"}, {"hem_girth": 160},
        {"hem_girth": 240, "length": "ankle", "flare": "wide", "overarm_angle": 0},
        {"length": "hip"}, {"length": "mid_thigh"}, {"length": "mid_calf"}, {"length": "ankle"}, {"length": 52},
        {"length": "hip", "body": "flared"}, {"length": "hip", "body": "pegged"},
        {"length": "mid_calf", "body": "pegged", "slit": "none"}, {"slit": 20}, {"ease_bust": 14, "ease_waist": 30},
        {"ease_bust": -2, "ease_hip": 20}, {"allowances": {"shoulder": 2.5, "side": 2.5, "hem": 5, "sleeve_end": 4}},
        {"allowances": {"shoulder": 0.5, "side": 0.5, "hem": 1, "sleeve_end": 1, "neck_top": 2.5}, "flare": "bell"},
        {"fit": "loose", "neck_height": 0, "sleeve_length": 10, "length": "hip", "body": "flared"},
        {"fit": "close", "neck_lean": 15, "flare": "wide", "body": "pegged", "length": "ankle"},
    )],
    ({"flare": "bell"}, {"shrink_across": 10, "shrink_along": 10}),
    ({"body": "flared", "neck_lean": 15}, {"shrink_across": 10, "shrink_along": 0}),
    ({"neck_height": 0, "sleeve_length": 10}, {"shrink_across": 0, "shrink_along": 10}),
    ({"fit": "close"}, {"stretch_across": 10, "stretch_along": 5}),
    ({"neck_height": 0}, {"stretch_across": 10, "stretch_along": 5}),
    ({"flare": "slight"}, {"stretch_across": 100, "stretch_along": 80}),
]  # fmt: skip

SHEET = (420.0, 372.0)  # mm of paper
CELL = (105.0, 180.0)
SCALE = 11.5
DOTS_A_MM = 3.8


def named(style: Settings, cloth: Settings) -> str:
    """One line for a style and what is special about its cloth."""
    return ", ".join(f"{key} {value}" for key, value in {**style, **cloth}.items()) or "as it comes"


FIRST = "cut_in_one"


@cache
def bodies(garment: str) -> dict[str, Settings]:
    """The eight bodies that the tests draft too, each with its measures beside kind and age.

    What a garment cannot do without and was not measured is as estimated, so that every body is drawn.
    """
    sys.path.insert(0, str(environment.ROOT / "tests" / "drafting"))
    known = import_module("bodies")
    people = {name: known.measured_for(person, garment) for name, person in known.BODIES.items()}
    return {
        name: {**{key: value for key, value in person.items() if key != "measures"}, **person["measures"]}
        for name, person in people.items()
    }


def styles_of(garment: str) -> list[tuple[Settings, Settings]]:
    """Every style to be drawn, with what is special about its cloth."""
    from drafting.garments import garments

    if garment == FIRST:
        return STYLES
    return [(dict(case.style), dict(case.cloth)) for case in garments()[garment].cases.values()]


def set_out(name: str, body: Settings, style: Settings, cloth: Settings) -> "tuple[SetOut | None, str]":
    """A draft, or the line that refuses it."""
    from drafting.cloth import Cloth, read_cloth
    from drafting.contract.chalked_line import ChalkedLine
    from drafting.garments import garments
    from drafting.person.measures import Person, read_person

    garment = garments()[name]
    measures = {key: value for key, value in body.items() if key not in {"kind", "age"}}
    person = Person(kind=body["kind"], age=body.get("age"), unit="cm", measures=measures)
    read, problems = read_person(person, garment.required_of(person.kind))
    facts, more = read_cloth(Cloth(**{**CLOTH, **cloth}, kind=garment.cloths[0]), "cm", garment.cloths)
    if read is None or facts is None:
        return None, "; ".join(problem.line() for problem in (*problems, *more))
    choices, problems = garment.read_style(garment.style(**style), "cm", read)
    if choices is None:
        return None, "; ".join(problem.line() for problem in problems)
    return garment.set_out(read, choices, facts, ChalkedLine()), ""


def cell(paper: "Paper", x: float, y: float, name: str, style: Settings, cloth: Settings, garment: str = FIRST) -> None:
    """One body: outline and words."""
    from drafting import checks

    draft, refusal = set_out(garment, bodies(garment)[name], style, cloth)
    paper.words(x + 2, y + 4, name, 9, strong=True)
    lines = [refusal]
    if draft is not None:
        facts = draft.facts
        shown = (
            ("underarm_radius", "R"),
            ("turn_radius", "turn"),
            ("gap", "gap"),
            ("arm_lift", "lift"),
            ("slit", "slit"),
        )
        numbers = " ".join(f"{word} {facts[key] / 10:.1f}" for key, word in shown if facts.get(key, 9e9) < 9e8)
        moved = "; ".join(
            f"{a.what} {a.before:.1f} to {a.after:.1f}"
            if a.unit != "mm"
            else f"{a.what} {a.before / 10:.1f} to {a.after / 10:.1f}"
            for a in draft.adjusted
        )
        judged = [c for c in checks.judge(draft, "cm") if c.result in {"warn", "stop"}]
        told = "; ".join(f"{c.result.upper() if c.result == 'stop' else c.result} {c.id}" for c in judged)
        lines = [numbers, moved, told]
        if draft.pieces:
            paper.draw(outline(draft) if garment == FIRST else beside(draft), x + 5, y + 20)
    at = y + 7.5
    for line in lines:
        for row in paper.wrapped(line, CELL[0] - 4, 5.5)[:3]:
            paper.words(x + 2, at, row, 5.5)
            at += 2.3


def outline(draft: "SetOut") -> Any:
    """Front with every mark, and the neck of the back where it differs, in mm of cloth."""
    from drafting.drawing.piece import Drawing, Stroke
    from drafting.geometry.point import Point

    front, back = draft.pieces
    lines = [
        Stroke(front.cut_line, "cut"), Stroke(front.stitch_line, "stitch"),
        Stroke((Point(0, 0), Point(0, front.cut_line[-1].y)), "fold"),
    ]  # fmt: skip
    if back.cut_line != front.cut_line:
        # The back has its own origin; it is laid on the front's side-neck level.
        down = Point(0, front.zero - back.zero)
        lines += [Stroke(tuple(p + down for p in run), "level") for run in (back.cut_line, back.stitch_line)]
    for y in (level.down for level in front.levels):
        lines.append(Stroke((Point(0, y), Point(120, y)), "level"))
    lines += [Stroke((notch.inner, notch.outer + (notch.outer - notch.inner)), "notch") for notch in front.notches]
    lines += [Stroke(clip, "clip") for clip in front.clips]
    for anchor in front.anchors:
        size = 5.0
        corners = ((-size, -size), (size, -size), (size, size), (-size, size))
        lines.append(Stroke(tuple(anchor.point + Point(*corner) for corner in corners), "mark", closed=True))
    lines.extend(Stroke(guide.line, "guide") for guide in back.guides)
    for a, b in itertools.pairwise(front.trim):
        lines.append(Stroke((a, b), "trim"))
    return Drawing(tuple(lines), front.width, front.height, scale=SCALE)


def beside(draft: "SetOut") -> Any:
    """Every piece with its marks and its 0, one beside the other, in mm of cloth."""
    from drafting.drawing.piece import Drawing, Stroke
    from drafting.geometry.point import Point

    lines: list[Any] = []
    right = low = 0.0
    for piece in draft.pieces:
        aside = Point(right, 0.0)

        def run(points: Any, role: Any, *, aside: Point = aside, closed: bool = False) -> Stroke:
            return Stroke(tuple(point + aside for point in points), role, closed=closed)

        lines += [run(piece.cut_line, "cut"), run(piece.stitch_line, "stitch")]
        lines += [run((piece.cut_line[0], piece.cut_line[-1]), "fold")] if piece.on_fold else []
        lines += [run((notch.inner, notch.outer + (notch.outer - notch.inner)), "notch") for notch in piece.notches]
        lines += [run(guide.line, "guide") for guide in piece.guides]
        for place in (Point(0.0, 0.0), *(anchor.point for anchor in piece.anchors)):
            corners = (Point(-5, -5), Point(5, -5), Point(5, 5), Point(-5, 5))
            lines.append(run((place + corner for corner in corners), "mark", closed=True))
        right, low = right + piece.width + 40.0, max(low, piece.height)
    return Drawing(tuple(lines), right, low, scale=max(SCALE, right / (CELL[0] - 10), low / (CELL[1] - 25)))


def look(folder: Path, only: str, garment: str = FIRST) -> None:
    """Draws every sheet and a picture of each."""
    import pypdfium2

    from drafting.render.pdf import Paper

    chosen = [(style, cloth) for style, cloth in styles_of(garment) if only in named(style, cloth)]
    paper = Paper(SHEET, "Outlines to look at")
    for style, cloth in chosen:
        paper.add_page()
        paper.words(5, 7, named(style, cloth), 13, strong=True)
        for index, name in enumerate(bodies(garment)):
            cell(paper, index % 4 * CELL[0], 10 + index // 4 * CELL[1], name, style, cloth, garment)
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    whole = folder / "look.pdf"
    whole.write_bytes(paper.finish())
    document = pypdfium2.PdfDocument(whole)
    for number, (style, cloth) in enumerate(chosen, 1):
        words = "-".join("".join(c if c.isalnum() else " " for c in named(style, cloth)).split())[:60]
        picture = document[number - 1].render(scale=DOTS_A_MM * mm_a_point())
        picture.to_pil().save(folder / f"{number:02d}-{words}.png")
    print(f"{len(chosen)} styles on {len(bodies(garment))} bodies are in {folder}")


def mm_a_point() -> float:
    """Millimetres in a point, from the one module that knows inches."""
    from drafting.units import INCH

    return INCH / 72


def main() -> int:
    """Draws inside the project's own environment, going there first when called from outside."""
    reader = argparse.ArgumentParser(prog="build/look", description="Draw eight bodies in every style.")
    reader.add_argument("--garment", default=FIRST, help="the garment, by the name of its folder")
    reader.add_argument("--only", default="", help="only styles whose line holds this")
    reader.add_argument("--out", type=Path, default=environment.ROOT / "out" / "look")
    reader.add_argument("--inside", action="store_true", help=argparse.SUPPRESS)
    chosen = reader.parse_args()
    if chosen.inside:
        look(chosen.out, chosen.only, chosen.garment)
        return 0
    command = [str(environment.ensure("test")), str(Path(__file__)), "--inside", "--only", chosen.only,
               "--garment", chosen.garment, "--out", str(chosen.out.resolve())]  # fmt: skip
    return subprocess.run(command, env=environment.surroundings(), check=False).returncode


if __name__ == "__main__":
    raise SystemExit(main())

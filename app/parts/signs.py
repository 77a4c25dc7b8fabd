"""Our own small signs, drawn as lines on a grid of 24: no font of icons is needed."""

import re
from functools import cache
from typing import Final

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint

#: M move, L line, C curve, Z close; O an oval by its box: left, top, width, height.
SIGNS: Final[dict[str, str]] = {
    "back": "M14.5 5 L7.5 12 L14.5 19",
    "forward": "M9.5 5 L16.5 12 L9.5 19",
    "space": "M4 10 L4 15.5 L20 15.5 L20 10",
    "erase": "M8.5 5.5 L20.5 5.5 L20.5 18.5 L8.5 18.5 L3 12 Z M11.2 9.2 L16.8 14.8 M16.8 9.2 L11.2 14.8",
    "close": "M6 6 L18 18 M18 6 L6 18",
    "more": "M5.5 9 L12 15.5 L18.5 9",
    "less": "M5.5 15 L12 8.5 L18.5 15",
    "edit": "M4 20 L5 15.4 L15.4 5 L19 8.6 L8.6 19 Z M12.9 7.5 L16.5 11.1",
    "copy": "M9 8 L19 8 L19 20 L9 20 Z M15 4 L5 4 L5 16",
    "delete": "M5 7 L19 7 M9 7 L9.6 4 L14.4 4 L15 7 M6.8 7 L7.8 20 L16.2 20 L17.2 7 "
    "M10.4 11 L10.7 16.4 M13.6 11 L13.3 16.4",
    "add": "M12 5 L12 19 M5 12 L19 12",
    "minus": "M5 12 L19 12",
    "check": "M4.5 12.5 L9.8 17.8 L19.5 6.8",
    "undo": "M9 4.5 L4.5 9 L9 13.5 M4.5 9 L14 9 C17.8 9 20 11.6 20 14.2 C20 16.9 17.8 19 15 19 L9.5 19",
    "fit": "M4 9 L4 4 L9 4 M15 4 L20 4 L20 9 M20 15 L20 20 L15 20 M9 20 L4 20 L4 15",
    "dots": "O3.5 10.5 3 3 O10.5 10.5 3 3 O17.5 10.5 3 3",
    "settings": "M4 7.5 L12 7.5 M16.5 7.5 L20 7.5 M4 16.5 L7.5 16.5 M12 16.5 L20 16.5 "
    "O12 5.2 4.5 4.5 O7.5 14.2 4.5 4.5",
    "save": "M12 4 L12 15.5 M7 10.8 L12 15.8 L17 10.8 M5 20 L19 20",
    "print": "M7 9 L7 4 L17 4 L17 9 M7 17 L4.5 17 L4.5 9 L19.5 9 L19.5 17 L17 17 M7 14 L17 14 L17 20.5 L7 20.5 Z",
    "share": "M12 15 L12 4.5 M7.5 8.5 L12 4 L16.5 8.5 M8 11 L5.5 11 L5.5 20 L18.5 20 L18.5 11 L16 11",
    "list": "M8.5 6 L20 6 M8.5 12 L20 12 M8.5 18 L20 18 M4 6 L4.6 6 M4 12 L4.6 12 M4 18 L4.6 18",
    "turn": "M19 12 C19 15.9 15.9 19 12 19 C8.1 19 5 15.9 5 12 C5 8.1 8.1 5 12 5 C14.7 5 16.6 6.2 18 8.2 "
    "M18.6 3.6 L18.3 8.5 L13.4 8.2",
    "scissors": "O3.5 15.5 5 5 O15.5 15.5 5 5 M7.2 16 L17 3.5 M16.8 16 L7 3.5",
    "tape": "O3.5 4 13 13 O8 8.5 4 4 M10 17 L20.5 17 L20.5 20.5 L6 20.5 M13.5 20.5 L13.5 18.8 M17 20.5 L17 18.8",
    "sun": "O8 8 8 8 M12 2.5 L12 4.5 M12 19.5 L12 21.5 M2.5 12 L4.5 12 M19.5 12 L21.5 12 M5.3 5.3 L6.7 6.7 "
    "M17.3 17.3 L18.7 18.7 M18.7 5.3 L17.3 6.7 M6.7 17.3 L5.3 18.7",
    "moon": "M19.5 14.5 C18.4 15 17.3 15.2 16 15.2 C11.6 15.2 8.8 12.2 8.8 8 C8.8 6.7 9 5.6 9.5 4.5 "
    "C6.3 5.7 4.3 8.6 4.3 12 C4.3 16.4 7.7 19.7 12 19.7 C15.4 19.7 18.3 17.7 19.5 14.5 Z",
    "info": "O4 4 16 16 M12 11.2 L12 16.4 M12 7.6 L12 8.2",
    "sound": "M4 9.5 L8 9.5 L12.5 5.5 L12.5 18.5 L8 14.5 L4 14.5 Z M16 9 C17.5 10.5 17.5 13.5 16 15 "
    "M18.5 6.5 C21 9 21 15 18.5 17.5",
    "silent": "M4 9.5 L8 9.5 L12.5 5.5 L12.5 18.5 L8 14.5 L4 14.5 Z M16 9.5 L21 14.5 M21 9.5 L16 14.5",
    "person": "O8.5 3.5 7 7 M4.5 20.5 C4.5 15.8 7.8 13.5 12 13.5 C16.2 13.5 19.5 15.8 19.5 20.5",
}

#: What a check's result looks like: its outline, whether it is filled, and the line inside. Five different shapes.
RESULTS: Final[dict[str, tuple[str, bool, str]]] = {
    "pass": ("O3 3 18 18", False, "M7.6 12.4 L10.8 15.6 L16.4 8.8"),
    "shown": ("M4 4 L20 4 L20 20 L4 20 Z", False, "M12 11 L12 16.2 M12 7.6 L12 8.2"),
    "caution": ("M12 2 L22 12 L12 22 L2 12 Z", False, "M12 7.6 L12 13 M12 16.2 L12 16.4"),
    "warn": ("M12 3 L22 20.5 L2 20.5 Z", False, "M12 9.4 L12 14.6 M12 17.4 L12 17.6"),
    "stop": ("M8 2.5 L16 2.5 L21.5 8 L21.5 16 L16 21.5 L8 21.5 L2.5 16 L2.5 8 Z", True, "M7 12 L17 12"),
}

_STEP = re.compile(r"([MLCZO])([^MLCZO]*)")


@cache
def _parsed(drawn: str) -> tuple[tuple[str, tuple[float, ...]], ...]:
    return tuple((kind, tuple(float(n) for n in numbers.split())) for kind, numbers in _STEP.findall(drawn))


def path_of(drawn: str, scale: float = 1.0, across: float = 0.0, down: float = 0.0) -> list[cv.Path.PathElement]:
    """The elements of a path from its letters and numbers, scaled and then moved, px."""
    steps: list[cv.Path.PathElement] = []
    for kind, numbers in _parsed(drawn):
        if kind == "O":
            left, top, width, height = numbers
            steps.append(cv.Path.Oval(left * scale + across, top * scale + down, width * scale, height * scale))
            continue
        at = [n * scale + (down if index % 2 else across) for index, n in enumerate(numbers)]
        if kind == "M":
            steps.append(cv.Path.MoveTo(*at))
        elif kind == "L":
            steps.append(cv.Path.LineTo(*at))
        elif kind == "C":
            steps.append(cv.Path.CubicTo(*at))
        else:
            steps.append(cv.Path.Close())
    return steps


def sign(name: str, colour: str, size: float = 24) -> ft.Control:
    """One of our signs as lines of one weight."""
    scale = size / 24
    path = cv.Path(elements=path_of(SIGNS[name], scale), paint=line_paint(colour, max(1.5, 2 * scale)))
    return cv.Canvas(shapes=[path], width=size, height=size)


def result_sign(result: str, colour: str, inside: str, size: float = 28) -> ft.Control:
    """The sign of a check's result: told by its shape. `inside` colours the line in a filled one."""
    outline, filled, line = RESULTS[result]
    scale = size / 24
    body = path_of(outline, scale)
    paint = fill_paint(colour) if filled else line_paint(colour, 2 * scale)
    inner = line_paint(inside if filled else colour, 2.4 * scale)
    drawn: list[cv.Shape] = [cv.Path(elements=body, paint=paint), cv.Path(elements=path_of(line, scale), paint=inner)]
    return cv.Canvas(shapes=drawn, width=size, height=size)

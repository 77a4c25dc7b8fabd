"""One screen a file: a function from the scene to controls."""

from collections.abc import Callable

import flet as ft

from app.screens.backup import backup
from app.screens.chalk import chalk
from app.screens.chalk_keys import chalk_key
from app.screens.cloth import cloth
from app.screens.erase import erase
from app.screens.home import home
from app.screens.lay import lay
from app.screens.notes import notes
from app.screens.paper import paper
from app.screens.person import person
from app.screens.proof import proof
from app.screens.scene import Scene
from app.screens.sew import sew
from app.screens.shape import shape
from app.screens.trouble import trouble
from app.screens.which import which
from app.state import Screen

__all__ = ["ALL", "Scene", "chalk_key", "trouble"]

ALL: dict[Screen, Callable[[Scene], ft.Control]] = {
    "home": home,
    "backup": backup,
    "erase": erase,
    "which": which,
    "person": person,
    "shape": shape,
    "cloth": cloth,
    "proof": proof,
    "lay": lay,
    "chalk": chalk,
    "paper": paper,
    "sew": sew,
    "notes": notes,
}

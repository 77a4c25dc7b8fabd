"""Trouble: a calm page after an unexpected failure, with a report that can be copied."""

import flet as ft

from app import actions as act
from app import parts
from app.parts.named import as_one, named
from app.screens.scene import Scene
from app.text import words


def trouble(scene: Scene, report: str) -> ft.Control:
    """What is said when something failed that should not. Uses few parts, since one of them may have failed."""
    look = scene.paper
    copy = ft.OutlinedButton(
        content=ft.Text(words("trouble.copy"), color=look.ink), action=ft.CopyToClipboard(report), height=48
    )
    children: list[ft.Control] = [
        ft.Semantics(
            header=True, heading_level=1, content=parts.say(look, words("trouble.title"), size=28, strong=True)
        ),
        parts.say(look, words("trouble.safe"), size=20),
        parts.say(look, words("trouble.says")),
        as_one("report", ft.Text(report, size=14, color=look.soft, selectable=True), label=words("trouble.report")),
        ft.Row([named("copy-report", copy)]),
        parts.primary_button(
            look, words("trouble.home"), lambda: scene.send(act.LeaveTrouble()), identifier="leave-trouble"
        ),
    ]
    column = ft.Column(children, spacing=16, width=min(scene.width - 32, 560), scroll=ft.ScrollMode.AUTO)
    return named("screen-trouble", ft.SafeArea(ft.Container(column, padding=16, alignment=ft.Alignment.TOP_CENTER)))

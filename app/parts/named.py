"""A name that readers of the screen and tests find a control by."""

import flet as ft


@ft.control("Semantics")  # type: ignore[arg-type] # typed for a class that has not been made one yet
class Described(ft.Semantics):
    """Semantics with what the client knows by other names than Flet sends.

    A description beside the name is `hint`, which Flet sends as `hint_text`; a tap of a reader of the screen is
    `click`, where Flet listens for `tap`.
    """

    hint: str | None = None
    on_click: ft.ControlEventHandler["Described"] | None = None


def named(identifier: str, control: ft.Control, label: str | None = None, *, expand: bool | None = None) -> ft.Control:
    """The control with its name; `label` is read out where the control has no words of its own."""
    return ft.Semantics(identifier=identifier, label=label, content=control, expand=expand)


def alone(control: ft.Control) -> ft.Control:
    """The control said by itself, where its words would else run into those beside it."""
    return ft.Semantics(container=True, content=control)


def unsaid(control: ft.Control) -> ft.Control:
    """The control for the eyes only, where a label around it says more."""
    return ft.Semantics(exclude_semantics=True, content=control)


def as_one(identifier: str, control: ft.Control, label: str | None = None, *, expand: bool | None = None) -> ft.Control:
    """The control and its name as one thing to a reader of the screen: a button or a field with its label."""
    return ft.MergeSemantics(content=named(identifier, control, label), expand=expand)

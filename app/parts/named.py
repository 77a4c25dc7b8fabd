"""A name that readers of the screen and tests find a control by."""

import flet as ft


def named(identifier: str, control: ft.Control, label: str | None = None, *, expand: bool | None = None) -> ft.Control:
    """The control with its name; `label` is read out where the control has no words of its own."""
    return ft.Semantics(identifier=identifier, label=label, content=control, expand=expand)


def as_one(identifier: str, control: ft.Control, label: str | None = None, *, expand: bool | None = None) -> ft.Control:
    """The control and its name as one thing to a reader of the screen: a button or a field with its label."""
    return ft.MergeSemantics(content=named(identifier, control, label), expand=expand)

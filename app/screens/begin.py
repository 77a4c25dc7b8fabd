"""The foot of Proof and Lay: the button that begins chalking, or where it is mended when it cannot be chalked like this."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene
from app.state import Drafted, GarmentRecord, Screen
from app.text import words
from app.theme import SMALL
from drafting.problems import Check


def begin(scene: Scene, garment: GarmentRecord, drafted: Drafted) -> list[ft.Control]:
    """What moves the work on from here; one of them is bright at most, and it is never one that must not be tapped."""
    look, result = scene.paper, drafted.result
    if garment.chalking or result is None or (result.outcome != "stop" and not no_cloth(drafted)):
        start = parts.primary_button(
            look, words("proof.go_on" if garment.chalking else "proof.chalk"),
            lambda: scene.send(act.StartChalking(garment.id)), identifier="start-chalking",
            enabled=garment.chalking or (result is not None and result.plan is not None), busy=scene.state.busy,
        )  # fmt: skip
        return [start] if garment.chalking else [_note(scene, words("proof.begin")), start]
    stops = [check for check in result.checks if check.result == "stop"]
    keys = [key for check in stops for way in check.ways_out[:1] for key, _ in way.changes[:1]]
    to: Screen = "shape" if stops and not (keys and keys[0].startswith("cloth.")) else "cloth"
    foot = [
        _note(scene, words(f"proof.mend.{to}.says")),
        parts.primary_button(look, words(f"proof.mend.{to}"), scene.go(to), identifier="mend", busy=scene.state.busy),
    ]
    if result.plan is not None:
        foot.append(parts.quiet_button(
            look, words("proof.chalk_still"), lambda: scene.send(act.StartChalking(garment.id)),
            identifier="start-chalking", enabled=not scene.state.busy, wide=True,
        ))  # fmt: skip
    return foot


def verdict(drafted: Drafted) -> str:
    """The one sentence on whether this garment can be made of this cloth; that it is being drafted until that is known."""
    result = drafted.result
    if result is not None and result.outcome == "stop":
        return words("proof.stop")
    if result is None or not drafted.laid:
        return words("proof.waiting")
    if no_cloth(drafted):
        return words("proof.no_cloth")
    return words("proof.warn") if result.outcome == "warn" else words("proof.pass")


def no_cloth(drafted: Drafted) -> bool:
    """Whether it was tried to lay the pieces, and they do not go on the cloth."""
    return drafted.laid and drafted.result is not None and drafted.result.layout is None


def of_cloth(check: Check) -> bool:
    """Whether a check judges the cloth: another cloth is among its ways out."""
    return any(key.startswith("cloth.") for way in check.ways_out for key, _ in way.changes)


def _note(scene: Scene, text: str) -> ft.Control:
    return parts.alone(parts.say(scene.paper, text, size=SMALL, soft=True, align=ft.TextAlign.CENTER))

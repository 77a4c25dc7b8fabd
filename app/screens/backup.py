"""Backup: save one, open one, and see what it would change before anything is changed."""

import flet as ft

from app import actions as act
from app import parts
from app.backup_words import told_first, told_of
from app.merging import Choice, Entry, Opened, choice_of, entries_of
from app.screens.scene import Scene, frame
from app.state import Place
from app.text import words
from app.theme import GRID, SMALL

CHOICES: tuple[Choice, ...] = ("here", "file", "both")


def backup(scene: Scene) -> ft.Control:
    """Everything as one file, and what a file holds."""
    opened = scene.state.opened
    return _start(scene) if opened is None else _preview(scene, opened)


def opens(scene: Scene) -> ft.Control:
    """The button that has a file chosen."""
    return parts.quiet_button(
        scene.paper, words("backup.open"), None, identifier="open-backup", icon="list",
        enabled=not scene.state.busy, wide=True, action=scene.pick,
    )  # fmt: skip


def _start(scene: Scene) -> ft.Control:
    look, busy = scene.paper, scene.state.busy
    there = bool(scene.state.book.people or scene.state.book.garments)
    children = [
        parts.say(look, words("backup.says")),
        opens(scene),
        parts.quiet_button(
            look, words("camera.open"), scene.doing(act.AskCamera()), identifier="read-camera", icon="list",
            enabled=not busy, wide=True,
        ),
        parts.say(look, words("backup.open.says"), soft=True, size=SMALL),
        *([parts.say(look, words("backup.install"), soft=True, size=SMALL)] if there else []),
        *_install(scene),
        *_kept_here(scene),
    ]
    save = parts.primary_button(
        look, words("backup.save"), scene.doing(act.AskBackup()), identifier="save-backup", enabled=there, busy=busy
    )
    return frame(scene, look, title=words("backup.title"), children=children, on_back=scene.go_home, foot=[save])


def _install(scene: Scene) -> list[ft.Control]:
    """The way to install it, under the word that a backup comes first; none where the browser has none."""
    match scene.state.installs:
        case "asks":
            return [
                parts.quiet_button(
                    scene.paper, words("backup.install.do"), scene.doing(act.AskInstall()), identifier="install",
                    icon="save", enabled=not scene.state.busy, wide=True,
                )
            ]  # fmt: skip
        case "by_hand":
            return [parts.say(scene.paper, words("backup.install.by_hand"), soft=True, size=SMALL)]
    return []


def _kept_here(scene: Scene) -> list[ft.Control]:
    """How much room all of it takes, and the way to delete it."""
    look, (used, left) = scene.paper, scene.state.room or (None, None)
    room: list[ft.Control] = []
    if used is not None:
        says = words("room.used", used=say_bytes(used)) if left is None else words(
            "room.left", used=say_bytes(used), left=say_bytes(left)
        )  # fmt: skip
        room = [parts.say(look, says, soft=True, size=SMALL)]
    return [
        parts.gap(2),
        *room,
        parts.quiet_button(
            look, words("erase.title"), scene.doing(act.Go(Place("erase"))), identifier="erase", icon="delete", wide=True
        ),
    ]


def say_bytes(count: int) -> str:
    """A number of bytes as it is read, in kilobytes, megabytes or gigabytes of a thousand each."""
    for size, name in ((1e9, "GB"), (1e6, "MB")):
        if count >= size:
            return words(f"room.{name}", count=f"{count / size:.1f}")
    return words("room.kB", count=f"{count / 1e3:.0f}")


def _preview(scene: Scene, opened: Opened) -> ft.Control:
    look, state = scene.paper, scene.state
    entries = entries_of(state, opened)
    differ = [each for each in entries if each.status == "differs"]
    children: list[ft.Control] = [
        parts.stack([parts.say(look, each) for each in told_first(opened.backup, entries)], GRID)
    ]
    if differ:
        children += [
            parts.heading(look, words("backup.differ")),
            parts.say(look, words("backup.differ.says"), soft=True),
            *(_choice(scene, opened, each) for each in differ),
        ]
    nothing = all(choice_of(each, opened.choices) == "here" for each in entries)
    if nothing:
        children.append(parts.say(look, words("backup.nothing"), soft=True))
    leave = parts.quiet_button(
        look, words("backup.leave"), scene.doing(act.LeaveBackup()), identifier="leave-backup", wide=True
    )
    take = parts.primary_button(
        look, words("backup.take"), scene.doing(act.TakeOver()), identifier="take-over",
        enabled=not nothing and not state.locked,
    )  # fmt: skip
    return frame(
        scene, look, title=words("backup.title"), children=[*children, leave],
        on_back=scene.doing(act.LeaveBackup()), foot=[take], scroll_key="opened",
    )  # fmt: skip


def _choice(scene: Scene, opened: Opened, entry: Entry) -> ft.Control:
    """One record that differs, with what is to be kept of it."""
    look = scene.paper
    told = told_of(entry, scene.state.book, opened.backup)
    can = CHOICES if entry.kind != "settings" else CHOICES[:2]

    def choose(value: str) -> None:
        scene.send(act.ChooseKept(entry.kind, entry.key, next(each for each in can if each == value)))

    return parts.choices(
        look, identifier=f"keep-{entry.kind}-{entry.key}", label=told.name, how=told.says,
        options=[parts.Option(each, words(f"backup.choice.{each}")) for each in can],
        chosen=choice_of(entry, opened.choices), on_choose=choose,
    )  # fmt: skip

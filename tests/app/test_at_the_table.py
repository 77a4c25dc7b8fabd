"""What the effects answer when a text is to be read aloud, or the screen kept awake; and an old book still opens."""

import asyncio
import json

import pytest

from app import actions as act
from app import asks
from app.actions import Action
from app.effects import Effects
from app.page_table import Heard
from app.saved import read, text_of
from app.state import Settings, State
from app.storage import MemoryStore


class Table:
    """A device with a voice or without, whose screen stays awake or not."""

    def __init__(self, heard: Heard, awake: bool) -> None:
        self.heard, self.awake = heard, awake
        self.asked: list[object] = []

    async def speak(self, text: str) -> Heard:
        self.asked.append(text)
        return self.heard

    async def stay_awake(self, on: bool) -> bool:
        self.asked.append(on)
        return self.awake


@pytest.mark.parametrize(
    ("ask", "heard", "awake", "told"),
    [
        (asks.Speak("one"), "spoken", True, []),
        (asks.Speak("one"), "no_voice", True, [act.NotSpoken("no_voice")]),
        (asks.Speak("one"), "not_here", True, [act.NotSpoken("not_here")]),
        (asks.Speak(""), "not_here", True, []),
        (asks.StayAwake(True), "spoken", True, []),
        (asks.StayAwake(True), "spoken", False, [act.NotAwake()]),
        (asks.StayAwake(False), "spoken", False, []),
    ],
)
def test_what_could_not_be_done_is_told(ask: asks.Ask, heard: Heard, awake: bool, told: list[Action]) -> None:
    device, sent = Table(heard, awake), list[Action]()

    async def run() -> None:
        Effects(MemoryStore(), device, State, sent.append).do(ask)  # type: ignore[arg-type]
        await asyncio.sleep(0.01)

    asyncio.run(run())
    assert sent == told
    assert device.asked == [ask.text if isinstance(ask, asks.Speak) else ask.on]  # type: ignore[attr-defined]


def test_a_book_of_an_earlier_app_reads_nothing_aloud() -> None:
    saved = json.loads(text_of(Settings()))
    assert not {"aloud", "awake_told"} & set(saved["settings"])
    settings = read("book", json.dumps(saved))
    assert isinstance(settings, Settings)
    assert (settings.aloud, settings.awake_told) == (False, False)

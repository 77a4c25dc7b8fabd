"""One tab without a screen: a state, the effects on a store, and a clock of our own that never waits."""

import asyncio
import selectors
from collections.abc import Coroutine, Mapping
from typing import Any, TypeVar

from app import asks
from app.actions import Action
from app.effects import Effects
from app.state import State
from app.storage import Store
from app.update import start, update

Value = TypeVar("Value")
SAVING = (asks.Load, asks.LoadFrozen, asks.SaveBook, asks.SaveNow, asks.SavePlace, asks.RemoveFrozen, asks.EraseAll)
"""What is asked of the store. The rest is another test's."""


class _Jumping(selectors.SelectSelector):
    """Where there is nothing to do before a time, it is that time."""

    def __init__(self) -> None:
        super().__init__()
        self.now = 0.0

    def select(self, timeout: float | None = None) -> Any:
        self.now += timeout or 0.0
        return super().select(0)


class _Loop(asyncio.SelectorEventLoop):
    def __init__(self) -> None:
        self.clock = _Jumping()
        super().__init__(self.clock)

    def time(self) -> float:
        return self.clock.now


def run(work: Coroutine[Any, Any, Value]) -> Value:
    """Run to the end, as fast as it goes: a wait of an hour is over at once."""
    with asyncio.Runner(loop_factory=_Loop) as runner:
        return runner.run(work)


class Tab:
    """One tab of the app. `put` is the only way to its state, as `Desk.send` is in the app."""

    def __init__(self, store: Store) -> None:
        self.state = State()
        self.effects = Effects(store, None, lambda: self.state, self.put)  # type: ignore[arg-type]

    def put(self, action: Action) -> None:
        """Something happens."""
        self.state, asked = update(self.state, action)
        for each in asked:
            if isinstance(each, SAVING):
                self.effects.do(each)

    async def open(self, route: str = "/") -> "Tab":
        """Open the app, and wait until it has read what is kept."""
        self.state, asked = start(route)
        for each in asked:
            self.effects.do(each)
        await self.quiet()
        return self

    async def quiet(self) -> None:
        """Wait until nothing is under way."""
        while self.effects._tasks:
            await asyncio.gather(*self.effects._tasks, return_exceptions=True)

    async def killed(self) -> None:
        """The page is gone: what is under way ends where it stands."""
        for task in list(self.effects._tasks):
            task.cancel()
        await self.quiet()


async def fill(store: Store, records: Mapping[str, str]) -> None:
    """Keep these records, each as its first revision."""
    for key, text in records.items():
        assert await store.save(key, text, 0) == 1

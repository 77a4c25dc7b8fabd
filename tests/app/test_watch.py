"""A screen that waits for work is told from one that fails to be drawn, on a loop and a clock of the test's own."""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from app import watch
from app.main import RENDER_WITHIN, Desk
from app.storage import MemoryStore
from app.watch import BEAT, LATE, Watch


class Timer:
    def __init__(self, at: float, call: Callable[[], None]) -> None:
        self.at, self.call, self.gone = at, call, False

    def cancel(self) -> None:
        self.gone = True


class Loop:
    """As much of an event loop as is asked for; its clock is put forward by hand."""

    def __init__(self) -> None:
        self.now = 50.0
        self.timers: list[Timer] = []

    def time(self) -> float:
        return self.now

    def call_later(self, after: float, call: Callable[..., None], *given: Any) -> Timer:
        self.timers.append(Timer(self.now + after, lambda: call(*given)))
        return self.timers[-1]

    def free(self, seconds: float) -> None:
        """What falls due is called in time."""
        end = self.now + seconds
        while due := [timer for timer in self.timers if not timer.gone and timer.at <= end + 1e-9]:
            first = min(due, key=lambda timer: timer.at)
            self.now = max(self.now, first.at)
            self._call(first)
        self.now = max(self.now, end)

    def busy(self, seconds: float) -> None:
        """One step of work holds everything up; what fell due meanwhile is called after it."""
        self.now += seconds
        for timer in [timer for timer in self.timers if not timer.gone and timer.at <= self.now]:
            self._call(timer)

    def _call(self, timer: Timer) -> None:
        timer.gone = True
        timer.call()


@pytest.fixture
def loop(monkeypatch: pytest.MonkeyPatch) -> Loop:
    own = Loop()
    monkeypatch.setattr(watch, "asyncio", SimpleNamespace(get_running_loop=lambda: own))
    return own


def watched(loop: Loop) -> tuple[Watch, list[float]]:
    failed: list[float] = []
    return Watch(3.0, lambda: failed.append(loop.now - 50.0)), failed


def test_what_a_free_loop_does_not_do_in_time_has_failed(loop: Loop) -> None:
    waiting, failed = watched(loop)
    waiting.begin()
    loop.free(3.0 - BEAT / 2)
    assert failed == []
    loop.free(BEAT)
    assert failed == [pytest.approx(3.0)]
    loop.free(60)
    assert len(failed) == 1, "it is told once"


def test_work_that_holds_the_loop_up_is_no_failure(loop: Loop) -> None:
    waiting, failed = watched(loop)
    waiting.begin()
    for _ in range(50):
        loop.busy(BEAT + LATE + 0.01)
    assert loop.now > 60
    assert failed == []
    waiting.end()
    loop.free(60)
    assert failed == [], "and then it was done"


def test_what_is_not_done_after_the_work_either_has_failed(loop: Loop) -> None:
    waiting, failed = watched(loop)
    waiting.begin()
    loop.busy(20)
    loop.free(3.0 - BEAT / 2)
    assert failed == []
    loop.free(BEAT)
    assert failed == [pytest.approx(23.0)]


def test_work_that_pauses_often_leaves_the_loop_free(loop: Loop) -> None:
    waiting, failed = watched(loop)
    waiting.begin()
    for _ in range(200):
        loop.busy(0.02)
    assert failed, "between its steps there was time to draw"


@pytest.mark.parametrize(("late", "counts"), [(LATE - 0.001, True), (LATE + 0.001, False)])
def test_a_beat_counts_up_to_a_limit(loop: Loop, late: float, counts: bool) -> None:
    waiting, failed = watched(loop)
    waiting.begin()
    for _ in range(30):
        loop.busy(BEAT + late)
    assert bool(failed) is counts


def test_each_waiting_has_all_the_patience(loop: Loop) -> None:
    waiting, failed = watched(loop)
    for _ in range(10):
        waiting.begin()
        loop.free(2.9)
        waiting.begin()  # asked again before it was done: the first one is still waited for
        waiting.end()
    assert failed == []
    waiting.begin()
    loop.free(2.0)
    waiting.begin()
    loop.free(1.05)
    assert len(failed) == 1


class Page:
    """As much of a page as a session asks for."""

    def __init__(self) -> None:
        self.services: list[Any] = []
        self.data: Any = None
        self.started = 0
        self.session = SimpleNamespace(connection=object(), start_updates_scheduler=self._start)

    def _start(self) -> None:
        self.started += 1


def test_a_session_says_that_a_screen_was_not_drawn_only_where_it_could_be(
    loop: Loop, capsys: pytest.CaptureFixture[str]
) -> None:
    page = Page()
    desk = Desk(page, MemoryStore())  # type: ignore[arg-type]
    asked: list[int] = []
    desk.redraw = lambda: asked.append(1)
    desk.draw()
    loop.busy(RENDER_WITHIN * 4)
    assert desk.state.trouble is None, "nothing could be drawn meanwhile"
    loop.free(RENDER_WITHIN + BEAT)
    assert desk.state.trouble is not None
    assert "was not drawn" in desk.state.trouble.report
    assert page.started == 1
    assert len(asked) == 2, "the page of trouble is drawn"
    assert "was not drawn" in capsys.readouterr().err


def test_nothing_is_said_where_nobody_looks(loop: Loop) -> None:
    page = Page()
    page.session.connection = None
    desk = Desk(page, MemoryStore())  # type: ignore[arg-type]
    desk.draw()
    loop.free(RENDER_WITHIN * 4)
    assert desk.state.trouble is None
    assert page.started == 0

"""Long work pauses often enough for a screen to answer: counted in lines of Python that are run, never by the clock."""

import sys
from collections.abc import Iterator
from types import FrameType
from typing import Any

import pytest

from drafting import checks
from drafting.garments import garments
from drafting.layout import WAYS, choice
from drafting.order import Order, _drafted, make, making
from drafting.stepwise import Steps, finished
from tests.drafting.bodies import BODIES, measured_for, order, read

#: At most this share of a whole draft is one step. Our choice.
MOST = 0.05


class Lines:
    """Counts the lines that are run; the same on every machine with the same Python."""

    def __init__(self) -> None:
        self.run = 0

    def __call__(self, frame: FrameType, event: str, told: Any) -> "Lines":
        self.run += event == "line"
        return self


def lines_of(work: Steps[Any]) -> list[int]:
    """How many lines each step of some work runs."""
    found: list[int] = []
    before = sys.gettrace()
    while True:
        lines = Lines()
        sys.settrace(lines)
        try:
            next(work)
        except StopIteration:
            return [*found, lines.run]
        finally:
            sys.settrace(before)
        found.append(lines.run)


def asked_for(garment: str, case: str = "") -> Order:
    known = garments()[garment].cases
    given = known[case] if case else next(iter(known.values()))
    person = measured_for(BODIES["median woman"], garment)
    return read(order(person, dict(given.style), dict(given.cloth), garment=garment))


@pytest.mark.parametrize("garment", sorted(garments()))
def test_no_step_of_a_draft_is_more_than_a_twentieth_of_it(garment: str) -> None:
    asked = asked_for(garment)
    make(asked, with_ways_out=False)  # what is worked out once for all is not counted
    steps = lines_of(making(asked, with_ways_out=False))
    assert max(steps) <= MOST * sum(steps), f"{max(steps) / sum(steps):.1%}"


def test_no_step_of_the_search_for_ways_out_is_more_than_a_twentieth_of_the_draft() -> None:
    asked = read(order(BODIES["tall woman"], {"sleeve_length": "elbow"}, {"width": "115 cm"}))
    make(asked, with_ways_out=False)
    steps = lines_of(making(asked))
    assert len(steps) > 200
    assert max(steps) <= MOST * sum(steps), f"{max(steps) / sum(steps):.1%}"


def counted(work: Steps[Any], seen: list[Any]) -> Iterator[int]:
    """For each step, how many things were seen in it."""
    while True:
        before = len(seen)
        try:
            next(work)
        except StopIteration:
            return
        yield len(seen) - before


@pytest.mark.parametrize("garment", sorted(garments()))
def test_every_check_is_a_step_of_its_own(garment: str, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = asked_for(garment)
    data = asked.model_dump(mode="json")
    seen: list[str] = []
    judging = [module for module in checks.rules(garment) if hasattr(module, "judge")]
    for module in judging:

        def judge(*given: Any, module: Any = module, as_it_is: Any = module.judge) -> Any:
            seen.append(module.ID)
            return as_it_is(*given)

        monkeypatch.setattr(module, "judge", judge)
    for work in (making(asked, with_ways_out=False), _drafted(data)):
        seen.clear()
        steps = list(counted(work, seen))
        assert set(steps) <= {0, 1}
        assert len(seen) >= len(judging) - 1, "all but whether the cloth is long enough, which is judged apart"


def test_every_way_of_laying_is_planned_in_a_step_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    pieces = make(asked_for("drop_shoulder"), with_ways_out=False).draft.pieces
    cloth = make(asked_for("drop_shoulder"), with_ways_out=False).ready.cloth
    planned: list[str] = []
    as_it_is = choice.plans

    def plans(pieces: Any, cloth: Any, way: str) -> Any:
        planned.append(way)
        return as_it_is(pieces, cloth, way)

    monkeypatch.setattr(choice, "plans", plans)
    steps = list(counted(choice.search(pieces, cloth, WAYS), planned))
    assert planned == list(WAYS)
    assert max(steps) == 1
    assert steps[: len(WAYS)] == [1] * len(WAYS)


def test_work_in_steps_comes_to_what_it_comes_to_at_once() -> None:
    asked = asked_for("poncho")
    told = [step.way for step in making(asked, with_ways_out=False) if isinstance(step, choice.Progress)]
    assert len(set(told)) > 1, "the search says how far it is"
    assert finished(making(asked, with_ways_out=False)) == make(asked, with_ways_out=False)

"""Ways out that are proven: each is set in the order, the order is drafted again, and only what passes is offered."""

import copy
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from drafting import checks
from drafting.contract import judging
from drafting.contract.set_out import SetOut
from drafting.problems import Check, WayOut
from drafting.stepwise import Steps
from drafting.work import Work

#: At most this many are offered for one check, so that a person can choose. Our choice.
MOST = 4


@dataclass(frozen=True, slots=True)
class Trying:
    """A step of the search for ways out of one check."""

    check: str


Judge = Callable[[dict[str, Any]], Steps[tuple[Check, ...] | None]]


def find(typed: dict[str, Any], draft: SetOut, check: Check, before: tuple[Check, ...], judge: Judge,
         words: judging.Words, work: Work) -> Steps[tuple[WayOut, ...]]:  # fmt: skip
    """The ways out of one check, best first, as the value of a generator that pauses after each try.

    `typed` is the order as plain data; `judge` drafts changed data and returns its checks, or None where it is
    refused. A way counts when its check passes and nothing stops that did not stop before. What it newly warns of is
    part of its words. Nothing more is tried when `work` is spent.
    """
    stopped = {c.id for c in before if c.result == "stop"}
    found: list[WayOut] = []
    for way in checks.ways_of(check.id, draft):
        if way.unsaid and value_at(typed, way.key) is not None:
            continue
        for value in way.values(draft):
            if value == value_at(typed, way.key):
                continue
            if work.spent():
                return tuple(found)
            changes = ((way.key, value), *way.also)
            judged = yield from judge(with_changes(typed, changes))
            yield Trying(check.id)
            if judged is not None and _passes(judged, check.id, stopped):
                does = way.says(value, words)
                found.append(WayOut(with_new_warnings(does, before, judged), changes, does))
                break
        if len(found) == MOST:
            break
    return tuple(found)


def with_new_warnings(says: str, before: Iterable[Check], after: Iterable[Check]) -> str:
    """The words of a way out, and of every warning that it brings, in whole sentences."""
    warned = {check.id for check in before if check.result in {"warn", "stop"}}
    new = [check.says for check in after if check.result == "warn" and check.id not in warned]
    if not new:
        return says
    return f"{says} It brings {'a new warning' if len(new) == 1 else 'new warnings'}: {' '.join(new)}"


def with_changes(typed: dict[str, Any], changes: Iterable[tuple[str, float | str | None]]) -> dict[str, Any]:
    """A copy of an order's plain data with several dotted keys set."""
    for key, value in changes:
        typed = changed(typed, key, value)
    return typed


def changed(typed: dict[str, Any], key: str, value: float | str | None) -> dict[str, Any]:
    """A copy of an order's plain data with one dotted key set."""
    fresh = copy.deepcopy(typed)
    place = fresh
    *folders, last = key.split(".")
    for folder in folders:
        place = place.setdefault(folder, {})
    place[last] = value
    return fresh


def value_at(typed: dict[str, Any], key: str) -> Any:
    """What an order's plain data hold at a dotted key; None where there is nothing."""
    place: Any = typed
    for part in key.split("."):
        place = place.get(part) if isinstance(place, dict) else None
    return place


def _passes(judged: tuple[Check, ...], check_id: str, stopped: set[str]) -> bool:
    # A draft that is refused for another reason shows only that reason, which then is a new stop.
    if any(c.result == "stop" and c.id not in stopped for c in judged):
        return False
    return all(c.result == "pass" for c in judged if c.id == check_id) and not (
        stopped and all(c.id in stopped for c in judged)
    )

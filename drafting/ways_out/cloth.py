"""Ways to make a garment go on its cloth, or on less of it: each is drafted, checked and laid before it is offered."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from drafting.checks import fits_cloth
from drafting.cloth import KIND_WORDS
from drafting.contract import judging
from drafting.contract.judging import Change, Changes
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.layout import EVERY_WAY, ONLY_PLAIN, Layout, say_laid, search
from drafting.problems import Check, WayOut
from drafting.stepwise import Steps
from drafting.ways_out.find import Trying, value_at, with_changes, with_new_warnings
from drafting.work import Work

#: At most this many are offered, so that a person can choose. Our choice.
MOST = 6
#: A change of the garment is worth telling from this much cloth saved, mm. Our choice.
WORTH = 50.0

Drafted = Callable[[dict[str, Any]], Steps[tuple[SetOut, tuple[Check, ...]] | None]]


@dataclass(frozen=True, slots=True)
class LaidWay:
    """One change to the order, drafted and laid: its words, the keys it sets, its layout.

    `looks` says what it costs in looks, and every warning that it brings.
    """

    says: str
    looks: str
    changes: Changes
    layout: Layout

    def way_out(self, words: judging.Words) -> WayOut:
        """As an offer beside a check, with the length of cloth it needs."""
        needs = f"It needs {say_laid(self.layout.length, words.unit)} of cloth."
        return WayOut(f"{self.says} {self.looks} {needs}", self.changes, self.says)


#: Ways for every garment; what it brings of its own comes between them. Best first: what a person sees least.
_TURNED = judging.fixed_change("Let pieces lie head to tail.", ONLY_PLAIN, plain=True, rank=0)
_LAID = {
    kind: tuple(
        judging.fixed_change(offered[0], f"{offered[1]} {ONLY_PLAIN}", ("cloth.lay", way.key), plain=True, rank=2)
        for way in EVERY_WAY
        if (offered := way.offered if kind == "knit" else way.offered_woven) is not None
    )
    for kind in KIND_WORDS
}
_WIDER = Change(
    judging.each("cloth.width", fits_cloth.widths),
    lambda changes, words: f"Take cloth {words(judging.length_of(str(changes[0][1])))} wide.",
    "Nothing changes in the garment.",
    rank=3,
)


def _ranked(*found: Change) -> list[Change]:
    return sorted(found, key=lambda change: change.rank)


def to_fit(typed: dict[str, Any], draft: SetOut, before: tuple[Check, ...], drafted: Drafted,
           words: judging.Words, work: Work) -> Steps[tuple[LaidWay, ...]]:  # fmt: skip
    """Ways out for a garment that does not go on its cloth, best first; a generator, as all here, to pause between.

    `typed` is the order as plain data, `drafted` drafts changed data and checks it (None where it is refused). A way
    counts when it can be laid, its cloth checks pass, and nothing stops that did not stop before. Wider cloth is tried
    first and stands last, because that alone leaves the garment as it is.
    """
    wider: LaidWay | None = None
    found: list[LaidWay] = []
    for attempt in (_WIDER, *_ranked(*garments()[draft.garment].to_fit, *_LAID[draft.cloth.kind])):
        for changes in attempt.changes(draft):
            if work.spent():
                break
            way = yield from _laid(typed, attempt, changes, before, drafted, words, work)
            if way is not None and attempt is _WIDER:
                wider = way
                break
            if way is not None:
                found.append(way)
                break
        if len(found) == (MOST if wider is None else MOST - 1):
            break
    return tuple(found) if wider is None else (*found, wider)


def to_save(typed: dict[str, Any], draft: SetOut, layout: Layout, before: tuple[Check, ...], drafted: Drafted,
            words: judging.Words) -> Steps[tuple[LaidWay, ...]]:  # fmt: skip
    """Changes of a garment that does go on its cloth which save at least WORTH of it, the shortest first."""
    found: list[LaidWay] = []
    for attempt in _ranked(_TURNED, *garments()[draft.garment].to_save, *_LAID[draft.cloth.kind]):
        for changes in attempt.changes(draft):
            way = yield from _laid(typed, attempt, changes, before, drafted, words, Work())
            if way is not None and way.layout.length <= layout.length - WORTH:
                found.append(way)
    return tuple(sorted(found, key=lambda way: way.layout.length))


def _laid(typed: dict[str, Any], attempt: Change, changes: Changes, before: tuple[Check, ...], drafted: Drafted,
          words: judging.Words, work: Work) -> Steps[LaidWay | None]:  # fmt: skip
    stopped = {check.id for check in before if check.result == "stop"}
    if attempt.plain:
        said = value_at(typed, "cloth.one_way")
        if said:
            return None
        changes = changes if said is False else (*changes, ("cloth.one_way", False))
    if not changes or any(value_at(typed, key) == value for key, value in changes):
        return None
    made = yield from drafted(with_changes(typed, changes))
    yield Trying("fits_cloth")
    if made is None:
        return None
    draft, judged = made
    if not draft.pieces or any(check.result == "stop" and check.id not in stopped for check in judged):
        return None
    if any(check.result != "pass" for check in judged if check.id in {"fits_cloth", "cloth_long_enough"}):
        return None
    found = yield from search(draft.pieces, draft.cloth, only="cheapest", work=work)
    if work.spent():
        return None  # the search was cut short, so that the length it needs is not known
    looks = with_new_warnings(attempt.looks, before, judged)
    return LaidWay(attempt.says(changes, words), looks, changes, found[0]) if found else None

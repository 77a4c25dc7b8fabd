"""Ways to make a garment go on its cloth, or on less of it: each is drafted, checked and laid before it is offered."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from drafting import checks
from drafting.checks import fits_cloth
from drafting.garments import SetOut
from drafting.layout import ONLY_PLAIN, Layout, say_laid, search
from drafting.problems import Check, WayOut
from drafting.stepwise import Steps
from drafting.ways_out import Trying, value_at, with_changes, with_new_warnings
from drafting.work import Work

#: At most this many are offered, so that a person can choose. Our choice.
MOST = 6
#: A change of the garment is worth telling from this much cloth saved, mm. Our choice.
WORTH = 50.0

Changes = tuple[tuple[str, float | str | None], ...]
Drafted = Callable[[dict[str, Any]], tuple[SetOut, tuple[Check, ...]] | None]


@dataclass(frozen=True, slots=True)
class LaidWay:
    """One change to the order, drafted and laid: its words, the keys it sets, its layout.

    `looks` says what it costs in looks, and every warning that it brings.
    """

    says: str
    looks: str
    changes: Changes
    layout: Layout

    def way_out(self, words: checks.Words) -> WayOut:
        """As an offer beside a check, with the length of cloth it needs."""
        needs = f"It needs {say_laid(self.layout.length, words.unit)} of cloth."
        return WayOut(f"{self.says} {self.looks} {needs}", self.changes, self.says)


@dataclass(frozen=True, slots=True)
class _Try:
    """One kind of change: the key sets to try in order, its words, and its cost in looks.

    `plain` is only for cloth that is not one-way: it is left out where a person said that it is, and sets that it is
    not where nobody said.
    """

    changes: Callable[[SetOut], Iterable[Changes]]
    says: Callable[[Changes, checks.Words], str]
    looks: str
    plain: bool = False


def _one(key: str, values: Callable[[SetOut], Iterable[float | str]]) -> Callable[[SetOut], Iterable[Changes]]:
    return lambda draft: [((key, value),) for value in values(draft)]


_JOINED = ("style.lower_sleeve", "joined")
_SEAM = ("style.centre_back", "seam")
_CROSSWISE = ("cloth.lay", "crosswise")

_STEEPER = _Try(
    _one("style.overarm_angle", fits_cloth.angles),
    lambda changes, words: f"Let the sleeve fall by {changes[0][1]:g} degrees.",
    "The sleeve hangs closer to the body, and lifts the garment more when the arm is raised.",
)
_SHORTER = _Try(
    _one("style.sleeve_length", fits_cloth.sleeves),
    lambda changes, words: f"Make the sleeve {words(checks.length_of(str(changes[0][1])))} long.",
    "The sleeve ends above the wrist.",
)
_WIDER = _Try(
    _one("cloth.width", fits_cloth.widths),
    lambda changes, words: f"Take cloth {words(checks.length_of(str(changes[0][1])))} wide.",
    "Nothing changes in the garment.",
)


def _fixed(says: str, looks: str, *changes: tuple[str, float | str | None], plain: bool = False) -> _Try:
    return _Try(lambda draft: [changes], lambda chosen, words: says, looks, plain)


_CUT_APART = _fixed(
    "Cut the lower sleeve as a piece of its own, and sew it on.", "A seam goes round the sleeve.", _JOINED
)
_DIVIDED = _fixed("Put a seam down the centre of the back.", "A seam runs down the back.", _SEAM)
_BOTH = _fixed("Cut the lower sleeve as a piece of its own, and put a seam down the centre of the back.",
               "One seam goes round the sleeve, and one runs down the back.", _JOINED, _SEAM)  # fmt: skip
_ACROSS = _fixed(
    "Lay the pieces crosswise, each on a fold across the cloth.",
    "Ribs or stripes then run round the body, and so does the lengthwise stretch. Everything was proven with that. "
    f"{ONLY_PLAIN}",
    _CROSSWISE,
    plain=True,
)
_TURNED = _fixed("Let pieces lie head to tail.", ONLY_PLAIN, plain=True)

#: Best first: what a person sees least comes first. Our choice.
TO_FIT = (_STEEPER, _SHORTER, _CUT_APART, _DIVIDED, _BOTH, _ACROSS, _WIDER)
TO_SAVE = (_TURNED, _DIVIDED, _CUT_APART, _BOTH, _ACROSS)


def to_fit(typed: dict[str, Any], draft: SetOut, before: tuple[Check, ...], drafted: Drafted,
           words: checks.Words, work: Work) -> Steps[tuple[LaidWay, ...]]:  # fmt: skip
    """Ways out for a garment that does not go on its cloth, best first; a generator, as all here, to pause between.

    `typed` is the order as plain data, `drafted` drafts changed data and checks it (None where it is refused). A way
    counts when it can be laid, its cloth checks pass, and nothing stops that did not stop before.
    """
    found: list[LaidWay] = []
    for attempt in TO_FIT:
        for changes in attempt.changes(draft):
            if work.spent():
                return tuple(found)
            way = yield from _laid(typed, attempt, changes, before, drafted, words, work)
            if way is not None:
                found.append(way)
                break
        if len(found) == MOST:
            break
    return tuple(found)


def to_save(typed: dict[str, Any], draft: SetOut, layout: Layout, before: tuple[Check, ...], drafted: Drafted,
            words: checks.Words) -> Steps[tuple[LaidWay, ...]]:  # fmt: skip
    """Changes of a garment that does go on its cloth which save at least WORTH of it, the shortest first."""
    found: list[LaidWay] = []
    for attempt in TO_SAVE:
        for changes in attempt.changes(draft):
            way = yield from _laid(typed, attempt, changes, before, drafted, words, Work())
            if way is not None and way.layout.length <= layout.length - WORTH:
                found.append(way)
    return tuple(sorted(found, key=lambda way: way.layout.length))


def _laid(typed: dict[str, Any], attempt: _Try, changes: Changes, before: tuple[Check, ...], drafted: Drafted,
          words: checks.Words, work: Work) -> Steps[LaidWay | None]:  # fmt: skip
    stopped = {check.id for check in before if check.result == "stop"}
    if attempt.plain:
        said = value_at(typed, "cloth.one_way")
        if said:
            return None
        changes = changes if said is False else (*changes, ("cloth.one_way", False))
    if not changes or any(value_at(typed, key) == value for key, value in changes):
        return None
    made = drafted(with_changes(typed, changes))
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

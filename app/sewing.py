"""The sewing of a garment as the screen reads it: from the frozen draft where there is one, else from the present one.

The steps come from the garment (drafting.contract.after_cut). A frozen draft says its own. One that was frozen before
drafts said how they are sewn is set out again from its frozen order, which moves no mark.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.state import Drafted, FrozenDraft, GarmentRecord
from app.text import words
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.order import Result, glance, read_order
from drafting.units import Unit, say_sold


@dataclass(frozen=True, slots=True)
class SewItem:
    """One thing to do: `lines` say how, `key` is what is kept of it once it is done. In one the garment is tried on."""

    key: str
    title: str
    lines: tuple[str, ...]
    tries_on: bool = False


@dataclass(frozen=True, slots=True)
class Sewing:
    """What there is to do in its order, what a try-on may show, and what to take care of."""

    items: tuple[SewItem, ...]
    try_on: tuple[TryOn, ...]
    cautions: tuple[str, ...]

    def next(self, done: Sequence[str]) -> SewItem | None:
        """The first thing that is not done; None where everything is."""
        return next((item for item in self.items if item.key not in done), None)


def sewing_of(garment: GarmentRecord, frozen: FrozenDraft | None, drafted: Drafted | None) -> Sewing | None:
    """How a garment is sewn; None where it has no draft yet that may be cut."""
    if garment.chalking and frozen is not None:
        return read_sewing(frozen.draft, frozen.order)
    result = drafted.result if drafted is not None and drafted.garment == garment.id else None
    return None if result is None else _present(result)


def _present(result: Result) -> Sewing | None:
    told = result.draft.after_cut
    if told is None or result.plan is None:
        return None
    clips = [step.says for step in result.plan.steps if step.belongs == "after"]
    cautions = [check.says for check in result.checks if check.result == "caution"]
    return _sewing(told, clips, cautions, result.plan.tape.unit)


@lru_cache(maxsize=4)
def read_sewing(draft: str, order: str) -> Sewing | None:
    """Read it from the two frozen texts; None where they hold nothing that can be sewn."""
    try:
        found, ordered = json.loads(draft), json.loads(order)
        told = _read(found["after_cut"]) if found.get("after_cut") else _set_out(ordered)
        if told is None:
            return None
        clips = [step["says"] for step in found["chalk"] if step.get("after_cut")]
        cautions = [check["says"] for check in found["checks"] if check["result"] == "caution"]
        return _sewing(told, clips, cautions, "in" if ordered["tape"]["unit"] == "in" else "cm")
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def _read(found: dict[str, Any]) -> AfterCut:
    """The record of a frozen draft. Steps that have no key are known by their place, which never changes there."""
    return AfterCut(
        found["needle"],
        found["thread"],
        found["stitch"],
        tuple(
            SewStep(step.get("key", str(place)), step["title"], step["says"], step.get("tries_on", False))
            for place, step in enumerate(found["order"])
        ),
        tuple(TryOn(row["seen"], row["change"]) for row in found["try_on"]),
        tuple(ToBuy(one["what"], one["length"]) for one in found["buy"]),
    )


def _set_out(ordered: dict[str, Any]) -> AfterCut | None:
    order, _ = read_order(ordered)
    return None if order is None else glance(order, judged=False).draft.after_cut


def _sewing(told: AfterCut, clips: Sequence[str], cautions: Sequence[str], unit: Unit) -> Sewing:
    """What to lay ready and to try on a scrap, then the garment's own order; the clips come behind the try-on."""
    items = [
        SewItem("ready", words("sew.ready"), tuple(_bought(one, unit) for one in told.buy)),
        SewItem("needle", words("sew.needle"), (told.needle, told.thread)),
        SewItem("stitch", words("sew.stitch"), (told.stitch,)),
    ]
    clipped = SewItem("clips", words("sew.clips"), tuple(dict.fromkeys(clips)))
    after = max((place for place, step in enumerate(told.order) if step.tries_on), default=len(told.order) - 1)
    for place, step in enumerate(told.order):
        items.append(SewItem(f"sew.{step.key}", step.title, (step.says,), step.tries_on))
        if clips and place == after:
            items.append(clipped)
    return Sewing(tuple(items), told.try_on, tuple(cautions))


def _bought(one: ToBuy, unit: Unit) -> str:
    what = one.what[:1].upper() + one.what[1:]
    return what if one.length is None else words("sew.bought", what=what, length=say_sold(one.length, unit))

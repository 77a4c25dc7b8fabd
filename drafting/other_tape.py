"""A draft that is read on another tape: no mark moves, only what the tape says of it.

Somebody who has begun to chalk may take up another tape. The outline stays as it was drafted, with every mark in its
place; readings, proof lengths and words are then those of the other tape. Its steps put the marks up to half a step
elsewhere, so what must pass the head, the body or the hips is judged once more as it would be chalked.
"""

from dataclasses import replace

from drafting import checks
from drafting.chalk.plan import areas, marks_on, told_on
from drafting.chalk.rounding import after_rounding, rings
from drafting.checks import cloth_long_enough
from drafting.cloth import washing_words
from drafting.order import Result, rounding_effect
from drafting.problems import Check
from drafting.units import TAPES, Tape, TapeStep


def tape_of(step: str, length: float = 0.0) -> Tape:
    """The tape with this smallest step, which says its unit too; `length` in mm, 0 for the usual one.

    Raises StopIteration for a step that no tape has.
    """
    return replace(next(tape for tape in TAPES if tape.step == step), length=length)


def read_on(result: Result, step: TapeStep) -> Result | tuple[Check, ...]:
    """The same draft read on a tape with another smallest step, as long as the one in hand; or what stops it.

    The checks that stop it are those of a ring that no longer lets through what must pass, as that tape chalks it.
    Raises ValueError for a result without marks.
    """
    if result.plan is None or result.draft.chalked_facts is None:
        raise ValueError("there is nothing to read: the draft has no marks")
    tape = tape_of(step, result.ready.tape.reach)
    chalked = replace(result.ready.chalked, tape=tape)
    draft = replace(result.draft, chalked=chalked, facts={**result.draft.facts, **result.draft.chalked_facts(chalked)})
    known = {check.id: check for check in result.checks}
    unit = result.order.person.unit
    judged = checks.judge(draft, unit, {cloth_long_enough.ID: known.get(cloth_long_enough.ID)})
    stops = tuple(check for check in judged if check.result == "stop")
    if stops:
        return stops
    ready = replace(result.ready, tape=tape, chalked=chalked)
    choice = result.order.tape.model_copy(update={"unit": tape.unit, "step": step, "length": f"{tape.reach:g} mm"})
    order = result.order.model_copy(update={"tape": choice})
    plans = [plan for plan in (result.plan, result.stitch_plan) if plan is not None]
    marks = [marks_on(plan, tape) for plan in plans]
    found = tuple(one for plan, own in zip(plans, marks, strict=True) for one in areas(draft.pieces, own, plan.line))
    read_so = checks.AsChalked(found, rings(draft.girths, draft.pieces, marks[-1], draft.cloth))
    as_chalked = checks.judge_chalked(draft.garment, read_so, unit)
    told = tuple(_with_ways_out(check, known) for check in (*judged, *as_chalked))
    read = [
        told_on(
            own, draft.pieces, tape, line=plan.line, layout=result.layout, washing=washing_words(ready.cloth),
            heed=[check.with_ways_out() for check in told if check.result == "warn"],
            care=[check.says for check in told if check.result == "caution"],
        )
        for plan, own in zip(plans, marks, strict=True)
    ]  # fmt: skip
    girths = after_rounding(result.draft.girths, draft.pieces, read[-1], ready.cloth)
    return replace(
        result, order=order, ready=ready, draft=draft, checks=(*told, rounding_effect(girths, order)), girths=girths,
        plan=read[0], stitch_plan=read[1] if len(read) > 1 else None,
    )  # fmt: skip


def _with_ways_out(check: Check, known: dict[str, Check]) -> Check:
    """The check with the ways out that were found for it before, where it judges the same."""
    before = known.get(check.id)
    same = before is not None and before.result == check.result
    return replace(check, ways_out=before.ways_out) if before is not None and same else check

"""Notches, clips and the slit."""

from drafting.chalk.marks import Apart
from drafting.chalk.tasks import ChalkNotches, ChalkSlit, ClipCurves, PlacedNotch
from drafting.chalk.words.said import Said, counts, place, short, small
from drafting.sentences import listed, lower_first, upper_first
from drafting.units import UNIT_NAMES, Tape, say_length

#: Clips stop so far before the stitching, mm (our choice: half of what a seam of a knit is turned).
_CLIPS_STOP = 2.5


def chalk_notches(task: ChalkNotches, tape: Tape) -> Said:
    """A notch that lies on a mark is named by it; the others have their readings."""
    at_marks = [_at_mark(one) for one in task.notches if one.mark is not None]
    placed = [f"{one.notch.words} {place(one.at)}" for one in task.notches if one.mark is None]
    says = []
    if at_marks:
        says.append(f"Chalk a short tick across the edge at {listed(at_marks)}.")
    if placed:
        unit, readings = UNIT_NAMES[tape.unit], "; ".join(placed)
        if at_marks:
            says.append(f"Chalk another, in {unit}: {readings}.")
        else:
            says.append(f"Chalk a short tick across the edge, in {unit}: {readings}.")
    apart = tuple(_apart(one) for one in task.notches)
    return Said("Notches", " ".join(says), belongs="marks", apart=apart, rest="")


def _at_mark(placed: PlacedNotch) -> str:
    """The mark at which a notch lies, under the notch's name where its own does not say it ("waist at the side")."""
    mark, words = placed.mark, placed.notch.words
    if mark is None:
        return words
    return short(mark) if lower_first(mark.label).startswith(words) else f"({mark.order}) {words}"


def _apart(placed: PlacedNotch) -> Apart:
    key, title = f"notch.{placed.notch.seam}.{placed.notch.id}", "Notches"
    if placed.mark is None:
        says = f"{upper_first(placed.notch.words)}: chalk a short tick across the edge."
        return Apart(key, "notch", title, says, counts(placed.at), spot=placed.at.point)
    says = f"Chalk a short tick across the edge at {_at_mark(placed)}."
    return Apart(key, "notch", title, says, marks=(placed.mark.id,))


def clip_curves(task: ClipCurves, tape: Tape) -> Said:
    """One sentence for every curve that may be clipped, between two marks; nothing is chalked for it."""
    every, stop, title = say_length(task.every, tape.unit), small(_CLIPS_STOP, tape), "Clips, after sewing"
    curves = [f"between ({one.start.order}) and ({one.end.order})" for one in task.curves]
    says = (
        "Clip as soon as the seam is sewn, and only where it pulls. The drawing shows where: "
        f"{listed(curves)}. Clip the allowance every {every}, and stop {stop} before the stitching."
    )
    apart = tuple(
        Apart(
            f"clips.{one.start.id}-{one.end.id}", "clips", title,
            "As soon as the seam is sewn, and only where it pulls, clip the allowance between "
            f"({one.start.order}) and ({one.end.order}). Clip every {every}, and stop {stop} before the stitching.",
            marks=(one.start.id, one.end.id), line=one.line,
        )
        for one in task.curves
    )  # fmt: skip
    return Said(title, says, belongs="after", apart=apart, rest="")


def chalk_slit(task: ChalkSlit, tape: Tape) -> Said:
    """A side that stays open at its end."""
    title, here = "Slit", 'Chalk "sew to here" on the stitching line'
    says = (
        f"In {UNIT_NAMES[tape.unit]}: the side stays open for {task.open_for.pretty} above the finished hem. "
        f"{here}: {place(task.stop)}."
    )
    open_side = "The side stays open, measured up from the finished hem."
    apart = (
        Apart("slit.open", "slit", title, open_side, (("open", task.open_for.text),), line=task.line),
        Apart("slit.stop", "slit", title, f"{here}.", counts(task.stop), spot=task.stop.point),
    )
    return Said(title, says, belongs="marks", apart=apart, rest="")

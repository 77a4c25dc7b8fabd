"""Cutting a piece, trimming a slanted edge, laying a piece again or for another, and counting."""

from drafting.chalk.lying import Lying, Spot
from drafting.chalk.marks import Apart
from drafting.chalk.tasks import (
    ChalkDiffering,
    CountPieces,
    CutPiece,
    LayAgain,
    LayOver,
    NothingDiffers,
    TrimEdge,
    TrimMark,
)
from drafting.chalk.words.places import TOWARDS, fold_across, where_zero
from drafting.chalk.words.said import Said, counts_down, ids, listed_marks, ordinal, small, the
from drafting.sentences import listed, lower_first, upper_first
from drafting.units import UNIT_NAMES, Reading, Tape

#: How deep a notch is snipped, mm (common practice, no source).
_SNIP = 3.0


def cut_piece(task: CutPiece, tape: Tape) -> Said:
    """Cutting; where the stitching line was chalked the allowances are added first."""
    says = [_cut_along(the(task.label), task.lying)]
    if task.lying.folded:
        says.append(f"Never cut {task.lying.base}.")
    if task.notches:
        says.append(f"Snip the notches {small(_SNIP, tape)} deep.")
    rest = " ".join(says)
    if not task.allowances:
        return Said("Cut", rest, beside=rest, rest=rest)
    each = ", ".join(f"{one.words} {one.reads.pretty}" for one in task.allowances)
    unit = UNIT_NAMES[tape.unit]
    first = f"You have chalked the stitching line: first add the allowances outside it, in {unit}: {each}."
    beside = "You have chalked the stitching line: first add the allowances outside it."
    apart = tuple(
        Apart(
            f"allowance.{one.edge}", "allowance", "Cut",
            f"Add the allowance outside the stitching line: {one.words}.", (("outside", one.reads.text),),
            line=one.line,
        )
        for one in task.allowances
    )  # fmt: skip
    return Said("Cut", f"{first} {rest}", beside=f"{beside} {rest}", apart=apart, rest=rest)


def _cut_along(name: str, lying: Lying) -> str:
    if lying.upper:
        return f"Cut {name} through the upper layer only, along the cutting line."
    if lying.layers == 2:
        return f"Pin, then cut {name} through both layers along the cutting line."
    return f"Cut {name} along the cutting line."


def trim_edge(task: TrimEdge, tape: Tape) -> Said:
    """A slanted edge is marked on the opened-out piece and trimmed."""
    unit, name, edge = UNIT_NAMES[tape.unit], the(task.label), task.edge
    marks = "; ".join(_trim_mark(one, task.lying) for one in task.marks)
    lay = (
        f"Open {name} out with its right side towards you and its {edge} away from you: the lower side of the {edge} "
        f"is the wearer's {task.wearer}, on your {task.seen}."
    )
    trim = "Rule from one mark to the next and trim along it."
    title, count = f"Trim the {edge}", len(task.marks)
    line = tuple(one.spot for one in task.marks)
    apart = tuple(
        Apart(
            f"trim.{number}", "trim", title, f"Mark {number} of {count} for the slanted {edge}.",
            (("to_right" if one.spot.x >= 0 else "to_left", one.aside.text), counts_down(one.down)),
            spot=one.spot, line=line,
        )
        for number, one in enumerate(task.marks, start=1)
    )  # fmt: skip
    return Said(title, f"{lay} Mark, in {unit}: {marks}. {trim}", apart=apart, rest=f"{lay} {trim}")


def _trim_mark(mark: TrimMark, lying: Lying) -> str:
    aside, level = mark.aside.pretty, _from_zero(mark.down)
    if lying.kind == "whole":
        if mark.spot.x >= 0:
            return f"{aside} to your right of the centre line, {level}"
        return f"{aside} to your left of the centre line, {level}"
    if mark.spot.x >= 0:
        return f"{aside} to your right of the fold line, {level}"
    return f"{aside} to your left of the fold line, {level}"


def _from_zero(down: Reading) -> str:
    return f"{down.pretty} down from 0" if down.steps else "level with 0"


def lay_again(task: LayAgain, tape: Tape) -> Said:
    """The further places of a piece that is cut more than once: the first one is laid there and chalked round."""
    if task.spot is not None and task.lying.kind == "across":
        lay = f"{fold_across(task.spot, tape)} Lay the first one on it, still folded, fold to fold."
    elif task.over:
        lay = "Lay the first one on the cloth, turned over, so that the two are a pair."
    else:
        lay = "Lay the first one on the cloth, as it is."
    carried = listed(["every notch", *(f"the {line}" for line in task.lines)])
    end = f"Chalk round it, carry {carried} over, and cut."
    title = f"The {ordinal(task.number)} {lower_first(task.label)}"
    if task.spot is None:
        cloth = task.other_cloth or "cloth"
        if task.lying.folded:
            lay = f"Fold the {cloth} as before. Lay the first one on it, still folded, fold to fold."
        else:
            lay = f"Fold the {cloth} as before. Lay the first one on it, the same way round."
        return Said(title, f"{lay} {end}", beside=f"{lay} {end}", rest=f"{lay} {end}")
    says = f"{lay} {_zero(task.spot, tape)} {end}"
    return Said(title, says, beside=f"{lay} {end}", rest=f"{lay} {_down(task.spot)} {end}")


def lay_over(task: LayOver, tape: Tape) -> Said:
    """An earlier piece is laid on the cloth and chalked round."""
    first = the(task.first)
    carried = ["every notch", *(f"the {line}" for line in task.lines), *(["the slit mark"] if task.slit else [])]
    round_it = f"Chalk round it; carry {listed(carried)} over."
    spot = task.spot
    if spot is None:
        lay = (
            f"Lay {first}, still folded, on the next length of the cloth, which is folded in the same way: fold to "
            f"fold and grain to grain. {round_it}"
        )
        return Said(f"Lay {first} on the next length", lay, beside=lay)
    if task.lying.kind == "across":
        there = f"Lay {first} on it, still folded, fold to fold."
        lay = f"{fold_across(spot, tape)} {there} {_zero(spot, tape)} {round_it}"
        beside = f"Make its fold across. {there} {round_it}"
    elif task.lying.kind == "fold":
        there = f"Lay {first} there, folded, fold to fold."
        lay = f"{there} {_zero(spot, tape)} {round_it}"
        beside = f"Its place is given above. {there} {round_it}"
    else:
        base = f"Chalk {task.lying.base} of {the(task.label)}."
        there = f"Lay {first} there, opened out flat, its centre on that line."
        lay, beside = f"{base} {_zero(spot, tape)} {there} {round_it}", f"{base} {there} {round_it}"
    return Said(f"Lay {first} on the cloth", lay, beside=beside, rest=f"{beside} {_down(spot)}")


def _zero(spot: Spot, tape: Tape) -> str:
    begins = f"its {spot.laying.begins} lies {where_zero(spot)}"
    return f"In {UNIT_NAMES[tape.unit]}, {begins}, and down runs {TOWARDS[spot.down]}."


def _down(spot: Spot) -> str:
    return f"Down runs {TOWARDS[spot.down]}."


def chalk_differing(task: ChalkDiffering, tape: Tape) -> Said:
    """The marks that lie elsewhere than on the piece that was chalked round."""
    says = f"On {the(task.label)} these lie elsewhere, in {UNIT_NAMES[tape.unit]}: {listed_marks(task.marks)}."
    anew = "Chalk the line anew through them."
    return Said("Mark what differs", f"{says} {anew}", ids(task.marks), "marks", beside=anew)


def nothing_differs(task: NothingDiffers) -> Said:
    """A piece that is chalked exactly like the one that was chalked round."""
    says = f"{upper_first(the(task.label))} is chalked exactly like {the(task.first)}."
    return Said("Nothing differs", says, beside="")


def count_pieces(task: CountPieces) -> Said:
    """How many pieces there are before the cloth is put away."""
    each = ", ".join(f"{one.counted} on the fold" if one.folded else one.counted for one in task.pieces)
    if task.total == 1:
        return Said("Count", f"1 piece in all: {each}. Count them before the cloth is put away.")
    return Said("Count", f"{task.total} pieces in all: {each}. Count them before the cloth is put away.")

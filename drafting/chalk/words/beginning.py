"""How a piece is begun: the cloth folded for it, its 0, the line that it is measured from, a further 0."""

from drafting.chalk.lying import Lying
from drafting.chalk.marks import Apart, ChalkLine, Counts
from drafting.chalk.tasks import Begin, ChalkZero, FoldAndBegin
from drafting.chalk.words.places import TOWARDS, fold_across, where_zero
from drafting.chalk.words.said import Said, ordinal, the
from drafting.geometry.point import Point
from drafting.sentences import upper_first
from drafting.units import UNIT_NAMES, Reading, Tape

_FOLD = (
    "Fold it lengthwise, right sides together, with the most stretch running across and the grain along the fold: "
    "follow one rib of the knit, not the edge. Let it lie without pulling."
)
_FOLD_WOVEN = (
    "Fold it lengthwise, right sides together, with the grain along the fold: follow one thread, not the edge. Let it "
    "lie without pulling."
)
#: What a second 0, a third and a fourth are measured from.
_COUNTED: tuple[Counts, ...] = ("down", "down_second", "down_third")


def fold_and_begin(task: FoldAndBegin, tape: Tape) -> Said:
    """Squaring, folding and the one 0, the cloth folded lengthwise."""
    end = "Square the end of the cloth again." if task.again else "Square the end of the cloth."
    base, fold = task.lying.base, _FOLD if task.stretches else _FOLD_WOVEN
    if task.other_cloth:
        cloth = task.other_cloth
        end = f"Take the {cloth}, washed or not as the cloth is: its marks hold the same shrinkage. Square its end."
        if task.again:
            end, fold = f"Square the end of the {cloth} again.", "Fold it as before."
    if task.lying.kind == "half":
        lay = f"Lay {the(task.label)} away from the fold, {base} along the grain."
        zero = f"Chalk 0 at the top of {base}. Measure every mark from there: across from it, down from 0."
        fold = f"{fold} {lay}"
    else:
        zero = "Chalk 0 at the top of the fold. Measure every mark from there: across from the fold, down from 0."
    says = _sentences(task.washing, end, fold, zero, _line_begins(task.line, task.begins, base, tape))
    beside = zero if task.laid else f"{end} {fold} {zero}"
    if task.laid and task.lying.spots[0].laying.down.steps:  # below another piece, where the list of places says
        beside = (
            "Chalk its 0 on the fold, at its place above. Measure every mark from there: across from the fold, down "
            "from 0."
        )
    return Said("Prepare", says, (task.first,), beside=beside)


def begin(task: Begin, tape: Tape) -> Said:
    """How one piece is begun at its 0, in any way of laying but the simplest."""
    unit = UNIT_NAMES[tape.unit]
    line = _line_begins(task.line, task.begins, task.lying.base, tape)
    read = f"In {unit}, its {task.spot.laying.begins} lies {where_zero(task.spot)}."
    if task.off is not None:
        return _begun_off(task, task.off, read, tape)
    title = f"Begin {the(task.label)}"
    says = _sentences(_begun(task, fold_across(task.spot, tape), read), line)
    beside = _begun(task, "Make its fold across.", "Its place is given above.")
    rest = _sentences(_begun(task, "Make its fold across.", "Its 0 is chalked already."), line)
    return Said(title, says, (task.first,), beside=beside, rest=rest)


def _begun_off(task: Begin, off: Reading, read: str, tape: Tape) -> Said:
    """A piece whose 0 lies off it, up the line that it is measured from: it is begun at its top."""
    base = task.lying.base
    zero = (
        f"Its 0 lies {off.pretty} farther up the line of {base}, off the piece: chalk it there, or on paper taped to "
        "the table where there is no cloth."
    )
    title, fold = f"Begin {the(task.label)}", "Make its fold across."
    says = _begun(task, fold_across(task.spot, tape), f"{read} {zero}")
    beside = _begun(task, fold, f"Its place is given above. {zero}")
    rest = _begun(task, fold, f"Its top is chalked already. {zero}")
    return Said(title, says, (task.first,), beside=beside, rest=rest)


def _begun(task: Begin, fold: str, zero: str) -> str:
    """How a piece is begun; `fold` says how its fold across is made, `zero` where its 0 lies."""
    lies, spot, name = task.lying, task.spot, upper_first(the(task.label))
    base, down, across = lies.base, TOWARDS[spot.down], TOWARDS[spot.across]
    start = "there" if task.off is None else "0"
    if lies.kind == "across":
        return f"{fold} {zero} Measure every mark from {start}: across from the fold, down along the fold {down}."
    if lies.kind == "fold":
        if spot.turned:
            measure = f"Measure every mark from {start}: across from the fold, down from 0, {down}."
        else:
            measure = f"Measure every mark from {start}: across from the fold, down from 0."
        return f"{name} lies half on the fold. {zero} {measure}"
    if lies.kind == "whole":
        if lies.layers == 2:
            lying = f"{name} lies whole, through the two layers, which gives two."
        else:
            lying = f"{name} lies whole, through the one layer."
        return (
            f"{lying} {zero} Chalk {base} from 0 along the grain, {down}. "
            f"Chalk one half first, then its mirror: across from {base}, down from 0."
        )
    if spot.at.turned % 180 == 90:
        runs = f"From there {base} runs straight across the cloth, {down}: chalk it."
    else:
        runs = f"From there {base} runs straight along the grain, {down}: chalk it."
    return (
        f"{_lies_alone(name, lies)} {zero} {runs} "
        f"Measure every mark from 0: across from that line {across}, down along it."
    )


def _lies_alone(name: str, lies: Lying) -> str:
    """Through how many layers a piece with no fold of its own is cut."""
    if lies.upper:
        return f"{name} lies in the upper layer only."
    if lies.layers == 2:
        return f"{name} lies through both layers, which gives a left and a right one."
    return f"{name} lies in one layer."


def _line_begins(line: ChalkLine, begins: Reading | None, base: str, tape: Tape) -> str:
    """Where the line of the piece begins, where that is not at its 0; else empty."""
    if begins is None:
        return ""
    unit = UNIT_NAMES[tape.unit]
    if line == "cut":
        return f"In {unit}: the cutting line begins {begins.pretty} down {base}."
    return f"In {unit}: the stitching line begins {begins.pretty} down {base}."


def _sentences(*said: str) -> str:
    return " ".join(one for one in said if one)


def further_zero(task: ChalkZero, tape: Tape) -> Said:
    """Where the tape does not reach: a second 0 at a whole reading, and a third."""
    name, unit = f"{ordinal(task.number)} 0", UNIT_NAMES[tape.unit]
    short = f"The tape is shorter than {the(task.label)}."
    only = f'Only the readings that say "from the {name}" are measured from it.'
    if task.number == 2:
        chalk = f"In {unit}: chalk a {name} on {task.base}, {task.below.pretty} down from 0."
    else:
        last = f"the {ordinal(task.number - 1)} 0"
        chalk = (
            f"In {unit}: chalk a {name} on {task.base}, {task.below.pretty} down from {last}. "
            f"It lies {task.down.pretty} down from the first."
        )
    reads = (_COUNTED[min(task.number, 4) - 2], task.below.text)
    title = upper_first(name)
    apart = Apart(
        f"zero.{task.number}", "zero", title, f"Chalk a {name} on {task.base}.", (reads,), spot=Point(0.0, task.down.mm)
    )
    said = f"{short} {chalk} {only}"
    return Said(title, said, belongs="marks", stage=task.stage, apart=(apart,), rest=f"{short} {only}")

"""Levels, marks, proof lengths, and what to do when something has moved."""

from drafting.chalk.marks import Apart
from drafting.chalk.tasks import (
    ChalkMarks,
    ChalkOtherHalf,
    MarkFold,
    MeasureProofs,
    Mend,
    RuleLevels,
    StraightCheck,
)
from drafting.chalk.words.joining import guide_apart, guide_words, swing_apart, swing_leg
from drafting.chalk.words.places import TOWARDS
from drafting.chalk.words.said import Said, counts_down, down, ids, listed_marks, short, the
from drafting.sentences import listed, upper_first
from drafting.units import UNIT_NAMES, Tape

#: What to do at the table when something has moved; data for the sheet and the screen.
MENDING: tuple[str, ...] = (
    "If the cloth has slipped, lay it straight and find 0 again. Then measure two marks that lie far apart: if one of "
    "them is off, brush the chalk away and mark everything again from 0.",
    "If one mark is wrong, rub it out and measure it again from 0. Measure the mark before it and the mark after it "
    "again too.",
)


def rule_levels(task: RuleLevels, tape: Tape) -> Said:
    """The levels that are ruled across before any mark."""
    base, unit, many = task.lying.base, UNIT_NAMES[tape.unit], len(task.levels) > 1
    readings = ", ".join(
        f"{level.words} {down(level.down)}" + (f" ({level.mark.order})" if level.mark is not None else "")
        for level in task.levels
    )
    if task.spot is not None and task.spot.turned:
        says = f"Down {base}, in {unit} from 0 {TOWARDS[task.spot.down]}: {readings}."
    else:
        says = f"Down {base}, in {unit} from 0: {readings}."
    if task.lying.kind == "whole":
        one = f"rule it across to both sides, square to {base}."
        alone = f"Rule this level across to both sides, square to {base}."
        rule = f"Rule each level across to both sides, square to {base}." if many else alone
    else:
        one = f"rule it across, square to {base}."
        alone = f"Rule this level across, square to {base}."
        rule = f"Rule each level across, square to {base}." if many else alone
    apart = tuple(
        Apart(
            f"level.{level.key}", "level", task.stage.title, f"{upper_first(level.words)}: {one}",
            (counts_down(level.down),), line=level.line,
        )
        for level in task.levels
    )  # fmt: skip
    return Said(task.stage.title, f"{says} {rule}", task.folds, "marks", task.stage.key, rule, apart, "")


def mark_fold(task: MarkFold, tape: Tape) -> Said:
    """The marks on the fold of a piece that ends in an arc."""
    base, unit = task.lying.base, UNIT_NAMES[tape.unit]
    readings = ", ".join(f"{short(mark)} {down(mark.down)}" for mark in task.marks)
    if task.spot is not None and task.spot.turned:
        says = f"Down {base}, in {unit} from 0 {TOWARDS[task.spot.down]}: {readings}."
    else:
        says = f"Down {base}, in {unit} from 0: {readings}."
    return Said(task.stage.title, says, ids(task.marks), "marks", task.stage.key, "", (), "")


def chalk_marks(task: ChalkMarks, tape: Tape) -> Said:
    """What is swung, the marks of a stage with their readings, its checks by a straightedge and its lines inside."""
    unit, marks = UNIT_NAMES[tape.unit], listed_marks(task.marks)
    checks = [_check(one, task.stage.title) for one in task.checks]
    lines = [words for one in task.guides if (words := guide_words(one))]
    beside = " ".join([*(check.says for check in checks), *lines])
    swings = tuple(swing_apart(leg, task.stage.title) for leg in task.swings)
    apart = (*swings, *checks, *(told for one in task.guides for told in guide_apart(one)))
    says = f"On {the(task.only_on)} only, in {unit}: {marks}." if task.only_on else f"In {unit}: {marks}."
    says = " ".join([*(swing_leg(leg) for leg in task.swings), says])
    whole = f"{says} {beside}" if beside else says
    return Said(task.stage.title, whole, ids(task.marks), "marks", task.stage.key, beside, apart, "")


def _check(check: StraightCheck, title: str) -> Apart:
    start, past, end = check.start, check.past, check.end
    says = (
        f"A straightedge from the curve ({start.order}) to the {check.end_words} ({end.order}) must pass the "
        f"{check.past_words} ({past.order})."
    )
    marks, line = (start.id, past.id, end.id), (start.point, end.point)
    return Apart("straightedge", "check", title, says, marks=marks, line=line)


def measure_proofs(task: MeasureProofs, tape: Tape) -> Said:
    """The proof lengths, which marks they do not prove, and the one look."""
    unit = UNIT_NAMES[tape.unit]
    lengths = "; ".join(f"{short(one.start)} to {short(one.end)} {one.reads.pretty}" for one in task.lengths)
    slipped = (
        f"A length that is off by more than {task.slack.pretty} means that the mark at one of its ends has slipped: "
        "measure both again from 0."
    )
    says = [slipped]
    apart: tuple[Apart, ...] = ()
    if task.alone:
        marks = listed([short(mark) for mark in task.alone])
        if len(task.alone) == 1:
            twice = f"No length proves this mark fully, so measure it twice: {marks}."
        else:
            twice = f"No length proves these marks fully, so measure them twice: {marks}."
        says.append(twice)
        apart = (Apart("unproven", "check", "Proof lengths", twice, marks=ids(task.alone)),)
    if task.look is not None:
        says.append(task.look.says)
    ends = tuple(dict.fromkeys(mark.id for one in task.lengths for mark in (one.start, one.end)))
    whole = " ".join([f"Measure in a straight line from mark to mark, in {unit}: {lengths}.", *says])
    beside = " ".join([f"Measure straight from mark to mark, in {unit}.", *says])
    return Said("Proof lengths", whole, ends, "marks", beside=beside, apart=apart, rest=slipped)


def mend(_: Mend) -> Said:
    """What to do when the cloth has slipped or a mark is wrong."""
    return Said("If something moved", " ".join(MENDING), beside="")


def other_half(task: ChalkOtherHalf) -> Said:
    """The other half of a piece laid whole."""
    says = (
        f"Chalk the same readings to the other side of {task.base}, and join them. Chalk every notch that follows on "
        "both halves."
    )
    title = "The other half"
    apart = Apart("other_half", "half", title, says, line=task.line)
    return Said(title, says, belongs="marks", apart=(apart,), rest="")

"""How the marks of a piece are joined, in words: in a step, in a table, in a stage, along a line inside the piece."""

from collections.abc import Container, Sequence

from drafting.chalk.joins import legs
from drafting.chalk.marks import Apart, Counts, Joins, Mark, Swung
from drafting.chalk.tasks import ChalkedGuide, JoinedLeg, JoinMarks
from drafting.chalk.words.said import Said
from drafting.sentences import listed, upper_first

_TITLE = "Join the marks"


def joined(marks: Sequence[Mark], *, closed: bool = False) -> dict[str, str]:
    """For each mark by its id, how the outline runs to it from the mark before: "straight from 4", for a table.

    The first mark of a piece on the fold has nothing before it and an empty text.
    """
    number = {mark.id: mark.order for mark in marks}
    found = dict.fromkeys(number, "")
    for leg in legs(marks, closed=closed):
        start, end = number[leg.start], number[leg.end]
        between = ", ".join(str(number[name]) for name in leg.through)
        if leg.joins == "straight":
            found[leg.end] = f"straight from {start}"
        elif leg.swung is not None:
            found[leg.end] = f"swung by {leg.swung.reads.pretty} from {start}"
        else:
            found[leg.end] = f"curve from {start} through {between}"
            for name in leg.through:
                found[name] = f"on the curve from {start} to {end}"
    return found


def stage_joins(
    marks: Sequence[Mark], *, closed: bool = False, touching: Container[str] | None = None
) -> dict[str, str]:
    """What is joined once the marks of a stage are chalked, by the key of the stage.

    A leg belongs to the stage of the mark on it that is chalked last. The numbers are those of chalking:
    "Rule 3–7. Curve 7–8–9." What is swung is said first. `touching` keeps only the legs on which one of these marks
    lies, in the stage of the last of these.
    """
    by_id = {mark.id: mark for mark in marks}
    said: dict[str, dict[Joins, list[str]]] = {}
    swings: dict[str, list[str]] = {}
    for leg in legs(marks, closed=closed):
        along = [by_id[name] for name in (leg.start, *leg.through, leg.end)]
        if touching is not None and not any(mark.id in touching for mark in along):
            continue
        anew = along if touching is None else [mark for mark in along if mark.id in touching]
        stage = max(anew, key=lambda mark: mark.order).stage
        if leg.swung is not None:
            first, last = sorted((along[0].order, along[-1].order))
            swings.setdefault(stage, []).append(_swing(leg.swung, str(first), str(last)))
            said.setdefault(stage, {})
            continue
        said.setdefault(stage, {}).setdefault(leg.joins, []).append("–".join(str(mark.order) for mark in along))
    words: tuple[tuple[Joins, str], ...] = (("straight", "Rule"), ("curve", "Curve"))
    return {
        stage: " ".join(
            [*swings.get(stage, []), *(f"{verb} {', '.join(found[joins])}." for joins, verb in words if joins in found)]
        )
        for stage, found in said.items()
    }


def _swing(swung: Swung, first: str, last: str) -> str:
    """How the tape is swung from one mark to another."""
    where = "at 0" if swung.at_zero else f"{swung.held.pretty} straight below 0"
    if swung.beyond_tape:
        return f"Hold a string that does not stretch {where} and swing {swung.reads.pretty}, from {first} to {last}."
    return f"Hold the tape {where} and swing {swung.reads.pretty}, from {first} to {last}."


def swing_leg(leg: JoinedLeg) -> str:
    """How one leg is swung, from the mark that is chalked first."""
    assert leg.swung is not None
    first, last = sorted((leg.start, leg.end), key=lambda mark: mark.order)
    return _swing(leg.swung, f"({first.order})", f"({last.order})")


def swing_apart(leg: JoinedLeg, title: str) -> Apart:
    """One leg that is swung told alone, with the tape from where it is held."""
    assert leg.swung is not None
    line = leg.line if leg.start.order < leg.end.order else leg.line[::-1]
    reads: tuple[tuple[Counts, str], ...] = (("swing", leg.swung.reads.text),)
    key = f"swing.{leg.start.id}-{leg.end.id}"
    return Apart(key, "swing", title, swing_leg(leg), reads, line=(leg.swung.centre, *line))


def join_marks(task: JoinMarks) -> Said:
    """The step that joins the marks, every leg named."""
    swung = [f"({leg.start.order}) to ({leg.end.order})" for leg in task.legs if leg.swung is not None]
    straight = [_from_to(leg) for leg in task.legs if leg.joins == "straight"]
    curved = [_from_to(leg) for leg in task.legs if leg.joins == "curve"]
    says = []
    if straight:
        says.append(f"Rule straight: {'; '.join(straight)}.")
    if curved:
        says.append(f"Draw each of these as one smooth curve: {'; '.join(curved)}.")
        says.append("A corner in a curve shows a mark that has slipped.")
    if len(swung) == 1:
        says.append(f"The line from {swung[0]} is swung already.")
    elif swung:
        says.append(f"The lines from {listed(swung)} are swung already.")
    apart = tuple(_apart(leg) for leg in task.legs if leg.swung is None)
    return Said(_TITLE, " ".join(says), belongs="marks", beside="", apart=apart, rest="")


def _through(leg: JoinedLeg) -> str:
    return ", ".join(f"({mark.order})" for mark in leg.through)


def _from_to(leg: JoinedLeg) -> str:
    if leg.through:
        return f"({leg.start.order}) through {_through(leg)} to ({leg.end.order})"
    return f"({leg.start.order}) to ({leg.end.order})"


def _apart(leg: JoinedLeg) -> Apart:
    start, end = leg.start.order, leg.end.order
    if leg.joins == "straight":
        says = f"Rule straight from ({start}) to ({end})."
    else:
        says = (
            f"Draw one smooth curve from ({start}) through {_through(leg)} to ({end}). "
            "A corner in it shows a mark that has slipped."
        )
    return Apart(f"join.{leg.start.id}-{leg.end.id}", "join", _TITLE, says, marks=leg.marks, line=leg.line)


def guide_words(guided: ChalkedGuide) -> str:
    """How a line inside the piece is chalked, and what to know of it; empty where there is nothing to say."""
    label, says = guided.guide.label, guided.guide.says
    if not guided.legs:
        return says
    way = f"({guided.legs[0].start.order}){''.join(_onward(leg) for leg in guided.legs)}"
    chalked = f"Chalk the {label} dashed: {way}."
    return f"{chalked} {says}" if says else chalked


def _onward(leg: JoinedLeg) -> str:
    """One leg of a line that is followed from mark to mark."""
    if leg.joins == "straight":
        return f" straight to ({leg.end.order})"
    through = "".join(f" through ({mark.order})" for mark in leg.through)
    return f" in one smooth curve{through} to ({leg.end.order})"


def guide_apart(guided: ChalkedGuide) -> list[Apart]:
    """A line inside the piece told alone, where there is anything to say of it."""
    says, guide = guide_words(guided), guided.guide
    if not says:
        return []
    marks = tuple(mark.id for mark in guide.marks)
    return [Apart(f"guide.{guide.guide}", "line", upper_first(guide.label), says, marks=marks, line=guided.line)]

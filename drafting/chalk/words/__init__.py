"""The steps of a chalk plan in words, for a person who stands at the cloth with a tape and chalk.

`steps_of` has the tasks decided and says each of them. What is said of a subject stands in one file, in whole
sentences. Each step names the unit of its readings once.
"""

from collections.abc import Sequence
from typing import assert_never

from drafting.chalk import tasks
from drafting.chalk.deciding import deciding
from drafting.chalk.marks import ChalkLine, PieceMarks, Step
from drafting.chalk.words import beginning, cutting, joining, marking, notches, places
from drafting.chalk.words.marking import MENDING
from drafting.chalk.words.said import Said
from drafting.contract.pieces import Piece
from drafting.layout import Layout
from drafting.stepwise import Steps, finished
from drafting.units import Tape

__all__ = ["KNOW_FIRST", "MENDING", "TAKE_CARE", "say", "steps_of", "telling"]

#: The titles of what is to be known before any work.
KNOW_FIRST, TAKE_CARE = "Before you begin", "Take care"


def steps_of(
    pieces: Sequence[Piece], marked: Sequence[PieceMarks], tape: Tape, line: ChalkLine, layout: Layout | None = None,
    *, washing: str, heed: Sequence[str] = (), care: Sequence[str] = (),
) -> tuple[Step, ...]:  # fmt: skip
    """The steps for all pieces in the order of work: the first piece whole, the others by what differs.

    `layout` says how every piece lies; without it each on the fold lies on a lengthwise fold. `washing` says whether
    the cloth is washed first. `heed` are the warnings about the result, each with its ways out: they stand before all
    else, then the cautions in `care`.
    """
    return finished(telling(pieces, marked, tape, line, layout, washing=washing, heed=heed, care=care))


def telling(
    pieces: Sequence[Piece], marked: Sequence[PieceMarks], tape: Tape, line: ChalkLine, layout: Layout | None,
    *, washing: str, heed: Sequence[str], care: Sequence[str],
) -> Steps[tuple[Step, ...]]:  # fmt: skip
    """As `steps_of`, a step at a time: what there is to do for each piece, then the words."""
    steps: list[Step] = []
    if pieces:
        before = [(KNOW_FIRST, says) for says in heed] + ([(TAKE_CARE, " ".join(care))] if care else [])
        steps += [
            Step(number, pieces[0].name, title, says, heed=True, belongs="know")
            for number, (title, says) in enumerate(before, start=1)
        ]
    decided = yield from deciding(pieces, marked, tape, line, layout, washing=washing)
    for piece, task in decided:
        said = say(task, tape)
        steps.append(
            Step(
                len(steps) + 1, piece, said.title, said.says, said.marks, belongs=said.belongs, stage=said.stage,
                beside=said.beside, apart=said.apart, rest=said.rest,
            )
        )  # fmt: skip
    return tuple(steps)


def say(task: tasks.Task, tape: Tape) -> Said:  # noqa: PLR0911, PLR0912 - one line for each kind of task
    """One task in words, for the tape in hand."""
    match task:
        case tasks.LayCloth():
            return places.lay_cloth(task)
        case tasks.ChalkPlaces():
            return places.chalk_places(task, tape)
        case tasks.Begin():
            return beginning.begin(task, tape)
        case tasks.FoldAndBegin():
            return beginning.fold_and_begin(task, tape)
        case tasks.ChalkZero():
            return beginning.further_zero(task, tape)
        case tasks.RuleLevels():
            return marking.rule_levels(task, tape)
        case tasks.MarkFold():
            return marking.mark_fold(task, tape)
        case tasks.ChalkMarks():
            return marking.chalk_marks(task, tape)
        case tasks.MeasureProofs():
            return marking.measure_proofs(task, tape)
        case tasks.Mend():
            return marking.mend(task)
        case tasks.JoinMarks():
            return joining.join_marks(task)
        case tasks.ChalkOtherHalf():
            return marking.other_half(task)
        case tasks.ChalkNotches():
            return notches.chalk_notches(task, tape)
        case tasks.ClipCurves():
            return notches.clip_curves(task, tape)
        case tasks.ChalkSlit():
            return notches.chalk_slit(task, tape)
        case tasks.CutPiece():
            return cutting.cut_piece(task, tape)
        case tasks.TrimEdge():
            return cutting.trim_edge(task, tape)
        case tasks.LayAgain():
            return cutting.lay_again(task, tape)
        case tasks.LayOver():
            return cutting.lay_over(task, tape)
        case tasks.ChalkDiffering():
            return cutting.chalk_differing(task, tape)
        case tasks.NothingDiffers():
            return cutting.nothing_differs(task)
        case tasks.CountPieces():
            return cutting.count_pieces(task)
        case _:
            assert_never(task)

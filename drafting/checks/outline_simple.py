"""Neither outline crosses itself. Never missed: if it is, the draft is at fault."""

from drafting.checks import Way, Words
from drafting.garments import SetOut
from drafting.geometry.polyline import crosses_itself
from drafting.problems import Check

ID = "outline_simple"
ORDER = 72
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Looks at the cut line and the stitch line of every piece that differs from the one before."""
    lines = {id(piece.cut_line): piece for piece in draft.pieces}
    crossed = any(crosses_itself(piece.cut_line) or crosses_itself(piece.stitch_line) for piece in lines.values())
    if crossed or ID in draft.refused:
        says = (
            "With these measures the lines of the draft cross each other, so it cannot be cut. Look at the "
            "measures again: "
            "they do not go together on one body."
        )
        return Check(ID, "stop", says, None, None, "")
    return Check(ID, "pass", "No line crosses itself.", None, None, "")

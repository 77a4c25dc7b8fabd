"""One look that shows a piece chalked with across and down exchanged: which way a mark lies farther."""

from collections.abc import Sequence

from drafting.chalk.marks import Look, Mark

#: A mark shows to the eye which way it lies farther from here on, mm (our choice: a hand's breadth and a half).
SEEN = 150.0


def look_of(marks: Sequence[Mark], base: str) -> Look | None:
    """The mark that shows it best, with its sentence; None where no mark lies clearly farther one way.

    A mark far out is taken first, because the eye sees it before any reading: true as drafted, false once exchanged.
    `base` is the line that "across" is counted from.
    """
    down = "down from the first 0" if any(mark.zero > 1 for mark in marks) else "down from 0"
    out = [mark for mark in marks if mark.kind in {"corner", "level"}]
    for sign, farther, nearer in (
        (1, f"from {base}", down),
        (-1, down, f"from {base}"),
    ):
        mark = max(out, key=lambda m: sign * (m.chalked.x - m.chalked.y), default=None)
        if mark is not None and sign * (mark.chalked.x - mark.chalked.y) >= SEEN:
            says = (
                f"Look: ({mark.order}) lies farther {farther} than {nearer}. If yours does not, across and down were "
                "exchanged: rub out all marks and begin again at 0."
            )
            return Look(mark.id, "across" if sign > 0 else "down", says)
    return None

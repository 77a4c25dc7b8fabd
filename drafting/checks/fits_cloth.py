"""The pieces must go on the width of the cloth in one of the ways it may be laid."""

from dataclasses import replace

from drafting.cloth import SPARE
from drafting.contract.judging import Value, Way, Words, millimetres
from drafting.contract.pieces import of_the_cloth
from drafting.contract.set_out import SetOut
from drafting.layout import USUAL, fits_across, way_name
from drafting.layout.buying import WIDTHS
from drafting.problems import Check
from drafting.sentences import lower_first

ID = "fits_cloth"
ORDER = 60
#: Wider cloth than is common, mm, for a garment that goes on nothing else. Common practice, no source.
WIDER = (2000.0, 2400.0)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when no way that keeps the garment as it is takes the widest piece between the selvages.

    It warns too where the way that is told would not take it on cloth narrower by SPARE.
    """
    value = max(piece.width for piece in of_the_cloth(draft.pieces))
    limit = draft.cloth.usable_width / 2
    ways = fits_across(draft.pieces, draft.cloth)
    folded = [way for way in ways if way == USUAL.key]
    if ways:
        told = ways[:1]  # folded in half where that goes: it is tried first
        narrower = replace(draft.cloth, width=draft.cloth.width - SPARE)
        if not fits_across(draft.pieces, narrower, told):
            says = (
                f"Less than {words(SPARE)} of the usable width is left when the cloth is laid like this: "
                f"{way_name(told[0]).lower()}. Cloth is often narrower than its label says. Measure it before you cut."
            )
            return Check(ID, "warn", says, value, limit)
    if folded:
        says = f"Folded in half, the cloth is wide enough: {words(value)} of {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    if ways:
        says = f"The cloth is wide enough when it is laid like this: {way_name(ways[0]).lower()}."
        return Check(ID, "pass", says, value, limit)
    if value <= limit + 1e-6:
        says = "The pieces do not fit on this cloth in the way that you chose."
    else:
        widest = max(of_the_cloth(draft.pieces), key=lambda piece: piece.width)
        what = f"the {widest.reaches} is {words(value - limit)} too long for its width"
        if not widest.reaches:
            what = f"the {lower_first(widest.label)} is {words(value - limit)} too wide for it"
        says = f"When this cloth is folded in half, {what}."
    return Check(ID, "warn", says, value, limit)


def widths(draft: SetOut) -> list[Value]:
    """Cloth widths that are sold and wide enough folded in half."""
    widest = max(piece.width for piece in of_the_cloth(draft.pieces))
    needed = 2 * widest + draft.cloth.width - draft.cloth.usable_width + SPARE
    wide = [width for width in (*WIDTHS["cm"], *WIDER) if width >= needed]
    return [millimetres(wide[0])] if wide else []


#: The ways out are laid before they are offered: drafting.ways_out.cloth tries them.
WAYS: tuple[Way, ...] = ()

"""How each girth of `cut_in_one` runs over its pieces, so that it can be measured along the marks.

Round the body on front and back; round the arm on front, back and a lower sleeve cut apart.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.girths import (
    AcrossAt,
    Along,
    ChalkedGirth,
    FinishedGirth,
    FromLine,
    LeastFromLine,
    LeastOf,
    Narrowest,
    SumOf,
)
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point

#: The marks from the end of the sleeve to the hem, and those of the overarm, whose last join is straight.
SIDE: Final = ("underarm_end", "hem_corner")
OVERARM: Final = ("shoulder_point", "overarm_end")
BODY: Final = ("front", "back")


def measured(
    girths: Sequence[FinishedGirth], made: Sequence[Piece], cloth: ClothFacts, *, scooped: bool
) -> tuple[FinishedGirth, ...]:
    """The girths, each with how it is measured along the marks of the pieces."""
    pieces = {piece.name: piece for piece in made}
    banded = {"cuff", "neck_band"}
    return tuple(
        replace(girth, chalked=_band(girth.at) if girth.at in banded else _how(girth, pieces, cloth, scooped=scooped))
        if girth.chalked is None
        else girth
        for girth in girths
    )


def _band(name: str) -> ChalkedGirth:
    return SumOf(((2.0, Along(name, (f"{name}_top", f"{name}_corner"))),))


def _how(girth: FinishedGirth, pieces: dict[str, Piece], cloth: ClothFacts, *, scooped: bool) -> ChalkedGirth:
    if girth.at == "neck":  # of a stand across its narrowest place, of a scooped edge along it
        if scooped:
            return _both([Along(name, ("neck_top", "neck_corner")) for name in BODY], 2.0)
        return _both([Narrowest(name, ("neck_corner", "overarm_end")) for name in BODY], 2.0)
    if girth.at == "hem":
        return _both([Along(name, ("hem_corner", "hem_fold")) for name in BODY], 2.0)
    if girth.at == "underarm":
        return _both([FromLine(name, "underarm", SIDE, OVERARM) for name in BODY])
    if girth.at == "sleeve_end":
        if "lower_sleeve" in pieces:
            return SumOf(((2.0, Along("lower_sleeve", ("sleeve_end_under", "sleeve_end_fold"))),))
        return _both([Along(name, ("overarm_end", "underarm_end")) for name in BODY])
    if girth.at == "narrowest":
        return _narrowest(girth.girth, pieces, cloth)
    level = "bust" if girth.at == "bust_level" else girth.at
    return _both([AcrossAt(name, SIDE, "side", level, girth.girth / 4) for name in BODY], 2.0)


def _both(parts: Sequence[ChalkedGirth], times: float = 1.0) -> ChalkedGirth:
    return SumOf(tuple((times, part) for part in parts))


def _narrowest(girth: float, pieces: dict[str, Piece], cloth: ClothFacts) -> ChalkedGirth:
    """The least girth of the sleeve, square to the overarm: of the upper sleeve or of the lower one."""
    upper = _both([LeastFromLine(name, "underarm", SIDE, OVERARM) for name in BODY])
    lower = pieces.get("lower_sleeve")
    if lower is None:
        return upper
    across, down = 1 - cloth.shrink_across, 1 - cloth.shrink_along

    def path(piece: Piece, edge: str) -> list[Point]:
        stitch = next(one.stitch for one in piece.edges if one.name == edge)
        return [point.scaled(across, down) for point in stitch.flatten(0.05)]

    joint = sum(
        next(one.stitch for one in pieces[name].edges if one.name == "sleeve_joint")
        .scaled(across, down, Point(0.0, 0.0))
        .length()
        for name in BODY
    )
    under = 2 * min(point.x for point in path(lower, "under"))
    below = SumOf(((2.0, Narrowest("lower_sleeve", ("joint_under", "sleeve_end_under"))),))
    return LeastOf(girth, ((joint, upper), (under, below)))

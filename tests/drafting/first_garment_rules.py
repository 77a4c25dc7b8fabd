"""What is true of every draft of the first garment alone: which pieces it has, and that its own girths are met."""

import math

import shapely
from shapely import LineString, get_coordinates

from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from tests.drafting.bodies import levels
from tests.drafting.shaped import line, unshrunk


def pieces_are_those_asked_for(draft: SetOut) -> None:
    faced = draft.choices.opening and not draft.choices.back_seam
    joined = any(edge.name == "sleeve_joint" for edge in draft.pieces[0].edges)
    names = ["front", "back", *(["lower_sleeve"] if joined else []), *(["facing"] if faced else [])]
    names += ["neck_band"] if draft.choices.neck_band is not None else []
    names += ["cuff"] if draft.choices.cuff is not None else []
    hooded = draft.choices.hooded and draft.pieces[0].edge("neck_top").stitch.start.y > 0
    own = ["hood", "hood_strip"] if draft.choices.hood_strip else ["hood"]
    lining = ["hood_lining", "hood_lining_strip"][: len(own)] if draft.choices.hood_lined else []
    names += [*own, *lining] if hooded else []
    names += ["pouch"] if draft.choices.pouch else []
    names += {"patch": ["patch_pocket"], "in_seam": ["pocket_bag"], "none": []}[draft.choices.pockets]
    names += ["sleeve_flounce"] if draft.choices.sleeve_flounce is not None else []
    names += ["hem_flounce"] if draft.choices.hem_flounce is not None else []
    assert [piece.name for piece in draft.pieces] == names
    front, back = ({(notch.seam, notch.id) for notch in piece.notches} for piece in draft.pieces[:2])
    # The quarter marks of a neck band lie in front of the shoulder seams.
    assert {key for key in front if key[0] != "neck_top"} == {key for key in back if key[0] != "centre_back"}
    assert {key for key in front if key[0] == "neck_top"} == (
        {("neck_top", "quarter")} if draft.choices.neck_band is not None else set()
    )


def width_at(draft: SetOut, piece: Piece, level: float) -> float:
    """Finished width of the piece at a level below the sleeve, from its middle to the outermost stitch line, mm."""
    side = next(edge for edge in piece.edges if edge.name == "side").stitch.flatten(0.005)
    cut = shapely.intersection(line(side), LineString([(-10.0, level), (5000.0, level)]))
    assert not cut.is_empty, "the side seam does not reach this level"
    middle = 0.0 if piece.on_fold else piece.edges[0].stitch.start.x
    return (float(min(get_coordinates(cut)[:, 0])) - middle) * (1 - draft.cloth.shrink_across)


def girths_are_met(draft: SetOut) -> None:
    """Waist, hip and hem as told; below the underarm curve within 0.5 mm, and never less than asked above it."""
    told = {girth.at: girth for girth in draft.girths}
    piece = draft.pieces[0]
    # From where the underarm curve ends, the outline is the side seam.
    side_from = next((n.inner.y for n in piece.notches if n.id == "underarm"), 0.0)
    for name in ("waist", "hip"):
        level = levels(piece).get(name, math.inf)
        if name in told and any(notch.id == name for notch in piece.notches) and level > side_from:
            assert abs(4 * width_at(draft, piece, level) - told[name].girth) <= 0.5, name
    hem = line(unshrunk(draft, next(e for e in piece.edges if e.name == "hem").stitch.flatten(0.005)))
    assert abs(4 * hem.length - told["hem"].girth) <= 0.5
    sleeve = next((piece for piece in draft.pieces if piece.name == "lower_sleeve"), piece)
    end = line(unshrunk(draft, next(e for e in sleeve.edges if e.name == "sleeve_end").stitch.flatten(0.005)))
    # Drawn as a cubic arc, which is longer than the true one by up to 0.03 %.
    assert abs(2 * end.length - told["sleeve_end"].girth) <= 0.5 + 3e-4 * told["sleeve_end"].girth
    asked = 4 * draft.facts["bust_quarter"]
    if told["bust_level"].girth < asked - 0.5 and piece.level("bust") < piece.level("hem"):
        # The side cannot be let out to a bust so near a narrow waist: then it is told, and what it became.
        moved = [one.after for one in draft.adjusted if one.key == "ease_bust"]
        assert moved
        assert abs(moved[-1] - told["bust_level"].girth) <= 0.5
        assert abs(told["bust"].girth - told["bust_level"].girth) <= 0.5
    else:
        assert told["bust"].girth == asked

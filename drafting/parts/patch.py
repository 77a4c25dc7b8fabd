"""Patch pockets: two pieces, left and right, each sewn onto one half of the front with its top left open.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. What says nothing else is our
choice.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep
from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, FinishedFigure, Guide, GuideMark, Piece, Stage
from drafting.contract.seams import SetOn
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.sewing import Say
from drafting.person.measures import Body

PATCH: Final = "patch_pocket"
LINE: Final = "patch_line"
#: Its top is turned in by this, its other edges by that. Common practice, no source.
TOP_HEM, ALLOWANCE = 25.0, 10.0
STAGE: Final = Stage("patch", "Pocket")
STAGES: Final = (Stage("levels", "Height"), Stage("widths", "Corners"))


@dataclass(frozen=True, slots=True)
class Patch:
    """One pocket on its half of the front: how far from the fold it begins and ends, and how far down."""

    inner: float
    outer: float
    top: float
    foot: float

    @property
    def width(self) -> float:
        """How wide it is, and so how long its opening."""
        return self.outer - self.inner

    @property
    def depth(self) -> float:
        """How deep it is."""
        return self.foot - self.top

    @property
    def set_on(self) -> SetOn:
        """Where it is sewn onto the front."""
        return SetOn(PATCH, "front", LINE)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """From its top at the centre down, along its foot, and up to its top at the side."""
        return (Point(self.inner, self.top), Point(self.inner, self.foot),
                Point(self.outer, self.foot), Point(self.outer, self.top))  # fmt: skip


def patch_wide(body: Body) -> float:
    """How wide a pocket is where the front has room for it, mm."""
    return body.hand_girth / 2 + sources.PATCH_ROOM * sources.scale(body.stature)


def has_room(body: Body, waist: float, hem: float) -> bool:
    """Whether a garment whose hem lies at this level leaves a pocket enough depth below the waist."""
    grown = sources.scale(body.stature)
    room = hem - sources.PATCH_ABOVE_HEM * grown - waist - sources.PATCH_BELOW_WAIST_LEAST * grown
    return room >= sources.PATCH_DEPTH_LEAST * patch_wide(body) - 1e-6


def patch_of(body: Body, quarter: float, waist: float, hem: float, side: Callable[[float], float]) -> Patch:
    """The pocket of a front of this quarter at the bust, with its waist and hem at these levels.

    `side` is how far from the fold the side lies at a level. It begins in the middle of what is left between centre and
    side. Where the hem comes too near, it goes up as far as the waist, and is less deep from there on.
    """
    grown = sources.scale(body.stature)
    least = body.hand_girth / 2 + sources.PATCH_ROOM_LEAST
    lowest = hem - sources.PATCH_ABOVE_HEM * grown
    highest = waist + sources.PATCH_BELOW_WAIST_LEAST * grown
    wide = max(least, min(patch_wide(body), sources.PATCH_OF_QUARTER * quarter))
    while True:
        deep = sources.PATCH_DEPTH * wide
        foot = min(lowest, waist + sources.POCKET_BELOW_WAIST * grown + deep)
        top = max(highest, foot - deep)
        beside = min(side(top + (foot - top) * step / 8) for step in range(9)) - sources.PATCH_FROM_SIDE
        room = beside - sources.PATCH_FROM_CENTRE
        if room >= wide - 1e-6 or wide <= least:
            break
        wide = max(least, min(room, wide - 0.5))
    inner = sources.PATCH_FROM_CENTRE + max(0.0, (room - wide) / 2)
    return Patch(inner, inner + wide, top, foot)


def patch_piece(patch: Patch, cloth: ClothFacts) -> Piece:
    """The pocket as it is cut, twice; it is the same turned over."""
    inner_top, inner_foot, outer_foot, outer_top = patch.corners
    edges = [
        FinishedEdge(name, Path((Line(start, end),)), allowance, turned=True, label=label)
        for name, label, start, end, allowance in (
            ("patch_top", "top of the pocket", inner_top, outer_top, TOP_HEM),
            ("patch_outer", "outer side of the pocket", outer_top, outer_foot, ALLOWANCE),
            ("patch_foot", "foot of the pocket", outer_foot, inner_foot, ALLOWANCE),
            ("patch_inner", "inner side of the pocket", inner_foot, inner_top, ALLOWANCE),
        )
    ]
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, closed=True)
    outer_top, outer_foot, inner_foot, inner_top = cut.corners
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("patch_top", "top at the straight edge", "corner", "widths", inner_top),
        ("patch_outer_top", "top at the other side", "corner", "widths", outer_top),
        ("patch_outer_foot", "foot at the other side", "corner", "widths", outer_foot),
        ("patch_foot", "foot at the straight edge", "corner", "widths", inner_foot),
    ]
    return Piece(
        PATCH, "Pocket", 2, False, cut.edges, cut.line, (), anchors(cut.line, wanted), (), stages=STAGES,
        zero=cut.place(Point(0.0, 0.0)).y, fine=True, stretches=cloth.kind == "knit",
    )  # fmt: skip


def with_patch(front: Piece, patch: Patch | None, cloth: ClothFacts) -> Piece:
    """The front with the line on which its pocket is laid."""
    if patch is None:
        return front
    across, down = 1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along)
    places = [Point(corner.x * across, corner.y * down + front.zero) for corner in patch.corners]
    named = (
        ("patch_at_top", "inner top of the pocket"),
        ("patch_at_foot", "inner foot of the pocket"),
        ("patch_at_outer_foot", "outer foot of the pocket"),
        ("patch_at_outer_top", "outer top of the pocket"),
    )
    marks = tuple(GuideMark(id, label, "guide", place, place) for (id, label), place in zip(named, places, strict=True))
    says = (
        "A pocket is laid on this line on either half, its edges turned in. From {patch_at_top} to "
        "{patch_at_outer_top} it stays open. Mark its four corners on the other half as well."
    )
    line = Guide(LINE, "pocket line", STAGE.key, tuple(places), marks, says)
    return replace(front, guides=(*front.guides, line), stages=(*front.stages, STAGE))


def patch_figures(patch: Patch) -> list[FinishedFigure]:
    """How wide and how deep each is, and where it begins."""
    return [
        FinishedFigure("patch_width", "width of each patch pocket", patch.width),
        FinishedFigure("patch_depth", "depth of each patch pocket", patch.depth),
        FinishedFigure("patch_from_centre", "centre front to each patch pocket", patch.inner),
    ]


def patch_sewn(say: Say, *, knit: bool) -> SewStep:
    """The pockets, sewn on while the front still lies flat."""
    begin = "" if knit else "Overcast the edges of both pockets. "
    how = "with a stitch that stretches" if knit else "along its edge"
    says = (
        f"{begin}Turn the top of each pocket in by {say(TOP_HEM)} and sew it down {how}. Press its other edges in by "
        f"{say(ALLOWANCE)}, lay it on its line on the right side of the front, and sew it on along both sides and its "
        "foot. Sew both ends of each opening over twice."
    )
    return SewStep("pockets", "Patch pockets", says)

"""A flounce: a part of a ring of cloth whose inner edge is sewn to the end of a sleeve or to a hem.

For an edge C, a depth d and a fullness f (the share of a whole circle) the inner radius is C/(2πf) and the outer one
is d more, so that the free edge is 2πfd longer than C (CALC). A part lies on the fold and is half a circle at most, so
a fuller flounce is cut in equal parts. Both edges are swung with the tape, which is read in its finest steps. Finished
millimetres; angles in radians from the fold.

What says nothing else is our choice.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from drafting import sources
from drafting.cloth import SPARE, ClothFacts, passing_factor
from drafting.contract.asked import Asked, EdgeLength
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.girths import Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import AnchorKind, FinishedFigure, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.arcs import arc, inner_arc, panel_long, panel_width, place, smaller_stretch
from drafting.parts.notches import notch_at
from drafting.sentences import lower_first
from drafting.units import Tape

#: Where it is sewn on: the end of a sleeve, or the hem of the body.
Role = Literal["sleeve", "hem"]
#: Allowances: of the seams of its parts (common practice, no source), and of its free edge, which is a curve.
SIDE_ALLOWANCE: Final = 10.0
HEM_ALLOWANCE: Final = 10.0
#: The inner edge has at least this radius, finished, and cut as much as shears follow.
RADIUS_LEAST: Final = 30.0
#: How much longer than its edge one that is gathered is cut.
GATHERED: Final = 1.3
#: More parts are not cut. Our choice: eight seams are as many as a flounce is sewn with.
MOST_PARTS: Final = 8
#: A notch nearer than this to the end of an edge is left out, mm: the end is a mark itself.
CLEAR: Final = 5.0
_KEYS: Final[dict[Role, str]] = {"sleeve": "sleeve_flounce", "hem": "hem_flounce"}
_SEWN_TO: Final[dict[Role, str]] = {"sleeve": "the end of the sleeve", "hem": "the hem"}

STAGES: Final[tuple[Stage, ...]] = (
    Stage("fold", "Depth"),
    Stage("corners", "Corners"),
    Stage("arcs", "Between the corners"),
)


@dataclass(frozen=True, slots=True)
class Flouncing:
    """What a style asks of a flounce: its depth, mm, its fullness as a share of a whole circle, how it is sewn on.

    `asked` is the depth that was asked for, mm, and None where it was left to the draft; `depth` is the one that is
    drafted. `gathered` says that its inner edge is cut longer.
    """

    depth: float
    fullness: float
    gathered: bool = False
    asked: float | None = None


@dataclass(frozen=True, slots=True)
class Flounce:
    """A flounce, finished: `ring` is the girth of the edge it is sewn to, `seam` that of its own inner edge, mm.

    `parts` is in how many equal parts one is cut, `garment` how many flounces the garment has. `allowance` lies along
    the inner edge.
    """

    role: Role
    ring: float
    seam: float
    depth: float
    fullness: float
    parts: int
    garment: int
    allowance: float

    @property
    def name(self) -> str:
        """The name of its piece, and the beginning of the names of its edges and marks."""
        return _KEYS[self.role]

    @property
    def label(self) -> str:
        """What a person calls it."""
        return "Sleeve flounce" if self.role == "sleeve" else "Hem flounce"

    @property
    def sewn_to(self) -> str:
        """What it is sewn to, in the middle of a sentence."""
        return _SEWN_TO[self.role]

    @property
    def radius(self) -> float:
        """Radius of its inner edge."""
        return self.seam / (2 * math.pi * self.fullness)

    @property
    def outer(self) -> float:
        """Radius of its free edge."""
        return self.radius + self.depth

    @property
    def sweep(self) -> float:
        """Girth of its free edge."""
        return 2 * math.pi * self.fullness * self.outer

    @property
    def angle(self) -> float:
        """Half the angle of a part: from its fold to its side."""
        return math.pi * self.fullness / self.parts

    @property
    def inner_edge(self) -> str:
        """The edge that is sewn on, from the fold to the side."""
        return f"{self.name}_edge"

    @property
    def side(self) -> str:
        """The edge at which its parts are joined."""
        return f"{self.name}_side"

    @property
    def free_edge(self) -> str:
        """Its hem, from the side back to the fold."""
        return f"{self.name}_hem"

    @property
    def begins_in_seam(self) -> bool:
        """Whether a seam of it lies where its ring begins: the under seam of a sleeve, or the centre back of a hem.

        The middle of a part always lies at the centre front, so of an even number of parts another lies behind.
        """
        return self.role == "sleeve" or self.parts % 2 == 1

    @property
    def shares(self) -> tuple[tuple[float, bool], ...]:
        """Where it is pinned, as shares of the ring from its beginning on; True stands for one of its seams."""
        if self.parts == 1:
            return ((0.25, False), (0.5, False), (0.75, False))
        return tuple((k / (2 * self.parts), (k % 2 == 0) == self.begins_in_seam) for k in range(1, 2 * self.parts))

    def cut_radius(self, cloth: ClothFacts) -> float:
        """The radius at which its inner edge is cut, mm."""
        return self.radius / (1 - min(cloth.shrink_across, cloth.shrink_along)) - self.allowance


def flounce_of(
    role: Role, asked: Flouncing, ring: float, needed: float, garment: int, allowance: float, cloth: ClothFacts,
    chalked: ChalkedLine,
) -> Flounce:  # fmt: skip
    """The flounce of an edge of the girth `ring`; its inner edge opens to `needed` mm as it will be chalked.

    Round a circle the cloth gives only as much as its stiffer direction, so where the edge itself is wide enough and an
    arc of its length is not, the flounce is cut longer and eased in.
    """
    fewest = math.ceil(2 * asked.fullness - 1e-9)
    seam = ring * (GATHERED if asked.gathered else 1.0)
    found = Flounce(role, ring, seam, asked.depth, asked.fullness, fewest, garment, allowance)
    opens = needed / passing_factor(smaller_stretch(cloth))
    if needed > 0 and seam < opens + (slack := chalked_short(found, chalked.tape, cloth)):
        found = _with(found, opens + slack, fewest)
    for parts in range(fewest, MOST_PARTS + 1):
        found = _with(found, found.seam, parts)
        if _fits(found, cloth):
            return found
    return _with(found, found.seam, fewest)


def _with(flounce: Flounce, seam: float, parts: int) -> Flounce:
    return Flounce(flounce.role, flounce.ring, seam, flounce.depth, flounce.fullness, parts, flounce.garment,
                   flounce.allowance)  # fmt: skip


def _fits(flounce: Flounce, cloth: ClothFacts) -> bool:
    """Whether a part goes on the cloth on its fold."""
    room = cloth.usable_width - SPARE
    if cloth.turned:
        allowances = (flounce.allowance, SIDE_ALLOWANCE, HEM_ALLOWANCE)
        return panel_long(flounce.radius, flounce.outer, flounce.angle, allowances, cloth) <= room
    return 2 * panel_width(flounce.outer, flounce.angle, HEM_ALLOWANCE, SIDE_ALLOWANCE, cloth) <= room


def chalked_short(flounce: Flounce, tape: Tape, cloth: ClothFacts) -> float:
    """By how much its inner edge may come out shorter as it is chalked, finished, mm.

    The radius is read to half a finest step, and each corner to half a one both ways; every part is cut alike (CALC).
    """
    step = tape.finest.size * (1 - min(cloth.shrink_across, cloth.shrink_along))
    return (math.pi * flounce.fullness + 2 * flounce.parts * math.sqrt(0.5)) * step


def opens_as(flounce: Flounce, tape: Tape, cloth: ClothFacts) -> float:
    """The least its inner edge becomes as it is chalked, as a ring across the cloth that opens as far, mm."""
    least = flounce.seam - chalked_short(flounce, tape, cloth)
    return least * passing_factor(smaller_stretch(cloth)) / passing_factor(cloth.across)


def can_be_cut(flounce: Flounce, cloth: ClothFacts) -> bool:
    """Whether its inner edge turns so gently that it lies flat and shears follow it."""
    least = sources.CUT_RADIUS["shears"]
    return flounce.radius >= RADIUS_LEAST - 1e-6 and flounce.cut_radius(cloth) >= least - 1e-6


# --- Its piece ---------------------------------------------------------------------------------------------------


def flounce_piece(flounce: Flounce, cloth: ClothFacts) -> Piece:
    """A part of the flounce as it is cut, on the fold."""
    name, centre, said = flounce.name, Point(0.0, 0.0), lower_first(flounce.label)
    inner = inner_arc(flounce.radius, flounce.angle, cloth)
    side = Path((Line(inner.end, place(flounce.outer, flounce.angle)),))
    edges = (
        FinishedEdge(flounce.inner_edge, inner, flounce.allowance, label=f"upper edge of the {said}",
                     swung_from=centre),
        FinishedEdge(flounce.side, side, SIDE_ALLOWANCE, label=f"seam of the {said}"),
        FinishedEdge(flounce.free_edge, arc(flounce.outer, flounce.angle, 0.0), HEM_ALLOWANCE, turned=True,
                     label=f"hem of the {said}", swung_from=centre),
    )  # fmt: skip
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, origin=centre)
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        (f"{name}_fold", "upper edge at the fold", "fold", "fold", cut.line[0]),
        (f"{name}_corner", "upper edge at the seam", "corner", "corners", cut.corners[0]),
        (f"{name}_hem_corner", "hem at the seam", "corner", "corners", cut.corners[1]),
        (f"{name}_hem_fold", "hem at the fold", "fold", "fold", cut.line[-1]),
    ]
    top, foot = cut.line[0].y, cut.line[-1].y
    parts = (
        Part(f"{name}_fold", f"{name}_upper_curve", "upper curve", "arcs"),
        Part(f"{name}_corner", f"{name}_side_curve", "seam", "arcs"),
        Part(f"{name}_hem_corner", f"{name}_hem_curve", "hem curve", "arcs"),
    )
    return Piece(
        name, flounce.label, flounce.parts * flounce.garment, True, cut.edges, cut.line, (),
        anchors(cut.line, wanted), _notches(flounce, cut), stages=STAGES, parts=parts, zero=cut.place(centre).y,
        written=(top + 0.45 * (foot - top), top + 0.5 * (foot - top)), fine=True,
    )  # fmt: skip


def _notches(flounce: Flounce, cut: CutOut) -> tuple[Notch, ...]:
    """The middle at the fold, and the quarters of one that is cut in one part."""
    found = [notch_at(cut, flounce.inner_edge, "flounce_middle", "middle of the flounce", place(flounce.radius, 0.0))]
    if flounce.parts == 1:
        quarter = place(flounce.radius, flounce.angle / 2)
        found.append(notch_at(cut, flounce.inner_edge, "flounce_quarter", "quarter mark of the flounce", quarter))
    return tuple(found)


def flounce_notches(
    flounce: Flounce | None, cut: CutOut, edge: str, finished: Path, reach: tuple[float, float], *, twin: bool = False
) -> tuple[Notch, ...]:
    """The notches on a run of the ring that meet those of the flounce, and its seams.

    `finished` is the edge of the host in its outline order; `reach` is the share of the ring at which the edge
    begins and at which it ends. Of a `twin`, a piece that is cut for front and back alike, a
    notch may meet a seam in front and a middle behind.
    """
    if flounce is None:
        return ()
    begins, ends = reach
    long, found, used = finished.length(), list[Notch](), set[str]()
    for share, seam in flounce.shares:
        at = (share - begins) / (ends - begins) * long
        if not CLEAR <= at <= long - CLEAR:
            continue
        middle = flounce.parts > 1 or abs(share - 0.5) < 1e-9
        id, label = ("flounce_middle", "middle of the flounce") if middle else ("flounce_quarter", "quarter mark")
        if seam:
            id, label = "flounce_seam", "seam of the flounce"
        if twin:
            id, label = "flounce_place", "notch for the flounce"
        number = sum(one.startswith(id) for one in used) + 1
        key = id if number == 1 else f"{id}_{number}"
        used.add(key)
        found.append(notch_at(cut, edge, key, label, finished.at_length(at)[0], where=_WHERE[number - 1]))
    return tuple(found)


#: Told beside a notch of which an edge has several.
_WHERE: Final = ("", "farther along", "third along", "fourth along")


# --- What it is sewn to ------------------------------------------------------------------------------------------


def flounce_seams(flounce: Flounce | None, ring: Sequence[EdgeRun]) -> tuple[Seam, ...]:
    """Its parts to each other; then it to its ring, which runs once round from where `begins_in_seam` says.

    Every edge of the ring stands by itself, in the direction in which it is sewn. The flounce is curved otherwise than
    its ring, so they are compared after the wash.
    """
    if flounce is None:
        return ()
    halves = (EdgeRun(flounce.name, flounce.inner_edge, backwards=True), EdgeRun(flounce.name, flounce.inner_edge))
    part = halves if flounce.begins_in_seam else halves[::-1]
    joined = Seam(part * flounce.parts, tuple(ring), flounce.seam - flounce.ring, washed=True)
    return plain_seam((flounce.name, flounce.side), (flounce.name, flounce.side)), joined


# --- What it is found to be --------------------------------------------------------------------------------------


def flounce_girths(flounce: Flounce | None, cloth: ClothFacts, what: str, needs: float) -> list[FinishedGirth]:
    """Its inner edge and its hem; `what` goes through it, and needs `needs` mm: nothing where that is 0."""
    if flounce is None:
        return []
    name, said, times = flounce.name, lower_first(flounce.label), 2.0 * flounce.parts
    inner = SumOf(((times, Along(name, (f"{name}_fold", f"{name}_corner"))),))
    hem = SumOf(((times, Along(name, (f"{name}_hem_corner", f"{name}_hem_fold"))),))
    passes = Passes(what, needs, smaller_stretch(cloth)) if needs > 0 else None
    return [
        FinishedGirth(name, f"upper edge of the {said}", flounce.seam, 0.0, chalked=inner, worn_stretched=False,
                      passes=passes),
        FinishedGirth(f"{name}_hem", f"hem of the {said}", flounce.sweep, 0.0, chalked=hem, worn_stretched=False),
    ]  # fmt: skip


def flounce_figures(flounces: Iterable[Flounce]) -> list[FinishedFigure]:
    """How deep each is, and the radius of its inner edge."""
    found = []
    for flounce in flounces:
        said = lower_first(flounce.label)
        found.append(FinishedFigure(f"{flounce.name}_depth", f"depth of the {said}", flounce.depth))
        found.append(FinishedFigure(f"{flounce.name}_radius", f"upper radius of the {said}", flounce.radius))
    return found


def flounce_facts(flounces: Iterable[Flounce], cloth: ClothFacts) -> dict[str, float]:
    """What is judged of the one that turns most tightly, mm; nothing where there is none."""
    found = list(flounces)
    if not found:
        return {}
    tightest = min(found, key=lambda one: min(one.radius - RADIUS_LEAST, one.cut_radius(cloth)))
    return {
        "flounce_radius": tightest.radius,
        "flounce_cut_radius": tightest.cut_radius(cloth),
        "flounce_allowance": tightest.allowance,
    }


def flounce_asked(flounce: Flounce | None, asked: Flouncing | None) -> list[Asked]:
    """The depth that was asked for."""
    if flounce is None or asked is None:
        return []
    what = f"depth of the {lower_first(flounce.label)}"
    return [Asked(f"{flounce.name}_depth", what, asked.asked, EdgeLength(flounce.name, flounce.side))]

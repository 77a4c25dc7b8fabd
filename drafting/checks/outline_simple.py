"""No outline crosses itself. Where one does, the choice that shapes the crossed edges is named, with ways out."""

from drafting.contract.judging import Value, Way, Words
from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline, own_crossing
from drafting.problems import Check, Shaping, Try

ID = "outline_simple"
ORDER = 72
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Looks at the cut line and the stitch line of every piece that differs from the one before."""
    found = _crossed(draft)
    if found is None:
        return Check(ID, "pass", "No line crosses itself.", None, None, "")
    causes = _causes(draft, *found)
    says = (
        causes[0].says
        if causes
        else "With these measures the lines of the draft cross each other, so it cannot be cut. Look at the measures "
        "again: they do not go together on one body."
    )
    return Check(ID, "stop", says, None, None, "")


def ways(draft: SetOut) -> tuple[Way, ...]:
    """The changes of every choice that shapes what crosses, the likeliest cause first."""
    found = _crossed(draft)
    if found is None:
        return ()
    return tuple(_way(group) for cause in _causes(draft, *found) for group in cause.ways)


def _way(group: tuple[Try, ...]) -> Way:
    by_value: dict[Value, Try] = {one.value: one for one in group}

    def says(value: Value, words: Words) -> str:
        return by_value[value].says.format(words(by_value[value].length))

    return Way(f"style.{group[0].key}", lambda draft: tuple(by_value), says)


def _crossed(draft: SetOut) -> tuple[frozenset[str], float | None] | None:
    """The names of the edges that cross, and how far below the piece's zero, finished; None where none does.

    Where no piece was made the place is not known.
    """
    lines = {id(piece.cut_line): piece for piece in draft.pieces}
    for piece in lines.values():
        for cut, points in ((True, piece.cut_line), (False, piece.stitch_line)):
            crossing = own_crossing(points)
            if crossing is not None:
                one, other, place = crossing
                middles = (points[i].between(points[i + 1], 0.5) for i in (one, other))
                names = frozenset(_edge_at(piece, middle, cut=cut) for middle in middles)
                down = (place.y - piece.zero) * (1 - draft.cloth.shrink_along)
                return names, down
    return (frozenset(draft.crossed), None) if ID in draft.refused else None


def _edge_at(piece: Piece, place: Point, *, cut: bool) -> str:
    """The name of the edge that a place of an outline belongs to."""

    def away(index: int) -> float:
        edge = piece.edges[index]
        return distance_to_polyline(place, edge.cut if cut else edge.stitch.flatten(0.05))

    return piece.edges[min(range(len(piece.edges)), key=away)].name


def _causes(draft: SetOut, edges: frozenset[str], down: float | None) -> list[Shaping]:
    """The choices that shape what crosses there: first those that shape all of it, else in the garment's own order."""
    found = [
        shaping
        for shaping in draft.shapings
        if shaping.edges & edges and (down is None or shaping.top <= down <= shaping.bottom)
    ]
    return sorted(found, key=lambda shaping: not edges <= shaping.edges)

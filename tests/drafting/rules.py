"""The rules every draft of every garment keeps, measured by shapely.

They are used on the test bodies in every case, on the 507 people and on what Hypothesis finds. Each rule raises
AssertionError with what it found; it knows pieces, edges and seams as records, and none of them by name. Finished
shapes are looked at before shrinkage, as they are sewn.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

import numpy
import shapely
from shapely import LineString, get_coordinates

from drafting import checks
from drafting.checks import as_asked
from drafting.contract.asked import FinishedOutline
from drafting.contract.judging import Words
from drafting.contract.pieces import Edge, Piece
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.geometry.point import Point
from drafting.problems import Check
from tests.drafting import first_garment_rules
from tests.drafting.sewn import SMOOTH, Sewn
from tests.drafting.shaped import line

#: Sampling of lines that are compared, mm.
STEP = 4.0
#: Neighbouring edges turn by at least so much where they meet, degrees: a flatter place is a mark within one edge.
CORNER = 15.0
#: So far an edge is carried on straight at both ends, mm.
CARRIED = 150.0
#: There an allowance is kept less nearly, by this share of how far beyond the end it is: the slant of a short join.
SLANT = 0.035
#: What is true of one garment alone.
OWN: dict[str, tuple[Callable[[SetOut], None], ...]] = {
    "cut_in_one": (first_garment_rules.pieces_are_those_asked_for, first_garment_rules.girths_are_met),
}
#: Checks that nothing may ever miss: the draft would be at fault.
NEVER_MISSED = {"as_asked", "seams_equal", "edges_true", "outline_simple"}


def all_rules(draft: SetOut) -> None:
    """Every rule, and those of its garment alone."""
    for rule in (*RULES, *OWN.get(draft.garment, ())):
        rule(draft)


def missed(draft: SetOut) -> dict[str, str]:
    """The rules that a draft breaks, by name, with what each found."""
    found = {}
    for rule in RULES:
        try:
            rule(draft)
        except AssertionError as error:
            found[rule.__name__] = str(error)
    return found


def sound(judged: Sequence[Check]) -> None:
    """The four checks that nothing may ever miss, and numbers that can be shown."""
    for check in judged:
        if check.id in NEVER_MISSED:
            assert check.result == "pass", check
        assert check.value is None or math.isfinite(check.value), check
        assert check.says.strip()
    ids = [check.id for check in judged]
    assert len(ids) == len(set(ids)), f"a check is judged twice: {ids}"


# --- Names and words --------------------------------------------------------------------------------------------------


def names_are_told_apart(draft: SetOut) -> None:
    """No name stands for two things of one kind, and whatever is named is there."""
    assert draft.pieces
    _once("pieces", (piece.name for piece in draft.pieces))
    _once("girths", (girth.at for girth in draft.girths))
    _once("figures", (figure.at for figure in draft.figures))
    for piece in draft.pieces:
        _once(f"edges of the {piece.name}", (edge.name for edge in piece.edges))
        _once(f"anchors of the {piece.name}", (anchor.id for anchor in piece.anchors))
        _once(f"levels of the {piece.name}", (level.key for level in piece.levels))
        _once(f"stages of the {piece.name}", (stage.key for stage in piece.stages))
        _once(f"guides of the {piece.name}", (guide.id for guide in piece.guides))
        _once(f"notches of the {piece.name}", ((notch.seam, notch.id) for notch in piece.notches))
        edges = {edge.name for edge in piece.edges}
        anchors = {anchor.id for anchor in piece.anchors}
        _known(piece, "edge", (notch.seam for notch in piece.notches), edges)
        _known(piece, "anchor", (one for edge in piece.straightedges for one in (edge.past, edge.to)), anchors)
        if piece.slit is not None:
            _known(piece, "edge", [piece.slit.edge], edges)
            _known(piece, "notch", [piece.slit.notch] if piece.slit.notch else [], {n.id for n in piece.notches})
    edges_of = {(piece.name, edge.name) for piece in draft.pieces for edge in piece.edges}
    for seam in draft.seams:
        for run in (*seam.one, *seam.other):
            assert (run.piece, run.edge) in edges_of, f"a seam names {run}, which is not there"
            assert run.times >= 1, run


def stages_are_declared(draft: SetOut) -> None:
    """Whatever is chalked is chalked in a stage that its piece names, and each part begins at an anchor, in order."""
    for piece in draft.pieces:
        stages = {stage.key for stage in piece.stages}
        _known(piece, "stage", (anchor.stage for anchor in piece.anchors), stages)
        _known(piece, "stage", (part.stage for part in piece.parts), stages)
        _known(piece, "stage", (guide.stage for guide in piece.guides), stages)
        anchors = [anchor.id for anchor in piece.anchors]
        begins = [part.begins for part in piece.parts]
        _known(piece, "anchor", begins, set(anchors))
        assert begins == sorted(begins, key=anchors.index), f"the parts of the {piece.name} are out of order: {begins}"
        assert not begins or begins[0] == anchors[0], f"the first part of the {piece.name} begins at {begins[0]}"


def words_are_said(draft: SetOut) -> None:
    """Whatever a person reads has words, without the signs of a program in them."""
    said: list[tuple[str, str]] = [("girth", girth.label) for girth in draft.girths]
    said += [("figure", figure.label) for figure in draft.figures]
    said += [("adjustment", text) for moved in draft.adjusted for text in (moved.what, moved.why)]
    for piece in draft.pieces:
        said += [("piece", piece.label), *(("edge", edge.label) for edge in piece.edges)]
        said += [("anchor", anchor.label) for anchor in piece.anchors]
        said += [("level", level.words) for level in piece.levels]
        said += [("stage", stage.title) for stage in piece.stages]
        said += [("part", part.words) for part in piece.parts]
        said += [("notch", notch.label) for notch in piece.notches]
        said += [("guide", guide.label) for guide in piece.guides]
    assert draft.after_cut is not None, "nothing says how it is sewn"
    after = draft.after_cut
    _once("steps of sewing", (step.key for step in after.order))
    assert after.order
    assert after.try_on
    said += [("sewing", text) for step in after.order for text in (step.title, step.says)]
    said += [("sewing", text) for text in (after.needle, after.thread, after.stitch)]
    said += [("try-on", text) for row in after.try_on for text in (row.seen, row.change)]
    said += [("shopping", one.what) for one in after.buy]
    for kind, text in said:
        assert text.strip(), f"a {kind} has no words"
        assert "_" not in text, f"a {kind} says {text!r}"
        assert not any(sign in text for sign in ("{", "}", "None", "nan", "  ")), f"a {kind} says {text!r}"


def _once(kind: str, names: Iterable[object]) -> None:
    every = list(names)
    assert len(every) == len(set(every)), f"{kind}: a name stands twice among {every}"


def _known(piece: Piece, kind: str, names: Iterable[str], known: Iterable[str]) -> None:
    unknown = set(names) - set(known)
    assert not unknown, f"the {piece.name} names the {kind} {', '.join(sorted(unknown))}, which it has not"


# --- Outlines ---------------------------------------------------------------------------------------------------------


def _different(draft: SetOut) -> list[Piece]:
    """Pieces whose outline is not that of one before."""
    return list({(id(piece.cut_line), id(piece.edges)): piece for piece in draft.pieces}.values())


def outlines_are_simple(draft: SetOut) -> None:
    """No line crosses itself, the stitch line lies within the cut line, and no reading is below nothing."""
    for piece in _different(draft):
        for name, points in (("cut", piece.cut_line), ("stitch", piece.stitch_line)):
            assert all(math.isfinite(p.x) and math.isfinite(p.y) for p in points), name
            ring = [*points] if piece.on_fold else [*points, points[0]]
            assert line(ring).is_simple, f"the {name} line of the {piece.name} crosses itself"
            assert min(p.x for p in points) > -1e-6, f"the {name} line of the {piece.name} lies beyond its fold"
            if piece.on_fold:
                assert max(abs(points[0].x), abs(points[-1].x)) < 1e-6, f"the {name} line does not end on the fold"
        # The origin is level with the top of the cut line, or above it, so that no reading is negative.
        assert min(p.y for p in piece.cut_line) > -1e-6, f"the {piece.name} reaches above its origin"
        assert abs(min(p.x for p in piece.cut_line)) < 1e-6, f"the {piece.name} does not begin at its origin"
        inside = shapely.Polygon([(p.x, p.y) for p in piece.cut_line])
        assert inside.is_valid, f"the {piece.name} has no inside"
        assert inside.buffer(1e-6).covers(line(piece.stitch_line)), f"the stitch line leaves the {piece.name}"


def edges_connect(draft: SetOut) -> None:
    """Every segment begins where the one before it ends; a piece without a fold closes."""
    for piece in _different(draft):
        segments = [segment for edge in piece.edges for segment in edge.stitch.segments]
        around = [] if piece.on_fold else [(segments[-1], segments[0])]
        for before, after in (*pairwise(segments), *around):
            gap = before.end.distance(after.start)
            assert gap <= 0.001, f"a gap of {gap:.4f} mm in the outline of the {piece.name}"
        for edge in piece.edges:
            assert edge.stitch.length() > 1.0, f"the edge {edge.name} of the {piece.name} is hardly there"


def edges_end_in_corners(draft: SetOut) -> None:
    """Where allowances differ, the edges turn: their cut lines would meet far out otherwise."""
    sewn = Sewn(draft)
    for piece in _different(draft):
        for before, after in pairwise((*piece.edges, *(() if piece.on_fold else piece.edges[:1]))):
            if abs(before.allowance - after.allowance) > 0.1:
                turn = abs(180.0 - sewn.angle(piece.name, before.name, end=True))
                assert turn >= CORNER, f"{before.name} and {after.name} of the {piece.name} turn by {turn:.1f}° only"


def folds_are_left_square(draft: SetOut) -> None:
    """But where an edge comes to a point on the fold on purpose."""
    for piece in _different(draft):
        if not piece.on_fold:
            continue
        first, last = piece.edges[0], piece.edges[-1]
        ends = ((first.comes_to_a_point("start"), first.stitch.segments[0], 0.0, 0, 1, first.allowance),
                (last.comes_to_a_point("end"), last.stitch.segments[-1], 1.0, -1, -2, last.allowance))  # fmt: skip
        for pointed, segment, at, on_fold, next_to, allowance in ends:
            tangent, radius = segment.tangent(at), 1 / max(abs(segment.curvature(at)), 1e-9)
            if pointed:
                continue
            assert abs(tangent.y) < 1e-6, f"the {piece.name} leaves its fold at a slant"
            # The first chord of a curve turns by half of what the curve turns in that step.
            for points in (piece.cut_line, piece.stitch_line):
                away = points[next_to] - points[on_fold]
                turns = math.degrees(math.asin(min(1.0, away.length() / 2 / max(radius - allowance, 1.0))))
                slant = abs(math.degrees(math.atan2(away.y, away.x)))
                assert slant < max(3.0, turns + 0.1), f"the {piece.name} leaves at a slant"


def extended(edge: Edge) -> LineString:
    """The stitch line of an edge carried on straight at both ends, since cut edges reach beyond it at corners.

    One that is swung is carried on along its circle.
    """
    points = edge.stitch.flatten(0.005)
    if edge.swing is not None:
        return line(carried_round(points, edge.swing.centre))
    first, last = edge.stitch.segments[0].tangent(0.0), edge.stitch.segments[-1].tangent(1.0)
    return line([points[0] - first * CARRIED, *points, points[-1] + last * CARRIED])


def carried_round(points: Sequence[Point], centre: Point) -> list[Point]:
    """An arc carried on by an eighth of a turn at both ends, in steps that keep within a hundredth of a mm of it."""
    way = 1.0 if (points[0] - centre).cross(points[-1] - centre) > 0 else -1.0
    steps = [way * math.pi / 4 * k / 200 for k in range(1, 201)]
    before = [centre + (points[0] - centre).turned(-step) for step in reversed(steps)]
    return [*before, *points, *(centre + (points[-1] - centre).turned(step) for step in steps)]


def sampled(points: Sequence[Point]) -> numpy.ndarray:
    along = shapely.segmentize(line(points), STEP)
    return shapely.points(get_coordinates(along))


def allowances_are_kept(draft: SetOut) -> None:
    for piece in _different(draft):
        outline = line([*piece.cut_line, *(() if piece.on_fold else piece.cut_line[:1])])
        for edge in piece.edges:
            places, whole = sampled(edge.cut), extended(edge)
            off_by = abs(shapely.distance(places, whole) - edge.allowance)
            # Beyond its end an edge is carried on in its last short join, which slants a little from its tangent.
            at = shapely.line_locate_point(whole, places)
            beyond = numpy.maximum(0.0, numpy.maximum(CARRIED - at, at - whole.length + CARRIED))
            worst = float((off_by - SLANT * beyond).max())
            assert worst <= 0.1, f"{piece.name} {edge.name}: {worst:.3f} mm off its allowance"
            off = float(shapely.distance(sampled(edge.cut), outline).max())
            assert off <= 1e-6, f"{edge.name} is not on the cut line of the {piece.name}"


def hems_mirror(draft: SetOut) -> None:
    """Folded back in the hem's tangent at its corner, the end of a hem's allowance lies on the piece's own cut edge."""
    for piece in _different(draft):
        _hems_mirror(piece)


def _hems_mirror(piece: Piece) -> None:
    outline = list(piece.cut_line)

    def place(point: Point) -> int:
        return min(range(len(outline)), key=lambda k: outline[k].distance(point))

    for before, after in pairwise((*piece.edges, *(() if piece.on_fold else piece.edges[:1]))):
        if before.turned == after.turned or before.comes_to_a_point("end") or after.comes_to_a_point("start"):
            continue  # at a point the allowance is snipped
        first, last = place(before.cut[-1]), place(after.cut[0])
        bridge = outline[first : last + 1] if first <= last else [*outline[first:], *outline[: last + 1]]
        if before.turned:
            corner, along, neighbour = before.stitch.end, before.stitch.segments[-1].tangent(1.0), after
        else:
            corner, along, neighbour = after.stitch.start, after.stitch.segments[0].tangent(0.0), before
        assert len(bridge) >= 2
        for point in bridge:
            from_corner = point - corner
            image = corner + along * (2 * from_corner.dot(along)) - from_corner
            away = line(neighbour.cut).distance(shapely.Point(image.x, image.y))
            # A hem's allowance may reach further than a short seam; nothing is there for it to lie on.
            beyond = 2.0 if abs(from_corner.cross(along)) >= line(neighbour.cut).length - 5.0 else 0.1
            assert away <= beyond, f"{piece.name} {before.name}/{after.name}: {away:.3f} mm off when folded back"


def anchors_and_levels_lie_on_the_piece(draft: SetOut) -> None:
    for piece in draft.pieces:
        anchors_and_levels(piece)


def anchors_and_levels(piece: Piece) -> None:
    outline = line([*piece.cut_line, *(() if piece.on_fold else piece.cut_line[:1])])
    places = [anchor.at for anchor in piece.anchors]
    assert places == sorted(places), f"the anchors of the {piece.name} are out of order"
    for anchor in piece.anchors:
        there = outline.interpolate(anchor.at)
        away = math.hypot(there.x - anchor.point.x, there.y - anchor.point.y)
        assert away < 0.01, f"{anchor.id} of the {piece.name} lies {away:.2f} mm off its place"
    if piece.on_fold:
        assert piece.anchors[0].kind == piece.anchors[-1].kind == "fold", f"the {piece.name} is not marked on its fold"
    levels = [level.down for level in piece.levels]
    assert levels == sorted(levels), f"the levels of the {piece.name} are out of order"
    top, low = (pick(point.y for point in piece.cut_line) for pick in (min, max))
    for level in (level for level in piece.levels if level.ruled or level.drawn or level.width):
        assert top - 1e-6 <= level.down <= low + 1e-6, f"the level {level.key} lies outside the {piece.name}"
    assert sum(level.ends for level in piece.levels) <= 1, f"the {piece.name} ends twice"
    inside = shapely.Polygon([(p.x, p.y) for p in piece.cut_line]).buffer(0.05)
    for guide in piece.guides:
        assert inside.covers(line(guide.line)), f"the line {guide.id} leaves the {piece.name}"
    for outer, inner in piece.clips:
        # A clip begins on the cut line and ends on the stitch line, one allowance farther in.
        assert outline.distance(shapely.Point(outer.x, outer.y)) < 0.1
        assert line(piece.stitch_line).distance(shapely.Point(inner.x, inner.y)) < 0.06
        edge = min(
            piece.edges, key=lambda e, at=inner: line(e.stitch.flatten(0.05)).distance(shapely.Point(at.x, at.y))
        )  # type: ignore[misc]
        assert abs(outer.distance(inner) - edge.allowance) < 0.1


# --- Sewn together ----------------------------------------------------------------------------------------------------


def notches_lie_on_their_edges(draft: SetOut) -> None:
    for piece in draft.pieces:
        for notch in piece.notches:
            edge = next(e for e in piece.edges if e.name == notch.seam)
            run = line(edge.stitch.flatten(0.002))
            off = abs(run.project(shapely.Point(notch.inner.x, notch.inner.y)) - notch.at)
            assert off < 0.05, f"the notch {notch.id} of the {piece.name} lies {off:.2f} mm beside its place"
            assert abs(notch.inner.distance(notch.outer) - edge.allowance) < 0.1, notch


def sewn_up(draft: SetOut) -> Sewn:
    return Sewn(draft)


def nothing_is_left_over(draft: SetOut) -> None:
    """Each copy of an edge is sewn or free, and every piece hangs together with the others."""
    left = list(sewn_up(draft).left_over())
    assert not left, left


def seams_are_equal(draft: SetOut) -> None:
    unequal = list(sewn_up(draft).unequal())
    assert not unequal, unequal


def notches_meet(draft: SetOut) -> None:
    apart = list(sewn_up(draft).notches_apart())
    assert not apart, apart


def seams_stand_in_an_order_to_sew(draft: SetOut) -> None:
    """A seam that runs over the end of another stands after it, as the seat of trousers after the inner legs."""
    wrong = list(sewn_up(draft).out_of_order())
    assert not wrong, wrong


def joins_run_smooth(draft: SetOut) -> None:
    """What a seam ends in runs on smoothly over it: the angles of its two sides add up to 180°."""
    for where, total, _ in sewn_up(draft).joins():
        assert abs(total - 180.0) <= SMOOTH, f"at {where} the angles add up to {total:.1f}°"


def hems_run_smooth(draft: SetOut) -> None:
    """Sewn up, every free edge runs on into another or over a fold, through all that meets there."""
    sewn = sewn_up(draft)
    for where, total in sewn.open_ends():
        assert abs(total - 180.0) <= SMOOTH, f"at {where} the angles add up to {total:.1f}°"
    folded = any(sewn.folded_over(piece, edge) for piece in draft.pieces for edge in piece.edges)
    assert sewn.openings() or folded, "it has no opening: nobody can put it on"


def what_is_set_on_lies_on_its_host(draft: SetOut) -> None:
    """Laid on its line, a piece that is sewn onto another lies on it, clear of its seams, with every edge turned in."""
    pieces = {piece.name: piece for piece in draft.pieces}
    for one in draft.set_on:
        piece, host = pieces[one.piece], pieces[one.host]
        guide = next(guide for guide in host.guides if guide.id == one.guide)
        # What lies on no fold is laid with its straight line where the guide comes nearest to the fold.
        first = 0.0 if piece.on_fold else min(p.x for p in guide.line) - min(p.x for p in piece.stitch_line)
        shift = Point(first, host.zero - piece.zero)
        laid, there = ([(p.x, p.y) for p in run] for run in ([p + shift for p in piece.stitch_line], guide.line))
        apart = shapely.Polygon(laid).exterior.hausdorff_distance(shapely.Polygon(there).exterior)
        assert apart < 0.1, f"the {one.piece} does not lie on its line"
        halves = [each.cut * (2 if each.on_fold else 1) for each in (piece, host)]
        assert halves[0] == halves[1], f"the {one.piece} is cut {piece.cut} times for the {one.host}"
        assert all(edge.turned for edge in piece.edges), f"an edge of the {one.piece} is not turned in"
        inside = shapely.Polygon([(p.x, p.y) for p in host.stitch_line]).exterior
        away = min(inside.distance(shapely.Point(p.x, p.y)) for p in guide.line if p.x > 1.0)
        assert away >= 20.0 - 1e-6, f"the {one.piece} comes within {away:.0f} mm of an edge of the {one.host}"


def what_is_let_in_lies_on_its_seam(draft: SetOut) -> None:
    """Notch on notch, a bag lies on the edge of its host, cut edge on cut edge, and inside it.

    It ends clear of the hem and of a slit, and for every edge of a host there is one of a bag.
    """
    pieces, sewn = {piece.name: piece for piece in draft.pieces}, Sewn(draft)
    let_in = dict[tuple[str, str], int]()
    for one in draft.let_in:
        bag, host = pieces[one.piece], pieces[one.host]
        named = f"the {one.piece} on the {one.host_edge} of the {one.host}"
        assert (one.host, one.host_edge) in sewn.sewn_edges, f"{named} lies in no seam"
        let_in[one.piece, one.edge] = let_in.get((one.piece, one.edge), 0) + sewn.copies(one.host)
        mine, its = bag.edge(one.edge), host.edge(one.host_edge)
        assert abs(mine.allowance - its.allowance) < 1e-6, f"{named} has another allowance"
        ends = [
            next(notch.inner for notch in piece.notches if (notch.seam, notch.id) == (edge, name))
            for piece, edge in ((bag, one.edge), (host, one.host_edge)) for name in (one.begins, one.ends)
        ]  # fmt: skip
        inside, ways = shapely.Polygon([(p.x, p.y) for p in host.stitch_line]).buffer(0.5), []
        for turned in (1.0, -1.0):  # a bag may be drawn turned over
            begin, end, *outline = (Point(turned * p.x, p.y) for p in (*ends[:2], *bag.stitch_line))
            shift = ends[2] - begin
            if (end + shift).distance(ends[3]) < 0.5:
                laid = shapely.Polygon([((p + shift).x, (p + shift).y) for p in outline])
                ways.append((laid.difference(inside).area, turned, shift))
        assert ways, f"{named} has its notches elsewhere"
        outside, turned, shift = min(ways, key=lambda way: way[0])
        assert outside == 0, f"{named} reaches out of it"
        edge = [Point(turned * p.x, p.y) + shift for p in mine.stitch.flatten(0.01)]
        along = line(its.stitch.flatten(0.01))
        away = max(along.distance(shapely.Point(place)) for place in line(edge).segmentize(1.0).coords)
        assert away < 0.2, f"{named} lies {away:.1f} mm beside it"
        begun, ended = (its.stitch.nearest(place)[0] for place in ends[2:])
        foot = max((its.stitch.nearest(p)[0] for p in (edge[0], edge[-1])), key=lambda at: abs(at - begun))
        left = its.stitch.length() - foot if ended > begun else foot  # an edge may run up from the hem
        assert left >= 40.0 - 0.1, f"{named} comes within {left:.0f} mm of the end of the seam"
        if host.slit is not None and host.slit.edge == one.host_edge:
            assert left >= host.slit.high, f"{named} reaches below the top of the slit"
    for (name, edge), hosts in let_in.items():
        assert sewn.copies(name) == hosts, f"{hosts} edges take a {name}, and {sewn.copies(name)} are cut ({edge})"


# --- What is asked, and what is told ----------------------------------------------------------------------------------


def what_is_asked_is_met(draft: SetOut) -> None:
    """Every figure that was asked for can be measured, under a key that the style knows, and is met or told."""
    keys = set(garments()[draft.garment].style.model_fields)
    keys |= {field.key for field in garments()[draft.garment].fields}
    outline = FinishedOutline(draft.pieces, draft.cloth)
    for asked in draft.asked:
        assert asked.key in keys or any(moved.key == asked.key for moved in draft.adjusted), asked.key
        assert asked.what.strip(), asked
        if asked.measure is not None:
            assert math.isfinite(asked.measure.of(outline)), f"{asked.key} cannot be measured on the outline"
    check = as_asked.judge(draft, Words("cm"))
    assert check is None or check.result == "pass", check


def girths_are_told(draft: SetOut) -> None:
    assert draft.girths, "no girth is told"
    for girth in draft.girths:
        assert 0 < girth.girth < 20_000, girth
        assert girth.body >= 0, girth


#: What goes through a ring needs at least so much more than its girth, mm (common practice, from memory), and what a
#: ring may be short of what it needs: no tape shows it.
ROOM_TO_PASS = {"head": 10.0, "hand": 20.0, "hip": 10.0, "bust": 10.0, "heel": 10.0}
NO_TAPE_SHOWS = 0.1


def rings_say_what_passes(draft: SetOut) -> None:
    """Every closed garment has a ring for what it is put on over, and none asks for less than that needs."""
    body = draft.body
    girths = {"head": body.head_girth, "hand": body.hand_girth, "hip": body.hip_girth, "bust": body.bust_girth}
    girths["heel"] = body.heel_girth
    passed = [(girth, girth.passes) for girth in draft.girths if girth.passes is not None]
    for girth, passes in passed:
        assert passes.needs >= girths[passes.what] + ROOM_TO_PASS[passes.what] - 1e-6, (girth.at, passes)
        assert 0 <= passes.stretch <= 3, (girth.at, passes)
    first = "head" if draft.from_shoulders else "hip"
    through = [passes.what for _, passes in passed]
    assert first in through or draft.closed_by_hand, f"no ring says that the {first} passes it"
    sleeved = any(girth.body in {body.wrist_girth, body.elbow_girth, body.upper_arm_girth} for girth in draft.girths)
    assert not sleeved or "hand" in through, "no ring says that the hand passes it"


def rings_let_through_what_passes(draft: SetOut) -> None:
    """A ring opens to what must pass it, at 80 % of the stretch there, or the draft stops."""
    short = [
        f"the {girth.label} opens to {opens:.1f}, and the {girth.passes.what} needs {girth.passes.needs:.1f}"
        for girth in draft.girths
        if girth.passes is not None
        and (opens := girth.girth * (1 + 0.8 * girth.passes.stretch) + girth.passes.adds)
        < girth.passes.needs - NO_TAPE_SHOWS
    ]
    if short and not any(check.result == "stop" for check in checks.judge(draft, "cm")):
        raise AssertionError("; ".join(short))


def slits_add_twice_their_length(draft: SetOut) -> None:
    """A cut inside a piece opens its edge by twice its length (CALC), and nothing else adds to a ring."""
    down = 1 - draft.cloth.shrink_along
    cuts = [2 * down * piece.slit_down for piece in draft.pieces for guide in piece.guides if guide.cut]
    for girth in draft.girths:
        if girth.passes is not None and girth.passes.adds:
            assert any(abs(girth.passes.adds - cut) < 0.01 for cut in cuts), f"no slit adds to the {girth.label}"
    for piece in draft.pieces:
        for guide in piece.guides:
            if guide.cut:
                begins = min(edge.stitch.start.distance(guide.line[0]) for edge in piece.edges)
                assert begins <= max(edge.allowance for edge in piece.edges) + 0.1, f"the {guide.id} begins on no edge"
                assert piece.slit_down > 0, f"the {guide.id} of the {piece.name} is no cut"


def woven_pieces_do_not_stretch(draft: SetOut) -> None:
    """Each piece of the garment's own cloth says whether that stretches."""
    for piece in draft.pieces:
        assert piece.other_cloth or piece.stretches == (draft.cloth.kind == "knit"), piece.name
    if draft.cloth.kind == "woven":
        assert draft.cloth.across == draft.cloth.along == 0
        assert all(girth.passes is None or girth.passes.stretch == 0 for girth in draft.girths)


def facts_are_numbers(draft: SetOut) -> None:
    for name, value in draft.facts.items():
        assert not math.isnan(value), f"{name} is {value}"
    if draft.chalked_facts is not None:
        for name, value in draft.chalked_facts(draft.chalked).items():
            assert abs(draft.facts[name] - value) < 1e-6, f"{name} is {draft.facts[name]}, as chalked {value}"


def it_is_seen_on_the_person(draft: SetOut) -> None:
    assert draft.worn is not None, "nothing says how it looks on the person"
    assert shapely.Polygon([(p.x, p.y) for p in draft.worn.outline]).buffer(0).area > 1e3
    for points in (draft.worn.outline, *draft.worn.lines):
        assert all(math.isfinite(p.x) and math.isfinite(p.y) for p in points)


RULES: tuple[Callable[[SetOut], None], ...] = (
    rings_say_what_passes,
    rings_let_through_what_passes,
    slits_add_twice_their_length,
    woven_pieces_do_not_stretch,
    names_are_told_apart,
    stages_are_declared,
    words_are_said,
    edges_connect,
    outlines_are_simple,
    edges_end_in_corners,
    folds_are_left_square,
    allowances_are_kept,
    hems_mirror,
    anchors_and_levels_lie_on_the_piece,
    notches_lie_on_their_edges,
    nothing_is_left_over,
    seams_are_equal,
    notches_meet,
    seams_stand_in_an_order_to_sew,
    joins_run_smooth,
    hems_run_smooth,
    what_is_set_on_lies_on_its_host,
    what_is_let_in_lies_on_its_seam,
    what_is_asked_is_met,
    girths_are_told,
    facts_are_numbers,
    it_is_seen_on_the_person,
)

"""A garment that breaks its contract is told by the rule that it breaks: seen with a sound garment broken on purpose.

Each fault is planted in what the garment hands over, and the rule that must see it is named beside it. A rule that sees
nothing would pass every garment.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from drafting.contract.asked import Asked, EdgeLength
from drafting.contract.cases import Case
from drafting.contract.fields import Field, Option
from drafting.contract.girths import SumOf
from drafting.contract.judging import Way, fixed, fixed_change
from drafting.contract.pieces import Level, Notch, Piece
from drafting.contract.seams import EdgeRun, plain_seam
from drafting.contract.set_out import SetOut
from drafting.garments import Garment, garments
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from tests.drafting import garment_rules, rules
from tests.drafting.bodies import BODIES, Data, drafted, set_out
from tests.drafting.measured import joined, whole

BODY = "median woman"
JOINED: Data = {"lower_sleeve": "joined", "centre_back": "seam"}


def sound() -> SetOut:
    return drafted(BODY, "default")


def with_piece(draft: SetOut, index: int, change: Callable[[Piece], Piece]) -> SetOut:
    pieces = list(draft.pieces)
    pieces[index] = change(pieces[index])
    return replace(draft, pieces=tuple(pieces))


def with_edge(piece: Piece, name: str, **changes: Any) -> Piece:
    return replace(piece, edges=tuple(replace(e, **changes) if e.name == name else e for e in piece.edges))


# --- Faults in a draft ------------------------------------------------------------------------------------------------


def longer_seam(draft: SetOut) -> SetOut:
    """The back's side goes on a millimetre below the hem."""

    def change(piece: Piece) -> Piece:
        side = piece.edge("side").stitch
        return with_edge(piece, "side", stitch=Path((*side.segments, Line(side.end, side.end + Point(0.0, 1.0)))))

    return with_piece(draft, 1, change)


def notch_beside_its_partner(draft: SetOut) -> SetOut:
    """The waist's notch of the back stands 2 mm lower, on its edge all the same."""

    def change(piece: Piece) -> Piece:
        def lower(notch: Notch) -> Notch:
            if notch.id != "waist":
                return notch
            edge = piece.edge(notch.seam)
            inner, along = edge.stitch.at_length(notch.at + 2.0)
            return replace(notch, at=notch.at + 2.0, inner=inner, outer=inner + along.left() * edge.allowance)

        return replace(piece, notches=tuple(lower(notch) for notch in piece.notches))

    return with_piece(draft, 1, change)


def notch_without_partner(draft: SetOut) -> SetOut:
    return with_piece(draft, 1, lambda p: replace(p, notches=tuple(n for n in p.notches if n.id != "hip")))


def edge_not_closed(draft: SetOut) -> SetOut:
    """The hem begins half a millimetre beside where the side ends."""

    def change(piece: Piece) -> Piece:
        hem = piece.edge("hem").stitch
        return with_edge(piece, "hem", stitch=hem.scaled(1.0, 1.0, Point(0.0, 0.5)))

    return with_piece(draft, 0, change)


def level_outside(draft: SetOut) -> SetOut:
    return with_piece(draft, 0, lambda p: replace(p, levels=(*p.levels, Level("floor", "floor", p.height + 50.0))))


def stage_not_declared(draft: SetOut) -> SetOut:
    def change(piece: Piece) -> Piece:
        first = replace(piece.anchors[1], stage="later")
        return replace(piece, anchors=(piece.anchors[0], first, *piece.anchors[2:]))

    return with_piece(draft, 0, change)


def edge_forgotten(draft: SetOut) -> SetOut:
    """No seam closes the side."""
    return replace(draft, seams=tuple(seam for seam in draft.seams if seam.one[0].edge != "side"))


def seam_sewn_twice(draft: SetOut) -> SetOut:
    """A second pair of sides, which is nowhere."""
    seam = draft.seams[-1]
    more = replace(seam, one=(replace(seam.one[0], times=3),))
    return replace(draft, seams=(*draft.seams[:-1], more))


def seam_to_nowhere(draft: SetOut) -> SetOut:
    return replace(draft, seams=(*draft.seams, plain_seam(("front", "hem"), ("back", "cuff"))))


def piece_too_many(draft: SetOut) -> SetOut:
    """Three lower sleeves for two arms."""
    draft = set_out(BODIES[BODY], JOINED)
    return with_piece(draft, 2, lambda piece: replace(piece, cut=3))


def hem_in_a_corner(draft: SetOut) -> SetOut:
    """The front's hem leaves the side at a slant: sewn up, it has a corner there."""

    def change(piece: Piece) -> Piece:
        hem = piece.edge("hem").stitch
        bent = Path((Line(hem.start, Point(hem.end.x, hem.end.y + 20.0)),))
        return with_edge(piece, "hem", stitch=bent)

    return with_piece(draft, 0, change)


def allowance_not_kept(draft: SetOut) -> SetOut:
    return with_piece(draft, 0, lambda piece: with_edge(piece, "side", allowance=piece.edge("side").allowance + 0.5))


def words_of_a_program(draft: SetOut) -> SetOut:
    return with_piece(draft, 0, lambda piece: with_edge(piece, "side", label="side_seam"))


def name_twice(draft: SetOut) -> SetOut:
    return with_piece(draft, 1, lambda piece: replace(piece, name="front"))


def asked_and_not_met(draft: SetOut) -> SetOut:
    long = draft.pieces[0].edge("side").stitch.length()
    return replace(draft, asked=(*draft.asked, Asked("length", "side", long + 3.0, EdgeLength("front", "side"))))


def nothing_on_the_person(draft: SetOut) -> SetOut:
    return replace(draft, worn=None)


def not_said_how_it_is_sewn(draft: SetOut) -> SetOut:
    return replace(draft, after_cut=None)


def passing(draft: SetOut, what: str, **changes: Any) -> SetOut:
    """The draft with other words of every ring that this passes; without `changes` with none."""
    return replace(
        draft,
        girths=tuple(
            replace(girth, passes=replace(girth.passes, **changes) if changes else None)
            if girth.passes is not None and girth.passes.what == what
            else girth
            for girth in draft.girths
        ),
    )


def no_ring_for_the_head(draft: SetOut) -> SetOut:
    return passing(draft, "head")


def no_ring_for_the_hand(draft: SetOut) -> SetOut:
    return passing(draft, "hand")


def too_little_for_the_head(draft: SetOut) -> SetOut:
    return passing(draft, "head", needs=draft.body.head_girth + 9.9)


def ring_too_narrow_for_the_body(draft: SetOut) -> SetOut:
    """It says that the cloth of waist and hem does not give, and stops nothing."""
    return passing(draft, "bust", stretch=1e-9, needs=5000.0)


BROKEN_DRAFTS: dict[str, tuple[Callable[[SetOut], SetOut], Callable[[SetOut], None]]] = {
    "a seam side too long": (longer_seam, rules.seams_are_equal),
    "a notch beside its partner": (notch_beside_its_partner, rules.notches_meet),
    "a notch without its partner": (notch_without_partner, rules.notches_meet),
    "an edge not closed": (edge_not_closed, rules.edges_connect),
    "a level outside the piece": (level_outside, rules.anchors_and_levels_lie_on_the_piece),
    "a stage not declared": (stage_not_declared, rules.stages_are_declared),
    "an edge that no seam closes": (edge_forgotten, rules.nothing_is_left_over),
    "a seam with too many sides": (seam_sewn_twice, rules.nothing_is_left_over),
    "a seam to an edge that is not there": (seam_to_nowhere, rules.names_are_told_apart),
    "a piece too many": (piece_too_many, rules.nothing_is_left_over),
    "a hem with a corner over the seam": (hem_in_a_corner, rules.hems_run_smooth),
    "a seam that ends in a corner": (hem_in_a_corner, rules.joins_run_smooth),
    "an allowance not kept": (allowance_not_kept, rules.allowances_are_kept),
    "words of a program": (words_of_a_program, rules.words_are_said),
    "a name twice": (name_twice, rules.names_are_told_apart),
    "what is asked is not met": (asked_and_not_met, rules.what_is_asked_is_met),
    "nothing on the person": (nothing_on_the_person, rules.it_is_seen_on_the_person),
    "no ring that the head passes": (no_ring_for_the_head, rules.rings_say_what_passes),
    "no ring that the hand passes": (no_ring_for_the_hand, rules.rings_say_what_passes),
    "a ring that asks for less than the head needs": (too_little_for_the_head, rules.rings_say_what_passes),
    "a ring too narrow for what passes it": (ring_too_narrow_for_the_body, rules.rings_let_through_what_passes),
    "no order of sewing": (not_said_how_it_is_sewn, rules.words_are_said),
}


def test_the_sound_ones_break_no_rule() -> None:
    assert rules.missed(sound()) == {}
    assert rules.missed(set_out(BODIES[BODY], JOINED)) == {}


@pytest.mark.parametrize("fault", BROKEN_DRAFTS)
def test_a_broken_draft_is_told_by_its_rule(fault: str) -> None:
    plant, rule = BROKEN_DRAFTS[fault]
    assert rule in rules.RULES
    with pytest.raises(AssertionError) as told:
        rule(plant(sound()))
    assert str(told.value).strip(), "a rule says what it found"


@pytest.mark.parametrize("times", [0.5, 2.0])
def test_a_girth_that_its_marks_do_not_measure_is_told(times: float) -> None:
    """Front and back once instead of twice, or once too often: along the marks it is another girth."""
    from drafting.chalk.plan import plan

    draft = sound()
    hem = next(girth for girth in draft.girths if girth.at == "hem")
    assert hem.chalked is not None
    marked = joined(draft, plan(draft.pieces, draft.chalked.tape, line="stitch"), chalked=False, inner=True)
    assert whole(hem.chalked, marked) == pytest.approx(hem.girth, abs=1.0)
    wrong = whole(SumOf(((times, hem.chalked),)), marked)
    assert wrong is not None
    assert abs(wrong - hem.girth) > 100


def test_a_way_of_measuring_that_the_tests_do_not_know_is_an_error() -> None:
    class Unknown:
        def change(self, marked: Any) -> float:
            return 0.0

    with pytest.raises(AssertionError, match="how is"):
        whole(Unknown(), {})


# --- Faults in a garment ----------------------------------------------------------------------------------------------

FIRST = garments()["cut_in_one"]


def with_field(garment: Garment, key: str, **changes: Any) -> Garment:
    return replace(garment, fields=tuple(replace(f, **changes) if f.key == key else f for f in garment.fields))


def option_that_cannot_be_read() -> Garment:
    field = FIRST.field("fit")
    assert field is not None
    return with_field(FIRST, "fit", options=(*field.options, Option("snug", "Snug")))


def field_of_no_key() -> Garment:
    return replace(FIRST, fields=(*FIRST.fields, Field("pocket", "choice", "Pocket", (Option("none", "None"),))))


def check_twice() -> Garment:
    return replace(FIRST, checks=(*FIRST.checks, FIRST.checks[0]))


def check_called_as_a_shared_one() -> Garment:
    shared = next(module for module in garment_rules.shared_checks() if module.ID == "seams_equal")
    return replace(FIRST, checks=(*FIRST.checks, shared))


def way_out_of_no_check() -> Garment:
    return replace(FIRST, ways={**FIRST.ways, "no_such_check": (fixed("style.fit", "loose", "Loosen it."),)})


def few_ways(*ways: Way, **changes: Any) -> Garment:
    """With these ways out alone, so that the search for a draft in which one helps ends soon."""
    alone = {"fields": (), "checks": (), "to_fit": (), "to_save": (), "ways": {"ease_within_stretch": ways}}
    return replace(FIRST, **{**alone, **changes})


def way_out_that_changes_nothing() -> Garment:
    """It sets what decides nothing that is drafted."""
    return few_ways(fixed("tape.join_within", 3.0, "Join the marks as before."))


def way_out_that_cannot_be_read() -> Garment:
    return few_ways(fixed("style.pocket", "none", "Leave the pocket."))


def change_that_saves_nothing() -> Garment:
    idle = fixed_change("Sew it as before.", "It looks as before.", ("title", "the same"))
    return few_ways(to_save=(idle,))


def preset_of_other_keys() -> Garment:
    first, *others = FIRST.presets
    return replace(FIRST, presets=(replace(first, style={**first.style, "slit": "none"}), *others))


def case_missing() -> Garment:
    return replace(FIRST, cases={})


def case_refused() -> Garment:
    return replace(FIRST, cases={**FIRST.cases, "with a pocket": Case({"pocket": "patch"})})


def measure_unknown() -> Garment:
    return replace(FIRST, uses=(*FIRST.uses, "foot_length"))


def slider_without_ends() -> Garment:
    return with_field(FIRST, "overarm_angle", ends=("", ""))


def fields_called_alike() -> Garment:
    return with_field(FIRST, "hem_girth", words="Hem")


BROKEN_GARMENTS: dict[str, tuple[Callable[[], Garment], Callable[[Garment], None]]] = {
    "an option that cannot be read": (option_that_cannot_be_read, garment_rules.fields_can_be_read),
    "a field of no key": (field_of_no_key, garment_rules.fields_can_be_read),
    "a slider whose ends have no words": (slider_without_ends, garment_rules.fields_are_said),
    "two fields that are called alike": (fields_called_alike, garment_rules.fields_are_said),
    "a check twice": (check_twice, garment_rules.checks_have_ids_of_their_own),
    "a check called as a shared one": (check_called_as_a_shared_one, garment_rules.checks_have_ids_of_their_own),
    "a way out of no check": (way_out_of_no_check, garment_rules.checks_have_ids_of_their_own),
    "a way out that changes nothing": (way_out_that_changes_nothing, garment_rules.ways_out_change_something),
    "a way out that cannot be read": (way_out_that_cannot_be_read, garment_rules.ways_out_change_something),
    "a change that saves nothing": (change_that_saves_nothing, garment_rules.ways_out_change_something),
    "a preset of other keys": (preset_of_other_keys, garment_rules.presets_can_be_taken),
    "no cases": (case_missing, garment_rules.cases_are_there),
    "a case that is refused": (case_refused, garment_rules.cases_are_there),
    "a measure that is none": (measure_unknown, garment_rules.measures_are_known),
}


@pytest.mark.parametrize("fault", BROKEN_GARMENTS)
def test_a_broken_garment_is_told_by_its_rule(fault: str) -> None:
    plant, rule = BROKEN_GARMENTS[fault]
    assert rule in garment_rules.RULES
    broken = plant()
    with pytest.raises(AssertionError) as told:
        rule(broken)
    assert str(told.value).strip(), "a rule says what it found"


def test_ways_out_that_change_something_are_left_alone() -> None:
    garment_rules.ways_out_change_something(few_ways(fixed("style.fit", "loose", "Choose the loose fit.")))


def test_a_run_of_several_edges_may_be_sewn_backwards() -> None:
    """The direction in which an edge is sewn is found from what it is joined to, and is not asked of a garment."""
    from tests.drafting.sewn import Sewn

    found = Sewn(sound()).laid((EdgeRun("front", "side"), EdgeRun("front", "hem", 2)))
    assert [run.edge for run in found] == ["side", "hem", "hem"]
    assert [run.forward for run in found][1:] == [True, False], "over the fold it goes on the other way round"

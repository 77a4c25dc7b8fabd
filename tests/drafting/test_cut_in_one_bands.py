"""Bands on `cut_in_one`: a cuff at the sleeve, a band at a scooped neck, and the cuff as a way onto narrow cloth."""

import pytest

from drafting.order import glance, make, read_order
from drafting.person.passing import hand_needs, head_needs
from tests.drafting.bodies import BODIES, bdims, order

WOMAN = BODIES["median woman"]
FINE = {"unit": "cm", "step": "0.1"}


def drafted(style, person=WOMAN, cloth=None, tape=None):
    found, problems = read_order(order(person, style, cloth, tape=tape or FINE))
    assert found is not None, [problem.line() for problem in problems]
    return glance(found)


def girth(result, at):
    return next(one.girth for one in result.draft.girths if one.at == at)


def piece(result, name):
    return next(one for one in result.draft.pieces if one.name == name)


def test_a_cuff_moves_the_narrowest_place_to_the_end():
    plain, cuffed = drafted({"length": "hip"}), drafted({"length": "hip", "sleeve_finish": "cuff"})
    # Wrist 15.1 + 2; the sleeve's end is the lesser of wrist + 8 and 1.3 cuffs.
    assert girth(cuffed, "cuff") == pytest.approx(171.0, abs=1.0)
    assert girth(cuffed, "sleeve_end") == pytest.approx(1.3 * girth(cuffed, "cuff"), abs=0.2)
    assert girth(cuffed, "narrowest") == pytest.approx(girth(cuffed, "sleeve_end"), abs=0.2)
    assert girth(plain, "sleeve_end") > girth(cuffed, "sleeve_end")
    long = {figure.at: figure.value for figure in cuffed.draft.figures}
    assert long["sleeve"] == pytest.approx(546.0)
    reach = piece(plain, "front").width - piece(cuffed, "front").width
    assert 40.0 < reach < 75.0
    assert next(check for check in cuffed.checks if check.id == "as_asked").result == "pass"


@pytest.mark.parametrize("stretch", [10, 20, 40])
@pytest.mark.parametrize("fit", ["close", "regular"])
def test_the_hand_passes_cuff_and_sleeve_end(stretch, fit):
    for person in (WOMAN, BODIES["man"], BODIES["child of 6"]):
        result = drafted(
            {"sleeve_finish": "cuff", "fit": fit, "neck_opening": "centre_back"},
            person,
            {"stretch_across": stretch},
            {"unit": "in", "step": "1/4"},
        )
        draft = result.draft
        needed = hand_needs(draft.body)
        assert girth(result, "cuff") * (1 + 0.8 * stretch / 100) >= needed - 0.1
        passes = next(check for check in result.checks if check.id == "hand_passes_sleeve")
        assert passes.result == "pass"
        assert passes.value <= girth(result, "cuff") * (1 + 0.8 * stretch / 100) + 0.5


def test_bands_of_a_rib_are_sized_by_its_stretch_and_cut_of_it():
    """CALC: a rib of 90 % lets a band of 0.78 pass whatever the neck of cloth passes; 0.85 of jersey does not."""
    style = {"neck_height": 0, "neck_finish": "band", "sleeve_finish": "cuff", "length": "hip"}
    own, rib = drafted(style), drafted({**style, "band_cloth": "rib", "band_stretch": 90})
    turned = drafted({"neck_height": 0, "length": "hip"})
    assert girth(rib, "neck") == pytest.approx(girth(turned, "neck"), abs=0.5), "the neck is as it is without a band"
    assert girth(own, "neck") > girth(rib, "neck") + 10
    assert girth(rib, "neck_band") == pytest.approx(0.78 * girth(rib, "neck"), abs=1.0)
    assert girth(own, "neck_band") == pytest.approx(0.85 * girth(own, "neck"), abs=2.0)
    assert [one.name for one in rib.draft.pieces if one.other_cloth == "rib"] == ["neck_band", "cuff"]
    assert not [one for one in own.draft.pieces if one.other_cloth]
    assert any(one.what.startswith("rib that stretches by 90 % or more") for one in rib.draft.after_cut.buy)
    assert not any(one.what.startswith("rib") for one in own.draft.after_cut.buy)


@pytest.mark.parametrize(("stretch", "longer"), [(20, True), (200, False)])
def test_the_head_and_the_hand_pass_bands_of_any_rib(stretch, longer):
    """At 80 % of the rib's own stretch; a rib that hardly gives is longer than its ratio for the head."""
    style = {"neck_height": 0, "neck_finish": "band", "sleeve_finish": "cuff", "band_cloth": "rib"}
    cloth, tape = {"stretch_across": 60}, {"unit": "in", "step": "1/4"}
    result = drafted({**style, "band_stretch": stretch}, cloth=cloth, tape=tape)
    draft = result.draft
    for at, needed in (("neck_band", head_needs(draft.body)), ("cuff", hand_needs(draft.body))):
        assert girth(result, at) * (1 + 0.8 * stretch / 100) >= needed - 0.1, at
    for check in result.checks:
        if check.id in {"head_passes_neck", "hand_passes_sleeve"}:
            assert check.result == "pass", check
    plain = drafted({"neck_height": 0}, cloth=cloth, tape=tape)
    assert (girth(result, "neck") > girth(plain, "neck") + 1) == longer


def test_cuffs_are_sewn_to_the_end_of_the_sleeve_or_of_a_lower_sleeve():
    whole = drafted({"sleeve_finish": "cuff"})
    seam = next(seam for seam in whole.draft.seams if seam.one[0].edge == "cuff_edge")
    assert [(run.piece, run.edge, run.times) for run in seam.other] == [
        ("front", "sleeve_end", 1), ("back", "sleeve_end", 1)
    ]  # fmt: skip
    assert piece(whole, "cuff").cut == 2
    assert not piece(whole, "front").edge("sleeve_end").turned
    joined = drafted({"sleeve_finish": "cuff", "lower_sleeve": "joined"})
    seam = next(seam for seam in joined.draft.seams if seam.one[0].edge == "cuff_edge")
    assert [(run.piece, run.edge, run.times) for run in seam.other] == [("lower_sleeve", "sleeve_end", 2)]
    assert not piece(joined, "lower_sleeve").edge("sleeve_end").turned
    for result in (whole, joined):
        keys = [step.key for step in result.draft.after_cut.order]
        assert keys.index("cuffs") == keys.index("underarm") + 1
        hems = next(step for step in result.draft.after_cut.order if step.key == "hems")
        assert "sleeve" not in hems.says


def test_a_band_at_a_scooped_neck_is_in_the_solving_of_its_width():
    turned = drafted({"neck_height": 0})
    banded = drafted({"neck_height": 0, "neck_finish": "band"})
    needed = head_needs(banded.draft.body) / 1.32
    assert girth(turned, "neck") == pytest.approx(needed, abs=0.5)
    assert girth(banded, "neck") == pytest.approx(needed / 0.85, abs=0.5)
    assert needed - 0.1 <= girth(banded, "neck_band") <= needed + 2.0
    assert banded.draft.facts["head_ring"] * 1.32 >= head_needs(banded.draft.body) - 0.1
    assert not piece(banded, "front").edge("neck_top").turned
    quarter = next(notch for notch in piece(banded, "front").notches if notch.id == "quarter")
    half_back = piece(banded, "back").edge("neck_top").stitch.length()
    front = piece(banded, "front").edge("neck_top").stitch.length()
    assert front - quarter.at == pytest.approx(girth(banded, "neck") / 4 - half_back, abs=0.05)


@pytest.mark.parametrize("step", ["0.5", "0.1"])
def test_a_band_lets_the_head_through_as_it_is_chalked(step):
    for person in (*BODIES.values(), *list(bdims())[::101]):
        result = drafted({"neck_height": 0, "neck_finish": "band"}, person, tape={"unit": "cm", "step": step})
        judged = {check.id: check.result for check in result.checks}
        assert judged.get("head_passes_neck", "pass") == "pass", person


@pytest.mark.parametrize(
    ("style", "field"),
    [
        ({"neck_finish": "band"}, "style.neck_finish"),
        ({"neck_finish": "band", "neck_height": "9 cm"}, "style.neck_finish"),
        ({"neck_finish": "band", "neck_height": 0, "neck_opening": "centre_back"}, "style.neck_finish"),
        ({"sleeve_finish": "cuff", "flare": "bell"}, "style.flare"),
        ({"sleeve_finish": "cuff", "narrowest_at": 0.5}, "style.narrowest_at"),
        ({"sleeve_finish": "cuff", "sleeve_length": "20 cm"}, "style.sleeve_length"),
        ({"sleeve_finish": "cuff", "cuff_height": "20 cm"}, "style.cuff_height"),
    ],
)
def test_what_does_not_go_together_is_refused_at_its_field(style, field):
    found, problems = read_order(order(WOMAN, style))
    assert found is None
    assert [problem.field for problem in problems if problem.severity == "refuse"] == [field]


def test_a_cuff_is_offered_where_the_sleeve_is_too_wide_for_the_cloth():
    """For a woman it comes before a cut lower sleeve, for a man after it, since it seldom helps him."""

    def offered(name, width):
        data = order(BODIES[name], {"length": "hip"}, {"width": width, "one_way": True})
        result = make(read_order(data)[0])
        return next(check for check in result.checks if check.id == "fits_cloth").ways_out

    woman = offered("median woman", "150 cm")
    keys = [dict(way.changes) for way in woman]
    cuff = next(index for index, changes in enumerate(keys) if changes.get("style.sleeve_finish") == "cuff")
    joined = next(index for index, changes in enumerate(keys) if changes.get("style.lower_sleeve") == "joined")
    assert cuff < joined
    assert glance(read_order(order(WOMAN, {"length": "hip", "sleeve_finish": "cuff"}, {"width": "150 cm"}))[0])
    man = [dict(way.changes) for way in offered("man", "160 cm")]
    if any(changes.get("style.sleeve_finish") == "cuff" for changes in man):
        first = next(index for index, changes in enumerate(man) if changes.get("style.lower_sleeve") == "joined")
        assert first < next(index for index, one in enumerate(man) if one.get("style.sleeve_finish") == "cuff")


def test_without_a_cuff_or_a_band_there_is_none():
    result = drafted({})
    assert [one.name for one in result.draft.pieces] == ["front", "back"]
    assert result.draft.choices.cuff is None
    assert result.draft.choices.neck_band is None

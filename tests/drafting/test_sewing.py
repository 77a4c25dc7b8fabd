"""After the cut: needle, stitch, order of sewing, try-on and shopping, only what applies to the draft and its cloth.

Sewing practice: common practice, no source; the expected numbers are worked out here by hand.
"""

import json
import math

import pytest

from drafting.contract.after_cut import AfterCut
from drafting.order import Result, make
from drafting.record.documents import draft_json
from tests.drafting.bodies import BODIES, KNIT, Data, draft, order, set_out

TODDLER: Data = {**BODIES["child of 6"], "age": 2}


def told(body: Data, style: Data | None = None, **cloth: object) -> AfterCut:
    found = set_out(body, style or {}, {**KNIT, **cloth}).after_cut
    assert found is not None
    return found


def steps(found: AfterCut) -> dict[str, str]:
    return {step.title: step.says for step in found.order}


def table(found: AfterCut) -> str:
    return " ".join(f"{row.seen} {row.change}" for row in found.try_on)


WOMAN = BODIES["median woman"]


def test_the_order_of_sewing_of_a_plain_pullover():
    assert list(steps(told(WOMAN, {"length": "hip"}))) == [
        "Stay the shoulders", "Overarm seams", "Neck edge", "Underarm and side", "Hang it and level the hem", "Hems",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "style", [{}, {"neck_opening": "centre_back"}, {"centre_back": "seam", "lower_sleeve": "joined"}]
)
def test_every_step_has_a_key_of_its_own_and_one_is_the_try_on(style: Data):
    order = told(WOMAN, style).order
    assert len({step.key for step in order}) == len(order)
    assert all(step.key.isidentifier() for step in order)
    assert [step.key for step in order if step.tries_on] == ["underarm"]
    assert [step.key for step in order if "Try the garment on" in step.says] == ["underarm"]


def test_a_closed_neck_is_never_taped_and_an_open_one_is_not_spoken_of():
    assert "Never onto the neck" in steps(told(WOMAN))["Stay the shoulders"]
    assert "Never" not in steps(told(WOMAN, {"neck_opening": "centre_back"}))["Stay the shoulders"]


def test_an_opening_is_faced_before_it_is_cut_and_comes_before_the_overarm():
    found = steps(told(WOMAN, {"neck_opening": "centre_back"}))
    says = found["Opening at the neck"]
    assert says.index("Sew 0.3 cm beside") < says.index("tapering to a point") < says.index("Only then cut")
    assert "interfacing that stretches" in says
    # The edge is turned in first; only then is there something to close.
    edge = found["Neck edge"]
    assert edge.index("Turn the edge in") < edge.index("Close it at the neck edge")
    assert "Close it" not in says + steps(told(WOMAN))["Neck edge"]
    assert list(found).index("Opening at the neck") < list(found).index("Overarm seams")
    assert "Opening at the neck" not in steps(told(WOMAN))


def test_a_centre_back_seam_takes_the_opening_without_a_facing():
    found = told(WOMAN, {"neck_opening": "centre_back", "centre_back": "seam"})
    assert "up to the notch at the end of the opening" in steps(found)["Centre back seam"]
    assert "needs no facing" in steps(found)["Centre back seam"]
    assert "Opening at the neck" not in steps(found)
    assert not any("interfacing" in one.what for one in found.buy)
    assert "from the neck to the hem" in steps(told(WOMAN, {"centre_back": "seam"}))["Centre back seam"]


def test_only_a_folded_neck_turns_its_allowances():
    folded = steps(told(WOMAN, {"neck_layers": "folded"}))
    says = folded["Overarm seams"]
    assert (
        says.index("from the sleeve end") < says.index("notch 1 cm below the fold-over line") < says.index("turn the")
    )
    assert says.index("Snip both allowances to the stitching") < says.index("sew on to the neck edge")
    assert "to the outside" in folded["Neck edge"]
    assert "fold-over" not in " ".join(steps(told(WOMAN)).values())
    assert "Turn the edge in once" in steps(told(WOMAN))["Neck edge"]
    # A scooped edge has nothing to fold over.
    assert "fold-over" not in " ".join(steps(told(WOMAN, {"neck_layers": "folded", "neck_height": 0})).values())


def test_a_folded_neck_changes_sides_at_a_centre_back_seam_too():
    style = {"neck_layers": "folded", "centre_back": "seam"}
    assert "Stop at the notch 1 cm below the fold-over line" in steps(told(WOMAN, style))["Centre back seam"]
    opened = steps(told(WOMAN, {**style, "neck_opening": "centre_back"}))
    assert "turn them to the other side from there up" in opened["Centre back seam"]
    assert "Close it just below the fold-over line" in opened["Neck edge"]
    assert "fold-over" not in steps(told(WOMAN, {"centre_back": "seam"}))["Centre back seam"]


def test_a_joined_sleeve_is_joined_before_the_underarm():
    found = steps(told(WOMAN, {"lower_sleeve": "joined"}))
    assert found["Overarm seams"].endswith("to the sleeve joint.")
    assert list(found).index("Sleeve joint") < list(found).index("Underarm and side")
    assert "Sleeve joint" not in steps(told(WOMAN))


def test_slits_are_left_open_and_hemmed():
    found = steps(told(WOMAN, {"slit": "20 cm"}))
    assert "down to the top of the slit" in found["Underarm and side"]
    assert "slits by 1.5 cm" in found["Hems"]
    plain = steps(told(WOMAN, {"slit": "none"}))
    assert "slit" not in plain["Underarm and side"] + plain["Hems"]


def test_a_cap_has_no_underarm_to_sew_twice():
    cap = told(WOMAN, {"sleeve_length": "8 cm"})
    assert "same stitching" not in steps(cap)["Underarm and side"]
    assert "gusset" not in table(cap)
    assert "from 6 cm before the underarm to 6 cm beyond it" in steps(told(WOMAN))["Underarm and side"]


@pytest.mark.parametrize(("along", "across", "said"), [(4, 0, "4 % along"), (4, 2, "4 % along and 2 % across")])
def test_what_is_not_washed_yet_is_not_taken_in_and_is_washed_before_it_is_levelled(along: int, across: int, said: str):
    held = steps(told(WOMAN, {}, shrink_along=along, shrink_across=across))
    assert f"It is not washed yet, so it is still larger by {said}. Take nothing in" in held["Underarm and side"]
    level = held["Hang it and level the hem"]
    assert level.index("Wash it first") < level.index("level the hem")
    for washed in (told(WOMAN), told(WOMAN, {}, shrink_along=12)):  # from 10 % on the cloth is washed before it is cut
        assert "wash" not in " ".join(steps(washed).values()).lower()


def test_allowances_said_are_those_of_the_pieces():
    draft = set_out(WOMAN, {}, KNIT)
    assert draft.after_cut is not None
    edges = {edge.name: edge.allowance for edge in draft.pieces[0].edges}
    hems = steps(draft.after_cut)["Hems"]
    assert f"the sleeve ends by {edges['sleeve_end'] / 10:g} cm and the hem by {edges['hem'] / 10:g} cm" in hems
    assert f"by {edges['neck_top'] / 10:g} cm" in steps(draft.after_cut)["Neck edge"]


@pytest.mark.parametrize(("across", "stretch"), [(49, False), (50, True)])
def test_the_needle_follows_the_stretch(across: int, stretch: bool):
    found = told(WOMAN, stretch_across=across)
    assert found.needle.startswith("Take a stretch needle") == stretch
    assert any("stretch needle, size 75" in one.what for one in found.buy) == stretch


def test_the_seam_is_proven_as_far_as_the_head_stretches_the_neck():
    draft = set_out(WOMAN, {"length": "hip"}, KNIT)
    assert draft.after_cut is not None
    share = WOMAN["measures"]["head_girth"] / (draft.facts["head_ring"] / 10) - 1
    assert f"the neck is stretched over the head by {round(100 * share)} %" in draft.after_cut.stitch
    pulled = math.ceil(40 * (1 + share)) / 2  # 20 cm on the scrap, up to the next half centimetre
    assert f"sew 20 cm on a scrap and pull it to {pulled:g} cm" in draft.after_cut.stitch


def test_a_wide_neck_is_not_what_the_seam_is_proven_by():
    found = told(WOMAN, {"neck_height": 0, "neck_half_width": "12.5 cm", "sleeve_length": "8 cm"}, stretch_across=60)
    assert "in wear by 30 %" in found.stitch  # half of the stretch: common practice, no source


def test_the_try_on_leaves_out_what_cannot_be():
    full, flat = BODIES["full bust"], WOMAN  # 108 over 96 of upper chest, and 90.1 over 88.2: 5 cm are free
    stand, scooped = table(told(full)), table(told(full, {"neck_height": 0}))
    assert "full bust" not in table(told(flat))
    assert "throat" in stand
    assert "throat" not in scooped
    man = table(told(BODIES["man"]))
    assert "full bust" in stand
    assert "full bust" not in man
    assert "Next time order a back with a seam at its centre" in stand
    assert "into the centre back seam" in table(told(WOMAN, {"centre_back": "seam"}))


def test_a_full_bust_gets_its_length_in_numbers():
    # (108 - 96 - 5) / 2.5 * 1.5 = 4.2 cm, by hand
    assert "By these measures that is 4.2 cm" in table(told(BODIES["full bust"]))
    # Common practice, no source: how near the bust level it is eased in, and from when on a dart takes it.
    assert "Ease it in within 8 cm of the bust level; above 2 cm sew a side dart." in table(told(BODIES["full bust"]))
    assert "By these measures" not in table(told(WOMAN))  # 90.1 - 88.2 is under 5
    assert "By these measures" not in table(told(BODIES["wide hips"]))  # upper chest was not measured


@pytest.mark.parametrize(("age", "small"), [(2, True), (3, False)])
def test_under_three_nothing_small_comes_off(age: int, small: bool):
    found = told({**TODDLER, "age": age}, {"neck_opening": "centre_back"})
    assert ("Under three years" in steps(found)["Neck edge"]) == small
    assert any("nappy" in says for says in found.before_cut) == small
    assert any("no room to grow" in says for says in found.before_cut)
    assert any("pressed through" in one.what for one in found.buy) == small


def test_grown_people_are_told_nothing_about_growing():
    assert told(WOMAN).before_cut == ()


def test_what_to_buy_besides_the_cloth():
    draft = set_out(WOMAN, {"neck_opening": "centre_back"}, KNIT)
    assert draft.after_cut is not None
    bought = {one.what: one.length for one in draft.after_cut.buy}
    foot, point = draft.points["column_foot"], draft.points["shoulder_point"]
    elastic = next(long for what, long in bought.items() if "elastic or stay tape" in what)
    assert elastic == pytest.approx(2 * (math.hypot(foot.x - point.x, foot.y - point.y) + 20))
    interfacing = next(long for what, long in bought.items() if "interfacing" in what)
    facing = draft.pieces[-1]
    assert interfacing == pytest.approx(facing.height)
    # The slit is measured from the cut edge of the neck, which lies its allowance above the finished one.
    assert interfacing == pytest.approx(draft.facts["opening"] + 10 + 30)
    assert "light interfacing that stretches, 6 cm wide, for the facing" in bought
    assert any("flat snap" in what for what in bought)
    assert [one.what for one in told(WOMAN).buy if "snap" in one.what or "interfacing" in one.what] == []


def test_inches_have_no_millimetres_and_no_centimetres():
    from drafting.order import prepare, read_order

    typed = order(WOMAN, {"neck_opening": "centre_back"}, KNIT)
    typed["tape"] = {"unit": "in", "step": "1/8"}
    made, _ = read_order(typed)
    assert made is not None
    ready, _ = prepare(made)
    assert ready is not None
    found = ready.set_out().after_cut
    assert found is not None
    words = " ".join([found.stitch, found.needle, table(found), *steps(found).values(), *(b.what for b in found.buy)])
    assert " mm" not in words
    assert " cm" not in words
    assert "8 in on a scrap" in words


def test_the_record_holds_it_and_a_refused_draft_has_none():
    from drafting.order import read_order

    made, _ = read_order(order(WOMAN, {"length": "hip"}, KNIT))
    assert made is not None
    result = make(made, with_ways_out=False)
    record = json.loads(draft_json(result))["after_cut"]
    assert [step["title"] for step in record["order"]] == list(steps(result.draft.after_cut))  # type: ignore[arg-type]
    told = [(step.key, step.tries_on) for step in result.draft.after_cut.order]  # type: ignore[union-attr]
    assert [(step["key"], step["tries_on"]) for step in record["order"]] == told
    assert record["try_on"][0]["seen"] == result.draft.after_cut.try_on[0].seen  # type: ignore[union-attr]
    assert record["buy"][0]["length"] is None
    refused, _ = read_order(order(WOMAN, {"neck_half_width": "19 cm"}, KNIT))
    assert refused is not None
    stopped = make(refused, with_ways_out=False)
    assert stopped.draft.refused
    assert json.loads(draft_json(stopped))["after_cut"] is None


def of(garment: str, style: Data, body: str = "median woman", **cloth: object) -> Result:
    """The whole result of any garment."""
    return draft(BODIES[body], style, {"width": "160 cm", **cloth}, garment=garment)


def after(result: Result) -> AfterCut:
    assert result.draft.after_cut is not None
    return result.draft.after_cut


def test_woven_cloth_is_washed_before_its_hem_and_not_called_unwashed_after_that():
    said = steps(after(of("kaftan", {}, shrink_along=6, shrink_across=3)))
    assert said["Hang it and level the hem"].startswith("Wash it first, since the marks hold what washing takes. Let")
    assert " ".join(said.values()).count("It is not washed yet") == 1


def test_a_slit_side_is_not_told_to_be_slit():
    slit, plain = (table(after(of("kaftan", {"slit": high}))) for high in ("35 cm", "none"))
    assert "slit both sides" in plain
    assert "slit them" in plain
    assert "slit both sides" not in slit
    assert "slit them" not in slit
    assert slit.count("let the slits begin higher up") == 2


def test_what_stands_off_is_called_by_its_name():
    assert "The roll collar stands off." in table(after(of("drop_shoulder", {"neck_finish": "roll"})))
    assert "The neck band stands off." in table(after(of("drop_shoulder", {})))


def test_slits_are_spoken_of_only_where_there_are_any():
    def caution(style: Data) -> str:
        return next(check.says for check in of("drop_shoulder", style).checks if check.id == "long_hem")

    assert "slits shut" not in caution({"length": "ankle", "body": "flared"})
    assert "slits shut" in caution({"length": "ankle", "body": "pegged"})


def test_the_needle_for_a_face_edge_that_is_turned_in_is_bought():
    style = {"neck_finish": "hood", "sleeve_finish": "cuff", "hem_finish": "band"}
    for lined in ("none", "lined"):
        found = after(of("drop_shoulder", {**style, "hood_lining": lined}))
        named = "twin stretch needle" in " ".join(step.says for step in found.order)
        assert any("twin stretch needle" in one.what for one in found.buy) == named == (lined == "none")


def test_a_flounce_is_pinned_to_what_its_sleeve_has():
    """The middle of a sleeve end is its overarm seam or its centre line, where no notch is snipped."""
    one = steps(after(of("drop_shoulder", {"sleeve_finish": "flounce", "sleeve_flounce_fullness": "quarter"})))
    assert "its middle to the middle of the sleeve end, and its quarter marks to the notches there" in " ".join(
        one.values()
    )
    more = steps(after(of("drop_shoulder", {"sleeve_finish": "flounce", "sleeve_flounce_fullness": "full"})))
    assert "its middles to the middle of the sleeve end and to the notches there" in " ".join(more.values())

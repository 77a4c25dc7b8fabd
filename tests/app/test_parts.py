from pathlib import Path
from typing import Any

import flet as ft
import flet.canvas as cv
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from app import parts
from app.parts.body_outline import TAPES, Tape, framed, outlines, placing, shown, smooth
from app.parts.drawing_view import MOST, Pinch, corner
from app.parts.fitted import LEAST, LINE, fitted, height_of, lines_of, word_width
from app.parts.fractions_tape import EIGHTHS, shown_fraction, with_fraction
from app.parts.progress_line import Stop, from_the_end, progress_line, stop_widths
from app.parts.reading import SIZES, named_readings, zone_for
from app.parts.signs import RESULTS, SIGNS, path_of
from app.text import WORDS
from app.theme import BIG, BODY, CLOTH, COLUMN, EDGE, LARGE, PAPER, READING, TOUCH
from drafting.drawing.piece import text_width
from drafting.person.measures import MEASURES, Kind
from drafting.units import INCH, LengthProblem, read_length
from tests.app.first_garment import garment_words

ROOT = Path(__file__).resolve().parents[2]

TYPED = ["", "10", "10 ", "10 3/8", "10⅜", "10 ⅜", "10.5", "10-1/2", "3/8", "⅜", "10 ½ in", "10 in", "10 3/", "10½in"]


@pytest.mark.parametrize("typed", TYPED)
@pytest.mark.parametrize("sign", EIGHTHS)
def test_a_tapped_fraction_takes_the_place_of_the_one_that_stood_there(typed: str, sign: str) -> None:
    text = with_fraction(typed, sign)
    whole = 10 if typed.startswith("10") else 0
    if shown_fraction(typed) == sign:
        assert shown_fraction(text) == ""
        expected = whole * INCH
    else:
        expected = (whole + (EIGHTHS.index(sign) + 1) / 8) * INCH
    if text:
        read = read_length(text, "in")
        assert not isinstance(read, LengthProblem), text
        assert read == pytest.approx(expected)
    else:
        assert expected == 0


@given(st.integers(1, 99), st.sampled_from(EIGHTHS), st.sampled_from(EIGHTHS))
def test_changing_ones_mind_about_a_fraction_leaves_only_the_last(whole: int, first: str, last: str) -> None:
    text = with_fraction(with_fraction(str(whole), first), last)
    assert text == (str(whole) if first == last else f"{whole} {last}")


@given(st.text(max_size=12), st.sampled_from(EIGHTHS))
def test_nothing_typed_that_is_no_number_is_thrown_away(typed: str, sign: str) -> None:
    if not any(character.isdigit() or character in EIGHTHS for character in typed):
        letters = [c for c in typed if c.isalpha()]
        assert [c for c in with_fraction(typed, sign) if c.isalpha()] == letters


def test_every_measure_has_its_place_on_the_body() -> None:
    assert set(TAPES) == set(MEASURES)
    for name, tape in TAPES.items():
        assert (tape.round is None) != (not tape.line), name
        assert name.endswith("girth") == (tape.round is not None), name


BODIES: tuple[tuple[Kind, float | None], ...] = (
    ("woman", None),
    ("man", None),
    ("child", None),
    ("child", 2),
    ("child", 15),
)


@pytest.mark.parametrize(("kind", "age"), BODIES)
@pytest.mark.parametrize("view", ["front", "back", "side"])
def test_outlines_stand_between_crown_and_sole(view, kind: Kind, age: float | None) -> None:  # type: ignore[no-untyped-def]
    heights = [y for outline in outlines(view, kind, age) for _, y in outline.places]
    assert min(heights) == pytest.approx(0, abs=0.2)
    assert max(heights) == pytest.approx(100, abs=0.2)


@pytest.mark.parametrize(("kind", "age"), BODIES)
def test_the_front_is_the_same_on_both_sides(kind: Kind, age: float | None) -> None:
    for outline in outlines("front", kind, age):
        places = {(round(x, 6), round(y, 6)) for x, y in outline.places}
        assert places == {(round(-x, 6) + 0.0, y) for x, y in places}


@pytest.mark.parametrize("kind", ["woman", "man"])
@pytest.mark.parametrize("name", [n for n, t in TAPES.items() if t.round is not None])
def test_a_loop_goes_round_what_it_measures(name: str, kind: Kind) -> None:
    shapely = pytest.importorskip("shapely")
    tape = TAPES[name]
    assert tape.round is not None
    (x, y), half, _ = tape.round
    x, y = placing(kind)((x, y))
    inside = shapely.union_all(
        [shapely.make_valid(shapely.Polygon(outline.places)) for outline in outlines(tape.view, kind)]
    )
    assert inside.contains(shapely.Point(x, y))
    level = shapely.LineString([(x - half * 0.8, y), (x + half * 0.8, y)])
    assert inside.intersection(level).length > 0.9 * level.length


@given(st.floats(0, 100), st.floats(0, 100), st.floats(1, 17))
def test_a_child_keeps_the_order_of_heights(one: float, other: float, age: float) -> None:
    low, high = sorted((one, other))
    place = placing("child", age)
    assert place((0, low))[1] <= place((0, high))[1]


def test_a_childs_head_is_the_larger_the_younger_it_is() -> None:
    heads = {age: placing("child", age)((0, 13.5))[1] for age in (3.0, 10.0, 17.0)}
    assert heads == pytest.approx({3.0: 20.0, 10.0: 100 / 6, 17.0: 100 / 7})  # a fifth, a sixth, a seventh
    assert 100 / 6 < placing("child")((0, 13.5))[1] < 20
    assert placing("man")((0, 13.5))[1] == placing("woman")((0, 13.5))[1] == 13.5


def test_a_man_is_wider_above_and_narrower_at_the_hip_and_only_a_woman_has_a_bust() -> None:
    wider = {y: placing("man")((5.0, y))[0] - 5.0 for y in (17.5, 38.0, 48.0)}
    assert wider[17.5] > 0.3
    assert wider[38.0] > 0.3
    assert wider[48.0] < 0
    chests = {kind: max(x for x, y in outlines("side", kind)[0].places if 20 < y < 33) for kind in ("woman", "man")}
    assert chests["woman"] > chests["man"] + 0.3
    assert min(x for x, _ in outlines("side", "man")[0].places) < -5  # the back is a back


@pytest.mark.parametrize(("kind", "age"), BODIES)
def test_the_figure_is_cropped_to_the_place_of_the_tape(kind: Kind, age: float | None) -> None:
    for tape in TAPES.values():
        cropped(tape, kind, age)


def cropped(tape: Tape, kind: Kind, age: float | None) -> None:
    place = placing(kind, age)
    top, foot = shown(tape, place)
    heights = [place((x, y))[1] for x, y in ([tape.round[0]] if tape.round else tape.line)]
    assert top <= min(heights)
    assert max(heights) <= foot
    if tape.full:
        assert (top, foot) == shown(None, place)
    else:
        assert foot - top == pytest.approx(max(28.0, max(heights) - min(heights) + 16))
        assert foot - top < 52, "no more than half of the body"
        assert top >= -3


@pytest.mark.parametrize(("kind", "age"), BODIES)
@pytest.mark.parametrize("size", [(390, 240), (390, 344), (720, 768), (338, 358), (368, 1248)])
def test_the_tape_lies_within_the_figure_on_pages_of_every_shape(
    size: tuple[float, float], kind: Kind, age: float | None
) -> None:
    """What of the page the figure has: on a phone, beside the words at a desk, in landscape and on a tablet."""
    for tape in TAPES.values():
        within(tape, size, kind, age)


def within(tape: Tape, size: tuple[float, float], kind: Kind, age: float | None) -> None:
    place = placing(kind, age)
    left, top, scale = framed(tape, place, *size)
    right, foot = left + size[0] / scale, top + size[1] / scale
    (x, y), half, _ = tape.round or ((0.0, 0.0), 0.0, 0.0)
    runs = [place((x + side * half, y)) for side in (-1, 1)] if tape.round else [place(at) for at in tape.line]
    across = [x for x, _ in runs]
    assert left + 1 < min(across)
    assert max(across) < right - 1
    assert top < min(y for _, y in runs)
    assert max(y for _, y in runs) < foot
    if tape.full or max(abs(x) for x in across) + 3 < size[0] / scale / 2:
        assert left == pytest.approx(-right), "the body stays in the middle where the tape is seen"
    assert foot - top >= shown(tape, place)[1] - shown(tape, place)[0] - 1e-9, "no less of the body is seen"


def test_a_smooth_line_passes_through_its_places() -> None:
    places = [(0.0, 0.0), (3.0, 1.0), (4.0, 5.0), (-1.0, 6.0)]
    assert [end for _, _, end in smooth(places)] == [*places[1:], places[0]]
    assert [end for _, _, end in smooth(places, closed=False)] == places[1:]


@pytest.mark.parametrize(
    "drawn", [*SIGNS.values(), *(part for outline, _, line in RESULTS.values() for part in (outline, line))]
)
def test_signs_stay_on_their_grid(drawn: str) -> None:
    steps = path_of(drawn)
    assert steps
    for step in steps:
        if isinstance(step, cv.Path.MoveTo | cv.Path.LineTo):
            assert 0 <= step.x <= 24
            assert 0 <= step.y <= 24


def test_results_are_told_by_shape() -> None:
    assert set(RESULTS) == {"pass", "shown", "caution", "warn", "stop"}
    assert len({outline for outline, _, _ in RESULTS.values()}) == len(RESULTS)
    with pytest.raises(ValueError, match="no sign"):
        parts.check_card(PAPER, identifier="x", result="fine", result_words="", says="")


NAMES = ("Mark 1: top of the neck at the fold", "Mark 9: end of the neck stand curve", "Mark 4: waist at the side")
PAGES = [(360, 640), (390, 664), (412, 732), (390, 844), (844, 390), (768, 1024), (1280, 800)]


def zone_on(width: int, height: int, text: float, down: str, values: tuple[str, str], unit: str) -> Any:
    """The zone as the chalk screen asks for it on a page, and the height it may have."""
    lying = height < 500 and width >= 600
    room = min(width, min(COLUMN, round(width * 0.58)) if lying or width >= 900 else COLUMN) - 2 * EDGE
    high = height - 140
    share, grown = (1.0, 1.0) if lying or width >= 900 else (0.7, 0.78)
    readings = ((("Across", values[0]), (down, values[1])), (("Straight between them", values[1]),))
    zone = zone_for(
        NAMES, readings, unit, rare=("(9) end of the neck stand curve → (15) underarm curve 3",), room=room,
        height=high * share, largest=high * grown, text=text, lying=lying,
    )  # fmt: skip
    return zone, high * (grown if text > 1 else share)


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("down", ["Down", "Down from the second 0"])
@pytest.mark.parametrize(("values", "unit"), [(("11.5", "132.5"), "cm"), (("17⅛", "32⅝"), "in"), (("0", "8⅞"), "in")])
def test_name_and_readings_have_their_room_on_every_page_with_letters_of_any_size(
    page: tuple[int, int], down: str, values: tuple[str, str], unit: str
) -> None:
    usual = None
    for text in (1.0, 1.3, 2.0):
        zone, most = zone_on(*page, text, down, values, unit)
        assert zone.height <= most + 0.01
        assert zone.number >= BIG
        usual = usual or zone
        assert (zone.number, zone.rows) == (usual.number, usual.rows), "readings never shrink for larger words"
        assert min(zone.name, zone.label, zone.unit) >= min(usual.name, usual.label, usual.unit)
        widest = max(text_width(value, zone.number, True) for value in values) + text_width(unit, zone.unit)
        assert widest < zone.value, "number and unit stand on one line"
        assert zone.value <= zone.room if zone.rows else zone.value <= zone.beside
        for name in NAMES:
            size = fitted(name, zone.room - 28, zone.name, LARGE * text, True)
            assert size >= LARGE
            high = height_of(name, size, zone.room - 28, True)
            assert high is not None
            assert high <= zone.name + 0.01
        for label in ("Across", down):
            assert fitted(label, zone.beside, zone.number * 1.1 if zone.rows else zone.label) >= 14
    if page[1] < 500:
        assert not usual.rows, "side by side on a phone that lies on its side"


def test_readings_are_as_large_as_they_go() -> None:
    assert zone_on(390, 844, 1.0, "Down", ("11.5", "32.5"), "cm")[0].number == READING
    low, most = zone_on(360, 460, 1.0, "Down", ("11.5", "32.5"), "cm")
    assert low.number < READING
    larger = SIZES[SIZES.index(low.number) - 1]
    assert low.height + 2 * 1.1 * (larger - low.number) > most, "the next larger would not go"


def test_larger_letters_are_used_where_there_is_room_and_only_there() -> None:
    roomy = zone_on(412, 915, 2.0, "Down", ("11.5", "32.5"), "cm")[0]
    assert fitted("Mark 4: waist at the side", roomy.room - 28, roomy.name, 2 * LARGE, True) == 2 * LARGE
    assert roomy.unit > LARGE
    assert roomy.name <= 2 * 2 * LARGE * LINE, "two lines at most: the rest is the drawing's"
    tight, most = zone_on(360, 480, 2.0, "Down", ("11.5", "32.5"), "cm")
    assert LARGE <= fitted("Mark 4: waist at the side", tight.room - 28, tight.name, 2 * LARGE, True) < 2 * LARGE
    assert tight.height <= most


def letter_sizes(control: Any) -> list[tuple[str, float]]:
    """Every text in a control with the size that is asked for it."""
    if isinstance(control, (list, tuple)):
        return [found for each in control for found in letter_sizes(each)]
    if isinstance(control, ft.Text):
        return [(control.value, control.style.size)]  # type: ignore[union-attr]
    return [] if control is None else letter_sizes([getattr(control, name, None) for name in ("content", "controls")])


@pytest.mark.parametrize("text", [1.0, 2.0])
def test_what_is_asked_of_the_device_is_smaller_by_what_it_enlarges(text: float) -> None:
    for page in ((390, 844), (844, 390)):
        zone, _ = zone_on(*page, text, "Down", ("11.5", "32.5"), "cm")
        shown = named_readings(
            CLOTH, zone, identifier="readings", name=NAMES[2], pairs=[("Across", "11.5"), ("Down", "32.5")], unit="cm"
        )
        asked = letter_sizes(shown)
        assert [said for said, _ in asked] == [NAMES[2], "Across", "11.5", "cm", "Down", "32.5", "cm"]
        assert [size * text for said, size in asked if "." in said] == [zone.number, zone.number]
        assert [size * text for said, size in asked if said == "cm"] == [zone.unit, zone.unit]
        assert shown.height == zone.height


def test_words_are_fitted_into_their_box() -> None:
    words = "end of the neck stand curve"
    wide = (sum(word_width(word, 20, True) for word in words.split()) + 5 * text_width(" ", 20, True)) * 1.03
    assert lines_of(words, 20, wide + 1, True) == 1
    assert lines_of(words, 20, wide - 1, True) == 2
    assert lines_of("underarm", 20, 20) == 0, "a word is never broken"
    assert height_of(words, 20, wide + 1, True) == 20 * LINE
    assert fitted(words, wide + 1, 20 * LINE, 20, True) == 20
    assert fitted(words, wide - 1, 20 * LINE, 20, True) == 18
    assert fitted(words, wide - 1, 2 * 20 * LINE, 20, True) == 20
    assert fitted("underarm", 20, 100, 20) == LEAST
    assert BODY > LEAST


def test_a_pinch_is_told_by_its_gestures_and_never_leaves_its_limits() -> None:
    pinch = Pinch()
    pinch.begin()
    pinch.to(2.0)
    pinch.to(3.0)  # each counts from where the gesture began
    assert pinch.now == 3.0
    pinch.begin()
    pinch.to(2.0)
    assert pinch.now == 6.0
    pinch.to(99.0)
    assert pinch.now == MOST
    pinch.begin()
    pinch.to(0.01)
    assert pinch.now == 1.0
    pinch.to(0.5)
    pinch.begin()
    pinch.to(1.5)
    pinch.fit()
    pinch.to(1.2)
    assert pinch.now == pytest.approx(1.2)


@pytest.mark.parametrize(("lit", "below"), [([], True), ([(50.0, 190.0)], True), ([(370.0, 180.0)], False)])
def test_the_button_that_fits_never_covers_what_is_lit(lit: list[tuple[float, float]], below: bool) -> None:
    box = corner(390, 200, lit)
    assert (box[1] > 100) is below
    assert (box[2] - box[0], box[3] - box[1]) == (TOUCH, TOUCH)
    assert all(not (box[0] <= x <= box[2] and box[1] <= y <= box[3]) for x, y in lit)


def test_words_are_shown_with_their_numbers_unbroken_and_read_out_as_they_are_written() -> None:
    shown = parts.say(PAPER, "It takes 1.2 m of cloth.")
    assert (shown.value, shown.semantics_label) == ("It takes 1.2\u00a0m of cloth.", "It takes 1.2 m of cloth.")
    plain = parts.say(PAPER, "It takes no cloth.")
    assert (plain.value, plain.semantics_label) == ("It takes no cloth.", None)


WAY = [Stop(each.lower(), each) for each in ("Person", "Shape", "Cloth", "Proof", "Lay", "Chalk", "Paper", "Sew")]


@pytest.mark.parametrize("text", [1.0, 1.3, 2.0])
@pytest.mark.parametrize("room", [344.0, 374.0, 544.0])
def test_every_stop_of_the_way_is_a_finger_wide_and_holds_its_word(room: float, text: float) -> None:
    for here in WAY:
        widths = stop_widths(WAY, here.key, room, text)
        for stop, width in zip(WAY, widths, strict=True):
            assert width >= max(TOUCH, text_width(stop.words, 14 * text, stop is here) + 8 * text)
        assert sum(widths) >= room - 1e-6, "the line goes from edge to edge"
        end = from_the_end(widths, at := WAY.index(here))
        before = sum(widths[at + 1 :]) if end else sum(widths[:at])
        if text < 2:  # the stops in the middle of a very long line begin or end beyond the room
            assert before + widths[at] <= room + 1e-6, "where one is, is seen whole"
        assert before < room - TOUCH + 8


def test_a_way_with_room_to_spare_is_not_moved() -> None:
    widths = stop_widths(WAY, "sew", 544.0)
    assert sum(widths) == pytest.approx(544)
    assert isinstance(progress_line(PAPER, WAY, "sew", lambda _: None, room=544).content, ft.Row)


def test_a_way_too_long_shows_the_end_where_one_is_at_the_end() -> None:
    for here, reverse in (("person", False), ("cloth", False), ("paper", True), ("sew", True)):
        line: Any = progress_line(PAPER, WAY, here, lambda _: None, room=344).content
        assert line.reverse is reverse, here
        names = [(getattr(each, "identifier", None) or each.content.content.identifier) for each in line.controls]
        assert names == [f"progress-{stop.key}" for stop in (WAY[::-1] if reverse else WAY)]


@pytest.mark.parametrize("weight", ["Regular", "SemiBold"])
def test_words_are_reckoned_no_narrower_than_the_font_has_them(weight: str) -> None:
    font = TTFont(ROOT / "assets" / "fonts" / f"FoldmarkSans-{weight}.ttf")
    glyphs, widths, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    told = {word for words in (*WORDS.values(), *garment_words()) for word in words.split()}
    assert len(told) > 500
    for word in told:
        true = sum(widths[glyphs[ord(letter)]][0] for letter in word) / em
        assert word_width(word, 100.0, weight == "SemiBold") >= 100 * true - 0.5, word
    assert word_width("Down", 100.0) < 1.2 * 271, "nor much wider"

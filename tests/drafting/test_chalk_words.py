"""The words of single tasks, where no test body has them."""

from drafting.chalk.marks import Mark
from drafting.chalk.tasks import ChalkNotches, Measured, PlacedNotch
from drafting.chalk.words import say
from drafting.contract.pieces import Notch
from drafting.geometry.point import Point
from drafting.units import Tape

TAPE = Tape("cm", "0.5")
PLACE = Point(100.0, 250.0)


def placed(label: str, mark_label: str | None) -> PlacedNotch:
    """A notch at a place, and the mark beside it, number 7, where there is one."""
    across, down = TAPE.reading(PLACE.x), TAPE.reading(PLACE.y)
    mark = None
    if mark_label is not None:
        mark = Mark("beside", mark_label, "corner", PLACE, across, down, 7, "straight", "levels")
    return PlacedNotch(Notch("side", "one", label, 10.0, PLACE, PLACE), Measured(PLACE, across, down), mark)


def test_a_notch_is_named_by_its_mark_or_by_its_own_name_and_that_marks_number() -> None:
    same, other, loose = placed("waist", "waist at the side"), placed("quarter", "neck corner"), placed("knee", None)
    said = say(ChalkNotches((same, other, loose)), TAPE)
    assert said.says == (
        "Chalk a short tick across the edge at (7) waist at the side and (7) quarter. "
        "Chalk another, in centimetres: knee across 10.0, down 25.0."
    )
    assert [one.says for one in said.apart] == [
        "Chalk a short tick across the edge at (7) waist at the side.",
        "Chalk a short tick across the edge at (7) quarter.",
        "Knee: chalk a short tick across the edge.",
    ]
    alone = say(ChalkNotches((loose,)), TAPE)
    assert alone.says == "Chalk a short tick across the edge, in centimetres: knee across 10.0, down 25.0."
    assert alone.apart[0].reads == (("across", "10.0"), ("down", "25.0"))

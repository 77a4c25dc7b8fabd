"""Ways out are bounded by counted work, and the command line says on a terminal that they are looked for."""

import io
import json
import sys
from pathlib import Path

import pytest

from drafting.__main__ import main
from drafting.checks import cloth_long_enough
from drafting.contract.judging import Words
from drafting.order import TIMES, make, order_work
from drafting.problems import Check
from drafting.ways_out.find import with_changes
from drafting.work import DRAFT
from tests.drafting.bodies import BODIES, Data, order, read

#: The hardest found by a search over bodies, styles and cloths: they hardly go, or do not go, on their cloth.
HARD: list[tuple[str, Data, Data]] = [
    ("tall woman", {"centre_back": "seam"}, {"width": "150 cm"}),
    ("tall woman", {}, {"width": "150 cm"}),
    ("tall woman", {}, {"width": "150 cm", "length": "100 cm"}),
    ("tall woman", {"sleeve_length": "elbow"}, {"width": "115 cm"}),
    ("median woman", {"centre_back": "seam"}, {"width": "115 cm"}),
    ("median woman", {"sleeve_length": "elbow"}, {"width": "180 cm", "length": "150 cm"}),
    ("median woman", {"lower_sleeve": "joined", "centre_back": "seam"}, {"width": "150 cm", "length": "100 cm"}),
    ("child of 6", {}, {"width": "150 cm", "length": "100 cm"}),
]


def found(check_id: str, checks: tuple[Check, ...]) -> Check:
    return next(check for check in checks if check.id == check_id)


@pytest.mark.sampled(4)
@pytest.mark.parametrize(("body", "style", "cloth"), HARD)
def test_ways_out_take_at_most_twenty_times_the_plain_draft(body: str, style: Data, cloth: Data) -> None:
    asked = read(order(BODIES[body], style, cloth))
    plain, whole = order_work(asked, with_ways_out=False), order_work(asked)
    assert plain + DRAFT <= whole <= 20 * plain
    assert order_work(asked) == whole, "the same work every time"


def test_the_work_is_cut_off_where_there_would_be_more(monkeypatch: pytest.MonkeyPatch) -> None:
    """With less patience fewer ways out are offered, each still proven, and never more work is done."""
    asked = read(order(BODIES["tall woman"], {}, {"width": "140 cm"}))
    plain, many = order_work(asked, with_ways_out=False), found("fits_cloth", make(asked).checks).ways_out
    counts = []
    for times in (4, 8, 9, 11, 12):  # at 9 and 11 a search for the length of a way out is cut short
        monkeypatch.setattr("drafting.order.TIMES", times)
        assert order_work(asked) <= times * plain
        some = found("fits_cloth", make(asked).checks).ways_out
        assert some == tuple(way for way in many if way in some)
        assert not some or some[-1] == many[-1], "wider cloth is tried first, and stands last"
        counts.append(len(some))
    assert counts == sorted(counts)
    assert counts[0] < len(many)
    assert TIMES == 20


def test_a_cloth_too_short_is_told_by_its_shortest_layout_and_its_ways_out_go_on_it() -> None:
    typed = order(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "180 cm", "length": "100 cm"})
    check = found("cloth_long_enough", make(read(typed)).checks)
    plain = make(read(with_changes(typed, [("cloth.length", None)])), with_ways_out=False)
    assert check.value == min(one.length for one in plain.layouts)
    assert check.ways_out
    for way in check.ways_out:
        after = make(read(with_changes(typed, way.changes)), with_ways_out=False)
        assert found("cloth_long_enough", after.checks).result == "pass", way.says
        assert after.layout is not None


def test_the_check_alone_judges_as_within_a_draft() -> None:
    for length in ("100 cm", "250 cm"):
        typed = order(BODIES["median woman"], {}, {"width": "160 cm", "length": length})
        result = make(read(typed), with_ways_out=False)
        assert cloth_long_enough.judge(result.draft, Words("cm")) == found("cloth_long_enough", result.checks)


def test_head_to_tail_is_offered_where_nobody_said_whether_the_cloth_is_one_way() -> None:
    typed = order(BODIES["median woman"], {"sleeve_length": "elbow"}, {"width": "180 cm", "length": "190 cm"})
    offered = {}
    for said in (None, True):
        typed["cloth"]["one_way"] = said
        check = found("cloth_long_enough", make(read(typed)).checks)
        assert check.result == "warn"
        offered[said] = [way for way in check.ways_out if way.changes == (("cloth.one_way", False),)]
    assert [way.says for way in offered[None]] == ["Let pieces lie head to tail. Only for cloth without nap or shade."]
    assert offered[True] == []


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_terminal_shows_that_ways_out_are_looked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = order(BODIES["tall woman"], {}, {"width": "140 cm"})
    (tmp_path / "order.json").write_text(json.dumps(typed), encoding="utf-8")
    arguments = [str(tmp_path / "order.json"), "--out", str(tmp_path / "out")]
    assert main(arguments) == 0
    assert "looking for ways out" not in capsys.readouterr().err, "a file or a pipe gets no moving line"
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    assert main(arguments) == 0
    shown = screen.getvalue()
    assert "\rlooking for ways out: fits_cloth, " in shown
    assert shown.index("looking for ways out: neck_stands, 1 tried") < shown.index("fits_cloth, ")
    moving, _, after = shown.rpartition("\r")
    assert after.startswith("\x1b[K"), "the line is wiped"
    assert "looking" not in after
    assert moving
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    typed = order(
        BODIES["median woman"], {"length": "hip"}, {"width": "200 cm", "stretch_across": 60, "stretch_along": 50}
    )
    (tmp_path / "order.json").write_text(json.dumps(typed), encoding="utf-8")
    assert main(arguments) == 0
    assert "\r" not in screen.getvalue()

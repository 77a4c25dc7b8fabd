"""Garments are found, and what is found is whole: nothing that stands in their folder is passed over."""

from dataclasses import replace
from types import ModuleType
from typing import Any

import pytest

from drafting import garments as package
from drafting.garments import Garment, garments
from drafting.order import read_order
from drafting.person.measures import KINDS, MEASURES, Kind, all_for
from tests.drafting.bodies import BODIES, measured_for, order

FIRST = garments()["cut_in_one"]


def found(monkeypatch: pytest.MonkeyPatch, **modules: Any) -> dict[str, Garment]:
    """What discovery finds in a folder of these modules, each with what it hands over (None: nothing)."""

    def load(name: str) -> ModuleType:
        module = ModuleType(name)
        if modules[name.rpartition(".")[2]] is not None:
            module.GARMENT = modules[name.rpartition(".")[2]]  # type: ignore[attr-defined]
        return module

    listed = [type("Found", (), {"name": name}) for name in modules]
    monkeypatch.setattr(package.pkgutil, "iter_modules", lambda path: listed)
    monkeypatch.setattr(package, "import_module", load)
    return package.garments.__wrapped__()


def test_garments_are_found_by_their_folders(monkeypatch: pytest.MonkeyPatch) -> None:
    other = replace(FIRST, name="another")
    assert list(found(monkeypatch, cut_in_one=FIRST, another=other).items()) == [
        ("another", other), ("cut_in_one", FIRST),
    ]  # fmt: skip


@pytest.mark.parametrize("given", [None, "a text", Garment])
def test_a_folder_without_a_garment_is_told_by_its_name(monkeypatch: pytest.MonkeyPatch, given: Any) -> None:
    with pytest.raises(TypeError, match="drafting/garments/another has no GARMENT"):
        found(monkeypatch, cut_in_one=FIRST, another=given)


def test_a_garment_is_called_as_its_folder_is(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(TypeError, match=r'drafting/garments/another is called "cut_in_one"'):
        found(monkeypatch, another=FIRST)


@pytest.mark.parametrize("member", ["name", "label", "style", "read_style", "set_out", "uses", "fields", "cases"])
def test_a_garment_lacks_no_member(member: str) -> None:
    given = {name: getattr(FIRST, name) for name in Garment.__dataclass_fields__ if name != member}
    with pytest.raises(TypeError, match=f"'{member}'"):
        Garment(**given)


@pytest.mark.parametrize("name", garments())
def test_a_garment_has_cases_for_the_tests(name: str) -> None:
    """Several, and each is an order that most of the test bodies may give."""
    cases = garments()[name].cases
    assert len(cases) >= 5, "name further styles, so that every choice is drafted by some case"
    for style, case in cases.items():
        given = [read_order(order(body, dict(case.style), dict(case.cloth), garment=name)) for body in BODIES.values()]
        refused = [problem.line() for one, problems in given if one is None for problem in problems]
        assert len([one for one, _ in given if one is not None]) > len(BODIES) / 2, (style, refused)


SKIRT = replace(
    FIRST, name="skirt", uses=("waist_girth", "hip_girth", "waist_to_hip", "knee_height"),
    required=("waist_girth", "hip_girth"), asked=("knee_height",),
)  # fmt: skip


def test_a_garment_asks_for_its_own_measures_alone() -> None:
    assert SKIRT.required_of("woman") == SKIRT.required_of("child") == ("stature", "waist_girth", "hip_girth")
    asked = ("stature", "waist_girth", "hip_girth", "waist_to_hip", "knee_height")
    assert SKIRT.asked_of("man") == asked
    assert SKIRT.asked_of("child") == tuple(name for name in asked if name != "waist_to_hip")
    assert SKIRT.others_of("woman") == ("bust_girth", "upper_chest_girth")
    assert SKIRT.others_of("child") == ("waist_to_hip",)


@pytest.mark.parametrize("name", garments())
@pytest.mark.parametrize("kind", KINDS)
def test_the_measures_of_a_garment_are_whole(name: str, kind: Kind) -> None:
    """What must be taken is asked for, and all that it is set out from can be given."""
    made = garments()[name]
    assert set(made.uses) <= set(MEASURES)
    assert set(made.required) | set(made.asked) <= set(made.uses)
    asked, others = made.asked_of(kind), made.others_of(kind)
    assert set(made.required_of(kind)) <= set(asked)
    assert not set(asked) & set(others)
    assert {*made.uses, *made.may_use} & set(all_for(kind)) <= {*asked, *others}
    assert len(asked) <= 13


def test_an_order_of_a_garment_without_a_bust_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drafting.order.garments", lambda: {"skirt": SKIRT})
    typed = order(BODIES["median woman"]) | {"garment": "skirt"}
    typed["person"] = {"kind": "woman", "unit": "cm", "measures": {"stature": 163, "waist_girth": 72}}
    read, problems = read_order(typed)
    assert read is None
    assert [problem.field for problem in problems] == ["person.measures.hip_girth"]
    typed["person"]["measures"]["hip_girth"] = 97
    read, problems = read_order(typed)
    assert read is not None, problems


@pytest.mark.parametrize("name", garments())
def test_a_garment_says_which_cloths_it_takes_and_refuses_the_other(name: str) -> None:
    garment = garments()[name]
    assert set(garment.cloths) <= {"knit", "woven"}
    assert garment.cloths
    person = measured_for(BODIES["median woman"], name)
    for kind in ("knit", "woven"):
        cloth = {"kind": kind, "width": "200 cm", "stretch_across": 60, "stretch_along": 40}
        made, problems = read_order({**order(person), "cloth": cloth, "garment": name})
        refused = [problem.field for problem in problems if problem.severity == "refuse"]
        assert (made is not None) == (kind in garment.cloths)
        assert refused == ([] if kind in garment.cloths else ["cloth.kind"])

"""What a garment offers: its starting points, its form, what it works out, and what the ways out of its checks try.

That a form is whole and that a way out helps is tested elsewhere (`test_every_garment`, `test_every_garment_made`).
Which options, limits and values are worth offering, in which order and words, is our choice. So `offered/` keeps a list
for each garment as somebody read it: where this test says that one changes, read it, and keep it with
`KEEP_TREES=1 build/test tests/drafting/test_offered.py`.
"""

import itertools
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from drafting import checks
from drafting.contract.cases import Case
from drafting.contract.fields import Chosen, Field
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments import Garment, garments
from drafting.layout import EVERY_WAY
from drafting.layout.laying_words import CUT, LIES, RUNS
from drafting.order import prepare, read_order
from drafting.person.measures import Kind
from tests.drafting.bodies import BODIES, measured_for, order
from tests.drafting.kept import as_kept

KEPT = Path(__file__).parent / "offered"
BODY = "median woman"
#: Cloth that gives little, so that there are many values above its stretch.
CLOTH = {"width": "150 cm", "stretch_across": 25, "stretch_along": 15}


def drafted(garment: Garment, style: Mapping[str, Any], more: Mapping[str, Any]) -> SetOut | None:
    """A draft for a woman of the tests; None where it is refused."""
    cloth = {**(CLOTH if "knit" in garment.cloths else {"width": "150 cm", "kind": "woven"}), **more}
    read, _ = read_order(order(measured_for(BODIES[BODY], garment.name), dict(style), cloth, garment=garment.name))
    ready = prepare(read)[0] if read is not None else None
    return None if ready is None else ready.set_out()


def typed(style: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, str]]:
    """A style as a form holds it: every key with its text, those of a group with a point."""
    for key, value in style.items():
        if isinstance(value, Mapping):
            yield from typed(value, f"{before}{key}.")
        else:
            yield f"{before}{key}", str(value)


def said(field: Field, chosen: Chosen) -> str:
    """A field as a person finds it."""
    if not field.shown(chosen):
        return f"{field.key}: not asked"
    words = [f"{field.key} ({field.kind}): {field.words}"]
    if field.options:
        told = (field.option_words(chosen, option.value) or option.words for option in field.options)
        words.append(" / ".join(told))
    if field.kind in {"slide", "degrees", "percent"}:
        words.append(f"{field.low:g} to {field.high(chosen):g}")
    words.append(f"usual {field.usual(chosen)}")
    return "; ".join([*words, *filter(None, [field.length_words, *field.ends])])


def begins(garment: Garment) -> Iterator[str]:
    """What it is called, its starting points, and the measures that each kind of person is asked for."""
    yield f"{garment.label}; {garment.title}; {garment.called}; of {', '.join(garment.cloths)}"
    for preset in garment.presets:
        style = ", ".join(f"{key} = {value}" for key, value in preset.style.items())
        yield f"{preset.key}: {preset.words}; {preset.named}; {preset.heard}; {style}"
    kinds: tuple[Kind, ...] = ("woman", "man", "child")
    for kind in kinds:
        yield f"{kind}, must be taken: {', '.join(garment.required_of(kind))}"
        yield f"{kind}, asked: {', '.join(garment.asked_of(kind))}"
        yield f"{kind}, others: {', '.join(garment.others_of(kind))}"
    for name in garment.may_use:
        cases = [case for case, one in garment.cases.items() if name in garment.rests_on(dict(typed(one.style)))]
        yield f"{name} counts in: {', '.join(cases)}"


def form(garment: Garment) -> Iterator[str]:
    """The form for a woman; of a man's, a child's and every case's form what differs from it."""
    plain = {field.key: said(field, Chosen({})) for field in garment.fields}
    yield from plain.values()
    kinds: tuple[Kind, ...] = ("man", "child")
    others: list[tuple[str, Chosen]] = [(kind, Chosen({}, kind)) for kind in kinds]
    others += [(name, Chosen(dict(typed(case.style)))) for name, case in garment.cases.items()]
    for name, chosen in others:
        for field in garment.fields:
            if (now := said(field, chosen)) != plain[field.key]:
                yield f"{name}: {now}"


def washed(garment: Garment) -> Iterator[tuple[str, Case]]:
    """Every case of cloth that shrinks, more along than across."""
    for name, case in garment.cases.items():
        yield f"washed, {name}", Case(case.style, {**case.cloth, "shrink_across": 3, "shrink_along": 5})


def worked_out(garment: Garment) -> Iterator[str]:
    """The lengths that a form shows where they were left open, mm, in every case, as it is and of cloth that shrinks.

    They are finished lengths: what the wash takes is in none of them.
    """
    before: dict[str, str] = {}
    for name, case in itertools.chain(garment.cases.items(), washed(garment)):
        draft = drafted(garment, case.style, case.cloth)
        if draft is None or draft.refused:
            continue
        for field in garment.fields:
            value = None if field.drafted is None else field.drafted(draft)
            told = "nothing" if value is None else f"{value:.1f}"
            if field.drafted is not None and before.get(field.key) != told:
                before[field.key] = told
                yield f"{name}: {field.key} = {told}"


def tried(garment: Garment, words: Words) -> Iterator[str]:
    """The ways out of each check: the key that is set, the values, and the words for the first of them."""
    draft = drafted(garment, {}, {})
    assert draft is not None
    for module in checks.rules(garment.name):
        for way in checks.ways_of(module.ID, draft):
            if values := list(way.values(draft)):
                also = "".join(f", {key} = {value}" for key, value in way.also)
                told = ", ".join(str(value) for value in values)
                unsaid = " (where left open)" * way.unsaid
                yield f"{module.ID}: {way.key} = {told}{also}{unsaid}: {way.says(values[0], words)}"


@pytest.mark.parametrize("name", sorted(garments()))
def test_ways_out_are_told_in_inches_to_whom_reads_inches(name: str) -> None:
    told = [line.rpartition(": ")[2] for line in tried(garments()[name], Words("in"))]
    assert any(re.search(r"[\d¼½¾⅛⅜⅝⅞] in\b", line) for line in told)
    assert not [line for line in told if re.search(r"\d (mm|cm)\b", line)]


@pytest.mark.parametrize("name", sorted(garments()))
def test_what_a_garment_offers_is_what_was_read(name: str) -> None:
    garment = garments()[name]
    parts = {
        "Begins": begins(garment),
        "Asked": form(garment),
        "Worked out, mm": worked_out(garment),
        "Tried": tried(garment, Words("cm")),
    }
    now = [line for title, lines in parts.items() for line in (f"== {title}", *lines)]
    as_kept(KEPT / f"{name}.txt", now)


def ways_to_lay() -> Iterator[str]:
    """How each way to lay the cloth is called, how the cloth lies, and how it is offered."""
    for way in EVERY_WAY:
        lies = f"doubled {way.doubled}, flat {way.flat}, turned {way.turns_cloth}"
        edges = f"left fold {way.fold_left}, right fold {way.fold_right}, else {way.right_says}"
        yield f"{way.key}: {way.name}; {lies}; {edges}; {way.turned_says}"
        yield from (f"{way.key}, offered: {says}" for says in way.offered or ())
        yield from (f"{way.key}, offered of woven cloth: {says}" for says in way.offered_woven or ())
    for title, words in (("lies", LIES), ("runs", RUNS), ("is cut", CUT)):
        yield from (f"{title}, {key}: {says}" for key, says in words.items())


def test_what_is_said_of_the_ways_to_lay_the_cloth_is_what_was_read() -> None:
    as_kept(KEPT / "ways_to_lay.txt", ways_to_lay())

"""What is true of every garment by itself, before anything is drafted for anybody: its form, its checks, its ways out.

Each rule raises AssertionError with what it found, and knows a garment only by what it hands over.
"""

import pkgutil
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from importlib import import_module
from types import ModuleType
from typing import Any

from drafting import checks
from drafting.contract.fields import Chosen, Field
from drafting.contract.judging import Changes, Way
from drafting.contract.set_out import SetOut
from drafting.garments import Garment
from drafting.order import Order, Ready, prepare, read_order
from drafting.person.measures import MEASURES
from drafting.ways_out.find import changed, with_changes
from tests.drafting.bodies import BODIES, Data, cloth_of, measured_for, order

#: Cloth on which hardly anything stops.
GIVING: Data = {"width": "200 cm", "stretch_across": 60, "stretch_along": 40}


def missed(garment: Garment) -> dict[str, str]:
    """The rules that a garment breaks, by name, with what each found."""
    found = {}
    for rule in RULES:
        try:
            rule(garment)
        except AssertionError as error:
            found[rule.__name__] = str(error)
    return found


# --- Its form ---------------------------------------------------------------------------------------------------------


def styled(key: str, value: Any) -> Data:
    """A style that says one thing; a key of a group is written with a point."""
    return changed({}, key, value)


def values(field: Field, kind: str) -> list[Any]:
    """What may be chosen for a field by itself: its options, the ends of its slider, a length that it begins with."""
    chosen = Chosen({}, kind)  # type: ignore[arg-type]
    found: list[Any] = [*field.values]
    if field.kind == "slide":
        found += [f"{value:g} mm" for value in (field.low, field.high(chosen))]
    if field.kind in {"degrees", "percent"}:
        found += [field.low, field.high(chosen)]
    if field.begins is not None:
        found.append(f"{field.begins:g} mm")
    return found


def ready_for(garment: Garment, typed: Data) -> Ready | None:
    """An order as it is read; None where it is refused."""
    found, _ = read_order(made_for(garment, typed))
    return None if found is None else prepare(found)[0]


def made_for(garment: Garment, typed: Data) -> Data:
    """An order for a garment, on cloth that it takes."""
    return {**typed, "garment": garment.name, "cloth": cloth_of(garment.name, typed["cloth"])}


def fields_can_be_read(garment: Garment) -> None:
    """Whatever can be chosen on the screen is a style that most people may have."""
    keys = [field.key for field in garment.fields]
    assert len(keys) == len(set(keys)), f"a key is asked twice: {keys}"
    assert set(garment.first) <= set(keys), f"{set(garment.first) - set(keys)} is no field"
    for field in garment.fields:
        assert field.key.split(".")[0] in garment.style.model_fields, f"{field.key} is no key of the style"
        for value in values(field, "woman"):
            # By itself, or with one of the cases: a field may be shown only where another choice is made.
            read = 0
            for style in ({}, *(dict(case.style) for case in garment.cases.values())):
                chosen = changed(style, field.key, value)
                given = [order(measured_for(body, garment.name), chosen, GIVING) for body in BODIES.values()]
                read = max(read, sum(ready_for(garment, one) is not None for one in given))
                if read > len(BODIES) / 2:
                    break
            assert read > len(BODIES) / 2, f"{field.key} cannot be {value!r}"


def fields_are_said(garment: Garment) -> None:
    said_once = Counter(field.words for field in garment.fields)
    assert max(said_once.values()) == 1, f"two fields are called {said_once.most_common(1)[0][0]!r}"
    for field in garment.fields:
        for kind in ("woman", "man", "child"):
            chosen = Chosen({}, kind)  # type: ignore[arg-type]
            usual = field.usual(chosen)
            assert not field.values or usual in (*field.values, ""), f"{field.key} is usually {usual!r}"
            if field.kind == "percent":
                assert field.low <= float(usual) <= field.high(chosen), field.key
            if field.kind in {"slide", "degrees"}:
                assert field.low <= float(usual) <= 10 * field.high(chosen), field.key
                assert field.low < field.high(chosen), field.key
                assert all(field.ends), f"the ends of {field.key} have no words"
        said = [field.words, *(option.words for option in field.options)]
        said += [field.length_words] if field.kind == "choice_or_length" else []
        for text in (*said, garment.label, garment.title):
            assert text.strip(), f"{field.key} has no words"
            assert "_" not in text, f"{field.key} says {text!r}"
        assert len(set(field.values)) == len(field.values), f"{field.key} has an option twice"


def presets_can_be_taken(garment: Garment) -> None:
    """All name the same keys, so that one leaves nothing of another behind, and each is drafted."""
    keys = [set(preset.style) for preset in garment.presets]
    assert all(one == keys[0] for one in keys), "the presets do not name the same keys"
    asked = {field.key: field for field in garment.fields}
    for preset in garment.presets:
        assert set(preset.style) <= set(asked), f"the preset {preset.key} sets what is not asked"
        style: Data = {}
        for key, text in preset.style.items():
            if text:
                style = changed(style, key, float(text) if asked[key].kind == "degrees" else text)
        ready = ready_for(garment, order(measured_for(BODIES["median woman"], garment.name), style, GIVING))
        assert ready is not None, f"the preset {preset.key} cannot be read"
        assert garment.set_out(ready.body, ready.choices, ready.cloth, ready.chalked).pieces, preset.key


def measures_are_known(garment: Garment) -> None:
    assert set(garment.uses) <= set(MEASURES), set(garment.uses) - set(MEASURES)
    assert len(set(garment.uses)) == len(garment.uses)
    assert garment.uses
    assert set(garment.may_use) <= set(MEASURES) - set(garment.uses), "what every style rests on stands in `uses`"


def nothing_else_is_rested_on(garment: Garment) -> None:
    """A measure that is not named for a style changes nothing of its draft; the others are told where estimated."""
    drafted = 0
    for name, case in garment.cases.items():
        for body in ("median woman", "child of 6"):
            typed = order(measured_for(BODIES[body], garment.name), dict(case.style), dict(case.cloth))
            ready = ready_for(garment, typed)
            if ready is None:
                continue
            named = garment.rests_on(dict(case.style))
            others = {one: 1.05 * getattr(ready.body, one) for one in MEASURES if one not in named}
            changed = replace(ready.body, **others)
            draft, again = (
                garment.set_out(one, ready.choices, ready.cloth, ready.chalked) for one in (ready.body, changed)
            )
            assert (draft.pieces, draft.girths) == (again.pieces, again.girths), f"{name}, {body}"
            drafted += bool(draft.pieces)
    assert drafted


# --- Its cases --------------------------------------------------------------------------------------------------------


def cases_are_there(garment: Garment) -> None:
    """Several, and most of the test bodies may have each."""
    assert len(garment.cases) >= 5, f"{len(garment.cases)} cases are too few"
    for name, case in garment.cases.items():
        given = [
            ready_for(garment, order(measured_for(body, garment.name), dict(case.style), dict(case.cloth)))
            for body in BODIES.values()
        ]
        assert sum(one is not None for one in given) > len(given) / 2, f"the case {name} is refused"


# --- Its checks and ways out ------------------------------------------------------------------------------------------


def shared_checks() -> list[ModuleType]:
    found = [import_module(f"{checks.__name__}.{module.name}") for module in pkgutil.iter_modules(checks.__path__)]
    return [module for module in found if hasattr(module, "judge") or hasattr(module, "judge_chalked")]


def checks_have_ids_of_their_own(garment: Garment) -> None:
    every = [*shared_checks(), *garment.checks]
    twice = [name for name, count in Counter(module.ID for module in every).items() if count > 1]
    assert not twice, f"two checks are called {', '.join(twice)}"
    for module in garment.checks:
        assert hasattr(module, "judge"), module.__name__
        assert isinstance(module.ORDER, int), module.__name__
        assert isinstance(module.WAYS, tuple), module.__name__
    unknown = set(garment.ways) - {module.ID for module in every}
    assert not unknown, f"ways out of {', '.join(unknown)}, which is no check"


def own_lengths(garment: Garment, draft: SetOut) -> Iterator[Data]:
    """Styles that each say one length of their own, near what was drafted where that is known."""
    for field in garment.fields:
        if field.kind in {"length", "choice_or_length"}:
            drafted = field.drafted(draft) if field.drafted else None
            near = [drafted - 8, drafted + 20, drafted / 2] if drafted is not None else [60, 150, 400, 800]
            yield from (styled(field.key, f"{mm:.1f} mm") for mm in near if mm > 0 or field.signed)


def _drafts(garment: Garment) -> Iterator[tuple[Data, Ready, SetOut]]:
    """Drafts on cloth that gives and on cloth that gives little: every case, and lengths of one's own, one by one."""
    poor: Data = {"width": "120 cm", "length": "150 cm", "stretch_across": 12, "stretch_along": 8}
    for body in ("median woman", "child of 6", "man"):
        usual = ready_for(garment, order(measured_for(BODIES[body], garment.name), {}, GIVING))
        assert usual is not None
        plain = garment.set_out(usual.body, usual.choices, usual.cloth, usual.chalked)
        styles = [(style, GIVING) for style in ({}, *own_lengths(garment, plain))]
        styles += [(dict(case.style), dict(case.cloth)) for case in garment.cases.values()]
        for style, cloth in styles:
            for given in (cloth, poor):
                typed = order(measured_for(BODIES[body], garment.name), style, given)
                ready = ready_for(garment, typed)
                if ready is not None:
                    found, _ = read_order(made_for(garment, typed))
                    assert isinstance(found, Order)
                    draft = garment.set_out(ready.body, ready.choices, ready.cloth, ready.chalked)
                    yield found.model_dump(mode="json"), ready, replace(draft, cloth_needed=2500.0)


def _ways(garment: Garment, draft: SetOut) -> Iterator[tuple[str, Way]]:
    """Every way out that the garment names, with what names it; what its checks find in the draft too."""
    for name, ways in garment.ways.items():
        yield from ((f"{name} {number} ({way.key})", way) for number, way in enumerate(ways))
    for module in garment.checks:
        found = (*module.WAYS, *(module.ways(draft) if hasattr(module, "ways") else ()))
        yield from ((f"{module.ID} {number} ({way.key})", way) for number, way in enumerate(found))


def _changes(garment: Garment, typed: Data, before: tuple[Ready, SetOut], changes: Changes) -> bool:
    """Whether an order with further keys set is read, and is drafted otherwise."""
    ready = ready_for(garment, with_changes(typed, changes))
    if ready is None:
        return False
    if ready == before[0]:
        return False  # read alike, so drafted alike
    if ready.chalked != before[0].chalked:
        return True
    after = garment.set_out(ready.body, ready.choices, ready.cloth, ready.chalked)
    shape = [(draft.pieces, draft.girths, draft.facts, draft.refused) for draft in (before[1], after)]
    return shape[0] != shape[1] or ready.cloth != before[0].cloth


def ways_out_change_something(garment: Garment) -> None:
    """Each way out that is named is worth trying in some draft: it is read, and what is drafted is another."""
    waiting: dict[str, bool] = {}
    for typed, ready, draft in _drafts(garment):
        for name, way in _ways(garment, draft):
            if waiting.setdefault(name, True):
                tried = [((way.key, value), *way.also) for value in way.values(draft)]
                waiting[name] = not any(_changes(garment, typed, (ready, draft), changes) for changes in tried)
        for number, change in enumerate((*garment.to_fit, *garment.to_save)):
            name = f"{'to fit' if number < len(garment.to_fit) else 'to save'}, {number}"
            if draft.pieces and waiting.setdefault(name, True):
                tried_sets = change.changes(draft)
                waiting[name] = not any(_changes(garment, typed, (ready, draft), keys) for keys in tried_sets)
        if waiting and not any(waiting.values()):
            return
    useless = [name for name, still in waiting.items() if still]
    assert not useless, f"these ways out change nothing in any draft: {useless}"


RULES: tuple[Callable[[Garment], None], ...] = (
    cases_are_there,
    fields_can_be_read,
    fields_are_said,
    presets_can_be_taken,
    measures_are_known,
    nothing_else_is_rested_on,
    checks_have_ids_of_their_own,
    ways_out_change_something,
)

"""The way of the whole job, as a person taps and types it, and what the core says for the same order."""

import json
import re
import subprocess
import sys
from base64 import b64decode
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import browser as b
import pytest
from playwright.sync_api import Page, TimeoutError
from pypdf import PdfReader

from drafting.chalk.plan import ChalkPlan
from drafting.order import glance, make, read_order
from drafting.units import Unit

ROOT = Path(__file__).resolve().parents[2]
PAPERS = ("draft-json", "chalk-sheet-pdf", "pattern-pdf")
"""What is saved beside the order, and must be what the command line makes of it."""


@dataclass(frozen=True)
class Job:
    """Whom a garment is made for, in which unit, and from what cloth; all as it is typed."""

    name: str
    unit: Unit
    measures: dict[str, str]
    shape: tuple[str, ...]
    cloth: dict[str, str]
    slip: tuple[str, str, str] = ("", "", "")
    """A measure, what is typed there by mistake, and what is then said at the field."""
    tape_length: str = ""
    """How long the tape is; empty for the usual one."""


IN_INCHES = Job(
    "Runa",
    "in",
    {"stature": "66", "head_girth": "22 1/2", "bust_girth": "38 1/4"},
    ("flare-slight", "length-hip"),
    {"width": "70", "stretch-across": "50", "stretch-along": "30"},
    ("bust_girth", "98", "Did you mean 98 cm?"),
)
IN_CENTIMETRES = Job(
    "Odile",
    "cm",
    {"stature": "171,5", "head_girth": "57", "bust_girth": "92.5", "wrist_girth": "16"},
    ("flare-none", "length-ankle"),
    {"width": "180", "stretch-across": "45", "stretch-along": "25"},
    ("stature", "1715", "Did you mean 1715 mm?"),
    "120",
)
"""A dress longer than the tape: its last marks are read from a second 0."""


def arrive(page: Page, screen: str) -> None:
    """Wait for a screen and let its movement end."""
    b.at(page, f"screen-{screen}").wait_for(state="attached", timeout=30_000)
    b.still(page)


def at_home(page: Page) -> None:
    """Back to the first screen, however far it is."""
    for _ in range(12):
        if b.at(page, "screen-home").count():
            return
        before = page.url
        b.tap(page, "back")
        with suppress(AssertionError):  # on a busy machine a tap may be taken for a trembling of the last
            b.wait_until(page, lambda before=before: page.url != before, f"back leads away from {before}", 10)  # type: ignore[misc]
        b.still(page)
    raise AssertionError(f"no way home from {page.url}")


def demo_to_chalk(page: Page) -> None:
    """From the first screen over the demo's screens to its first thing to chalk."""
    b.tap(page, "try-demo")
    arrive(page, "shape")
    for screen in ("cloth", "proof"):
        onward(page)
        arrive(page, screen)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "it can be chalked", 90)
    b.tap(page, "start-chalking")
    b.at(page, "done").wait_for(state="attached", timeout=60_000)
    b.still(page)


_STANDS = """() => [...document.querySelectorAll("[flt-semantics-identifier]")]
    .map((each) => each.getAttribute("flt-semantics-identifier"))
    .filter((name) => /^(screen|measure)-/.test(name)).sort().join(" ")"""


def onward(page: Page) -> None:
    """Tap the one way on and wait until the address has changed and the next page stands there.

    The address is new before the page is; on a busy machine a second tap would else go on from the page before.
    """
    before, stood = page.url, page.evaluate(_STANDS)
    b.tap(page, "next")
    b.wait_until(page, lambda: page.url != before, f"next leads away from {before}")
    b.wait_until(page, lambda: page.evaluate(_STANDS) != stood, f"another page than {stood} comes")
    b.still(page)


def new_garment(page: Page, name: str = "cut_in_one") -> None:
    """From home to whom the new garment is for; on the way it is chosen, where there is more than one."""
    b.tap(page, "new-garment")
    b.wait_until(
        page, lambda: any(b.at(page, f"screen-{each}").count() for each in ("which", "person")), "it has begun"
    )
    b.still(page)
    if b.at(page, "screen-which").count():
        b.choose(page, f"which-{name}")
        b.tap(page, "next")
    arrive(page, "person")


def new_person(page: Page, job: Job) -> None:
    """From home to the shape screen; with a slip on the way, which is told at its field."""
    new_garment(page)
    if b.at(page, "add-person").count():  # somebody is there already, but it is for another
        b.tap(page, "add-person")
    b.at(page, "name").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.type_into(page, "name", job.name)
    b.choose(page, f"unit-{job.unit}")
    b.still(page)
    measured(page, job.measures, job.slip)
    b.still(page)
    b.tap(page, "progress-shape")
    arrive(page, "shape")


def measured(page: Page, measures: dict[str, str], slip: tuple[str, str, str] = ("", "", "")) -> None:
    """From who it is through the measures, one a screen, until all of these are typed."""
    left = dict(measures)
    for _ in range(16):
        if not left:
            return
        onward(page)
        for measure in [each for each in left if b.at(page, f"measure-{each}").count()]:
            slipped, mistake, told = slip
            if measure == slipped:
                b.type_into(page, f"measure-{measure}", mistake)
                page.get_by_text(told).first.wait_for(state="attached", timeout=15_000)
            b.type_into(page, f"measure-{measure}", left.pop(measure))
    raise AssertionError(f"never asked for: {left}")


def shape_and_cloth(page: Page, job: Job) -> None:
    """From the shape screen to the proof."""
    for choice in job.shape:
        b.choose(page, choice)
        b.still(page)
    onward(page)
    arrive(page, "cloth")
    for key, typed in job.cloth.items():
        b.type_into(page, f"cloth-{key}", typed)
    if job.tape_length:
        b.type_into(page, "tape-length", "7")
        page.get_by_text("is shorter than can be reckoned with").first.wait_for(state="attached", timeout=15_000)
        b.type_into(page, "tape-length", job.tape_length)
    b.still(page)
    onward(page)
    arrive(page, "proof")


def to_the_chalk(page: Page, job: Job) -> None:
    """From home all the way to the first thing on the chalk screen."""
    new_person(page, job)
    shape_and_cloth(page, job)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start", 90)
    b.tap(page, "start-chalking")
    arrive(page, "chalk")
    b.wait_until(page, lambda: bool(b.at(page, "done").count()), "there is something to chalk")


@dataclass(frozen=True)
class Seen:
    """One thing on the chalk screen: whose, its place among how many, what it says, its readings with their words."""

    piece: str
    place: int
    of: int
    said: str
    readings: tuple[str, ...]


_SCREEN = """() => {
    const named = (name) => document.querySelector(`[flt-semantics-identifier="${name}"]`);
    const text = (name) => {  // a line for each piece of text: not every engine parts them in innerText
        const words = [], walk = named(name) && document.createTreeWalker(named(name), NodeFilter.SHOW_TEXT);
        while (walk?.nextNode()) words.push(walk.currentNode.data);
        return words.join("\\n");
    };
    return {said: text("screen-chalk"), done: Boolean(named("done")),
            readings: ["readings", "readings-1", "readings-2"].map(text).filter(Boolean)};
}"""


def look(page: Page) -> Seen | None:
    """What the chalk screen shows; None at its end, where nothing is left to be done."""
    found: dict[str, Any] = page.evaluate(_SCREEN)
    where = re.search(r"^(.+) · (\d+) of (\d+)$", found["said"], re.MULTILINE)
    if not found["done"] or where is None:
        return None
    return Seen(where[1], int(where[2]), int(where[3]), found["said"], tuple(found["readings"]))


def chalk(page: Page, most: int = 200) -> list[Seen]:
    """Tick off what the chalk screen shows, one thing after the other; return what was seen before each tap."""
    seen: list[Seen] = []
    while len(seen) < most:
        now = look(page)
        page.wait_for_timeout(120)  # a finger sees what it taps on; sooner taps are taken for tremblings of the last
        if now != look(page):
            continue  # the tree is written in parts, and was read between two of them
        if now is None:
            return seen
        seen.append(now)
        b.tap_once(page, "done")
        b.wait_until(page, lambda now=now: look(page) != now, f"{now.place} of {now.of} is ticked off")  # type: ignore[misc]
    return seen


_LIST = """() => [...document.querySelectorAll("[flt-semantics-identifier^='item-']")]
    .map((each) => [each.getAttribute("flt-semantics-identifier"), each.innerText + (each.ariaLabel ?? "")])"""


def listed(page: Page) -> list[str]:
    """What the list of the chalk screen says, row by row, each on one line; and back to what is being chalked."""
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    b.still(page)
    rows: list[list[str]] = page.evaluate(_LIST)
    assert [each[0] for each in rows] == [f"item-{number}" for number in range(1, len(rows) + 1)]
    b.tap(page, "back")
    b.at(page, "done").wait_for(state="attached", timeout=30_000)
    return [" ".join(each[1].split()) for each in rows]


def plan_of(order: Path) -> tuple[ChalkPlan, dict[str, str]]:
    """The chalk plan that the core makes for a saved order, here and now, and what the screen calls each piece."""
    read, problems = read_order(json.loads(order.read_text("utf-8")))
    assert read is not None, problems
    result = make(read)
    assert result.plan is not None
    return result.plan, {piece.name: piece.label.capitalize() for piece in result.draft.pieces}


def every_reading_is_the_cores(seen: list[Seen], order: Path) -> None:
    """Every mark and proof length was shown once, with the readings that the core gives for the order.

    A mark that no step names lies where an earlier piece has it, round which the piece is chalked; then its proof
    lengths are those of the earlier one.
    """
    plan, labels = plan_of(order)
    unit = plan.tape.unit
    marks, proofs, there = [], [], set[tuple[str, str, str]]()
    named = {(step.piece, mark) for step in plan.steps for mark in step.marks}
    for piece in plan.pieces:
        whose, numbers = labels[piece.piece], {mark.id: mark.order for mark in piece.every}
        if piece.same_as is None:
            read = {mark.id: (mark.label, mark.across.pretty, mark.reads.pretty) for mark in piece.every}
            round_it = {place for mark, place in read.items() if (piece.piece, mark) not in named}
            assert round_it <= there
            there.update(read.values())
            proofs += [
                (whose, numbers[each.start], numbers[each.end], f"Straight between them {each.reads.pretty} {unit}")
                for each in piece.proofs if not round_it
            ]  # fmt: skip
        marks += [
            (whose, f"Mark {mark.order}: {mark.label}", f"Across {mark.across.pretty} {unit}",
             f"{'Down' if mark.zero == 1 else 'Down from the second 0'} {mark.reads.pretty} {unit}")
            for mark in piece.every if (piece.piece, mark.id) in named
        ]  # fmt: skip
    shown_marks = [
        (each.piece, said[0], *each.readings)
        for each in seen if (said := re.findall(r"^Mark \d+: .+$", each.said, re.MULTILINE))
    ]  # fmt: skip
    shown_proofs = [
        (each.piece, int(ends[1]), int(ends[2]), *each.readings)
        for each in seen if (ends := re.search(r"^\((\d+)\) .+ → \((\d+)\) .+$", each.said, re.MULTILINE))
    ]  # fmt: skip
    assert len(marks) > 5
    assert proofs
    assert sorted(shown_marks) == sorted(marks), f"otherwise: {set(shown_marks) ^ set(marks)}"
    assert sorted(shown_proofs) == sorted(proofs)
    assert [each.place for each in seen] == list(range(1, seen[0].of + 1)), "nothing was passed over"


def the_list_has_the_cores_readings(rows: list[str], order: Path) -> None:
    """Every mark and proof length stands in the list once, with the readings that the core gives for the order."""
    plan, labels = plan_of(order)
    named = {(step.piece, mark) for step in plan.steps for mark in step.marks}
    expected = []
    for piece in plan.pieces:
        whose, unit = labels[piece.piece], plan.tape.unit
        numbers = {mark.id: f"({mark.order}) {mark.label}" for mark in piece.every}
        last = max(mark.order for mark in piece.every)
        expected += [
            f"{whose}, mark {mark.order} of {last}: {mark.label}. Across {mark.across.pretty}, down "
            f"{'' if mark.zero == 1 else 'from the second 0 '}{mark.reads.pretty} {unit}."
            for mark in piece.every if (piece.piece, mark.id) in named
        ]  # fmt: skip
        if piece.same_as is None:
            expected += [
                f"{whose}, proof length: {numbers[each.start]} → {numbers[each.end]}. "
                f"Straight between them {each.reads.pretty} {unit}."
                for each in piece.proofs
            ]
    assert len(expected) > 15
    said = [row.removesuffix(" This one is done already.").partition(". ")[2] for row in rows]
    assert sorted(row for row in said if re.match(r"[^.]+, (mark \d|proof length)", row)) == sorted(expected)


def save(page: Page, what: str, folder: Path) -> Path:
    """Save a file from the paper screen; those for other programs are folded away at first."""
    if not b.at(page, f"save-{what}").count():
        b.tap(page, "paper-files")
    for patience in (30_000, 60_000, 90_000):  # a busy machine may move the button under the finger
        try:
            with page.expect_download(timeout=patience) as download:
                b.wait_until(page, lambda: b.awake(page, f"save-{what}"), f"{what} can be saved", 90)
                b.tap(page, f"save-{what}")
            break
        except TimeoutError:
            continue
    else:
        raise AssertionError(f"{what} was tapped and never came")
    target = folder / download.value.suggested_filename
    download.value.save_as(target)
    told = page.get_by_text(target.name).or_(page.locator(f'[aria-label*="{target.name}"]'))
    told.first.wait_for(state="attached", timeout=90_000)
    return target


_TICKED = """() => [...document.querySelectorAll("[flt-semantics-identifier^='tick-']")].map((each) => [
    each.getAttribute("flt-semantics-identifier"),
    (each.ariaChecked ? each : each.querySelector("[aria-checked]"))?.ariaChecked,
])"""


def ticked(page: Page) -> dict[str, bool]:
    """The steps of the sewing that stand in the list, and whether each is ticked."""
    return {name: each == "true" for name, each in page.evaluate(_TICKED)}


def sew(page: Page, order: Path) -> None:
    """Tick every step of the sewing, take one tick back, and tick it again; the steps are the core's."""
    read, _ = read_order(json.loads(order.read_text("utf-8")))
    assert read is not None
    told = glance(read).draft.after_cut
    assert told is not None
    seen: list[str] = []
    for _ in range(30):
        if not b.at(page, "sew-done").count():
            break
        before = b.spoken(page, "sew-now")
        seen.append(before)
        page.wait_for_timeout(120)  # sooner taps are taken for tremblings of the last
        b.tap_once(page, "sew-done")
        b.wait_until(page, lambda before=before: b.spoken(page, "sew-now") != before, "the next step is shown")  # type: ignore[misc]
    shown = [step.key for step in told.order for each in seen if step.title in each and step.says in each]
    assert shown == [step.key for step in told.order], seen
    last = f"tick-sew-{told.order[-1].key}"
    assert set(ticked(page).values()) == {True}
    b.tap(page, last)
    b.wait_until(page, lambda: not ticked(page)[last], "the tick is taken back")
    b.tap(page, "sew-done")
    b.wait_until(page, lambda: all(ticked(page).values()), "everything is sewn")


def papers_are_the_command_lines(page: Page, folder: Path, papers: Sequence[str] = PAPERS) -> Path:
    """What the paper screen saves is what the command line makes of the saved order; return that order."""
    folder.mkdir()
    order = save(page, "order-json", folder)
    saved = [save(page, what, folder) for what in papers]
    out = folder / "by-command"
    command = [sys.executable, "-m", "drafting", str(order), "--out", str(out)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    for ours in saved:
        theirs = out / ours.name
        if ours.suffix == ".json":
            numbers_agree(json.loads(ours.read_text("utf-8")), json.loads(theirs.read_text("utf-8")))
        else:
            assert pages(ours) == pages(theirs)
    return order


_PRINT = """() => { pageDoes.print = (bytes) => {
    globalThis.toPrint = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
    return true;
}; }"""


def the_sheet_goes_to_the_print_view(page: Page, saved: Path) -> None:
    """What the page is asked to print is what it saves; the script that prints has a test of its own."""
    page.evaluate(_PRINT)
    for _ in range(3):  # a busy machine may move the button under the finger
        b.wait_until(page, lambda: b.awake(page, "print-chalk-sheet-pdf"), "the sheet can be printed", 90)
        b.tap(page, "print-chalk-sheet-pdf")
        try:
            page.get_by_text("is open for printing").first.wait_for(state="attached", timeout=60_000)
            break
        except TimeoutError:
            continue
    printed = saved.with_name("printed.pdf")
    printed.write_bytes(b64decode(page.evaluate("globalThis.toPrint")))
    assert pages(printed) == pages(saved)


def pages(pdf: Path) -> list[tuple[tuple[float, ...], str]]:
    """The size of every page of a PDF, and its words."""
    return [(tuple(map(float, page.mediabox)), page.extract_text()) for page in PdfReader(pdf).pages]


def numbers_agree(ours: Any, theirs: Any, path: str = "") -> None:
    """Two pieces of JSON say the same, numbers to a millionth."""
    if isinstance(ours, dict):
        assert ours.keys() == theirs.keys(), path
        for key in ours:
            numbers_agree(ours[key], theirs[key], f"{path}.{key}")
    elif isinstance(ours, list):
        assert len(ours) == len(theirs), path
        for index, (one, other) in enumerate(zip(ours, theirs, strict=True)):
            numbers_agree(one, other, f"{path}[{index}]")
    elif isinstance(ours, float):
        assert ours == pytest.approx(theirs, abs=1e-6), path
    else:
        assert ours == theirs, path

"""What a reader of the screen hears on every screen of the way, and that axe finds nothing wrong there.

Nor do fingers and weak eyes: nothing is too small, too near or too faint.

The whole way is walked once; trees/NAME.txt holds what is heard on each screen. `KEEP_TREES=1` keeps what is heard now.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from typing import Any

import browser as b
import journey as j
import pytest
import reader as r
import seen
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, Playwright

from app.state import STEPS

SCALE = 2
PHONE = {"viewport": {"width": 390, "height": 664}, "device_scale_factor": SCALE}
AWAKE = """Object.defineProperty(navigator, "wakeLock", {value: {
    request: async () => Object.assign(new EventTarget(), {released: false, release: async () => {}}),
}})"""
"""The browser of a test may or may not keep its screen awake; this one does."""
NAMES = (
    "home-empty", "home-settings", "shape", "shape-more", "shape-flat", "person", "person-one", "person-wrong",
    "person-list", "cloth", "cloth-more", "proof", "lay", "lay-large", "chalk-words", "chalk-mark", "chalk-looking",
    "chalk-list", "paper", "sew", "changed", "chalk-changed", "home", "home-more", "which",
    "missing", "keypad", "trouble",
)  # fmt: skip
LOOKED = "chalk-looking"
"""A touch may read one mark or its neighbour, so this is not kept."""
WITHOUT_STEPS = {
    "which", "lay-large", "chalk-words", "chalk-mark", "chalk-looking", "chalk-changed", "keypad", "trouble",
}  # fmt: skip
"""Where there is no line of steps: at the table, while keys are typed, and where only one thing is shown."""
_PRESSED = """() => [...document.querySelectorAll("[flt-tappable], input, textarea")].map((each) =>
    [each.getAttribute("flt-semantics-identifier") ?? each.outerHTML,
     (each.ariaLabel ?? "") + each.innerText + (each.getAttribute("aria-labelledby") ?? "")])"""


@dataclass
class Stop:
    """One screen as it was heard and seen.

    Its tree, whether it is as it was kept, what axe found, what has no name, and what is hard to press or to read.
    """

    tree: r.Node
    change: str
    faults: list[str]
    nameless: list[str]
    hard: list[str]


@dataclass
class Walk:
    """The screens by their names, and what was announced on the way by what was done."""

    stops: dict[str, Stop] = field(default_factory=dict)
    announced: dict[str, list[str]] = field(default_factory=dict)

    def stand(self, page: Page, name: str) -> None:
        """Take in a screen."""
        change = "" if name == LOOKED else r.as_kept(page, name)
        pressed: list[list[str]] = page.evaluate(_PRESSED)
        nameless = [who for who, said in pressed if not said.strip()]
        tree, wrong = r.heard(page), faults(page)
        touched = seen.pressed(page)
        hard = [*seen.too_small(touched), *seen.too_near(touched), *seen.too_faint(page, SCALE)]
        self.stops[name] = Stop(tree, change, wrong, nameless, hard)

    def hear(self, page: Page, name: str, words: str, do: Callable[[], object]) -> None:
        """Do something and note what is announced, until these words are."""
        r.announced(page)
        do()
        said: list[str] = []

        def came() -> bool:
            said.extend(r.announced(page))
            return any(words in each for each in said)

        for _ in range(100):
            if came():
                break
            page.wait_for_timeout(50)
        self.announced[name] = said


def faults(page: Page) -> list[str]:
    """What axe finds wrong on a page, as its rules with what breaks them."""
    found: list[dict[str, Any]] = Axe().run(page).response["violations"]
    return [f"{each['id']}: {node['html'][:160]}" for each in found for node in each["nodes"]]


@pytest.fixture(scope="module")
def page(playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The app on a phone, from a server, where dark fails once."""
    folder = tmp_path_factory.mktemp("reader")
    program = (str(Path(__file__).with_name("failing_app.py")), "--once")
    with (
        b.app_server(folder / "log", program=program, said=folder / "said") as server,
        b.browser_at(playwright, folder / "profile", **PHONE) as context,
    ):
        context.add_init_script(AWAKE)
        page = b.open_app(context, server.address)
        r.listen(page)
        yield page


@pytest.fixture(scope="module")
def walk(page: Page) -> Walk:
    """The demo's way, with what is left of it: changed, another person, what is missing, trouble."""
    way = Walk()
    from_home_to_the_cloth(page, way)
    from_the_proof_to_the_sewing(page, way)
    what_else_there_is(page, way)
    return way


def folds(page: Page, name: str) -> None:
    """Open what is folded away, and see it open."""
    b.tap(page, name)
    b.still(page)


def from_home_to_the_cloth(page: Page, way: Walk) -> None:
    way.stand(page, "home-empty")
    folds(page, "settings")
    way.stand(page, "home-settings")
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    way.stand(page, "shape")
    way.hear(page, "slider", "9.5 cm", lambda: b.tap(page, "neck_height-more"))
    b.tap(page, "neck_height-less")
    folds(page, "more-shape")
    way.stand(page, "shape-more")
    b.tap(page, "other-view")
    b.at(page, "outline-fit").wait_for(state="attached")
    way.stand(page, "shape-flat")
    b.tap(page, "other-view")
    b.tap(page, "other-view")
    b.tap(page, "progress-person")
    j.arrive(page, "person")
    way.stand(page, "person")
    j.onward(page)
    way.stand(page, "person-one")
    wrong = "Did you mean 1715 mm?"
    way.hear(page, "field", wrong, lambda: b.type_into(page, "measure-stature", "1715"))
    way.stand(page, "person-wrong")
    b.tap(page, "measure-stature-instead")
    b.type_into(page, "measure-stature", "168")
    put_away(page)
    b.tap(page, "measuring-list")
    b.at(page, "measure-head_girth").wait_for(state="attached")
    put_away(page)
    way.stand(page, "person-list")
    b.tap(page, "progress-cloth")
    j.arrive(page, "cloth")
    way.stand(page, "cloth")
    folds(page, "more-cloth")
    way.stand(page, "cloth-more")


def from_the_proof_to_the_sewing(page: Page, way: Walk) -> None:
    j.onward(page)
    j.arrive(page, "proof")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    way.stand(page, "proof")
    b.tap(page, "go-lay")
    b.at(page, "save-0").wait_for(state="attached", timeout=60_000)
    way.stand(page, "lay")
    b.tap(page, "lay-large")
    b.at(page, "lay-way-group").wait_for(state="detached")
    way.stand(page, "lay-large")
    b.tap(page, "back")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    b.tap(page, "start-chalking")
    b.at(page, "done").wait_for(state="attached", timeout=30_000)
    way.stand(page, "chalk-words")
    b.tap(page, "done")
    b.wait_until(page, lambda: "Prepare" in b.spoken(page, "screen-chalk"), "the second step")
    page.wait_for_timeout(150)
    way.hear(page, "mark", "mark 1 of 18", lambda: b.tap(page, "done"))
    way.stand(page, "chalk-mark")
    page.wait_for_timeout(150)
    way.hear(page, "level", "Shoulder level", lambda: b.tap(page, "done"))
    way.hear(page, "back", "mark 1 of 18", lambda: b.tap(page, "mark-back"))
    look_at_another(page)
    way.stand(page, "chalk-looking")
    b.tap(page, "look-back")
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    way.stand(page, "chalk-list")
    b.tap(page, "progress-paper")
    j.arrive(page, "paper")
    way.stand(page, "paper")
    b.tap(page, "progress-sew")
    j.arrive(page, "sew")
    way.stand(page, "sew")
    way.hear(page, "sewn", "Step 2 of 10", lambda: b.tap(page, "sew-done"))


def put_away(page: Page) -> None:
    """Leave the field until its keypad is gone: while it is there, the line of steps is not."""
    for _ in range(5):
        page.wait_for_timeout(400)
        if not b.at(page, "keypad").count():
            return
        page.keyboard.press("Enter")
    raise AssertionError("the keypad stays")


def look_at_another(page: Page) -> None:
    """Touch the drawing here and there until it reads another mark than the one in hand, and goes on reading it."""
    box = b.at(page, "chalk-drawing").bounding_box()
    assert box is not None
    for y, x in product(range(20, int(box["height"]) - 60, 30), range(30, int(box["width"]), 30)):
        page.touchscreen.tap(box["x"] + x, box["y"] + y)
        page.wait_for_timeout(420)
        if b.at(page, "look-back").count():
            page.wait_for_timeout(1500)  # the touch before may be answered late, and the last one not yet
            if b.at(page, "look-back").count():
                return
    raise AssertionError("no touch on the drawing reads a mark")


def what_else_there_is(page: Page, way: Walk) -> None:
    b.tap(page, "progress-shape")
    j.arrive(page, "shape")
    b.choose(page, "length-mid_thigh")
    b.at(page, "changed").wait_for(state="attached", timeout=30_000)
    b.wait_until(page, lambda: "new draft would move" in r.flat(b.spoken(page, "changed")), "it is known what moves")
    folds(page, "changed-more")
    way.stand(page, "changed")
    b.tap(page, "progress-chalk")
    b.at(page, "changed-line").wait_for(state="attached", timeout=30_000)
    way.stand(page, "chalk-changed")
    b.tap(page, "back")
    j.arrive(page, "proof")
    for screen in ("cloth", "shape", "person", "which", "home"):
        b.tap(page, "back")
        j.arrive(page, screen)
    way.stand(page, "home")
    folds(page, f"more-{b.newest(page)}")
    way.stand(page, "home-more")
    b.tap(page, "new-garment")
    j.arrive(page, "which")
    way.stand(page, "which")
    b.tap(page, "next")
    j.arrive(page, "person")
    b.tap(page, "add-person")
    b.at(page, "name").wait_for(state="attached")
    b.tap(page, "progress-cloth")
    j.arrive(page, "cloth")
    j.onward(page)
    j.arrive(page, "proof")
    way.stand(page, "missing")
    b.tap(page, "mend-0")
    b.at(page, "keypad").wait_for(state="attached", timeout=30_000)
    way.stand(page, "keypad")
    page.keyboard.press("Enter")
    b.at(page, "keypad").wait_for(state="detached")
    j.at_home(page)
    folds(page, "settings")
    b.tap(page, "light-dark")
    b.at(page, "screen-trouble").wait_for(state="attached", timeout=20_000)
    way.stand(page, "trouble")
    b.tap(page, "leave-trouble")
    j.arrive(page, "home")


def every(walk: Walk, *roles: str) -> Iterator[tuple[str, r.Node]]:
    """What has one of these roles, with the screen it is on."""
    for name, stop in walk.stops.items():
        yield from ((name, each) for each in stop.tree.every() if each.role in roles)


def test_every_screen_was_heard(walk: Walk) -> None:
    assert tuple(walk.stops) == NAMES
    assert {each.stem for each in r.TREES.glob("*.txt")} == set(NAMES) - {LOOKED}


@pytest.mark.parametrize("name", NAMES)
def test_it_is_heard_as_it_was_kept(name: str, walk: Walk) -> None:
    assert not walk.stops[name].change, walk.stops[name].change


@pytest.mark.parametrize("name", NAMES)
def test_axe_finds_nothing_wrong(name: str, walk: Walk) -> None:
    assert walk.stops[name].faults == []


@pytest.mark.parametrize("name", NAMES)
def test_fingers_meet_what_they_aim_at_and_eyes_can_read_it(name: str, walk: Walk) -> None:
    assert walk.stops[name].hard == []


def test_nothing_that_can_be_pressed_is_without_a_name(walk: Walk) -> None:
    assert sum(1 for _ in every(walk, *r.PRESSED)) > 300
    assert [(name, each.role) for name, each in every(walk, *r.PRESSED) if not each.name] == []
    assert {name: stop.nameless for name, stop in walk.stops.items() if stop.nameless} == {}


def test_no_two_buttons_of_a_screen_have_the_same_name(walk: Walk) -> None:
    for name, stop in walk.stops.items():
        for role in ("button", "textbox", "checkbox", "link"):
            named = Counter(each.name for each in stop.tree.every() if each.role == role)
            assert [each for each, count in named.items() if count > 1] == [], (name, role)


def test_nothing_that_can_be_pressed_lies_in_another(walk: Walk) -> None:
    for name, each in every(walk, *r.PRESSED):
        assert [one.name for one in each.inner if one.role in r.PRESSED] == [], (name, each.name)


def test_every_choice_is_one_of_a_named_group(walk: Walk) -> None:
    def groups(node: r.Node, within: str) -> Iterator[tuple[str, str]]:
        """Every radio button with the name of the group in which its radios are."""
        for each in node.inner:
            if each.role == "radio":
                yield each.name, within if node.role == "radiogroup" else ""
            yield from groups(each, node.name if each.role == "radiogroup" and node.role == "group" else "")

    count = 0
    for name, stop in walk.stops.items():
        for choice, group in groups(stop.tree, ""):
            assert group, (name, choice)
            count += 1
    assert count > 60


def test_the_steps_are_counted_and_one_says_that_it_is_here(walk: Walk) -> None:
    for name, stop in walk.stops.items():
        way = [each for each in stop.tree.every() if each.role == "group" and each.name == "The 8 steps of the work"]
        if name.startswith("home") or name in WITHOUT_STEPS:
            assert way == [], name
            continue
        (line,) = way
        step = re.compile(r"(\w+), step (\d) of 8(, you are here|, not open yet)?")
        said = [step.fullmatch(each.name) for each in line.inner]
        counted = [(each, at) for at, each in enumerate(STEPS, start=1)]
        assert [(each[1].lower(), int(each[2])) for each in said if each] == counted, name
        here = [each[1].lower() for each in said if each and each[3] == ", you are here"]
        screen = {"changed": "shape", "missing": "proof"}.get(name, name.partition("-")[0])
        assert here == [screen], name


def test_every_screen_has_one_heading_of_its_own(walk: Walk) -> None:
    for name, stop in walk.stops.items():
        first = [each.name for each in stop.tree.every() if each.role == "heading" and "level 1" in each.states]
        assert len(first) == 1, (name, first)
        assert first[0], name


def test_every_drawing_says_what_it_shows(walk: Walk) -> None:
    drawn = {
        "shape": "The garment on the person, from the front. Side-neck level to hem: 69.7 cm.",
        "shape-flat": "Front, on the fold, as cut: ",
        "person-one": "Where the tape goes: Stature",
        "proof": "Folded in half: 171 cm of cloth. 2 pieces in all: 1 front, 1 back.",
        "lay": "Folded in half: 171 cm of cloth. 2 pieces in all: 1 front, 1 back.",
        "lay-large": "Folded in half: 171 cm of cloth. 2 pieces in all: 1 front, 1 back.",
        "chalk-words": "The front with its marks.",
        "chalk-mark": "Front, mark 1 of 18: top of the neck at the fold. Across 0.0, down 0.0 cm.",
    }
    for name, says in drawn.items():
        (image,) = [each for each in walk.stops[name].tree.every() if each.role == "image"]
        assert image.name.startswith(says), (name, image.name)
    (looked,) = [each for each in walk.stops["chalk-looking"].tree.every() if each.role == "image"]
    assert re.match(r"Front, mark (?!1 )\d+ of 18: .+\. Across .+, down .+ cm\.", looked.name)
    assert all(each.name for _, each in every(walk, "image"))
    kinds = ("Pullover, ", "Tunic, ", "Bell dress, ", "Deep underarm, ")
    presets = [each.name for _, each in every(walk, "radio") if each.name.startswith(kinds)]
    assert len(set(presets)) == len(kinds)
    assert all(", down to " in each for each in presets)


def test_what_is_wrong_is_said_at_its_field_and_announced_when_it_is_left(walk: Walk) -> None:
    says = "1715 cm is 17.1 m. Did you mean 1715 mm? Write 1715 mm, or measure again."
    (box,) = [each for each in walk.stops["person-wrong"].tree.every() if each.role == "textbox"]
    assert (box.name, box.says) == ("Stature: 1715 cm", says)
    assert walk.announced["field"] == [says]


def test_what_a_tap_changes_is_announced(walk: Walk) -> None:
    assert walk.announced["mark"] == ["Front, mark 1 of 18: top of the neck at the fold. Across 0.0, down 0.0 cm."]
    assert walk.announced["level"] == ["Front. Shoulder level: rule it across, square to the fold. Down: 10.5 cm."]
    assert walk.announced["back"][-1] == walk.announced["mark"][-1]
    assert walk.announced["sewn"] == ["Step 2 of 10: Needle and thread"]
    assert "9.5 cm" in walk.announced["slider"]


def test_the_page_that_is_drawn_first_has_nothing_wrong(page: Page) -> None:
    """Before the client's first frame, and when it never comes."""
    first = page.context.new_page()
    first.clock.install()
    first.route("**/main.dart.js", lambda route: route.abort())
    first.goto(page.url)
    first.get_by_role("status").filter(has_text="Foldmark is starting.").wait_for()
    assert faults(first) == []
    first.clock.fast_forward(60_000)
    first.get_by_role("button", name="Try again").wait_for()
    assert faults(first) == []
    first.close()


def press(page: Page, name: str, role: str = "button") -> None:
    """Press what has this name, and see that the page has taken it in."""
    target = page.get_by_role(role, name=name, exact=True, disabled=False)  # type: ignore[arg-type]
    target.wait_for(state="attached", timeout=30_000)
    target.tap()
    b.still(page)


def write(page: Page, name: str, words: str) -> None:
    """Type into the field of this name, and leave it."""
    box = page.get_by_role("textbox", name=re.compile(rf"^{re.escape(name)}(:|,|$)"))
    box.wait_for(state="attached", timeout=30_000)
    box.tap()
    page.wait_for_timeout(150)
    page.keyboard.type(words, delay=25)
    page.keyboard.press("Enter")
    holds = f"{name}: {words}"
    page.get_by_role("textbox", name=holds).wait_for(state="attached")
    b.still(page)


SENT = """(() => {
    globalThis.sent = [];
    const send = WebSocket.prototype.send;
    WebSocket.prototype.send = function (data) {
        sent.push(new TextDecoder().decode(data));
        return send.call(this, data);
    };
})()"""


def test_a_choice_that_a_reader_makes_is_told_before_anything_moves(app: b.Server, desk: BrowserContext) -> None:
    """The radio button below a choice would turn first, in a dozen pictures that hold up the drawing of the garment."""
    desk.add_init_script(SENT)
    page = b.open_app(desk, app.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.still(page)
    for name in ("knee", "hip", "mid_thigh"):
        page.evaluate("sent.length = 0")
        b.tap(page, f"length-{name}")
        b.wait_until(page, lambda name=name: b.chosen(page, f"length-{name}"), "it is chosen")  # type: ignore[misc]
        told = [each for each in page.evaluate("sent") if "click" in each or "change" in each]
        assert len(told) == 1, told
        assert "click" in told[0], told


@pytest.mark.long
def test_a_garment_for_somebody_new_by_the_words_alone(page: Page, walk: Walk) -> None:
    """A skirt from home to the first marks, finding everything by its role and its name; it asks what is its own."""
    press(page, "New garment")
    press(page, "Circle skirt", "radio")
    press(page, "Next")
    press(page, "Add a person")
    write(page, "Name", "Wenche")
    press(page, "Inches", "radio")
    press(page, "On to the measures")
    press(page, "One measure at a time")
    write(page, "Stature", "66 1/2")
    press(page, "Next")
    press(page, "All measures as a list")
    page.get_by_role("textbox", name="Hip girth").wait_for(state="attached", timeout=30_000)
    asked = [each.name.partition(":")[0] for each in r.heard(page).every() if each.role == "textbox"]
    assert [each.partition(",")[0] for each in asked] == [
        "Stature", "Waist girth", "Hip girth", "Waist to hip", "Waist height", "Knee height",
    ]  # fmt: skip
    write(page, "Waist girth", "29 3/4")
    write(page, "Hip girth", "39 1/4")
    press(page, "On to the shape")
    press(page, "Dancing skirt, a whole circle, down to the knee", "radio")
    assert not [each for each in r.heard(page).every() if each.role == "slider"], "no neck is asked for"
    press(page, "On to the cloth")
    press(page, "70 in", "radio")
    write(page, "How far does it stretch across? Between the marks, pulled", "6")
    write(page, "Stretch along the selvage", "30")
    press(page, "On to the proof")
    press(page, "Begin to chalk")
    r.listen(page)
    for _ in range(12):
        press(page, page.get_by_role("button", name=re.compile("^(Done|Next)$")).inner_text())
        said = r.flat(page.get_by_role("img").get_attribute("aria-label") or "")
        if ", mark 2 of " in said:
            break
    assert re.match(r"Skirt panel, mark 2 of \d+: hem at the fold\. Across 0, down .+ in\.", said)
    assert said in r.announced(page)

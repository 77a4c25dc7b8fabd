"""The whole job in real Chromium: new person, shape, cloth, proof, every mark, paper, sewing.

Six ways to work cover every size, both units, light and dark, the site with the network off and a server. The browser,
and the server where there is one, is ended in the middle and started anew. What is shown and saved must say what the
core and the command line say for the same order. Mostly every mark is ticked off and every paper saved; where the list
is read instead, some are: what is ticked off is the same program at any size.
"""

import io
import json
from contextlib import AbstractContextManager
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import Any, Literal

import browser as b
import journey as j
import pytest
from callers import Callers
from PIL import Image
from playwright.sync_api import BrowserContext, Error, Page, Playwright

SIZES = {(360, 640), (390, 664), (412, 732), (390, 844), (844, 390), (768, 1024), (1280, 800)}
DESK = (1280, 800)


@dataclass(frozen=True)
class Way:
    """How somebody works: on the site or from a server, how large the page is, light or dark, and what is made.

    A second size is the phone turned on its side in the middle of chalking. `listed` reads the marks in the list,
    instead of ticking off each.
    """

    mode: Literal["site", "server"]
    sizes: tuple[tuple[int, int], ...]
    light: Literal["light", "dark"]
    job: j.Job
    listed: bool = False

    def browser(
        self, playwright: Playwright, profile: Path, size: tuple[int, int]
    ) -> AbstractContextManager[BrowserContext]:
        """A browser with a page of this size, to be touched, or with a mouse at a desk."""
        settings = b.DESK if size == DESK else {"viewport": {"width": size[0], "height": size[1]}}
        return b.browser_at(playwright, profile, color_scheme=self.light, **settings)

    def __str__(self) -> str:
        sizes = ", ".join(f"{wide} x {high}" for wide, high in self.sizes)
        return f"{self.mode}, {sizes}, {self.job.unit}, {self.light}"


SHORT = (Way("site", ((390, 664), (360, 640)), "light", j.IN_INCHES),)
LONG = (
    Way("site", (DESK,), "dark", j.IN_CENTIMETRES, listed=True),
    Way("server", ((390, 664),), "light", j.IN_INCHES),
    Way("site", ((390, 844), (844, 390)), "dark", j.IN_INCHES),
    Way("server", ((412, 732),), "dark", j.IN_CENTIMETRES),
    Way("server", ((768, 1024),), "light", j.IN_CENTIMETRES, listed=True),
)
"""Those that run only when asked for."""


def ways(mode: str) -> pytest.MarkDecorator:
    """The ways of one mode as a test's parameters."""
    chosen = [pytest.param(way, id=str(way)) for way in SHORT if way.mode == mode]
    chosen += [pytest.param(way, id=str(way), marks=pytest.mark.long) for way in LONG if way.mode == mode]
    return pytest.mark.parametrize("way", chosen)


BEGUN = 4
"""How many things are ticked off before the browser is ended."""
GONE_ON = 3
"""And how many after it was started anew, where not all of them are."""


def test_the_ways_cover_every_size_unit_light_and_mode() -> None:
    each = SHORT + LONG
    assert len(each) == 6
    assert {size for way in each for size in way.sizes} == SIZES
    assert {(way.mode, way.light) for way in each} == set(product(("site", "server"), ("light", "dark")))
    assert {(way.mode, way.job.unit) for way in each} == set(product(("site", "server"), ("in", "cm")))
    assert {(way.light, way.job.unit) for way in each} == set(product(("light", "dark"), ("in", "cm")))


def as_it_was_asked(page: Page, way: Way, size: tuple[int, int]) -> None:
    """The page is as large as it was asked to be, and paper is light or dark."""
    assert page.evaluate("[innerWidth, innerHeight]") == list(size)
    picture = Image.open(io.BytesIO(page.screenshot())).convert("L")
    ground = picture.getpixel((3, picture.height // 2))
    assert isinstance(ground, int)
    assert (ground < 128) == (way.light == "dark"), ground


def begin(page: Page, way: Way) -> list[j.Seen]:
    """From home to the first things that are ticked off, and the phone turned between them; what was seen."""
    as_it_was_asked(page, way, way.sizes[0])
    j.to_the_chalk(page, way.job)
    begun = j.chalk(page, BEGUN // 2)
    if way.sizes[1:]:
        wide, high = way.sizes[1]
        page.set_viewport_size({"width": wide, "height": high})
        b.still(page)
    begun += j.chalk(page, BEGUN - len(begun))
    ticked_off_is_kept(page)
    return begun


def go_on(page: Page, way: Way, begun: list[j.Seen], folder: Path) -> None:
    """From where it was left to the last seam, with the page as large as it was last."""
    go_on_where_it_was_left(page)
    (on_and_to_the_papers if way.listed else to_the_end)(page, begun, folder, way.job)
    as_it_was_asked(page, way, way.sizes[-1])


def go_on_where_it_was_left(page: Page) -> None:
    """The chalk screen is back at the thing that comes next."""
    b.wait_until(page, lambda: (now := j.look(page)) is not None and now.place == BEGUN + 1, "what comes next is shown")


def ticked_off_is_kept(page: Page) -> None:
    """Wait until the browser keeps what was ticked off, before the browser is ended."""
    b.kept(page, lambda book: len(book["garments"][0]["chalk_done"]) == BEGUN, f"{BEGUN} are ticked off")


def to_the_end(page: Page, begun: list[j.Seen], folder: Path, job: j.Job) -> None:
    """From wherever the chalking stands over the saved papers to the last seam, and what all of it must say."""
    seen = [*begun, *j.chalk(page)]
    j.onward(page)
    j.arrive(page, "paper")
    order = j.papers_are_the_command_lines(page, folder)
    order_is_the_jobs(order, job)
    j.every_reading_is_the_cores(seen, order)
    to_the_sewing(page, order)


def to_the_sewing(page: Page, order: Path) -> None:
    """From the papers to the last seam."""
    j.onward(page)
    j.arrive(page, "sew")
    j.sew(page, order)


def on_and_to_the_papers(page: Page, begun: list[j.Seen], folder: Path, job: j.Job) -> None:
    """A little further with the chalk, all readings in the list, the papers that hold them, and the sewing."""
    seen = [*begun, *j.chalk(page, GONE_ON)]
    rows = j.listed(page)
    now = j.look(page)
    assert now is not None
    assert [each.place for each in (*seen, now)] == list(range(1, BEGUN + GONE_ON + 2)), "the list moves nothing on"
    assert len(rows) == now.of
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.tap(page, "progress-paper")
    j.arrive(page, "paper")
    order = j.papers_are_the_command_lines(page, folder, ("draft-json", "chalk-sheet-pdf"))
    order_is_the_jobs(order, job)
    j.the_list_has_the_cores_readings(rows, order)
    if page.evaluate("Boolean(globalThis.pageDoes)"):  # the site alone has scripts of its own
        j.the_sheet_goes_to_the_print_view(page, folder / "chalk-sheet.pdf")
    to_the_sewing(page, order)


def order_is_the_jobs(order: Path, job: j.Job) -> None:
    """The saved order is for whom it was typed, and some of its readings lie past the tape where that is short."""
    typed = json.loads(order.read_text("utf-8"))
    assert (typed["person"]["name"], typed["person"]["unit"], typed["tape"]["unit"]) == (job.name, job.unit, job.unit)
    assert typed["tape"].get("length", "") == job.tape_length
    zeros = {mark.zero for piece in j.plan_of(order)[0].pieces for mark in piece.marks}
    assert zeros == ({1, 2} if job.tape_length else {1})


def another(page: Page, job: j.Job, folder: Path) -> None:
    """From the sewing back to home as a person goes there, and the whole job for somebody else."""
    b.tap(page, "progress-person")
    j.arrive(page, "person")
    j.at_home(page)
    j.to_the_chalk(page, job)
    to_the_end(page, [], folder, job)


def answered(page: Page, path: str) -> bool:
    """Have the page ask its host for something on purpose; whether there was an answer."""
    return bool(page.evaluate("(path) => fetch(path, {cache: 'no-store'}).then(() => true, () => false)", path))


def a_stranger_is_noticed(context: BrowserContext, asked: list[str]) -> None:
    """The list of other hosts takes down one that is asked on purpose; then it is empty again."""
    page = context.new_page()
    with pytest.raises(Error):
        page.goto("http://elsewhere.invalid/on-purpose")
    assert asked == ["http://elsewhere.invalid/on-purpose"]
    asked.clear()
    page.close()


def only_looked_for_a_new_version(asked: list[str]) -> None:
    """Nothing left the page but the look for a new version, which may find nobody, and what the browser itself does
    ahead of need: spare connections, and asking for a page that the worker then answers."""
    assert set(asked) <= {"/service-worker.js", "", "/"}


@ways("site")
def test_the_whole_job_on_the_site_with_the_network_off(
    way: Way, site: Path, playwright: Playwright, tmp_path: Path
) -> None:
    profile = tmp_path / "profile"
    with b.static_server(site, tmp_path / "log") as server:
        with way.browser(playwright, profile, way.sizes[0]) as context:
            asked = b.other_hosts(context)
            a_stranger_is_noticed(context, asked)
            page = b.open_app(context, server.address)
            b.offline_ready(page)
            assert answered(page, "/on-purpose-before")
            paths = {line.split()[-1] for line in server.requests()}
            assert {"/site.zip", "/on-purpose-before"} <= paths, "while there is a server, it writes down what is asked"
            server.kill()
            with Callers(server.port) as off:
                assert not answered(page, "/on-purpose-after")
                assert "/on-purpose-after" in off.asked, "a request with the network off would be seen"
                before = len(off.asked)
                b.reload(page)
                begun = begin(page, way)
                only_looked_for_a_new_version(off.asked[before:])
                assert asked == []
        # A new browser process, still no server: back at the same mark, everything as it was left.
        with way.browser(playwright, profile, way.sizes[-1]) as context, Callers(server.port) as off:
            asked = b.other_hosts(context)
            page = b.open_app(context, server.address, "screen-chalk")
            go_on(page, way, begun, tmp_path / "saved")
            only_looked_for_a_new_version(off.asked)
            assert not answered(page, "/on-purpose-at-the-end")
            assert off.asked[-1] == "/on-purpose-at-the-end"
            assert asked == []


@ways("server")
def test_the_whole_job_from_a_server(way: Way, playwright: Playwright, tmp_path: Path) -> None:
    profile = tmp_path / "profile"
    with b.app_server(tmp_path / "log") as server, way.browser(playwright, profile, way.sizes[0]) as context:
        asked = b.other_hosts(context)
        a_stranger_is_noticed(context, asked)
        page = b.open_app(context, server.address)
        begun = begin(page, way)
        assert asked == []
    # A new server process, which knows of nothing, and a new browser process: everything is in the browser's keeping.
    with (
        b.app_server(tmp_path / "log", port=server.port) as again,
        way.browser(playwright, profile, way.sizes[-1]) as context,
    ):
        assert again.process.pid != server.process.pid
        asked = b.other_hosts(context)
        page = b.open_app(context, again.address, "screen-chalk")
        go_on(page, way, begun, tmp_path / "saved")
        assert asked == []


@pytest.mark.long
@pytest.mark.parametrize("size", [b.PHONE, b.DESK], ids=["phone", "desk"])
def test_one_job_after_the_other_in_both_units(
    size: dict[str, Any], app: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    with b.browser_at(playwright, tmp_path / "profile", **size) as context:
        page = b.open_app(context, app.address)
        j.to_the_chalk(page, j.IN_INCHES)
        to_the_end(page, [], tmp_path / "first", j.IN_INCHES)
        b.reload(page, "screen-sew")
        another(page, j.IN_CENTIMETRES, tmp_path / "second")

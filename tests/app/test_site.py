"""The static site in real Chromium: it installs, works without a network, keeps what was saved, updates when told."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
from pathlib import Path
from typing import Any

import brotli
import browser as b
import pytest
from journey import arrive, at_home, look
from playwright.sync_api import BrowserContext, Playwright

import site_offline
import web_site

ROOT = Path(__file__).resolve().parents[2]


def digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def size_of_png(path: Path) -> tuple[int, int]:
    data = path.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    return int.from_bytes(data[16:20]), int.from_bytes(data[20:24])


def test_manifest_makes_it_installable(site: Path) -> None:
    manifest = json.loads((site / "manifest.json").read_text("utf-8"))
    assert manifest["id"] == manifest["scope"] == manifest["start_url"] == "/"
    assert manifest["display"] == "standalone"
    purposes = set()
    for icon in manifest["icons"]:
        side = int(icon["sizes"].split("x")[0])
        assert size_of_png(site / icon["src"]) == (side, side)
        purposes.add((side, icon.get("purpose", "any")))
    assert purposes == {(192, "any"), (512, "any"), (192, "maskable"), (512, "maskable")}
    page = (site / "index.html").read_text("utf-8")
    for name in re.findall(r'(?:src|href)="([^"#:]+\.\w+)"', page):
        assert (site / name).is_file(), name


def test_page_names_no_other_host(site: Path) -> None:
    ours = (
        "index.html",
        "404.html",
        "first.js",
        "python.js",
        "python-worker.js",
        "pwa.js",
        "print.js",
        "table.js",
        "storage.js",
        "memory.js",
        "glimpse.js",
        "service-worker.js",
    )
    for name in ours:
        assert "://" not in (site / name).read_text("utf-8"), name


def test_only_compiled_python_is_sent(site: Path) -> None:
    import zipfile

    names = zipfile.ZipFile(site / "site.zip").namelist()
    assert "app/main.pyc" in names
    assert any(name.startswith("drafting/") for name in names)
    assert not [name for name in names if name.startswith(("app/", "drafting/")) and name.endswith(".py")]


def grown(now: dict[str, int], said: dict[str, int]) -> list[str]:
    """The files that weigh more than 2 % above what was said, or of which nothing was."""
    return [f"{name}: {size} bytes, {said.get(name, 0)} were said" for name, size in now.items()
            if size > 1.02 * said.get(name, 0)]  # fmt: skip


def test_no_file_of_the_site_grows_unsaid(site: Path) -> None:
    """A first visit is a phone's, often on its own network: `build/site --sizes` says that a file may be larger."""
    said = json.loads(site_offline.SIZES.read_text("utf-8"))
    now = site_offline.told(web_site.Site(ROOT, site))
    assert grown(now, said) == []
    assert said.keys() == now.keys(), "a file that is gone is said as well"
    assert grown({"one": 102, "two": 103, "new": 1}, {"one": 100, "two": 100}) == [
        "two: 103 bytes, 100 were said", "new: 1 bytes, 0 were said",
    ]  # fmt: skip


def changed(one: Path, other: Path) -> set[str]:
    """The files that two sites do not share, byte by byte."""

    def files(folder: Path) -> dict[str, str]:
        return {path.relative_to(folder).as_posix(): digest(path) for path in folder.rglob("*") if path.is_file()}

    first, second = files(one), files(other)
    assert first.keys() == second.keys()
    return {name for name in first if first[name] != second[name]}


PAGES = {"index.html", "404.html", "service-worker.js"}


def test_of_another_version_and_of_another_path_only_the_page_differs(
    site: Path, site_under_a_path: Path, second_site: Path
) -> None:
    assert changed(site, second_site) == PAGES
    assert changed(site, site_under_a_path) == PAGES | {"manifest.json"}


@pytest.mark.long
def test_same_sources_make_the_same_files(site: Path, tmp_path: Path) -> None:
    nothing = tmp_path / "nothing-is-kept"
    web_site.build(web_site.Site(ROOT, tmp_path / "site", web_site.base_path("try/fold"), cache=nothing, copies=()))
    assert changed(site, tmp_path / "site") == PAGES | {"manifest.json"}, "made once more from nothing"


def test_a_start_that_fails_says_so_calmly(site: Path, playwright: Playwright, tmp_path: Path) -> None:
    broken = tmp_path / "broken"
    shutil.copytree(site, broken)
    (broken / "site.zip").write_bytes(b"")
    for name in ("site.zip.br",):
        (broken / name).unlink(missing_ok=True)
    server = b.static_server(broken, tmp_path / "log")
    try:
        with b.browser_at(playwright, tmp_path / "profile") as context:
            page = context.new_page()
            page.goto(server.address)
            page.locator("#start-trouble").wait_for(timeout=b.START)
            assert "Your measures are safe" in page.locator("#start-trouble").inner_text()
            assert page.locator("#starting").count() == 0, "it is said once"
    finally:
        server.kill()


TAGS = """(tags) => {
    for (const [name, value] of [["language", tags[0]], ["languages", tags]])
        Object.defineProperty(Navigator.prototype, name, { get: () => value, configurable: true });
}"""


@pytest.mark.long
@pytest.mark.parametrize("mode", ["static", "app"], ids=["the site", "from a server"])
def test_a_start_says_what_happens_and_an_odd_language_does_not_stop_it(
    mode: str, request: pytest.FixtureRequest, playwright: Playwright, tmp_path: Path
) -> None:
    server: b.Server = request.getfixturevalue(mode)
    with b.browser_at(playwright, tmp_path / "profile") as context:
        context.add_init_script(f"({TAGS})(['c.UTF-8'])")
        page = context.new_page()
        page.goto(server.address, wait_until="commit")
        assert page.locator("#starting").inner_text() == "Foldmark is starting."
        b.switch_on(page)
        assert page.evaluate("[navigator.language, ...navigator.languages]") == ["en", "en"]
        assert page.locator("#starting").count() == 0, "it goes away with the first frame"
        page.wait_for_timeout(500)
        ports = page.evaluate("[...document.querySelectorAll('meta[name=viewport]')].map((one) => one.content)")
        assert ports, "the page has a viewport"
        assert not [port for port in ports if "user-scalable" in port or "maximum-scale" in port], (
            "zoom is not forbidden"
        )


@pytest.mark.parametrize(
    ("tags", "kept"),
    [
        (["de-DE", "en"], ["de-DE", "en"]),
        (["c.UTF-8", "de-DE", "en"], ["de-DE", "en"]),
        (["de-DE", "C", "en"], ["de-DE", "en"]),
        (["de_DE", "fr"], ["fr"]),
        (["C"], ["en"]),
        ([], ["en"]),
    ],
)
def test_of_a_list_of_languages_the_tags_stay(
    tags: list[str], kept: list[str], app: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    with b.browser_at(playwright, tmp_path / "profile", **b.DESK) as context:
        page = context.new_page()
        page.goto(app.address + "icons/icon-192.png")
        page.evaluate(TAGS, tags)
        page.evaluate((ROOT / "assets" / "web" / "first.js").read_text("utf-8"))
        assert page.evaluate("[...navigator.languages]") == kept
        assert page.evaluate("navigator.language") == kept[0]


@pytest.mark.parametrize(
    "mode", ["static", pytest.param("app", marks=pytest.mark.long)], ids=["the site", "from a server"]
)
def test_a_client_that_does_not_draw_is_told_and_another_try_is_one_tap(
    mode: str, request: pytest.FixtureRequest, playwright: Playwright, tmp_path: Path
) -> None:
    server: b.Server = request.getfixturevalue(mode)
    with b.browser_at(playwright, tmp_path / "profile") as context:
        context.route("**/main.dart.js", lambda route: route.abort())
        page = context.new_page()
        page.clock.install()
        page.goto(server.address)
        page.clock.fast_forward(58_000)
        assert page.locator("#starting").inner_text() == "Foldmark is starting."
        page.clock.fast_forward(10_000)
        words = page.locator("#starting").inner_text()
        assert "Foldmark has not started yet. What you saved is safe." in words
        again = page.locator("#starting button")
        assert again.inner_text() == "Try again"
        box = again.bounding_box()
        assert box is not None
        assert round(box["height"]) >= 48
        context.unroute("**/main.dart.js")
        page.clock.resume()
        again.tap()
        b.switch_on(page)
        assert page.locator("#starting").count() == 0, "the other try came through"


def test_under_a_path_of_the_host(site_under_a_path: Path, playwright: Playwright, tmp_path: Path) -> None:
    server = b.static_server(site_under_a_path, tmp_path / "log")
    try:
        assert server.address.endswith("/try/fold/")
        with b.browser_at(playwright, tmp_path / "profile") as context:
            page = b.open_app(context, server.address)
            b.tap(page, "try-demo")
            b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
            assert "/try/fold/garment/" in page.url
            b.offline_ready(page)
            b.kept(page, lambda book: book["garments"], "the demo")
            assert [line for line in server.requests() if not line.split()[-1].startswith("/try/fold/")] == []
            server.kill()
            b.reload(page, "screen-shape")
    finally:
        server.kill()


def test_an_update_waits_for_the_person_and_half_of_one_changes_nothing(
    site: Path, second_site: Path, playwright: Playwright, tmp_path: Path
) -> None:
    half = tmp_path / "half"  # a host that has the new worker already, and the old files still
    shutil.copytree(site, half)
    shutil.copyfile(second_site / "service-worker.js", half / "service-worker.js")
    first = b.static_server(site, tmp_path / "first.log")
    with b.browser_at(playwright, tmp_path / "profile") as context:
        with first:
            page = b.open_app(context, first.address)
            b.tap(page, "try-demo")
            b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
            b.offline_ready(page)
            b.kept(page, lambda book: book["garments"], "the demo")
        banner = page.locator("#new-version")
        with b.static_server(half, tmp_path / "half.log", first.port) as halved:
            b.reload(page, "screen-shape")
            b.wait_until(page, lambda: asked_for(halved, "/service-worker.js"), "the new version is looked at")
            b.wait_until(page, lambda: asked_for(halved, "/index.html"), "what is new in it is fetched")
            b.wait_true(page, "navigator.serviceWorker.getRegistration().then((it) => !it.installing)")
            assert not page.evaluate("navigator.serviceWorker.getRegistration().then((it) => Boolean(it.waiting))")
            page.wait_for_timeout(500)
            assert banner.count() == 0, "it came to nothing, since the page is still the old one"
        with b.static_server(second_site, tmp_path / "second.log", first.port) as newer:
            b.reload(page, "screen-shape")
            banner.wait_for(timeout=60_000)
            assert "<!-- second -->" not in page.content(), "the old version stays until the person takes the new one"
            fetched = {line.split()[-1] for line in newer.requests() if line.split()[1] == "200"}
            # The worker is the one that the half host had, so it need not be sent again.
            assert {"/index.html"} <= fetched <= {"/index.html", "/service-worker.js"}, "only what changed is fetched"
            with page.expect_navigation():
                banner.tap()
            b.switch_on(page, "screen-shape")
            assert "<!-- second -->" in page.content()
            names = page.evaluate("caches.keys()")
            assert len([name for name in names if name.startswith("foldmark / ")]) == 1
            assert set(names) == {*(name for name in names if name.startswith("foldmark / ")), "foldmark-memory /"}


SAVED_BY_THE_FIRST = """(texts) => new Promise((resolve, reject) => {
    const opening = indexedDB.open("foldmark /", 1);
    opening.onupgradeneeded = () => {
        opening.result.createObjectStore("records", { keyPath: "key" });
        opening.result.createObjectStore("proving", { keyPath: ["key", "owner"] });
    };
    opening.onsuccess = () => {
        const writing = opening.result.transaction("records", "readwrite");
        for (const [key, text] of Object.entries(texts)) writing.objectStore("records").put({ key, text, revision: 1 });
        writing.oncomplete = () => { opening.result.close(); resolve(); };
        writing.onabort = reject;
    };
})"""
"""Writes records as the page of the first release did."""


def test_a_book_of_the_first_release_opens_at_the_mark_that_was_being_chalked(
    static: b.Server, phone: BrowserContext
) -> None:
    release = json.loads((ROOT / "tests" / "app" / "books" / "first_release.json").read_text("utf-8"))
    old = json.loads(release["book"])
    page = phone.new_page()
    page.goto(static.address + "manifest.json")  # of the same host, and without the app
    page.evaluate(SAVED_BY_THE_FIRST, release)
    page.goto(static.address)
    b.switch_on(page, "screen-cloth")  # where the book was left

    def is_there(book: dict[str, Any]) -> bool:
        return [(each["title"], each["style"], list(each["chalk_done"])) for each in book["garments"]] == [
            (each["title"], each["style"], each["chalk_done"]) for each in old["garments"]
        ] and [(each["name"], each["measures"]) for each in book["people"]] == [
            (each["name"], each["measures"]) for each in old["people"]
        ]

    b.kept(page, is_there, "all that was in the book")
    kept = b.records(page)
    assert "frozen.g1" not in kept, "it stands under the garment's new id"
    (chalked,) = [each["id"] for each in b.book(page)["garments"] if each["chalking"]]
    at_home(page)
    for each in old["garments"]:
        assert each["title"] in b.text(page, "screen-home")
    b.tap(page, f"garment-{chalked}")
    arrive(page, "chalk")
    for _ in range(2):
        b.wait_until(page, lambda: look(page) is not None, "the marks are read")
        seen = look(page)
        assert seen is not None
        assert "waist at the side" in seen.said, "its name of then"
        assert [re.findall(r"[\d.]+", each) for each in seen.readings] == [["22.0"], ["54.0"]], "as it was drafted then"
        b.reload(page, "screen-chalk")
    assert b.records(page).keys() == kept.keys(), "it was moved once"
    b.kept(page, is_there, "all of it, still")


@pytest.mark.long
@pytest.mark.parametrize("packs", [False, True], ids=["a plain host", "a host that compresses"])
def test_a_first_visit_fetches_little_from_any_host(
    site: Path, playwright: Playwright, tmp_path: Path, packs: bool
) -> None:
    """A host that compresses nothing sends the packed copies, once each; one that compresses sends the files."""
    folder, client = tmp_path / "site", "main.dart.js"
    sizes = web_site.build(web_site.Site(ROOT, folder, copies=(site_offline.GZIP,)), like=site)
    assert round(sizes.packed / 1e6) <= 19, "as README says"
    if packs:
        site_offline.compress_file(folder / "first.js", site_offline.BROTLI, tmp_path)
        (folder / f"{client}.br").write_bytes(brotli.compress((folder / client).read_bytes(), quality=1))
    server = b.static_server(folder, tmp_path / "log")
    try:
        with b.browser_at(playwright, tmp_path / "profile") as context:
            page = context.new_page()
            page.goto(server.address)
            if not packs:
                words = page.get_by_text(re.compile(r"is being fetched, once: about \d+ MB\."))
                words.wait_for(timeout=10_000)
                assert f" {round(sizes.packed / 1e6)} MB" in words.inner_text()
            b.switch_on(page)
            b.wait_true(page, "document.documentElement.dataset.offline === 'ready'", 60)
            sent = [line.split() for line in server.requests()]
            got = {path for method, status, _, path in sent if method == "GET" and status == "200"}
            assert (f"/{client}" in got, f"/{client}.gz" in got) == (packs, not packs)
            if not packs:
                assert "/packages.zip.gz" in got
                assert "/packages.zip" not in got
                assert sum(int(size) for _, _, size, _ in sent) < 1.02 * sizes.packed + 50_000
                context.new_cdp_session(page).send("Page.reload", {"ignoreCache": True})
                b.switch_on(page)
                assert not page.evaluate("Boolean(navigator.serviceWorker.controller)"), "it was loaded past the worker"
            server.kill()
            b.reload(page)
    finally:
        server.kill()


def asked_for(server: b.Server, path: str) -> bool:
    """Whether a server was asked for a path."""
    return any(line.split()[-1] == path for line in server.requests())

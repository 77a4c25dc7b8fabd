"""Fixtures for tests in a real browser; the helpers are in browser.py."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, sync_playwright

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path[:0] = [str(HERE), str(ROOT / "build"), str(ROOT)]

import browser as b  # noqa: E402

import web_site  # noqa: E402


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site, made once."""
    out = tmp_path_factory.mktemp("built") / "site"
    web_site.build(web_site.Site(ROOT, out, copies=()))
    return out


@pytest.fixture(scope="session")
def second_site(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same site as another version."""
    out = tmp_path_factory.mktemp("second") / "site"
    web_site.build(web_site.Site(ROOT, out, stamp="second", copies=()), like=site)
    return out


@pytest.fixture(scope="session")
def driven_site(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same site for WebKit, whose driver has the page itself compile what a test asks it."""
    out = tmp_path_factory.mktemp("driven") / "site"
    web_site.build(web_site.Site(ROOT, out, copies=(), driven=True), like=site)
    return out


@pytest.fixture(scope="session")
def site_under_a_path(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same site, to live under a path of its host."""
    out = tmp_path_factory.mktemp("under-a-path") / "site"
    web_site.build(web_site.Site(ROOT, out, web_site.base_path("try/fold"), copies=()), like=site)
    return out


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """Playwright itself."""
    if not b.CHROMIUM:
        pytest.fail("These tests need Chromium: apt-get install chromium")
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def static(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[b.Server]:
    """The built site, served."""
    server = b.static_server(site, tmp_path_factory.mktemp("log") / "static.log")
    yield server
    server.kill()


@pytest.fixture(scope="session")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[b.Server]:
    """The app in server mode."""
    server = b.app_server(tmp_path_factory.mktemp("log") / "server.log")
    yield server
    server.kill()


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[BrowserContext]:
    """A phone's browser with a profile of its own."""
    with b.browser_at(playwright, tmp_path / "profile") as context:
        yield context


@pytest.fixture(scope="session")
def visited(static: b.Server, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a phone's browser keeps once it has opened the site: all its files, the started Python, and no record."""
    profile = tmp_path_factory.mktemp("visited") / "profile"
    with b.browser_at(playwright, profile) as context:
        page = b.open_app(context, static.address)
        b.offline_ready(page)
        b.memory_kept(page)
    return profile


@pytest.fixture
def known(visited: Path, tmp_path: Path) -> Path:
    """A profile of one's own of a browser that has opened the site before: it starts in half the time."""
    return Path(shutil.copytree(visited, tmp_path / "known"))


@pytest.fixture
def known_phone(known: Path, playwright: Playwright) -> Iterator[BrowserContext]:
    """A phone that has opened the site before."""
    with b.browser_at(playwright, known) as context:
        yield context


@pytest.fixture(scope="module")
def bare(
    request: pytest.FixtureRequest, app: b.Server, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Page]:
    """A page without Python that has run the module's SCRIPT and nothing else."""
    with b.browser_at(playwright, tmp_path_factory.mktemp("bare"), **b.DESK) as context:
        page = context.new_page()
        page.goto(app.address + "icons/icon-192.png")
        page.evaluate(request.module.SCRIPT)
        yield page


@pytest.fixture
def desk(playwright: Playwright, tmp_path: Path) -> Iterator[BrowserContext]:
    """A desk's browser: 1280 x 800, and no touch."""
    with b.browser_at(playwright, tmp_path / "profile", **b.DESK) as context:
        yield context

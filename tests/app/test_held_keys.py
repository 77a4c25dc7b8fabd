"""A held key does what it does once: first.js by itself, in as much of a page as it asks for."""

import json
import subprocess
from pathlib import Path

import pytest
from playwright._impl._driver import compute_driver_executable

SCRIPT = Path(__file__).resolve().parents[2] / "assets" / "web" / "first.js"
PAGE = """
const listens = [];
const element = () => ({ setAttribute() {}, append() {}, style: {}, querySelector: () => null,
    querySelectorAll: () => [] });
globalThis.HTMLElement = globalThis.HTMLInputElement = class { click() {} };
globalThis.MutationObserver = class { observe() {} };
globalThis.matchMedia = () => ({ matches: false });
globalThis.document = { ...element(), head: {}, body: element(), documentElement: {}, createElement: element };
globalThis.window = { addEventListener: (kind, ...how) => kind === "keydown" && listens.push(how) };
globalThis.setTimeout = () => 0;
require(process.argv[1]);
const did = [], [key, repeat, kind] = JSON.parse(process.argv[2]);
const inner = kind === "page" ? {} : { matches: (names) => names.split(", ").includes(kind) };
const event = { key, repeat, target: { matches: () => false }, composedPath: () => [inner, {}],
    preventDefault: () => did.push("not the browser"), stopImmediatePropagation: () => did.push("not the client") };
for (const [call] of listens) call(event);
console.log(JSON.stringify([listens.map(([, early]) => early), did]));
"""
KEPT = ["not the browser", "not the client"]


@pytest.mark.parametrize(
    ("key", "repeat", "at", "kept_from"),
    [
        ("Enter", False, "flt-semantics", []),
        (" ", False, "flt-semantics", []),
        ("Enter", True, "flt-semantics", KEPT),
        (" ", True, "flt-semantics", KEPT),
        (" ", True, "page", KEPT),
        ("ArrowRight", True, "flt-semantics", []),
        ("Tab", True, "flt-semantics", []),
        (" ", True, "input", []),
        ("Enter", True, "textarea", []),
    ],
)
def test_only_the_first_of_a_held_enter_or_space_comes_to_a_button(
    key: str, repeat: bool, at: str, kept_from: list[str]
) -> None:
    given = json.dumps([key, repeat, at])
    node = compute_driver_executable()[0]
    ran = subprocess.run(
        [node, "-e", PAGE, str(SCRIPT), given], capture_output=True, text=True, check=False, timeout=60
    )
    assert ran.returncode == 0, ran.stderr
    early, did = json.loads(ran.stdout)
    assert early == [True], "before the client hears of it"
    assert did == kept_from

"""What a reader of the screen is given: the tree that Chromium hands it, as text, and what is announced by itself."""

import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import unified_diff
from pathlib import Path
from typing import Any

import browser as b
from playwright.sync_api import Page

TREES = Path(__file__).with_name("trees")
KEEP = bool(os.environ.get("KEEP_TREES"))
"""Whether what is heard now is kept, instead of compared with what was kept."""
PRESSED = frozenset({"button", "link", "radio", "checkbox", "switch", "slider", "textbox", "combobox", "tab", "option"})
"""What can be pressed or typed into."""
_TEXT = "StaticText"
_PASSED_OVER = frozenset({"generic", "none", "RootWebArea", "main"})
_NAMED_BY_TEXT = PRESSED | {"heading", _TEXT}


@dataclass
class Node:
    """One thing that is heard: its role and name, what else is said of it, and what it holds."""

    role: str
    name: str
    says: str = ""
    states: tuple[str, ...] = ()
    inner: list["Node"] = field(default_factory=list)

    def every(self) -> Iterator["Node"]:
        """Itself and everything in it, in the order in which it is heard."""
        yield self
        for each in self.inner:
            yield from each.every()

    def lines(self, depth: int = 0) -> Iterator[str]:
        """A line for itself and one for everything in it."""
        role = "text" if self.role == _TEXT else self.role
        told = [f'"{self.name}"'] if self.name else []
        told += [*self.states, *([f'described "{self.says}"'] if self.says else [])]
        yield "  " * depth + " ".join([role, *told])
        for each in self.inner:
            yield from each.lines(depth + 1)


def flat(words: str) -> str:
    """The words with plain spaces between them, however they may be parted at the end of a line."""
    return " ".join(words.split())


def heard(page: Page) -> Node:
    """The whole page as a reader of the screen has it."""
    session = page.context.new_cdp_session(page)
    found = {each["nodeId"]: each for each in session.send("Accessibility.getFullAXTree")["nodes"]}
    session.detach()
    top = Node("page", "")
    _take(found, next(iter(found.values())), top)
    return top


def _take(found: dict[str, Any], raw: dict[str, Any], into: Node) -> None:
    """Take one node of the browser's tree and what is in it; what only holds other things is passed over."""
    role, name = _value(raw, "role"), _value(raw, "name")
    if not raw.get("ignored") and role not in _PASSED_OVER and (role != "group" or name):
        node = Node(role, name, _value(raw, "description"), _states(raw))
        into.inner.append(node)
        into = node
    if role != _TEXT:
        for child in raw.get("childIds", ()):
            _take(found, found[child], into)
    if into.role in _NAMED_BY_TEXT:  # its words are its name already
        into.inner = [each for each in into.inner if each.role != _TEXT]


def _value(raw: dict[str, Any], key: str) -> str:
    return flat(str(raw.get(key, {}).get("value", "")))


def _states(raw: dict[str, Any]) -> tuple[str, ...]:
    has = {each["name"]: each["value"].get("value") for each in raw.get("properties", ())}
    states = []
    if "level" in has:
        states.append(f"level {has['level']}")
    if has.get("checked") in ("true", "mixed"):
        states.append("checked")
    if has.get("disabled"):
        states.append("disabled")
    if "expanded" in has:
        states.append("open" if has["expanded"] else "folded")
    if has.get("invalid") == "true":
        states.append("wrong")
    return tuple(states)


def told(page: Page) -> str:
    """The page as text."""
    return "\n".join(line for each in heard(page).inner for line in each.lines()) + "\n"


def as_kept(page: Page, name: str, seconds: float = 5) -> str:
    """How the page is heard otherwise than it was kept in trees/NAME.txt; empty where it is the same.

    With KEEP_TREES set, what is heard now is kept.
    """
    file = TREES / f"{name}.txt"
    b.still(page)
    if KEEP:
        now, before = told(page), ""
        while now != before:
            page.wait_for_timeout(800)
            now, before = told(page), now
        TREES.mkdir(exist_ok=True)
        file.write_text(now, "utf-8")
    kept = file.read_text("utf-8") if file.exists() else ""
    for _ in range(int(seconds / 0.25)):
        now = told(page)
        if now == kept:
            return ""
        page.wait_for_timeout(250)
    changes = unified_diff(kept.splitlines(), now.splitlines(), f"kept for {name}", "heard now", lineterm="", n=1)
    return "\n".join(changes)


_LISTEN = """() => {
    globalThis.announced = [];
    for (const how of ["polite", "assertive"]) {
        new MutationObserver((changes) => {
            for (const change of changes) {
                for (const each of change.addedNodes) announced.push(each.textContent.trim());
            }
        }).observe(document.querySelector(`flt-announcement-${how}`), {childList: true, subtree: true});
    }
}"""


def listen(page: Page) -> None:
    """Begin to note what is announced by itself."""
    page.evaluate(_LISTEN)


def announced(page: Page) -> list[str]:
    """What was announced since it was last asked."""
    return [flat(each) for each in page.evaluate("() => announced.splice(0)") if each]

"""Drafts a list of orders in whichever Python this is, and writes all that came out as one JSON file.

Run by pyodide_check.py twice: here, and inside Pyodide.
"""

import json
import sys
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any


def plain(value: Any) -> Any:
    """A record of ours as lists, texts and numbers, every number as exact as it was computed."""
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, dict):
        return {str(key): plain(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(part) for part in value]
    if isinstance(value, (str, int, float)) or value is None:
        return value
    return getattr(value, "__qualname__", type(value).__qualname__)  # a function, or a record read from outside


def drafted(order_file: Path) -> dict[str, Any]:
    """What one order gives: its problems, the names of its papers, the draft as written, and unrounded."""
    import drafting
    from drafting.order import read_order
    from drafting.record.documents import documents

    order, problems = read_order(json.loads(order_file.read_text(encoding="utf-8")))
    found: dict[str, Any] = {"problems": [problem.line() for problem in problems]}
    if order is not None:
        result = drafting.make(order)
        papers = documents(result)
        found["papers"] = sorted(papers)
        found["draft"] = json.loads(papers["draft.json"])
        found["unrounded"] = plain(result)
    return found


def main(target: str, *orders: str) -> None:
    """Writes the drafts of the orders, by file name, with the Python that made them."""
    drafts = {Path(order).name: drafted(Path(order)) for order in orders}
    whole = {"python": sys.version.split()[0], "platform": sys.platform, "drafts": drafts}
    Path(target).write_text(json.dumps(whole), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])

"""What makes the site work without a network: the list of its files with their hashes, and compressed copies."""

from __future__ import annotations

import gzip
import hashlib
import json
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from site_python import fill

if TYPE_CHECKING:
    from web_site import Site

WORKER = "service-worker.js"
NOT_KEPT = ("NOTICES", "404.html", WORKER)
"""Files of the site a running app never asks for: a licence text of 1.5 MB, the copy of the page, the worker itself."""

ALREADY_DENSE = (".png", ".woff2")
BROTLI, GZIP = COPIES = ".br", ".gz"
"""Beside a file for hosts that send it compressed, and for those that do not: our own scripts unpack the second."""
SIZES = Path(__file__).with_name("sizes.json")
"""What the files weighed when it was last said, by `build/site --sizes`: none grows unsaid (a test)."""
TOLD = 10_000
"""Smaller files are not in it, bytes."""
LEAST = 1000
"""Smaller files have no copies, bytes: an answer's head is as large."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """How many files a first visit fetches, and their bytes.

    `sent` is what a host sends that serves the .br copies, `packed` what one sends that compresses nothing.
    """

    files: int
    raw: int
    sent: int
    packed: int


def kept(site: Site) -> list[Path]:
    """Return the files the service worker keeps, in order."""
    return [
        path
        for path in sorted(site.out.rglob("*"))
        if path.is_file() and path.name not in NOT_KEPT and path.suffix not in COPIES
    ]


def add_service_worker(site: Site) -> None:
    """Write the service worker with the hash of every file; its version is the hash of them all."""
    files = {
        path.relative_to(site.out).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in kept(site)
    }
    packed = [name for name in files if (site.out / (name + GZIP)).exists()]
    script = (site.root / "assets" / "web" / WORKER).read_text("utf-8")
    version = hashlib.sha256((json.dumps(files) + script).encode()).hexdigest()[:16]
    script = fill(fill(script, "VERSION", json.dumps(version)), "FILES", json.dumps(files, indent=0))
    (site.out / WORKER).write_text(fill(script, "PACKED", json.dumps(packed)), "utf-8")
    if BROTLI in site.copies:
        compress_file(site.out / WORKER, BROTLI, site.cache / "copies")


def compress(site: Site) -> Sizes:
    """Put a compressed copy of each kind beside each file that gains by it; those made before come from the cache."""
    files = [path for path in sorted(site.out.rglob("*")) if path.is_file()]
    store = site.cache / "copies"
    store.mkdir(parents=True, exist_ok=True)
    largest = sorted(files, key=lambda path: -path.stat().st_size)
    with ThreadPoolExecutor(2) as workers:
        for kind in site.copies:
            list(workers.map(lambda path, kind=kind: compress_file(path, kind, store), largest))
    found = shares(site)
    return Sizes(len(found), *(sum(each[kind] for each in found.values()) for kind in ("", *COPIES)))


def shares(site: Site) -> dict[str, dict[str, int]]:
    """What a first visit fetches: by file its bytes, and those of its copies, or its own again where it has none."""

    def size(path: Path, kind: str) -> int:
        copy = path.with_name(path.name + kind)
        return (copy if copy.exists() else path).stat().st_size

    return {
        path.relative_to(site.out).as_posix(): {kind: size(path, kind) for kind in ("", *COPIES)} for path in kept(site)
    }


def told(site: Site) -> dict[str, int]:
    """The bytes of every file large enough to matter, as SIZES holds them."""
    return {name: of[""] for name, of in shares(site).items() if of[""] >= TOLD}


def compress_file(path: Path, kind: str, store: Path) -> None:
    """Write the copy of a kind if that saves three bytes in a hundred."""
    data = path.read_bytes()
    if path.suffix in ALREADY_DENSE or len(data) < LEAST:
        return
    known = store / f"{hashlib.sha256(data).hexdigest()}{kind}"
    if not known.exists():
        part = known.with_suffix(f"{kind}.part")
        part.write_bytes(compressed(data, kind))
        part.rename(known)
    small = known.read_bytes()
    if len(small) < 0.97 * len(data):
        path.with_name(path.name + kind).write_bytes(small)


def compressed(data: bytes, kind: str) -> bytes:
    """The data as small as the kind allows: a large archive takes a minute, once."""
    if kind == GZIP:
        return gzip.compress(data, 9, mtime=0)
    import brotli

    return bytes(brotli.compress(data, quality=11, lgwin=24))

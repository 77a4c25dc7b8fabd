"""What makes the site work without a network: the list of its files with their hashes, and compressed copies."""

from __future__ import annotations

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

ALREADY_DENSE = (".png", ".woff2", ".br")
LARGE = 2_000_000


@dataclass(frozen=True, slots=True)
class Sizes:
    """How many files a first visit fetches, their bytes, and the bytes a host sends that serves the .br copies."""

    files: int
    raw: int
    sent: int


def kept(site: Site) -> list[Path]:
    """Return the files the service worker keeps, in order."""
    return [
        path
        for path in sorted(site.out.rglob("*"))
        if path.is_file() and path.name not in NOT_KEPT and path.suffix != ".br"
    ]


def add_service_worker(site: Site) -> None:
    """Write the service worker with the hash of every file; its version is the hash of them all."""
    files = {
        path.relative_to(site.out).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in kept(site)
    }
    script = (site.root / "assets" / "web" / WORKER).read_text("utf-8")
    version = hashlib.sha256((json.dumps(files) + script).encode()).hexdigest()[:16]
    script = fill(fill(script, "VERSION", json.dumps(version)), "FILES", json.dumps(files, indent=0))
    (site.out / WORKER).write_text(script, "utf-8")


def compress(site: Site) -> Sizes:
    """Put a brotli copy beside each file that gains by it; copies made before are taken from the cache."""
    files = [path for path in sorted(site.out.rglob("*")) if path.is_file()]
    if site.brotli:
        store = site.cache / "brotli"
        store.mkdir(parents=True, exist_ok=True)
        with ThreadPoolExecutor(2) as workers:
            list(workers.map(lambda path: compress_file(path, store), files))
    first = kept(site)
    smaller = [path.with_name(path.name + ".br") for path in first]
    sent = sum((small if small.exists() else path).stat().st_size for path, small in zip(first, smaller, strict=True))
    return Sizes(len(first), sum(path.stat().st_size for path in first), sent)


def compress_file(path: Path, store: Path) -> None:
    """Write path.br if that saves three bytes in a hundred."""
    import brotli

    data = path.read_bytes()
    if path.suffix in ALREADY_DENSE or len(data) < 1000:
        return
    quality = 9 if len(data) > LARGE else 11
    known = store / f"{hashlib.sha256(data).hexdigest()}-{quality}"
    if not known.exists():
        known.with_suffix(".part").write_bytes(brotli.compress(data, quality=quality))
        known.with_suffix(".part").rename(known)
    small = known.read_bytes()
    if len(small) < 0.97 * len(data):
        path.with_name(path.name + ".br").write_bytes(small)

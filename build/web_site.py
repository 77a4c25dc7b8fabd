"""Make the static, installable, fully offline site from app/, drafting/ and assets/, and serve it for trying out.

The site needs nothing but a host of plain files: Python runs in the browser, every file comes from the site itself,
and after the first visit the service worker answers everything, so the network may be gone. README says how to host it.
"""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from dataclasses import dataclass, replace
from pathlib import Path

import site_flutter
import site_offline
import site_python
import site_server

ROOT = Path(__file__).resolve().parents[1]


@dataclass(frozen=True, slots=True)
class Site:
    """What one build is made from and where it goes.

    root: the checkout. out: the folder to make, replaced whole. base: the path on the host, with a slash at both ends.
    cache: where downloaded wheels and compressed files are kept between builds. app: the module whose start() calls
    ft.run; it is imported while the screen is still being made ready, with all it imports. packages: the folders of the
    checkout that become Python packages of the site. early: modules to import before it. stamp: text that enters the
    version, so that tests can make a second version. copies: the kinds of compressed copies beside the files. driven:
    let the page compile text, for a browser whose driver runs a test's words so; a site for people never does.
    """

    root: Path
    out: Path
    base: str = "/"
    cache: Path = ROOT / ".cache" / "site"
    app: str = "app.main"
    packages: tuple[str, ...] = ("app", "drafting")
    early: tuple[str, ...] = ("msgpack", "pydantic", "flet.messaging.session", "flet.app")
    stamp: str = ""
    copies: tuple[str, ...] = site_offline.COPIES
    driven: bool = False


def base_path(text: str) -> str:
    """Return the path with a slash at both ends: "fold", "/fold" and "/fold/" are the same base."""
    inner = text.strip("/")
    return f"/{inner}/" if inner else "/"


def build(site: Site, like: Path | None = None) -> site_offline.Sizes:
    """Make the whole site in a folder beside the target, then put it in the target's place.

    `like` is a site made of the same sources, whose compiled Python is taken over instead of made again.
    """
    making = site.out.with_name(site.out.name + ".making")
    shutil.rmtree(making, ignore_errors=True)
    making.mkdir(parents=True)
    work = replace(site, out=making)
    site_flutter.copy_client(work)
    if like is None:
        site_python.add_python(work)
    else:
        site_python.take_python(work, like)
    large = site_offline.compress(work)
    site_flutter.write_page(work, round(large.packed / 1e6) if site_offline.GZIP in work.copies else 0)
    sizes = site_offline.compress(work)  # the page too
    site_offline.add_service_worker(work)
    shutil.rmtree(site.out, ignore_errors=True)
    making.rename(site.out)
    return sizes


def main(arguments: list[str] | None = None) -> int:
    """Run the command line."""
    parser = argparse.ArgumentParser(prog="build/site", description=__doc__)
    parser.add_argument("--out", type=Path, default=ROOT / "dist" / "site", help="folder to make (replaced whole)")
    parser.add_argument("--base", default="/", help="path on the host the site will live under")
    parser.add_argument("--serve", nargs="?", type=int, const=8080, metavar="PORT", help="serve the site afterwards")
    parser.add_argument("--host", default="127.0.0.1", help="address --serve listens on")
    parser.add_argument("--log", type=Path, help="file --serve writes one line per request to")
    parser.add_argument("--keep", action="store_true", help="with --serve: serve what was built before")
    parser.add_argument("--stamp", default="", help=argparse.SUPPRESS)
    parser.add_argument("--no-copies", action="store_true", help="leave out the compressed copies")
    parser.add_argument("--sizes", action="store_true", help="say that the files may weigh what they now do")
    given = parser.parse_args(arguments)
    out: Path = given.out.resolve()
    if not (given.keep and (out / "index.html").is_file()):
        site = Site(
            ROOT, out, base_path(given.base), stamp=given.stamp, copies=() if given.no_copies else site_offline.COPIES
        )
        try:
            sizes = build(site)
        except site_python.CannotBuild as trouble:
            print(trouble, file=sys.stderr)
            return 1
        print(
            f"{out}: {sizes.files} files, {sizes.raw / 1e6:.1f} MB, for {site.base}. A first visit is sent "
            f"{sizes.sent / 1e6:.1f} MB, or {sizes.packed / 1e6:.1f} MB where the host compresses nothing."
        )
        if given.sizes:
            site_offline.SIZES.write_text(json.dumps(site_offline.told(site), indent=1) + "\n", "utf-8")
    if given.serve is not None:
        site_server.serve(out, given.host, given.serve, given.log)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())

"""The screen's side of the site: Flet's web client without what the app does not use, our page, icons and fonts."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from flet.controls.types import RouteUrlStrategy, WebRenderer
from flet_web import get_package_web_dir, patch_font_manifest_json, patch_index_html
from fontTools import subset

from app.own_host import asking_no_other_host
from app.policy import policy_of, taking_the_nonce, with_nonce
from app.reading_order import in_reading_order
from site_python import CannotBuild

if TYPE_CHECKING:
    from web_site import Site

NAME = "Foldmark"
DESCRIPTION = "Drafts a garment to your measures, to be chalked straight onto folded cloth."
PAPER, CLOTH = "#f6f1e7", "#1b212b"
"""The first colours of the page, before the app has painted: paper and cloth of the app's own theme."""

CLIENT_FILES = (
    "index.html",
    "flutter_bootstrap.js",
    "version.json",
    "main.dart.js",
    "assets",
    "canvaskit/canvaskit.js",
    "canvaskit/canvaskit.wasm",
    "pyodide/pyodide.mjs",
    "pyodide/pyodide.asm.mjs",
    "pyodide/pyodide.asm.wasm",
    "pyodide/python_stdlib.zip",
    "pyodide/pyodide-lock.json",
)
"""One renderer for every browser (canvaskit, full): the other is off in Safari and Firefox and breaks sharing."""

UNUSED_PACKAGES = ("flutter_math_fork", "media_kit", "cupertino_icons", "record_web", "flutter_map")

SIGNS = {0xE092: "arrow_back_baseline", 0xE404: "more_vert_baseline"}
"""What is kept of the client's font of 8,600 signs, by place and name: its menu over a marked text has these two. Ours
are drawn (app.parts.signs)."""

OUR_SCRIPTS = (
    "first.js", "python.js", "pwa.js", "print.js", "table.js", "storage.js", "picture.js", "files.js", "camera.js",
    "memory.js", "glimpse.js",
)  # fmt: skip
"""Beside the two workers, which the build fills in."""

PLACE = "the policy"
"""Stands where the policy of the finished page comes."""

FALLBACK = "assets/fonts/roboto.woff2?"
"""Answers the client's search for a font with a glyph ours lack. The client appends a path of another host's fonts,
which so becomes a query: any host of plain files answers, and the client does not ask again and again."""


def copy_client(site: Site) -> None:
    """Copy Flet's web client, our assets and scripts; leave out what the app never shows."""
    web = Path(get_package_web_dir())
    for name in CLIENT_FILES:
        source, target = web / name, site.out / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copytree(source, target) if source.is_dir() else shutil.copyfile(source, target)
    client = site.out / "main.dart.js"
    try:
        client.write_bytes(asking_no_other_host(in_reading_order(client.read_bytes())))
    except ValueError as changed:
        raise CannotBuild(str(changed)) from changed
    for package in UNUSED_PACKAGES:
        shutil.rmtree(site.out / "assets" / "packages" / package, ignore_errors=True)
    keep_signs(site.out / "assets" / "fonts" / "MaterialIcons-Regular.otf")
    fonts = site.out / "assets" / "FontManifest.json"
    patch_font_manifest_json(str(fonts))
    families = json.loads(fonts.read_text("utf-8"))
    wanted = [family for family in families if not any(name in family["family"] for name in UNUSED_PACKAGES)]
    assets = site.root / "assets"
    ours = json.loads((assets / "fonts" / "fonts.json").read_text("utf-8"))
    fonts.write_text(json.dumps([*wanted, *ours]), "utf-8")
    sources = shutil.ignore_patterns("web", "pictures", "fonts.json", "*.svg", "*.md")
    shutil.copytree(assets, site.out, dirs_exist_ok=True, ignore=sources)
    for name in OUR_SCRIPTS:
        shutil.copyfile(assets / "web" / name, site.out / name)
    shutil.copytree(assets / "web" / "vendor", site.out / "vendor")


def keep_signs(font: Path) -> None:
    """Leave in the client's font of signs only those that the client itself shows."""
    options = subset.Options(layout_features=[], notdef_outline=True, hinting=False, desubroutinize=True)
    whole = subset.load_font(BytesIO(font.read_bytes()), options)
    known = whole.getBestCmap()
    if any(known.get(place) != name for place, name in SIGNS.items()):
        raise CannotBuild("The client's font of signs has changed: the signs of its menu are not where they were.")
    cut = subset.Subsetter(options)
    cut.populate(unicodes=SIGNS)
    cut.subset(whole)
    subset.save_font(whole, str(font), options)


def write_page(site: Site, packed: int) -> None:
    """Write index.html, its copy for hosts that answer unknown paths with 404.html, and the manifest.

    `packed` is how many MB a first visit fetches from a host that compresses nothing; 0 without copies for it.
    """
    page = site.out / "index.html"
    patch_index_html(
        index_path=str(page),
        base_href=site.base,
        app_name=NAME,
        app_description=DESCRIPTION,
        pyodide=True,
        pyodide_script_path="main.py",
        web_renderer=WebRenderer.CANVAS_KIT,
        route_url_strategy=RouteUrlStrategy.PATH,
        no_cdn=True,
    )
    text = page.read_text("utf-8")
    head = "\n".join(
        (
            "<head>",
            f'  <meta http-equiv="Content-Security-Policy" content="{PLACE}">',
            '  <meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">',
            f'  <meta name="theme-color" media="(prefers-color-scheme: light)" content="{PAPER}">',
            f'  <meta name="theme-color" media="(prefers-color-scheme: dark)" content="{CLOTH}">',
        )
    )
    text = swap(text, "<head>", head + (f'\n  <meta name="packed" content="{packed}">' if packed else ""))
    text = text.replace("#ffffff", PAPER).replace("#222222", CLOTH)
    text = swap(
        text,
        '<script src="python.js"></script>',
        '<script src="first.js" data-client="flutter_bootstrap.js main.dart.js"></script>\n'
        '  <script src="glimpse.js"></script>\n  <script src="python.js"></script>\n'
        '  <script src="print.js" defer></script>\n  <script src="table.js" defer></script>\n'
        '  <script src="files.js" defer></script>\n  <script src="camera.js" defer></script>\n'
        '  <script src="pwa.js" defer></script>',
    )
    text = swap(text, 'flet.fontFallbackBaseUrl="assets/fonts/";', f'flet.fontFallbackBaseUrl="{FALLBACK}";')
    text = swap(text, '<script src="flutter_bootstrap.js" async></script>', "")  # first.js begins it
    text = swap(text, "</title>", f"</title>{f'<!-- {site.stamp} -->' if site.stamp else ''}")
    nonce = hashlib.sha256(text.encode()).hexdigest()[:32]  # the same for the same sources, as all of the site
    text = with_nonce(text, nonce)
    policy = policy_of(text, nonce)
    if site.driven:
        policy = policy.replace("script-src ", "script-src 'unsafe-eval' ")
    text = swap(text, PLACE, policy)
    page.write_text(text, "utf-8")
    (site.out / "404.html").write_text(text, "utf-8")

    start = site.out / "flutter_bootstrap.js"
    script = start.read_text("utf-8")
    script, found = re.subn(r"serviceWorkerSettings:\s*\{.*?\n\s*\},", "", script, flags=re.DOTALL)
    if found != 1:
        raise CannotBuild("Flet's flutter_bootstrap.js has changed: its own service worker was not found.")
    script = swap(
        taking_the_nonce(script), "var flutterConfig = {", 'var flutterConfig = {\n    canvasKitVariant: "full",'
    )
    start.write_text(re.sub(r"//# sourceMappingURL=\S+", "", script), "utf-8")

    (site.out / "manifest.json").write_text(json.dumps(manifest(site.base), indent=1), "utf-8")


def swap(text: str, old: str, new: str) -> str:
    """Replace a passage that must stand in the text exactly once."""
    if text.count(old) != 1:
        raise CannotBuild(f"Flet's page has changed: {old!r} should stand in it once.")
    return text.replace(old, new)


def manifest(base: str) -> dict[str, object]:
    """Return the web app manifest: what makes a phone offer to install the site."""
    icons = [
        {
            "src": f"icons/icon{kind}-{size}.png",
            "sizes": f"{size}x{size}",
            "type": "image/png",
            **({"purpose": "maskable"} if kind else {}),
        }
        for kind in ("", "-maskable")
        for size in (192, 512)
    ]
    return {
        "name": NAME,
        "short_name": NAME,
        "description": DESCRIPTION,
        "id": base,
        "scope": base,
        "start_url": base,
        "display": "standalone",
        "orientation": "any",
        "lang": "en",
        "background_color": PAPER,
        "theme_color": CLOTH,
        "icons": icons,
        "share_target": {
            "action": f"{base}share",
            "method": "POST",
            "enctype": "multipart/form-data",
            "params": {"files": [{"name": "file", "accept": ["application/json", ".json", "image/*"]}]},
        },
        "file_handlers": [{"action": base, "accept": {"application/json": [".json"]}}],
    }

"""A backup goes out of a real browser and comes back in: everything deleted, taken over, equal."""

import json
from pathlib import Path
from typing import Any

import browser as b
import pypdfium2
import pytest
import zxingcpp
from journey import arrive, at_home
from PIL import Image
from playwright.sync_api import BrowserContext, Page, Playwright

from drafting.order import make, read_order
from drafting.record.documents import chalk_sheet_pdf


def pick(page: Page, file: Path) -> None:
    """Choose a file in the browser's own list."""
    with page.expect_file_chooser(timeout=30_000) as chooser:
        b.tap(page, "open-backup")
    chooser.value.set_files(str(file))


def to_backup(page: Page) -> None:
    if not b.at(page, "backup").count():
        b.tap(page, "settings")
        b.still(page)
    b.tap(page, "backup")
    arrive(page, "backup")


def delete(page: Page, key: str) -> None:
    b.tap(page, f"more-{key}")
    b.still(page)
    b.tap(page, f"delete-{key}")
    b.at(page, f"more-{key}").wait_for(state="detached", timeout=30_000)
    b.still(page)


def records(found: dict[str, Any]) -> tuple[Any, Any]:
    return found["people"], found["garments"]


@pytest.mark.parametrize("mode", ["static", pytest.param("app", marks=pytest.mark.long)])
def test_everything_comes_back_from_a_file(
    mode: str, request: pytest.FixtureRequest, known_phone: BrowserContext, tmp_path: Path
) -> None:
    server: b.Server = request.getfixturevalue(mode)
    page = b.open_app(known_phone, server.address)
    b.tap(page, "try-demo")
    arrive(page, "shape")
    at_home(page)
    b.kept(page, lambda found: found["people"] and found["garments"], "the demo is kept")
    before = b.book(page)
    to_backup(page)
    with page.expect_download(timeout=60_000) as download:
        b.tap(page, "save-backup")
    kept = tmp_path / download.value.suggested_filename
    download.value.save_as(kept)
    typed = json.loads(kept.read_text("utf-8"))
    assert (typed["format"], len(typed["people"]), len(typed["garments"])) == ("foldmark-backup", 1, 1)
    assert "Ilse" not in kept.name
    at_home(page)
    for key in (before["garments"][0]["id"], before["people"][0]["id"]):
        delete(page, key)
    b.kept(page, lambda found: not found["people"] and not found["garments"], "everything is deleted")
    pick(page, kept)
    b.at(page, "take-over").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.tap(page, "take-over")
    arrive(page, "home")
    b.kept(page, lambda found: records(found) == records(before), "all is as it was")
    to_backup(page)
    large = tmp_path / "large.json"
    with large.open("wb") as file:
        file.truncate(50_000_000)
    pick(page, large)
    b.at(page, "notice").wait_for(state="attached", timeout=60_000)
    b.still(page)
    assert "larger than any backup" in b.spoken(page, "notice")
    assert records(b.book(page)) == records(before)


def picture_of_the_code(folder: Path) -> Path:
    """The code on the demo's chalk sheet as a phone takes it: askew, with something round it."""
    typed = json.loads((b.ROOT / "assets" / "demo" / "order.json").read_text("utf-8")) | {"sheet_measures": True}
    order, problems = read_order(typed)
    assert order is not None, problems
    pdf = pypdfium2.PdfDocument(chalk_sheet_pdf(make(order, with_ways_out=False), "A4"))
    sheet = pdf[len(pdf) - 1].render(scale=200 / 72).to_pil()
    pdf.close()
    (found,) = zxingcpp.read_barcodes(sheet)
    corner = found.position.top_left
    side = found.position.bottom_right.x - corner.x
    photo = sheet.crop((corner.x - side // 2, corner.y - side // 2, corner.x + 2 * side, corner.y + 2 * side))
    path = folder / "photo.jpg"
    photo.convert("L").rotate(7, fillcolor=200, expand=True).save(path, quality=80)
    return path


@pytest.mark.long
def test_a_picture_of_a_sheet_brings_its_garment(
    static: b.Server, app: b.Server, known_phone: BrowserContext, tmp_path: Path
) -> None:
    photo = picture_of_the_code(tmp_path)
    page = b.open_app(known_phone, static.address)
    pick(page, photo)
    b.at(page, "take-over").wait_for(state="attached", timeout=60_000)
    b.still(page)
    b.tap(page, "take-over")
    b.kept(page, lambda found: len(found["garments"]) == 1, "the garment is there")
    found = b.book(page)
    assert found["garments"][0]["title"] == "Ferry pullover"
    assert found["people"][0]["measures"]["bust_girth"] == "94"
    nothing = tmp_path / "nothing.png"
    Image.new("L", (300, 300), 255).save(nothing)
    to_backup(page)
    pick(page, nothing)
    b.at(page, "notice").wait_for(state="attached", timeout=60_000)
    b.still(page)
    assert "No code was found" in b.spoken(page, "notice")
    page.close()
    served = b.open_app(known_phone, app.address)
    pick(served, photo)
    b.at(served, "notice").wait_for(state="attached", timeout=60_000)
    b.still(served)
    assert "not from a server" in b.spoken(served, "notice")


@pytest.mark.long
def test_a_picture_is_read_without_a_network(site: Path, playwright: Playwright, tmp_path: Path) -> None:
    photo = picture_of_the_code(tmp_path)
    with b.static_server(site, tmp_path / "log") as server, b.browser_at(playwright, tmp_path / "profile") as context:
        page = b.open_app(context, server.address)
        b.offline_ready(page)
        server.kill()
        b.reload(page)
        pick(page, photo)
        b.at(page, "take-over").wait_for(state="attached", timeout=60_000)


_FILES = """([text, name]) => {
    const files = new DataTransfer();
    files.items.add(new File([text], name, { type: "application/json" }));
    return files;
}"""
_DROPPED = f"""(given) => {{
    const dataTransfer = ({_FILES})(given);
    const allowed = ["dragover", "drop"].map((kind) =>
        !document.body.dispatchEvent(new DragEvent(kind, {{ dataTransfer, bubbles: true, cancelable: true }})));
    return allowed;
}}"""
_SHARED = f"""(given) => {{
    const form = document.createElement("form");
    form.method = "post";
    form.enctype = "multipart/form-data";
    form.action = "/share";
    const field = document.createElement("input");
    field.type = "file";
    field.name = "file";
    field.files = ({_FILES})(given).files;
    form.append(field);
    document.body.append(form);
    form.submit();
}}"""


def test_a_dropped_and_a_shared_order_are_opened_and_nothing_of_it_is_left(
    static: b.Server, known_phone: BrowserContext
) -> None:
    order = (b.ROOT / "assets" / "demo" / "order.json").read_text("utf-8")
    page = b.open_app(known_phone, static.address)
    assert page.evaluate(_DROPPED, [order, "order.json"]) == [True, True], "the browser does not open it itself"
    b.at(page, "take-over").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.tap(page, "leave-backup")
    b.at(page, "save-backup").wait_for(state="attached", timeout=30_000)
    page.evaluate(_DROPPED, ["no order at all", "notes.txt"])
    b.at(page, "notice").wait_for(state="attached", timeout=30_000)
    b.still(page)
    assert "cannot be opened" in b.spoken(page, "notice")
    b.offline_ready(page)
    with page.expect_navigation():
        page.evaluate(_SHARED, [order, "order.json"])
    b.switch_on(page, "take-over")
    b.still(page)
    b.tap(page, "take-over")
    b.kept(page, lambda found: len(found["garments"]) == 1, "the garment is there")
    b.at(page, "screen-home").wait_for(state="attached", timeout=30_000)
    b.wait_true(page, "new URL(location.href).pathname === '/'")  # the screen that is opened again is the address's
    assert page.evaluate("caches.keys().then((names) => names.filter((name) => name.includes('shared')))") == []
    b.reload(page)
    page.wait_for_timeout(500)
    assert not b.at(page, "take-over").count(), "it is opened once"


def test_a_phone_offers_the_site_for_what_it_opens(site: Path) -> None:
    """Web App Manifest, share_target and file_handlers (from memory)."""
    manifest = json.loads((site / "manifest.json").read_text("utf-8"))
    target = manifest["share_target"]
    assert (target["method"], target["enctype"], target["action"]) == ("POST", "multipart/form-data", "/share")
    (files,) = target["params"]["files"]
    assert files["name"] == "file"
    assert "application/json" in files["accept"]
    assert manifest["file_handlers"] == [{"action": "/", "accept": {"application/json": [".json"]}}]


def test_the_camera_reads_a_sheet(static: b.Server, known: Path, playwright: Playwright, tmp_path: Path) -> None:
    """Chromium's own stand-in for a camera plays a film of one picture, which is a JPEG again and again."""
    still = tmp_path / "still.jpg"
    Image.open(picture_of_the_code(tmp_path)).convert("RGB").resize((960, 960)).save(still, quality=90)
    (tmp_path / "film.mjpeg").write_bytes(still.read_bytes() * 3)
    film = f"--use-file-for-fake-video-capture={tmp_path / 'film.mjpeg'}"
    flags = ("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", film)
    with b.browser_at(playwright, known, flags=flags) as context:
        page = b.open_app(context, static.address)
        to_backup(page)
        b.tap(page, "read-camera")
        b.at(page, "take-over").wait_for(state="attached", timeout=60_000)
        assert not page.locator("#camera").count(), "the camera is put away"


_REFUSAL = "navigator.mediaDevices.getUserMedia({ video: true }).then(() => '', (refusal) => refusal.name)"


@pytest.mark.long
@pytest.mark.parametrize(
    ("flags", "why"),
    [
        (("--use-fake-device-for-media-stream", "--deny-permission-prompts"), "NotAllowedError"),
        (("--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream=device-count=0"), "NotFoundError"),
    ],
)
def test_where_there_is_no_camera_to_use_it_is_said_what_to_do_instead(
    flags: tuple[str, ...], why: str, static: b.Server, known: Path, playwright: Playwright, tmp_path: Path
) -> None:
    """The names are those of Media Capture and Streams, getUserMedia (from memory)."""
    with b.browser_at(playwright, known, flags=flags) as context:
        page = b.open_app(context, static.address)
        assert page.evaluate(_REFUSAL) == why
        to_backup(page)
        b.tap(page, "read-camera")
        b.at(page, "notice").wait_for(state="attached", timeout=30_000)
        b.still(page)
        assert "take a picture and open that" in b.spoken(page, "notice")
        assert not page.locator("#camera").count()
        pick(page, picture_of_the_code(tmp_path))  # what it says can be done, and nothing is held up
        b.at(page, "take-over").wait_for(state="attached", timeout=60_000)


@pytest.mark.long
def test_the_camera_is_closed_by_its_button_and_by_escape(
    static: b.Server, known: Path, playwright: Playwright
) -> None:
    """Chromium's stand-in shows a picture without a code where it is given no film."""
    flags = ("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream")
    with b.browser_at(playwright, known, flags=flags) as context:
        page = b.open_app(context, static.address)
        to_backup(page)
        for close in ("click", "Escape"):
            b.tap(page, "read-camera")
            cover = page.locator("#camera")
            cover.wait_for(state="attached", timeout=30_000)
            b.wait_true(page, "document.querySelector('#camera video').currentTime > 0")
            if close == "click":
                cover.locator("button").click()
            else:
                page.keyboard.press(close)
            cover.wait_for(state="detached", timeout=30_000)
            b.still(page)
            assert not b.at(page, "notice").count()
            assert not b.at(page, "take-over").count()


def test_the_browsers_offer_to_install_waits_on_the_page_of_backups(
    static: b.Server, known_phone: BrowserContext
) -> None:
    """The event and its two answers are those of the manifest's incubations (W3C WICG, from memory)."""
    page = b.open_app(known_phone, static.address)
    held = page.evaluate(
        """() => {
            const offer = new Event("beforeinstallprompt", { cancelable: true });
            offer.prompt = async () => { document.documentElement.dataset.prompted = "yes"; };
            offer.userChoice = Promise.resolve({ outcome: "dismissed" });
            dispatchEvent(offer);
            return offer.defaultPrevented;
        }"""
    )
    assert held, "the browser's own strip would offer it before a backup is made"
    to_backup(page)
    b.tap(page, "install")
    b.at(page, "install").wait_for(state="detached", timeout=30_000)
    assert page.evaluate("document.documentElement.dataset.prompted") == "yes"

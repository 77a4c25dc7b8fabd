"""build/run as it is called: where it listens, what it prints and opens, and how it ends.

It runs here in the environment of the tests; that it makes its own is proved in tests/test_project.py.
"""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import browser as b
import pytest
from playwright.sync_api import Playwright
from qr_reader import read_terminal

from drafting.order import make, read_order
from drafting.record import documents

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "assets" / "demo" / "order.json"
HERE_ONLY, EVERYWHERE = "127.0.0.1", "0.0.0.0"
RUN = """
import sys
from pathlib import Path
sys.path.insert(0, {build!r})
import environment
environment.ensure = lambda use: Path(sys.executable)
import run
raise SystemExit(run.main())
""".format(build=str(ROOT / "build"))


@dataclass
class Running:
    """A build/run that serves, and what it has printed."""

    process: "subprocess.Popen[str]"
    port: int
    printed: str = ""

    def reads(self, pattern: str) -> str:
        """Read what it prints up to a line that fits, and return that line."""
        assert self.process.stdout
        for line in self.process.stdout:
            self.printed += line
            if re.search(pattern, line):
                return line
        raise AssertionError(f"it ended with {self.process.wait()} and never said {pattern!r}: {self.printed}")

    def interrupted(self) -> int:
        """Press Ctrl and C; return the code it ends with."""
        os.killpg(self.process.pid, signal.SIGINT)
        return self.process.wait(20)


@contextmanager
def running(*options: str, port: int | None = None, **variables: str) -> Iterator[Running]:
    """Run build/run as in a terminal of its own."""
    port = port or b.free_port()
    process = subprocess.Popen(
        [sys.executable, "-c", RUN, "--port", str(port), *options],
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
        env={**os.environ, **variables},
    )
    try:
        yield Running(process, port)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait(10)
        assert process.stdout
        process.stdout.close()


def answers(host: str, port: int) -> bool:
    """Whether something takes a call at this address of this computer."""
    with socket.socket() as caller:
        caller.settimeout(2)
        return caller.connect_ex((host, port)) == 0


def listening(port: int) -> set[str]:
    """The addresses on which this computer listens at a port, as the system itself lists them (Linux)."""
    found = set()
    for family, table in ((socket.AF_INET, "tcp"), (socket.AF_INET6, "tcp6")):
        for line in Path(f"/proc/net/{table}").read_text().splitlines()[1:]:
            _, local, _, state, *_ = line.split()
            host, number = local.split(":")
            if state == "0A" and int(number, 16) == port:
                words = [bytes.fromhex(host[start : start + 8])[::-1] for start in range(0, len(host), 8)]
                found.add(socket.inet_ntop(family, b"".join(words)))
    return found


needs_list = pytest.mark.skipif(not Path("/proc/net/tcp").exists(), reason="this system does not list its listeners")


@needs_list
def test_it_opens_the_app_on_this_computer_alone_and_says_where(tmp_path: Path) -> None:
    window = tmp_path / "window.py"
    window.write_text(f"import sys; open({str(tmp_path / 'opened')!r}, 'w').write(sys.argv[1])")
    with running(BROWSER=f"{sys.executable} {window} %s") as app:
        line = app.reads("http")
        address = f"http://127.0.0.1:{app.port}/"
        assert f" {address} " in line
        assert listening(app.port) == {HERE_ONLY}
        assert answers("127.0.0.1", app.port)
        assert not answers("127.0.0.2", app.port), "no other address of this computer is served"
        b.wait_for(address)
        end = time.monotonic() + 10
        while not (tmp_path / "opened").exists() and time.monotonic() < end:
            time.sleep(0.05)
        assert (tmp_path / "opened").read_text() == address, "the person's own browser is sent there"
        assert app.interrupted() == 0
        while answers("127.0.0.1", app.port) and time.monotonic() < end + 10:
            time.sleep(0.05)
        assert listening(app.port) == set(), "nothing is left running"


def test_a_port_in_use_is_passed_over() -> None:
    port = next(each for each in range(18550, 18950, 50) if not answers("127.0.0.1", each))
    with socket.create_server(("127.0.0.1", port)), running("--no-window", port=port) as app:
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", app.reads("http"))
        assert found
        assert port < int(found[1]) < port + 50
        b.wait_for(found[0])


@needs_list
def test_the_local_network_is_served_when_asked_and_everybody_is_told(playwright: Playwright, tmp_path: Path) -> None:
    with running("--lan") as app:
        found = re.search(r"http://([\d.]+):\d+/", app.reads("http"))
        assert found
        address, host = found[0], found[1]
        app.reads("unencrypted")
        assert read_terminal(app.printed) == address, "the code to photograph leads to the address"
        assert listening(app.port) == {EVERYWHERE}
        assert answers(host, app.port)
        assert answers("127.0.0.2", app.port)
        with b.browser_at(playwright, tmp_path / "profile", reach=host) as context:
            page = b.open_app(context, address)
            page.get_by_text(re.compile("not encrypted")).first.wait_for(state="attached", timeout=15_000)
            assert page.url == address
        assert app.interrupted() == 0


def test_the_app_on_this_computer_alone_has_nothing_to_warn_of(app: b.Server, phone: b.BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    b.tap(page, "settings")
    page.get_by_text("stays in this browser").first.wait_for(state="attached", timeout=15_000)
    assert not page.get_by_text(re.compile("not encrypted")).count()


def test_the_demo_is_drafted_where_one_stands(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", RUN, "--demo"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    named = done.stdout.splitlines()[-1]
    assert named.startswith(f"In {tmp_path / 'out'}: ")
    files = {path.name for path in (tmp_path / "out").iterdir()}
    assert set(named.partition(": ")[2].split(", ")) == files
    assert {"draft.json", "chalk-sheet.pdf", "pattern.pdf"} <= files
    order, _ = read_order(json.loads(DEMO.read_text("utf-8")))
    assert order
    assert (tmp_path / "out" / "draft.json").read_bytes() == documents.draft_json(make(order))

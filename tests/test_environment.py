"""The project's own environment is made once, beside the one that works, and the launchers say what is in the way."""

import http.server
import json
import os
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "build"))

import environment  # noqa: E402
import run  # noqa: E402


class Maker:
    """Stands for venv and pip: makes what they make, or fails, and counts how often it was asked."""

    def __init__(self, making: Path) -> None:
        self.making, self.made, self.fails, self.takes = making, 0, False, 0.0

    def __call__(self, command: list[str], **_: object) -> SimpleNamespace:
        if command[1:3] == ["-m", "venv"]:
            self.made += 1
            time.sleep(self.takes)
            (self.making / "bin").mkdir(parents=True)
            (self.making / "bin" / "python").symlink_to(sys.executable)
            (self.making / "bin" / "tool").write_bytes(b"#!" + os.fsencode(self.making) + b"/bin/python\n\xff")
        return SimpleNamespace(returncode=int(self.fails and "install" in command))


@pytest.fixture
def maker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Maker:
    """An empty checkout in which environments can be made in no time."""
    locks = tmp_path / "locks"
    locks.mkdir()
    for use in ("run", "test"):
        (locks / f"{use}.txt").write_text(use)
    place, making = tmp_path / ".venv", tmp_path / ".venv.making"
    for name, value in (
        ("LOCKS", locks), ("PLACE", place), ("MAKING", making), ("TURN", tmp_path / ".venv.turn"),
        ("PYTHON", environment.python_of(place)),
    ):  # fmt: skip
        monkeypatch.setattr(environment, name, value)
    maker = Maker(making)
    monkeypatch.setattr(environment.subprocess, "run", maker)
    monkeypatch.setattr(environment, "need_venv", lambda: None)
    return maker


def left(maker: Maker) -> set[str]:
    """What lies in the checkout."""
    return {path.name for path in maker.making.parent.iterdir()}


def test_the_environment_is_made_once_for_each_lock(maker: Maker) -> None:
    assert environment.ensure("test") == environment.PYTHON
    assert environment.ensure("run") == environment.PYTHON, "the test lock holds the run lock"
    assert maker.made == 1
    assert left(maker) == {"locks", ".venv", ".venv.turn"}
    tool = (environment.PLACE / "bin" / "tool").read_bytes()
    assert tool == b"#!" + os.fsencode(environment.PLACE) + b"/bin/python\n\xff", (
        "scripts run by the Python beside them"
    )
    (environment.LOCKS / "test.txt").write_text("newer")
    assert not environment.is_current("test")
    assert not environment.is_current("run")
    environment.ensure("run")
    assert maker.made == 2
    assert environment.is_current("run")
    assert not environment.is_current("test"), "the run lock does not hold the test lock"


@pytest.mark.parametrize(("version", "current"), [((3, 99, 1), True), ((3, 99, 12), True), ((3, 100, 0), False)])
def test_another_patch_of_python_keeps_the_environment(
    maker: Maker, monkeypatch: pytest.MonkeyPatch, version: tuple[int, int, int], current: bool
) -> None:
    def python(major: int, minor: int, patch: int) -> SimpleNamespace:
        return SimpleNamespace(
            version=f"{major}.{minor}.{patch} (built today)", version_info=SimpleNamespace(major=major, minor=minor),
            executable=sys.executable, implementation=sys.implementation,
        )  # fmt: skip

    monkeypatch.setattr(environment, "sys", python(3, 99, 0))
    environment.ensure("run")
    monkeypatch.setattr(environment, "sys", python(*version))
    assert environment.is_current("run") is current


def test_what_cannot_be_made_leaves_what_was_there(maker: Maker, capsys: pytest.CaptureFixture[str]) -> None:
    environment.ensure("run")
    before = (environment.PLACE / environment.STAMP).read_bytes()
    (environment.LOCKS / "run.txt").write_text("newer")
    (environment.LOCKS / "test.txt").write_text("newer")
    maker.fails = True
    capsys.readouterr()
    with pytest.raises(SystemExit) as ended:
        environment.ensure("run")
    assert ended.value.code == 1
    assert capsys.readouterr().err.endswith("What was there is as it was.\n")
    assert (environment.PLACE / environment.STAMP).read_bytes() == before
    assert left(maker) == {"locks", ".venv", ".venv.turn"}


def test_one_that_was_broken_off_is_taken_up_once_it_is_whole(maker: Maker) -> None:
    environment.make("run")
    assert environment.ensure("run") == environment.PYTHON
    assert maker.made == 1, "it only had to take its place"
    (environment.LOCKS / "run.txt").write_text("newer")
    (environment.LOCKS / "test.txt").write_text("newer")
    maker.making.mkdir()
    (maker.making / "half").touch()
    environment.ensure("run")
    assert maker.made == 2
    assert not (environment.PLACE / "half").exists()


def test_a_link_to_another_checkouts_environment_serves_while_its_lock_is_the_same(maker: Maker) -> None:
    environment.ensure("run")
    other = environment.PLACE.rename(environment.PLACE.with_name("other"))
    stamp = {**environment.fingerprint("run"), "place": str(other.resolve())}
    (other / environment.STAMP).write_text(json.dumps(stamp))
    environment.PLACE.symlink_to(other)
    environment.ensure("run")
    assert maker.made == 1
    assert environment.PLACE.is_symlink()
    (environment.LOCKS / "run.txt").write_text("newer")
    environment.ensure("run")
    assert maker.made == 2
    assert not environment.PLACE.is_symlink()
    assert json.loads((other / environment.STAMP).read_text()) == stamp, "the other one is never made over"


@pytest.mark.skipif(os.name == "nt", reason="there, two starts at once are not kept apart")
def test_two_starts_at_once_make_one_environment(maker: Maker, capsys: pytest.CaptureFixture[str]) -> None:
    maker.takes = 0.4
    starts = [threading.Thread(target=environment.ensure, args=("run",)) for _ in range(3)]
    for start in starts:
        start.start()
    for start in starts:
        start.join(20)
    assert maker.made == 1
    assert environment.is_current("run")
    assert capsys.readouterr().out.count("Another start is making the environment; this one waits for it.\n") == 2


def test_a_folder_that_cannot_be_written_is_told_in_one_sentence(
    maker: Maker, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    environment.ensure("run")
    monkeypatch.setattr(environment, "TURN", maker.making.parent / "not there" / "turn")
    assert environment.ensure("run") == environment.PYTHON, "what is there needs nothing written"
    with pytest.raises(SystemExit):
        environment.ensure("test")
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "Copy the project to a folder of yours." in said


def serving(answer: int) -> http.server.ThreadingHTTPServer:
    """A server of this computer that answers everything with one status."""

    class Handler(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(answer)
            self.end_headers()

        def log_message(self, *_: object) -> None:
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server


@pytest.mark.parametrize(
    ("status", "program", "open_"),
    [
        (200, "import time; time.sleep(60)", True),
        (503, "import time; time.sleep(1)", False),
        (200, "raise SystemExit(3)", False),
    ],
)
def test_it_is_open_only_once_its_page_is_answered(status: int, program: str, open_: bool) -> None:
    server, child = serving(status), subprocess.Popen([sys.executable, "-c", program])
    try:
        if status == 200 and not open_:
            child.wait(20)
        assert run.answered(child, f"http://127.0.0.1:{server.server_port}/") is open_
    finally:
        child.kill()
        child.wait(10)
        server.shutdown()
        server.server_close()


@pytest.mark.parametrize(
    ("wanted", "taken", "found"),
    [
        (8550, lambda port: False, 8550),
        (8550, lambda port: port < 8599, 8599),
        (8550, lambda port: port < 8600, "The ports 8550 to 8599 are all in use: name another with --port."),
        (65530, lambda port: True, "The ports 65530 to 65535 are all in use: name another with --port."),
        (65535, lambda port: False, 65535),
        (65536, lambda port: False, "A port is a number from 1 to 65535: name one with --port."),
        (0, lambda port: False, "A port is a number from 1 to 65535: name one with --port."),
    ],
)
def test_a_port_that_nobody_uses_is_found_or_told(
    wanted: int, taken: Callable[[int], bool], found: int | str,
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    monkeypatch.setattr(run, "in_use", taken)
    if isinstance(found, int):
        assert run.free_port(wanted) == found
    else:
        with pytest.raises(SystemExit):
            run.free_port(wanted)
        assert capsys.readouterr().err == f"{found}\n"


def test_a_port_is_in_use_while_something_listens() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server:
        port = server.getsockname()[1]
        assert run.in_use(port)
    assert not run.in_use(port)


@pytest.mark.parametrize(
    ("answered", "opened", "code", "said"),
    [
        (True, True, 0, "Foldmark is open at http://127.0.0.1:8550/  (to end it: Ctrl and C)\n"),
        (True, False, 0, "No browser could be opened from here: open this address in one.\n"),
        (False, True, 3, "The app did not start; what went wrong stands above.\n"),
    ],
)
def test_what_is_in_the_way_of_the_app_is_told(
    answered: bool, opened: bool, code: int, said: str,
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    ended = SimpleNamespace(wait=lambda: code, terminate=lambda: None)
    monkeypatch.setattr(environment, "ensure", lambda use: Path(sys.executable))
    monkeypatch.setattr(run.subprocess, "Popen", lambda *_, **__: ended)
    monkeypatch.setattr(run, "answered", lambda server, address: answered)
    monkeypatch.setattr(run.webbrowser, "open", lambda address: opened)
    assert run.serve(lan=False, port=8550, window=True) == code
    told = "".join(capsys.readouterr())
    assert told.endswith(said)
    assert ("is open at" in told) is answered


def test_the_stamp_says_what_it_was_made_from(maker: Maker) -> None:
    environment.ensure("run")
    assert json.loads((environment.PLACE / environment.STAMP).read_text()) == environment.fingerprint("run")

"""Opens the app, or drafts an order into a folder and says where.

`build/run` serves the app on this computer alone and opens it; `build/run --lan` serves it to the local network and
shows the address with a code to photograph; `build/run ORDER.json [--out FOLDER]` drafts an order (`--demo` the demo
order) into `out` where you stand. Other options of an order go on to `python -m drafting`. A draft ends with its exit
code: 0 drafted, 2 the order cannot be read, 3 a check stops.
"""

import argparse
import socket
import subprocess
import sys
import time
import urllib.request
import webbrowser
from pathlib import Path

import environment

DEMO = environment.ROOT / "assets" / "demo" / "order.json"
DRAFTED = 0
PORTS = 50
"""So many ports are tried."""
LAST_PORT = 65535
STOPPED = 3  # by a check: the draft is written, the paper is withheld
SHOW_CODE = "import sys, segno; segno.make(sys.argv[1], error='m').terminal(compact=True)"


def main() -> int:
    """Reads the options and does one or the other, in the project's own environment."""
    reader = argparse.ArgumentParser(prog="build/run", description="Open the app, or draft an order into a folder.")
    reader.add_argument("order", nargs="?", type=Path, help="an order.json; left out, the app opens")
    reader.add_argument("--demo", action="store_true", help="draft the demo order")
    reader.add_argument("--out", type=Path, default=Path("out"), help="folder for the papers (out)")
    reader.add_argument("--lan", action="store_true", help="serve the app to the local network")
    reader.add_argument("--port", type=int, default=8550, help="port of the app (8550, or the next free one)")
    reader.add_argument("--no-window", action="store_true", help="do not open a browser window")
    chosen, rest = reader.parse_known_args()
    order = DEMO if chosen.demo else chosen.order
    if order is not None:
        return draft(order, chosen.out, rest)
    if rest:
        reader.error(f"these options belong to an order: {' '.join(rest)}")
    return serve(lan=chosen.lan, port=free_port(chosen.port), window=not chosen.no_window)


def draft(order: Path, out: Path, rest: list[str]) -> int:
    """Runs the command line of the drafting package."""
    python = environment.ensure("run")
    # -P: what lies in the folder you stand in is not taken for a part of the program.
    command = [str(python), "-P", "-m", "drafting", str(order), "--out", str(out), *rest]
    code = subprocess.run(command, env=environment.surroundings(), check=False).returncode
    if code in (DRAFTED, STOPPED) and out.is_dir():
        print(f"In {out.resolve()}: {', '.join(sorted(path.name for path in out.iterdir()))}")
    return code


def serve(*, lan: bool, port: int, window: bool) -> int:
    """Serves the app until it is interrupted, and says where."""
    python = environment.ensure("run")
    host = own_address() if lan else "127.0.0.1"
    address = f"http://{host}:{port}/"
    command = [str(python), "-P", "-m", "app.main", "--host", "0.0.0.0" if lan else host, "--port", str(port)]
    server = subprocess.Popen(command, env=environment.surroundings())
    try:
        if not answered(server, f"http://127.0.0.1:{port}/"):
            print("The app did not start; what went wrong stands above.", file=sys.stderr)
            return server.wait() or 1
        print(f"Foldmark is open at {address}  (to end it: Ctrl and C)", flush=True)
        if lan:
            subprocess.run([str(python), "-P", "-c", SHOW_CODE, address], env=environment.surroundings(), check=False)
            print("Anybody in this network can open it; figures pass through this computer unencrypted.", flush=True)
        elif window and not webbrowser.open(address):
            print("No browser could be opened from here: open this address in one.", flush=True)
        return server.wait()
    except KeyboardInterrupt:
        return 0
    finally:
        server.terminate()


def answered(server: "subprocess.Popen[bytes]", address: str) -> bool:
    """Waits until the app answers with its page; False once it has ended instead."""
    while server.poll() is None:
        try:
            with urllib.request.urlopen(address, timeout=5) as page:
                if page.status == 200:
                    return server.poll() is None
        except OSError:
            time.sleep(0.05)
    return False


def free_port(wanted: int) -> int:
    """The wanted port, or the next one that nobody uses; ends with one plain line where there is none."""
    if not 0 < wanted <= LAST_PORT:
        environment.stop(f"A port is a number from 1 to {LAST_PORT}: name one with --port.")
    tried = range(wanted, min(wanted + PORTS, LAST_PORT + 1))
    free = next((port for port in tried if not in_use(port)), None)
    if free is None:
        environment.stop(f"The ports {tried[0]} to {tried[-1]} are all in use: name another with --port.")
    return free


def in_use(port: int) -> bool:
    """Whether something answers at a port of this computer."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def own_address() -> str:
    """This computer's address in the local network; no packet is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # a documentation address (RFC 5737): nothing is there
            return str(probe.getsockname()[0])
        except OSError:
            return socket.gethostbyname(socket.gethostname())


if __name__ == "__main__":
    raise SystemExit(main())

"""Drafts an order into a folder and says where: `build/run [ORDER.json] [--out FOLDER]`.

Without an order the demo order is drafted, without a folder into `out` where you stand. Other options go on to
`python -m drafting`. Ends with the exit code of the draft: 0 drafted, 2 the order cannot be read, 3 a check stops.
"""

import argparse
import subprocess
from pathlib import Path

import environment

DEMO = environment.ROOT / "assets" / "demo" / "order.json"
DRAFTED = 0
STOPPED = 3  # by a check: the draft is written, the paper is withheld


def main() -> int:
    """Runs the command line of the drafting package in the project's own environment."""
    reader = argparse.ArgumentParser(prog="build/run", description="Draft an order into a folder.")
    reader.add_argument("order", nargs="?", type=Path, default=DEMO, help="an order.json; the demo order if none")
    reader.add_argument("--out", type=Path, default=Path("out"), help="folder for the papers (out)")
    chosen, rest = reader.parse_known_args()
    python = environment.ensure("run")
    # -P: what lies in the folder you stand in is not taken for a part of the program.
    command = [str(python), "-P", "-m", "drafting", str(chosen.order), "--out", str(chosen.out), *rest]
    code = subprocess.run(command, env=environment.surroundings(), check=False).returncode
    if code in (DRAFTED, STOPPED) and chosen.out.is_dir():
        print(f"In {chosen.out.resolve()}: {', '.join(sorted(path.name for path in chosen.out.iterdir()))}")
    return code


if __name__ == "__main__":
    raise SystemExit(main())

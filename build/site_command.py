"""Runs the site builder in the project's own environment: `build/site [--out FOLDER] [--serve [PORT]]`."""

import subprocess
import sys

import environment


def main() -> int:
    """Sets up the environment that holds Node and the compressor, then builds."""
    python = environment.ensure("test")
    command = [str(python), str(environment.ROOT / "build" / "web_site.py"), *sys.argv[1:]]
    try:
        return subprocess.run(command, env=environment.surroundings(), check=False).returncode
    except KeyboardInterrupt:
        return 0


if __name__ == "__main__":
    raise SystemExit(main())

"""Runs the camera in the project's own environment: `build/screens`."""

import subprocess
import sys

import environment


def main() -> int:
    """Sets up the environment and Chromium, then takes the pictures."""
    python = environment.ensure("test")
    environment.need_browsers(["chromium"])
    command = [str(python), str(environment.ROOT / "build" / "camera.py"), *sys.argv[1:]]
    return subprocess.run(command, env=environment.surroundings(), check=False).returncode


if __name__ == "__main__":
    raise SystemExit(main())

"""Where the files are that come with the program: letters, the demo order, schemas."""

from pathlib import Path


def _folder() -> Path:
    """The nearest folder assets above this file: of the checkout, or beside the archive the program was loaded from.

    Where there is none, the place where the archive itself may hold it.
    """
    above = [parent / "assets" for parent in Path(__file__).resolve().parents[2:]]
    return next((folder for folder in above if folder.is_dir()), above[0])


ASSETS = _folder()

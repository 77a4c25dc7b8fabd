"""Where the bundled letters are found, in a checkout as in an archive."""

from dataclasses import dataclass
from pathlib import Path

from drafting.render.assets import ASSETS

FONT_FOLDER = ASSETS / "fonts"
REGULAR = "FoldmarkSans-Regular.ttf"
STRONG = "FoldmarkSans-SemiBold.ttf"


@dataclass(frozen=True, slots=True)
class Fonts:
    """The two weights a renderer writes with, each a TrueType file or its bytes."""

    regular: Path | bytes
    strong: Path | bytes


def default_fonts() -> Fonts:
    """The bundled family: files beside the package, or bytes out of the archive the package was loaded from.

    Raises OSError when neither holds them.
    """
    regular, strong = FONT_FOLDER / REGULAR, FONT_FOLDER / STRONG
    if regular.is_file() and strong.is_file():
        return Fonts(regular, strong)
    # In a zip the folder is no folder; the loader that found this module reads the archive instead.
    read = getattr(__spec__.loader, "get_data", None)
    if read is None:
        raise OSError(f"no fonts in {FONT_FOLDER}")
    return Fonts(read(str(regular)), read(str(strong)))

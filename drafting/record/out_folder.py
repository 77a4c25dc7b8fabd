"""The folder a set of files is written into: written apart, exchanged whole, an earlier set put away.

A sheet of an earlier draft beside a new outcome would be cut by mistake, so what we wrote before moves to `earlier`.
"""

import shutil
import tempfile
from collections.abc import Callable, Mapping
from contextlib import suppress
from itertools import count
from pathlib import Path

#: Every name that a set may hold. A file of such a name is ours when its content shows it.
NAMES = (
    "draft.json",
    "chalk-sheet.pdf",
    "chalk-sheet-stitching-line.pdf",
    "pattern.pdf",
    "pattern.svg",
    "cloth.svg",
)
EARLIER = "earlier"
_APART = ".foldmark-"

_Moves = list[tuple[Path, Path]]


class NotWrittenError(Exception):
    """Why a set was not written: what is wrong and what to do, each without a full stop."""

    def __init__(self, wrong: str, fix: str) -> None:
        """Takes the two halves of the line."""
        super().__init__(wrong)
        self.wrong = wrong
        self.fix = fix


class OutFolder:
    """A folder for sets of files. Every failure leaves it as it was."""

    def __init__(self, path: Path) -> None:
        """The folder at `path`, which need not be there yet."""
        self.path = path

    def write(self, files: Mapping[str, bytes], before: Callable[[], None]) -> bool:
        """Writes the files apart, calls `before`, then exchanges the set; whether an earlier set was put away.

        Raises NotWrittenError, or what `before` raises; nothing is exchanged then. The same set again changes nothing.
        """
        made: list[Path] = []
        apart: Path | None = None
        done = False
        try:
            made = self._make()
            self._free_for(files)
            apart = Path(tempfile.mkdtemp(prefix=_APART, dir=self.path))
            apart.chmod(self.path.stat().st_mode & 0o777)
            for name, content in files.items():
                (apart / name).write_bytes(content)
            before()
            moved = False
            if not self._same(files):
                earlier = self._to_earlier()
                _move([*earlier, *((apart / name, self.path / name) for name in files)])
                moved = bool(earlier)
            done = True
        except BrokenPipeError:
            raise
        except (OSError, ValueError) as error:
            why = reason(error) if isinstance(error, OSError) else "its name holds a NUL"
            raise NotWrittenError(
                f"the set cannot be written ({why})", "choose another folder, or mend that"
            ) from error
        finally:
            if apart is not None:
                shutil.rmtree(apart, ignore_errors=True)
            if not done:
                for folder in reversed(made):
                    with suppress(OSError):
                        folder.rmdir()
        return moved

    def put_away(self) -> bool:
        """Moves our files of an earlier draft to `earlier`; whether there were any. Nothing is made, nothing raised."""
        try:
            moves = self._to_earlier()
            _move(moves)
        except OSError:
            return False
        return bool(moves)

    def _make(self) -> list[Path]:
        """Makes the folder and those above it; the ones that were missing, outermost first."""
        if self.path.is_symlink() and not self.path.exists():
            raise NotWrittenError(
                f"{self.path.name} is a link that leads nowhere", "mend the link or choose another folder"
            )
        if self.path.exists() and not self.path.is_dir():
            raise NotWrittenError(f"{self.path.name} is a file and not a folder", "choose another name for the folder")
        missing = [one for one in (self.path, *self.path.parents) if not one.exists()][::-1]
        made: list[Path] = []
        try:
            for folder in missing:
                folder.mkdir()
                made.append(folder)
        except OSError:
            for folder in reversed(made):
                folder.rmdir()
            raise
        return made

    def _free_for(self, files: Mapping[str, bytes]) -> None:
        for name in files:
            place = self.path / name
            if (place.exists() or place.is_symlink()) and not ours(place):
                raise NotWrittenError(f"{name} stands there already and is not of our making", "choose another folder")

    def _same(self, files: Mapping[str, bytes]) -> bool:
        held = {name for name in NAMES if ours(self.path / name)}
        return held == set(files) and all((self.path / name).read_bytes() == content for name, content in files.items())

    def _to_earlier(self) -> _Moves:
        """Where our files go: to `earlier`, and what we put there before into a numbered folder in it."""
        held = [name for name in NAMES if ours(self.path / name)]
        if not held:
            return []
        put_away = self.path / EARLIER
        older = [name for name in NAMES if ours(put_away / name)]
        numbered = next(folder for n in count(2) if not (folder := put_away / str(n)).exists())
        moves = [(put_away / name, numbered / name) for name in older]
        kept = {name for name in NAMES if (put_away / name).exists() and name not in older}
        if kept:  # what is not ours keeps its place
            put_away = next(
                folder for n in count(2) if not (folder := put_away / str(n)).exists() and folder != numbered
            )
        return moves + [(self.path / name, put_away / name) for name in held]


def ours(place: Path) -> bool:
    """Whether a file of one of NAMES is a file of a draft: by the format line, or by our own lettering."""
    if place.is_symlink() or not place.is_file():
        return False
    content = place.read_bytes()
    if place.suffix == ".json":
        return b'"format": "foldmark-draft"' in content[:200]
    if place.suffix == ".pdf":
        return content.startswith(b"%PDF-") and b"+FoldmarkSans" in content
    return content.startswith(b"<?xml") and b"Lengths in millimetres of cloth." in content


def reason(error: OSError) -> str:
    """The system's words for a failure: "no space left on device"."""
    words = error.strerror or type(error).__name__
    return words[0].lower() + words[1:]


def _move(moves: _Moves) -> None:
    """All of the moves or, when one fails, none."""
    done: _Moves = []
    made: list[Path] = []
    try:
        for source, target in moves:
            if not target.parent.is_dir():
                target.parent.mkdir()
                made.append(target.parent)
            source.rename(target)
            done.append((source, target))
    except BaseException:
        for source, target in reversed(done):
            target.rename(source)
        for folder in reversed(made):
            folder.rmdir()
        raise

"""What the app asks of the world outside it, as plain records: `app.update` returns them, `app.effects` does them."""

from dataclasses import dataclass

from app.actions import Way


class Ask:
    """Something to be done outside the state."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Load(Ask):
    """Read what is saved; `route` is where the app was opened."""

    route: str


@dataclass(frozen=True, slots=True)
class LoadFrozen(Ask):
    """Read the frozen draft of a garment."""

    garment: str


@dataclass(frozen=True, slots=True)
class EraseAll(Ask):
    """Delete every record on this device, then look that none is left."""


@dataclass(frozen=True, slots=True)
class ReadRoom(Ask):
    """Ask how much room the records take and how much is left."""


@dataclass(frozen=True, slots=True)
class ReadInstall(Ask):
    """Ask whether the browser lets the page be installed on the device."""


@dataclass(frozen=True, slots=True)
class InstallHere(Ask):
    """Have the browser ask the person whether the page is to be installed."""


@dataclass(frozen=True, slots=True)
class SaveBook(Ask):
    """Save what was changed in the book, a moment later so that fast typing is saved once."""


@dataclass(frozen=True, slots=True)
class SavePlace(Ask):
    """Keep where this tab is, a moment later, for the next opening; another tab may have kept another place since."""


@dataclass(frozen=True, slots=True)
class SaveNow(Ask):
    """Save what was changed in the book and the frozen drafts at once."""


@dataclass(frozen=True, slots=True)
class RemoveFrozen(Ask):
    """Remove the frozen draft of a garment from the device."""

    garment: str


@dataclass(frozen=True, slots=True)
class Draft(Ask):
    """Draft a garment: quickly, then with its ways out when `full`, then all that the lay screen compares when `lay`.

    A newer asking puts an older one aside.
    """

    garment: str
    full: bool = False
    lay: bool = False


@dataclass(frozen=True, slots=True)
class Freeze(Ask):
    """Make the draft that is to be chalked and send it back."""

    garment: str


@dataclass(frozen=True, slots=True)
class GoTo(Ask):
    """Show this address in the browser, so that its back button comes back here."""

    route: str


@dataclass(frozen=True, slots=True)
class MakeFile(Ask):
    """Make one file of a garment and hand it to the device: to keep, to print, or to give to another of its apps."""

    garment: str
    name: str
    way: Way = "save"


@dataclass(frozen=True, slots=True)
class MakeBackup(Ask):
    """Make a backup of everything, or of one person or garment, and hand it to the device."""

    person: str = ""
    garment: str = ""


@dataclass(frozen=True, slots=True)
class ReadBackup(Ask):
    """Read the bytes of a file that was chosen."""

    content: bytes


@dataclass(frozen=True, slots=True)
class ReadCamera(Ask):
    """Read the code on a chalk sheet with the camera."""


@dataclass(frozen=True, slots=True)
class Speak(Ask):
    """Read a text aloud in place of what is being read; an empty one only stops that."""

    text: str


@dataclass(frozen=True, slots=True)
class StayAwake(Ask):
    """Keep the screen from going dark, or let it again."""

    on: bool


@dataclass(frozen=True, slots=True)
class ReadDemo(Ask):
    """Read the demo order that comes with the app."""


@dataclass(frozen=True, slots=True)
class ReadDay(Ask):
    """Ask the calendar for today, for a person's measures."""

    person: str

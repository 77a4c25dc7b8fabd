"""Everything that can happen, one record for each. `app.update` says what follows.

A garment or person that an action is about is always named, so that a late answer or a double tap cannot touch another.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from app.backup import Backup
from app.merging import Choice
from app.saved import Kept, ReadBook, Unreadable
from app.state import (
    Drafted,
    FoldSide,
    FrozenDraft,
    GarmentState,
    Installs,
    Kind,
    LaidOut,
    Light,
    Line,
    Measuring,
    Paper,
    Place,
    SortedBy,
    Tape,
    TopSide,
    View,
)
from drafting.units import Unit

Way = Literal["save", "print", "share"]
"""What is done with a file that was made."""
Came = Literal["saved", "printing", "shared", "kept", "saved_to_print", "saved_to_share"]
"""What came of it: saved; shown for printing; shared; offered for sharing and kept back; saved, because the browser
does not print or share files."""


class Action:
    """Something that happened: a tap, typed text, an answer from outside."""

    __slots__ = ()


# ---- Where one is --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Go(Action):
    """Go to a place."""

    place: Place


@dataclass(frozen=True, slots=True)
class Routed(Action):
    """The browser's address changed: its back button, a link, or an answer to our own going."""

    route: str


# ---- Saved records --------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Loaded(Action):
    """What was saved has been read. `route` is the address the app was opened at.

    `place` is where a tab of this browser was last, `mark` this tab's own part of the ids that it gives, `today` the
    day by the device's calendar.
    """

    found: ReadBook
    route: str
    place: Place
    mark: str = ""
    today: str = ""


@dataclass(frozen=True, slots=True)
class LoadAgain(Action):
    """Try once more to read what is kept."""


@dataclass(frozen=True, slots=True)
class ReadFrozen(Action):
    """Try once more to read the frozen draft of a garment."""

    garment: str


@dataclass(frozen=True, slots=True)
class FrozenRead(Action):
    """What came of it: the draft, None where it could not be read; `kept` says whether it is there at all."""

    garment: str
    frozen: FrozenDraft | None
    kept: bool = True


@dataclass(frozen=True, slots=True)
class LoadFailed(Action):
    """What is kept could not be read."""

    words: str


@dataclass(frozen=True, slots=True)
class NotSaved(Action):
    """Something could not be saved."""

    words: str
    full: bool = False


@dataclass(frozen=True, slots=True)
class RecordCame(Action):
    """Another tab saved a record of which nothing was changed here; None where it was deleted."""

    key: str
    kept: Kept | Unreadable | None


@dataclass(frozen=True, slots=True)
class Clashed(Action):
    """Another tab saved a person or a garment that was changed here too. What is here is not saved."""

    key: str
    theirs: Kept | None


@dataclass(frozen=True, slots=True)
class KeepBoth(Action):
    """Keep what was changed here as one of its own, beside what the other tab saved."""

    key: str


@dataclass(frozen=True, slots=True)
class TakeTheirs(Action):
    """Let go what was changed here, for what the other tab saved."""

    key: str


# ---- People ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AddPerson(Action):
    """Add a person, for a garment when one is named."""

    garment: str = ""


@dataclass(frozen=True, slots=True)
class CopyPerson(Action):
    """Copy a person with every measure."""

    person: str


@dataclass(frozen=True, slots=True)
class DeletePerson(Action):
    """Delete a person; can be undone."""

    person: str


@dataclass(frozen=True, slots=True)
class ChoosePerson(Action):
    """Make the garment for this person; an empty id lets the person be chosen anew."""

    garment: str
    person: str


@dataclass(frozen=True, slots=True)
class TypeName(Action):
    """Text typed as the name."""

    person: str
    text: str


@dataclass(frozen=True, slots=True)
class TypeAge(Action):
    """Text typed as the age."""

    person: str
    text: str


@dataclass(frozen=True, slots=True)
class TypeTakenOn(Action):
    """Text typed as the day the measures were taken."""

    person: str
    text: str


@dataclass(frozen=True, slots=True)
class TakeToday(Action):
    """The measures were taken today."""

    person: str


@dataclass(frozen=True, slots=True)
class ChooseKind(Action):
    """Woman, man or child."""

    person: str
    kind: Kind


@dataclass(frozen=True, slots=True)
class ChooseUnit(Action):
    """The unit of this person's bare numbers; new people start with it too. What was typed stays the same length."""

    person: str
    unit: Unit


@dataclass(frozen=True, slots=True)
class TypeMeasure(Action):
    """Text typed as a measure."""

    person: str
    measure: str
    text: str


@dataclass(frozen=True, slots=True)
class FocusMeasure(Action):
    """A measure's field took the focus: the figure shows its place."""

    measure: str


@dataclass(frozen=True, slots=True)
class MeasureAgain(Action):
    """Begin new measures of a person today; the ones before are kept, and garments stay with them. Can be undone."""

    person: str


@dataclass(frozen=True, slots=True)
class TypeAgain(Action):
    """Text typed as what a second tape read."""

    person: str
    measure: str
    text: str


@dataclass(frozen=True, slots=True)
class TypeFlat(Action):
    """Text typed, or an option chosen, at a field of the garment that is measured flat for a person."""

    person: str
    field: str
    text: str


@dataclass(frozen=True, slots=True)
class TakeFlat(Action):
    """Make new measures of a person of what the garment told."""

    person: str


@dataclass(frozen=True, slots=True)
class TypeNotes(Action):
    """Text typed as notes on a person."""

    person: str
    text: str


# ---- Garments -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AddGarment(Action):
    """Add a garment, for a person when one is named."""

    person: str = ""


@dataclass(frozen=True, slots=True)
class ChooseGarment(Action):
    """Make it another garment, by its name in the core. What was chosen for the one before is put aside for it."""

    garment: str
    which: str


@dataclass(frozen=True, slots=True)
class AddDemo(Action):
    """Add the person and the garment made up for trying the app out. `order` is the demo order's text."""

    order: str


@dataclass(frozen=True, slots=True)
class TryDemo(Action):
    """Somebody wants to try the app with the demo."""


@dataclass(frozen=True, slots=True)
class CopyGarment(Action):
    """Copy a garment, without its chalking."""

    garment: str


@dataclass(frozen=True, slots=True)
class DeleteGarment(Action):
    """Delete a garment; can be undone."""

    garment: str


@dataclass(frozen=True, slots=True)
class SameForAnother(Action):
    """Plan the same garment for another person."""

    garment: str


@dataclass(frozen=True, slots=True)
class UseMeasures(Action):
    """Make the garment for these measures of its person; empty for the newest, whenever they are taken."""

    garment: str
    measures: str


@dataclass(frozen=True, slots=True)
class SetState(Action):
    """How far the garment is beyond the chalk."""

    garment: str
    state: GarmentState


@dataclass(frozen=True, slots=True)
class TypeGarmentNotes(Action):
    """Text typed as notes on a garment."""

    garment: str
    text: str


@dataclass(frozen=True, slots=True)
class TypeCutNotes(Action):
    """Text typed as what was changed with the scissors."""

    garment: str
    text: str


@dataclass(frozen=True, slots=True)
class TypeTitle(Action):
    """Text typed as the garment's name."""

    garment: str
    text: str


@dataclass(frozen=True, slots=True)
class SetStyle(Action):
    """A choice or typed text for one style key; None takes the key out, so that its default holds."""

    garment: str
    key: str
    text: str | None


@dataclass(frozen=True, slots=True)
class UsePreset(Action):
    """Start from one of our own presets: its choices replace those it names."""

    garment: str
    preset: str


@dataclass(frozen=True, slots=True)
class SetCloth(Action):
    """A choice or typed text for one key of the cloth; None takes the key out."""

    garment: str
    key: str
    text: str | None


@dataclass(frozen=True, slots=True)
class SetTape(Action):
    """The tape in hand, by its smallest step."""

    garment: str
    tape: Tape


@dataclass(frozen=True, slots=True)
class TypeTapeLength(Action):
    """Text typed as the length of the tape in hand."""

    garment: str
    text: str


@dataclass(frozen=True, slots=True)
class SetLine(Action):
    """Which line is chalked."""

    garment: str
    line: Line


@dataclass(frozen=True, slots=True)
class TakeWayOut(Action):
    """Apply a way out: the dotted order keys it sets, and in words what it does."""

    garment: str
    changes: tuple[tuple[str, float | str | None], ...]
    says: str = ""


@dataclass(frozen=True, slots=True)
class KeepCloth(Action):
    """Keep the cloth of a garment by name, or what is known of it now."""

    garment: str


@dataclass(frozen=True, slots=True)
class UseCloth(Action):
    """Make a garment of a kept cloth."""

    garment: str
    cloth: str


@dataclass(frozen=True, slots=True)
class TypeClothName(Action):
    """Text typed as the name of a kept cloth."""

    cloth: str
    text: str


@dataclass(frozen=True, slots=True)
class SetWashed(Action):
    """Whether a kept cloth has been washed."""

    cloth: str
    washed: bool


@dataclass(frozen=True, slots=True)
class DeleteCloth(Action):
    """Delete a kept cloth; can be undone."""

    cloth: str


# ---- The draft ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DraftCame(Action):
    """The core answered."""

    drafted: Drafted


@dataclass(frozen=True, slots=True)
class LayCame(Action):
    """The core answered what the lay screen asks, wholly or in part."""

    laid: LaidOut


@dataclass(frozen=True, slots=True)
class LightMark(Action):
    """A mark of the drawing was tapped; an empty id puts the light out."""

    mark: str


# ---- Chalk ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StartChalking(Action):
    """Freeze the draft and begin to chalk, or go on where it was left."""

    garment: str


@dataclass(frozen=True, slots=True)
class ReadOn(Action):
    """Read the frozen marks on the tape with this smallest step."""

    garment: str
    tape: Tape


@dataclass(frozen=True, slots=True)
class KeepChalked(Action):
    """Keep what is chalked in spite of what was changed since; `print` stands for the choices of now (app.changed)."""

    garment: str
    print: str


@dataclass(frozen=True, slots=True)
class PutBack(Action):
    """Put every choice back as it was when the chalking began; can be undone."""

    garment: str


@dataclass(frozen=True, slots=True)
class DraftAgain(Action):
    """Leave the frozen draft and take a new one; can be undone."""

    garment: str


@dataclass(frozen=True, slots=True)
class Froze(Action):
    """The draft for chalking is ready."""

    garment: str
    frozen: FrozenDraft


@dataclass(frozen=True, slots=True)
class MarkDone(Action):
    """This item of the chalking is done; go on to the next. `item` is the one shown, so that a double tap is one."""

    garment: str
    item: str


@dataclass(frozen=True, slots=True)
class ChalkBack(Action):
    """Look at the item before this one again."""

    garment: str
    item: str


@dataclass(frozen=True, slots=True)
class ChalkOn(Action):
    """Go to the item after this one, without ticking this one off."""

    garment: str
    item: str


@dataclass(frozen=True, slots=True)
class SetAloud(Action):
    """Read the marks aloud, or no more."""

    on: bool


@dataclass(frozen=True, slots=True)
class SayAgain(Action):
    """Read once more what is shown, where it is read aloud at all."""


@dataclass(frozen=True, slots=True)
class NotSpoken(Action):
    """Nothing could be read aloud: there is no voice, or no script of ours."""

    why: Literal["no_voice", "not_here"]


@dataclass(frozen=True, slots=True)
class NotAwake(Action):
    """The browser does not keep the screen awake."""


@dataclass(frozen=True, slots=True)
class ChalkAt(Action):
    """Go to an item of the chalking; can be undone."""

    garment: str
    item: str


# ---- Paper ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SetPaper(Action):
    """The sheets in the printer."""

    garment: str
    paper: Paper


@dataclass(frozen=True, slots=True)
class SheetMeasures(Action):
    """Whether the code on the chalk sheet holds the measures too."""

    garment: str
    on: bool


@dataclass(frozen=True, slots=True)
class AskFile(Action):
    """Make one of the files to save, print or share it."""

    garment: str
    name: str
    way: Way = "save"


@dataclass(frozen=True, slots=True)
class FileOffered(Action):
    """The file was handed to the device."""

    name: str
    came: Came = "saved"


@dataclass(frozen=True, slots=True)
class FileFailed(Action):
    """The file could not be made or handed over."""

    words: str


# ---- Backup ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AskBackup(Action):
    """Save a backup of everything, or of what belongs to one person or one garment."""

    person: str = ""
    garment: str = ""


@dataclass(frozen=True, slots=True)
class BackupSaved(Action):
    """A backup was handed to the device. `whole` says that it holds everything, `without` names what it lacks."""

    name: str
    whole: bool
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EraseAll(Action):
    """Delete all that is kept on this device. Nothing brings it back."""


@dataclass(frozen=True, slots=True)
class Erased(Action):
    """Nothing is kept on this device any more."""


@dataclass(frozen=True, slots=True)
class NotErased(Action):
    """Something of it is still there, why in words."""

    words: str


@dataclass(frozen=True, slots=True)
class RoomCame(Action):
    """How many bytes the records take on this device and how many are left; None where the browser does not say."""

    used: int | None
    left: int | None


@dataclass(frozen=True, slots=True)
class InstallCame(Action):
    """Whether the page can be installed on this device."""

    can: Installs


@dataclass(frozen=True, slots=True)
class AskInstall(Action):
    """Install the page on this device."""


@dataclass(frozen=True, slots=True)
class FilePicked(Action):
    """A file was chosen to be opened: its bytes, None where the browser did not give them, and how many they are."""

    content: bytes | None
    size: int


@dataclass(frozen=True, slots=True)
class AskCamera(Action):
    """Read the code on a chalk sheet with the camera."""


@dataclass(frozen=True, slots=True)
class CameraClosed(Action):
    """The person has closed the camera before a code was found."""


@dataclass(frozen=True, slots=True)
class BackupRead(Action):
    """What the file holds, or why it is not opened, in words.

    `frozen` are the frozen drafts that are kept here for its garments, `unread` names those that cannot be read.
    """

    backup: Backup | None
    words: str = ""
    frozen: Mapping[str, FrozenDraft] = field(default_factory=dict)
    unread: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class ChooseKept(Action):
    """What is to be kept of a record that is not the same here and in the backup."""

    kind: str
    key: str
    choice: Choice


@dataclass(frozen=True, slots=True)
class TakeOver(Action):
    """Take over the backup that is looked at, as chosen."""


@dataclass(frozen=True, slots=True)
class LeaveBackup(Action):
    """Put away the backup that is looked at, and change nothing."""


# ---- Sew ------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class StepSewn(Action):
    """This step of the sewing is done. The step is named, so that a double tap is one."""

    garment: str
    step: str


@dataclass(frozen=True, slots=True)
class StepNotSewn(Action):
    """This step of the sewing is not done after all."""

    garment: str
    step: str


# ---- The app itself -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SetLight(Action):
    """Light, dark, or as the device has it."""

    light: Light


@dataclass(frozen=True, slots=True)
class SeeFrom(Action):
    """How the cloth lies before the person: the fold at the left or right, the top far away or near."""

    fold: FoldSide
    top: TopSide


@dataclass(frozen=True, slots=True)
class SetView(Action):
    """Show the garment on the person, or one of its pieces flat: `piece` counts from 0."""

    view: View
    piece: int = 0


@dataclass(frozen=True, slots=True)
class SetMeasuring(Action):
    """Ask one measure a screen, or all as a list; goes to the page `step` of that way."""

    measuring: Measuring
    step: int


@dataclass(frozen=True, slots=True)
class LookFor(Action):
    """Text typed to find a garment or a person at home."""

    text: str


@dataclass(frozen=True, slots=True)
class SortBy(Action):
    """The order of the garments at home."""

    order: SortedBy


@dataclass(frozen=True, slots=True)
class ShowMore(Action):
    """Show more garments and people at home."""


@dataclass(frozen=True, slots=True)
class UndoLast(Action):
    """Put back what the notice offers to put back."""


@dataclass(frozen=True, slots=True)
class CloseNotice(Action):
    """The notice has been read."""


@dataclass(frozen=True, slots=True)
class Troubled(Action):
    """Something failed that should not."""

    report: str


@dataclass(frozen=True, slots=True)
class LeaveTrouble(Action):
    """Go on after a failure, from home."""

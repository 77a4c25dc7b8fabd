"""Where a piece begins on the cloth and which way it runs: the readings of its 0, and directions."""

from drafting.chalk.lying import Spot
from drafting.chalk.marks import Apart, Counts
from drafting.chalk.tasks import ChalkPlaces, LayCloth, PlacedPiece
from drafting.chalk.words.said import Said, ordinal, the
from drafting.layout import Toward, fold_reading
from drafting.units import UNIT_NAMES, Reading, Tape

#: Directions, each as an adverb that completes "runs".
TOWARDS: dict[Toward, str] = {
    "from_cut_end": "away from the cut end",
    "to_cut_end": "towards the cut end",
    "to_left_edge": "towards the left edge",
    "to_right_edge": "towards the right edge",
    "from_fold": "away from the fold",
    "to_fold": "towards the fold",
    "to_left_fold": "towards the left fold",
    "to_right_fold": "towards the right fold",
    "to_selvages": "towards the selvages",
    "both_sides": "to both sides of it",
    "right": "to the right",
    "left": "to the left",
}
_FROM: dict[str, Counts] = {
    "the fold": "from_fold",
    "the left fold": "from_left_fold",
    "the right fold": "from_right_fold",
    "the left edge": "from_left_edge",
}
_TITLE = "Places"


def lay_cloth(task: LayCloth) -> Said:
    """Washing, squaring and how the cloth is laid, before any piece; folds across are made piece by piece."""
    runs = "the ribs of the knit run" if task.stretches else "the threads run"
    lie = f"Let it lie without pulling: {runs} straight down it."
    return Said("Prepare", f"{task.washing} {' '.join(task.laying_out)} {lie}", beside=lie)


def chalk_places(task: ChalkPlaces, tape: Tape) -> Said:
    """Where every 0, or top, is chalked before the first cut."""
    unit = UNIT_NAMES[tape.unit]
    listed = "; ".join(_listed(one) for one in task.places)
    apart = tuple(told for one in task.places for told in _apart(one))
    if any(one.spot.laying.begins != "0" for one in task.places):
        beside = "Before the first cut chalk each of the places above, with the name of its piece."
        says = f"Before the first cut chalk each of these places, with the name of its piece, in {unit}: {listed}."
        return Said(_TITLE, says, beside=beside, apart=apart, rest="")
    if any(one.fold is not None for one in task.places):
        beside = "Before the first cut chalk every fold and every 0, with the name of its piece."
        says = f"Before the first cut chalk every fold and every 0, with the name of its piece, in {unit}: {listed}."
    else:
        beside = "Before the first cut chalk every 0, with the name of its piece."
        says = f"Before the first cut chalk every 0, with the name of its piece, in {unit}: {listed}."
    return Said(_TITLE, says, beside=beside, apart=apart, rest="")


def _listed(placed: PlacedPiece) -> str:
    name = placed.label if ":" in placed.label else placed.label.lower()
    if placed.of > 1:
        name = f"{name}, {ordinal(placed.number)}"
    zero, begins = where_zero(placed.spot), placed.spot.laying.begins
    if placed.fold is None:
        return f"{name}: its {begins} lies {zero}"
    return f"{name}: its fold {along_cloth(placed.fold)}, its {begins} lies {zero}"


def _apart(placed: PlacedPiece) -> list[Apart]:
    """The fold of one place, if it has one across the cloth, then its 0 or its top."""
    name = the(placed.label) if placed.number == 1 else f"the {ordinal(placed.number)} {the(placed.label)[4:]}"
    what = "0" if placed.spot.laying.begins == "0" else "top"
    key, laying, at = f"{placed.piece}.{placed.number}", placed.spot.laying, placed.place
    aside: tuple[Counts, str] = (_FROM[laying.counted_from], laying.across.text)
    down: tuple[Counts, str] = ("from_cut_end", laying.down.text)
    if placed.fold is not None:
        fold = f"Chalk the fold for {name}, straight across the cloth."
        zero = f"Chalk the {what} of {name} on its fold."
        return [
            Apart(f"fold.{key}", "fold", _TITLE, fold, (("from_cut_end", placed.fold.text),), place=at),
            Apart(f"place.{key}", "place", _TITLE, zero, (aside,), place=at),
        ]
    if laying.across.steps == 0:
        zero = f"Chalk the {what} of {name} on {laying.counted_from}, with its name."
        return [Apart(f"place.{key}", "place", _TITLE, zero, (down,), place=at)]
    zero = f"Chalk the {what} of {name}, with its name."
    return [Apart(f"place.{key}", "place", _TITLE, zero, (aside, down), place=at)]


def where_zero(spot: Spot) -> str:
    """Where a 0 or a top lies, with its readings, as an adverb that completes "lies"."""
    laying, kind = spot.laying, spot.kind
    aside = f"{laying.across.pretty} from {laying.counted_from}"
    begins = along_cloth(laying.down) if laying.down.steps else "at the cut end"
    if kind == "across":
        return f"on the fold, {aside}"
    if kind == "fold":
        return f"on {laying.counted_from}, {begins}" if laying.down.steps else f"on {laying.counted_from} {begins}"
    return f"{aside}, {begins}"


def along_cloth(reading: Reading) -> str:
    """How far down the cloth; past the end of the tape it is measured in parts."""
    number, left = reading.tape.from_zero(reading)
    says = f"{reading.pretty} from the cut end"
    if number == 1:
        return says
    every = reading.tape.zero_every.pretty
    first = {2: f"measure {every} first", 3: f"measure {every} twice first"}.get(
        number, f"measure {every} three times first"
    )
    return f"{says} ({first}, chalk a line there, then {left.pretty} more)"


def fold_across(spot: Spot, tape: Tape) -> str:
    """How the fold across the cloth is made for one place; empty where it has none."""
    if spot.fold is None:
        return ""
    return (
        f"Lay the cloth open, then fold the {spot.fold.end} over on its chalked fold, right sides together, straight "
        f"across; in {UNIT_NAMES[tape.unit]}, the fold lies {fold_reading(spot.fold.at, tape).pretty} from the cut end."
    )

"""What a style asks of a flounce at its sleeve ends or at its hem: the keys, how they are read, and their fields.

What says nothing else is our choice.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict

from drafting import sources
from drafting.contract.fields import Chosen, Field, Option
from drafting.contract.set_out import SetOut
from drafting.parts.flounce import Flouncing, Role
from drafting.parts.reading import Length, StyleReader
from drafting.person.measures import Body
from drafting.problems import Adjustment

Fullness = Literal["quarter", "half", "three_quarter", "full", "one_and_half", "double"]
FULLNESS: Final[dict[str, float]] = {
    "quarter": 0.25, "half": 0.5, "three_quarter": 0.75, "full": 1.0, "one_and_half": 1.5, "double": 2.0,
}  # fmt: skip
#: Depth × scale where nothing is asked; of a sleeve at most this share of it.
USUAL_DEPTH: Final[Mapping[Role, float]] = {"sleeve": 120.0, "hem": 150.0}
USUAL_SHARE: Final = 0.22
#: What may be asked for, mm.
DEPTH_LIMITS: Final[Mapping[Role, tuple[float, float]]] = {"sleeve": (30.0, 300.0), "hem": (30.0, 600.0)}
#: A flounce of a sleeve is at most this share as deep as the sleeve that is left above it, as far as the elbow.
SLEEVE_SHARE: Final = 0.6
#: The elbow lies half-way down the arm and this farther, mm.
ELBOW_BELOW_HALF: Final = 20.0


class SleeveFlounceKeys(BaseModel):
    """The keys of a flounce at the sleeve ends."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    sleeve_flounce_depth: Length = "auto"
    sleeve_flounce_fullness: Fullness = "half"
    sleeve_flounce_seam: Literal["plain", "gathered"] = "plain"


class HemFlounceKeys(BaseModel):
    """The keys of a flounce at the hem."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    hem_flounce_depth: Length = "auto"
    hem_flounce_fullness: Fullness = "half"
    hem_flounce_seam: Literal["plain", "gathered"] = "plain"


def read_sleeve_flounce(read: StyleReader, style: SleeveFlounceKeys, body: Body, sleeve: float) -> Flouncing:
    """The flounce of a sleeve of this length from the shoulder point, mm."""
    usual = min(USUAL_DEPTH["sleeve"] * sources.scale(body.stature), USUAL_SHARE * sleeve)
    return _read(read, "sleeve", usual, style.sleeve_flounce_depth, style.sleeve_flounce_fullness,
                 style.sleeve_flounce_seam)  # fmt: skip


def read_hem_flounce(read: StyleReader, style: HemFlounceKeys, body: Body, length: float, shortest: float) -> Flouncing:
    """The flounce of a hem; without it what is so long, mm, may end at `shortest`."""
    room = length - shortest
    if room < DEPTH_LIMITS["hem"][0] - 1e-6:
        read.refuse("length", "it is too short for a flounce at its hem", "choose a longer one, or a hem turned up")
    usual = max(min(USUAL_DEPTH["hem"] * sources.scale(body.stature), room), DEPTH_LIMITS["hem"][0])
    return _read(read, "hem", usual, style.hem_flounce_depth, style.hem_flounce_fullness, style.hem_flounce_seam)


def _read(read: StyleReader, role: Role, usual: float, depth: Length, fullness: Fullness, seam: str) -> Flouncing:
    found = read.maybe(f"{role}_flounce_depth", depth, *DEPTH_LIMITS[role])
    return Flouncing(usual if found is None else found, FULLNESS[fullness], seam == "gathered", found)


def deepest_on_sleeve(body: Body, sleeve: float) -> float:
    """The deepest flounce of a sleeve of this length, mm: a share of what is left of it above, to the elbow (CALC)."""
    elbow = body.arm_length / 2 + ELBOW_BELOW_HALF
    return min(SLEEVE_SHARE * elbow, SLEEVE_SHARE / (1 + SLEEVE_SHARE) * sleeve)


def held_on_sleeve(
    flounce: Flouncing | None, body: Body, sleeve: float, adjusted: list[Adjustment], least: float = 0.0
) -> Flouncing | None:
    """The flounce of a sleeve, no deeper than that takes; what was asked for and is not met is told.

    Of the sleeve at least so much (`least`) is left above it, mm.
    """
    most = min(deepest_on_sleeve(body, sleeve), sleeve - least)
    return _held(flounce, "sleeve", most, "the sleeve takes no deeper one", adjusted)


def held_at_hem(flounce: Flouncing | None, room: float, adjusted: list[Adjustment]) -> Flouncing | None:
    """The flounce of a hem, no deeper than the `room` that the length leaves for it, mm."""
    return _held(flounce, "hem", room, "above it the garment would end too high", adjusted)


def _held(flounce: Flouncing | None, role: Role, most: float, why: str, adjusted: list[Adjustment]) -> Flouncing | None:
    if flounce is None or flounce.depth <= most + 1e-6:
        return flounce
    if flounce.asked is not None:
        adjusted.append(Adjustment(f"{role}_flounce_depth", "depth of the flounce", flounce.depth, most, why))
    return replace(flounce, depth=most)


# --- Its fields --------------------------------------------------------------------------------------------------

_FULL: Final = (
    Option("quarter", "A quarter of a circle"),
    Option("half", "Half a circle"),
    Option("three_quarter", "Three quarters of a circle"),
    Option("full", "A whole circle"),
    Option("one_and_half", "One circle and a half"),
    Option("double", "Two circles"),
)
_SEAM: Final = (Option("plain", "As long as its edge"), Option("gathered", "Cut longer, and gathered"))


def has_sleeve_flounce(chosen: Chosen) -> bool:
    """Whether the sleeves end in flounces."""
    return chosen("sleeve_finish", "hem") == "flounce"


def has_hem_flounce(chosen: Chosen) -> bool:
    """Whether the hem ends in a flounce."""
    return chosen("hem_finish", "turned") == "flounce"


def _fields(role: Role, where: str, shown: Callable[[Chosen], bool]) -> tuple[Field, ...]:
    def drafted(draft: SetOut) -> float | None:
        return next((figure.value for figure in draft.figures if figure.at == f"{role}_flounce_depth"), None)

    return (
        Field(f"{role}_flounce_fullness", "choice", f"Fullness of the flounce at {where}", _FULL,
              lambda chosen: "half", shown=shown),
        Field(f"{role}_flounce_depth", "choice_or_length", f"Depth of the flounce at {where}",
              (Option("auto", "Worked out"),), lambda chosen: "auto",
              length_words="From its seam to its hem, finished", drafted=drafted, shown=shown),
        Field(f"{role}_flounce_seam", "choice", f"Upper edge of the flounce at {where}", _SEAM,
              lambda chosen: "plain", shown=shown),
    )  # fmt: skip


SLEEVE_FLOUNCE: Final = _fields("sleeve", "the sleeve end", has_sleeve_flounce)
HEM_FLOUNCE: Final = _fields("hem", "the hem", has_hem_flounce)

"""What a garment asks: its fields and starting points, as data. A screen's form is built from this list alone.

A field is one key of the style; a key of a group is written with a point ("allowances.side"). What is typed or chosen
is a text, as a person writes it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from drafting.contract.set_out import SetOut
from drafting.person.measures import Kind

FieldKind = Literal["choice", "choice_or_length", "length", "slide", "degrees", "percent"]


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a field may depend on: the style as it is typed so far, and for whom the garment is."""

    style: Mapping[str, str]
    kind: Kind = "woman"

    def __call__(self, key: str, usual: str = "") -> str:
        """What is chosen for a key, or what is usual where nothing is."""
        return self.style.get(key) or usual


@dataclass(frozen=True, slots=True)
class Option:
    """One word that may be chosen: the value in the style, and what a person reads."""

    value: str
    words: str


def always(chosen: Chosen) -> bool:
    """For a field that is always asked."""
    return True


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a style: how it is chosen, in which words, within which limits.

    kind: "choice" is one of `options`; "choice_or_length" one of them or a length of one's own, which is then typed
    beside `length_words`; "length" is typed; "slide" is a length from `low` to `high` mm and "degrees" an angle between
    them, both on a slider between the words of `ends`; "percent" is a number from `low` to `high`, typed.
    `usual` is what holds while nothing is chosen: an option, a percentage, or the place of a slider. `option_words` may
    say the words of an option anew, as it depends on what else is chosen.
    A `signed` length may be below zero. `drafted` finds in a draft the length, mm, that was worked out where it was
    left open, and `begins` is that length before there is a draft. `explains` and `explained_by` are words of the trade
    that a person may ask about, after and before the field.
    """

    key: str
    kind: FieldKind
    words: str
    options: tuple[Option, ...] = ()
    usual: Callable[[Chosen], str | float] = field(default=lambda chosen: "")
    option_words: Callable[[Chosen, str], str | None] = field(default=lambda chosen, value: None)
    length_words: str = ""
    low: float = 0.0
    high: Callable[[Chosen], float] = field(default=lambda chosen: 0.0)
    ends: tuple[str, str] = ("", "")
    signed: bool = False
    shown: Callable[[Chosen], bool] = always
    drafted: Callable[[SetOut], float | None] | None = None
    begins: float | None = None
    explains: str = ""
    explained_by: str = ""

    @property
    def values(self) -> tuple[str, ...]:
        """The values of its options."""
        return tuple(option.value for option in self.options)

    def option(self, value: str) -> str:
        """What an option is called by itself; empty for a value that is none."""
        return next((option.words for option in self.options if option.value == value), "")


@dataclass(frozen=True, slots=True)
class Preset:
    """A starting point: its key and name, what a garment like it is called, what its picture shows, and its texts.

    An empty text leaves the core its default, which follows the other choices. All presets of a garment name the same
    keys, so that going from one to another leaves nothing of the first behind.
    """

    key: str
    words: str
    named: str
    heard: str
    style: Mapping[str, str]

"""What every check is made of: lengths in words, and the ways out that it names.

A garment brings its own checks, and ways out of the shared ones that change its style; drafting.checks judges by both.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from drafting.contract.set_out import SetOut
from drafting.units import INCH, Unit, say_length

Value = float | str


@dataclass(frozen=True, slots=True)
class Words:
    """Says lengths in the person's unit."""

    unit: Unit

    def __call__(self, mm: float) -> str:
        """The length in words, mm turned into the unit."""
        least, shown = ("⅛ in", INCH / 16) if self.unit == "in" else ("0.1 cm", 0.5)
        if 0.05 < abs(mm) < shown:
            return f"less than {least}"  # less than the tape shows, and yet not nothing
        return say_length(mm, self.unit)

    def needed(self, limit: float, value: float) -> str:
        """What is needed where `value` falls short of it, both mm: one step more where both would read the same."""
        if say_length(limit, self.unit) != say_length(value, self.unit):
            return self(limit)
        return self(limit + (INCH / 8 if self.unit == "in" else 1.0))


@dataclass(frozen=True, slots=True)
class Way:
    """One kind of way out: the order key it sets, the values to try in order, and its words.

    `says(value, words)` is the sentence; `values(draft)` may be empty where the way makes no sense; `also` are
    further keys set with it. `unsaid` is tried only where the order leaves the key open. Of one check's ways those of
    the lower `rank` are tried first: what a person feels less.
    """

    key: str
    values: Callable[[SetOut], Iterable[Value]]
    says: Callable[[Value, Words], str]
    also: tuple[tuple[str, Value], ...] = ()
    unsaid: bool = False
    rank: int = 1


def fixed(key: str, value: Value, says: str, rank: int = 1) -> Way:
    """A way that sets one key to one value."""
    return Way(key, lambda draft: (value,), lambda chosen, words: says, rank=rank)


def stretches_above(stretch: float, most: int = 100) -> list[Value]:
    """Stretches of cloth that are worth trying, per cent: whole fives above this one, a fraction, up to `most`."""
    start = int(stretch * 100)
    return list(range(start - start % 5 + 5, most + 5, 5))


def more_stretch(rank: int = 1, most: int = 100) -> Way:
    """A way to take cloth that stretches more across, as little more as helps."""
    return Way(
        "cloth.stretch_across",
        lambda draft: stretches_above(draft.cloth.across, most),
        lambda value, words: f"Take cloth that stretches {value:g} % across.",
        rank=rank,
    )


def millimetres(value: float) -> str:
    """A length as an order carries it, the same in every person's unit."""
    return f"{value:.2f} mm"


def length_of(value: Value) -> float:
    """The millimetres of a value made by `millimetres`."""
    return float(str(value).removesuffix(" mm"))


#: The keys of an order that a change sets, with what it sets them to.
Changes = tuple[tuple[str, float | str | None], ...]


@dataclass(frozen=True, slots=True)
class Change:
    """One kind of change for the cloth: the key sets to try in order, its words, and its cost in looks.

    `plain` is only for cloth that is not one-way: it is left out where a person said that it is, and sets that it is
    not where nobody said. Those of the lower `rank` are tried first.
    """

    changes: Callable[[SetOut], Iterable[Changes]]
    says: Callable[[Changes, Words], str]
    looks: str
    plain: bool = False
    rank: int = 1


def each(key: str, values: Callable[[SetOut], Iterable[float | str]]) -> Callable[[SetOut], Iterable[Changes]]:
    """Key sets of one key."""
    return lambda draft: [((key, value),) for value in values(draft)]


def fixed_change(says: str, looks: str, *changes: tuple[str, float | str | None], plain: bool = False,
                 rank: int = 1) -> Change:  # fmt: skip
    """A change that is always the same."""
    return Change(lambda draft: [changes], lambda chosen, words: says, looks, plain, rank)

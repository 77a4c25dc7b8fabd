"""What is lit in a drawing that one chalks from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Lit:
    """What is lit: marks by their ids, other places and lines in mm.

    With `ways` the two ways to a single mark or place are drawn, across from the fold and down from `zero` mm. They
    count from the line x = `base` mm.
    """

    marks: tuple[str, ...] = ()
    spots: tuple[Place, ...] = ()
    lines: tuple[tuple[Place, ...], ...] = ()
    ways: bool = False
    zero: float = 0.0
    base: float = 0.0

    def places(self, marks: Mapping[str, Place]) -> list[Place]:
        """Where lit marks and other places lie, mm."""
        return [*(marks[name] for name in self.marks if name in marks), *self.spots]

    def runs(self, marks: Mapping[str, Place]) -> list[Sequence[Place]]:
        """The lines that are lit, the ways among them, mm."""
        found: list[Sequence[Place]] = list(self.lines)
        places = self.places(marks)
        if self.ways and len(places) == 1:
            x, y = places[0]
            found += [((self.base, y), (x, y)), ((self.base, self.zero), (self.base, y))]
        return found


NOTHING = Lit()

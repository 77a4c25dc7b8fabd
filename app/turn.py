"""How a picture lies: turned and mirrored with the cloth, and with the person who stands at it."""

from dataclasses import dataclass

Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Turn:
    """How a picture lies: which way the cloth's x and y run on the screen, each as a step right and a step down.

    Every step is −1, 0 or 1, and the two ways are square to each other, so that no distance changes.
    """

    x: tuple[int, int] = (1, 0)
    y: tuple[int, int] = (0, 1)

    def at(self, x: float, y: float) -> Place:
        """Where a place comes to lie; the origin stays."""
        return x * self.x[0] + y * self.y[0], x * self.x[1] + y * self.y[1]

    def back(self, x: float, y: float) -> Place:
        """The place that comes to lie there."""
        return x * self.x[0] + y * self.x[1], x * self.y[0] + y * self.y[1]

    def then(self, other: "Turn") -> "Turn":
        """This turn and after it another one."""
        (xx, xy), (yx, yy) = other.at(*self.x), other.at(*self.y)
        return Turn((round(xx), round(xy)), (round(yx), round(yy)))


AS_DRAFTED = Turn()
"""x to the right, y down."""


def laid_turn(turned: int, mirrored: bool) -> Turn:
    """How a piece lies that is first mirrored (x to −x), then turned clockwise by a multiple of 90 degrees."""
    quarter = ((1, 0), (0, 1), (-1, 0), (0, -1))
    right, down = quarter[turned // 90 % 4], quarter[(turned // 90 + 1) % 4]
    return Turn((-right[0], -right[1]) if mirrored else right, down)


def seen_turn(*, fold_right: bool, top_near: bool) -> Turn:
    """How the table is seen: the left of the cloth at one's left or right, its cut end far away or near."""
    return Turn((-1 if fold_right else 1, 0), (0, -1 if top_near else 1))

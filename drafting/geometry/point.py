"""A point, which is also a vector."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A place or a direction in the plane; x to the right, y downward."""

    x: float
    y: float

    def __add__(self, other: "Point") -> "Point":
        return Point(self.x + other.x, self.y + other.y)

    def __sub__(self, other: "Point") -> "Point":
        return Point(self.x - other.x, self.y - other.y)

    def __mul__(self, factor: float) -> "Point":
        return Point(self.x * factor, self.y * factor)

    def dot(self, other: "Point") -> float:
        """Scalar product."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: "Point") -> float:
        """Z of the vector product: positive when `other` lies clockwise of this one on the screen (y down)."""
        return self.x * other.y - self.y * other.x

    def length(self) -> float:
        """Distance from the zero point."""
        return math.hypot(self.x, self.y)

    def distance(self, other: "Point") -> float:
        """Distance between two points."""
        return math.hypot(self.x - other.x, self.y - other.y)

    def unit(self) -> "Point":
        """The same direction with length 1. Raises ZeroDivisionError for the zero vector."""
        size = self.length()
        return Point(self.x / size, self.y / size)

    def left(self) -> "Point":
        """A quarter turn to the left of travel as seen on the screen (y down): (x, y) becomes (y, -x)."""
        return Point(self.y, -self.x)

    def turned(self, angle: float) -> "Point":
        """Turned about the zero point by `angle` radians, from x towards y (clockwise on the screen)."""
        cosine, sine = math.cos(angle), math.sin(angle)
        return Point(self.x * cosine - self.y * sine, self.x * sine + self.y * cosine)

    def scaled(self, across: float, down: float) -> "Point":
        """Each axis multiplied by its own factor."""
        return Point(self.x * across, self.y * down)

    def between(self, other: "Point", share: float) -> "Point":
        """The point at `share` of the way to `other` (0 = here, 1 = there)."""
        return Point(self.x + (other.x - self.x) * share, self.y + (other.y - self.y) * share)


def direction(angle: float) -> Point:
    """The unit vector at `angle` radians below the x axis (y down)."""
    return Point(math.cos(angle), math.sin(angle))

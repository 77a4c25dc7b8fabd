"""Long work as a generator: it pauses between its steps, so that a screen can redraw or put it aside.

What it yields says how far it is, or nothing; its value is the result.
"""

from collections.abc import Generator
from typing import TypeAlias, TypeVar

Value = TypeVar("Value")
Steps: TypeAlias = Generator[object, None, Value]
#: Steps that tell nothing: each is only a pause.
Pauses: TypeAlias = Generator[None, None, Value]


def finished(work: Steps[Value]) -> Value:
    """The value of stepwise work, done without a pause."""
    while True:
        try:
            next(work)
        except StopIteration as end:
            value: Value = end.value
            return value

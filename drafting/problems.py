"""What a person must be told: problems with what was typed, checks on what was drafted, ways out.

A problem is data, never an exception: it carries a stable code, the field it stands at, the numbers
behind it and the plain words a person reads. Exceptions are kept for programming errors.
"""

import math
from dataclasses import dataclass
from typing import Literal

Severity = Literal["refuse", "warn"]
Outcome = Literal["pass", "shown", "caution", "warn", "stop"]


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong with one field of an order.

    `field` is the dotted path in the order ("person.measures.bust_girth"); `wrong` says what is wrong and
    `fix` what to do, both as plain sentences without a final full stop. `severity` "refuse" means that
    nothing can be drafted before it is mended, "warn" that it should be looked at again. `instead` is the text that was
    likely meant, where there is one ("98 cm"): typed in its place it is read without this problem.
    """

    code: str
    field: str
    severity: Severity
    wrong: str
    fix: str
    values: tuple[tuple[str, float | str], ...] = ()
    instead: str = ""

    def line(self) -> str:
        """The one line for a terminal: `field: what is wrong; what to do`."""
        return f"{self.field}: {self.wrong}; {self.fix}"


@dataclass(frozen=True, slots=True)
class WayOut:
    """One change to the order that makes a check pass: its words, and the dotted order keys it sets.

    `changes` holds pairs such as `("style.neck_opening", "centre_back")`; lengths are millimetres
    written with their unit ("98 mm") so that they mean the same in every person's unit. `does` is the part of the words
    that says only what is done, without what follows from it.
    """

    says: str
    changes: tuple[tuple[str, float | str | None], ...]
    does: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """One proof about a draft: the value found, the limit it must keep, and the ways out when it does not.

    `value` and `limit` are in `unit` ("mm", "deg", "%" or "" for none). A "stop" withholds the chalk plan and
    the paper. "shown" is information, "caution" a line about a hazard. `rules` names the published rules behind it,
    which stand on paper and on the screen of the proof, and are not read out at the table.
    """

    id: str
    result: Outcome
    says: str
    value: float | None = None
    limit: float | None = None
    unit: str = "mm"
    ways_out: tuple[WayOut, ...] = ()
    rules: str = ""

    def with_rules(self) -> str:
        """What the check says, then which published rules say so."""
        return f"{self.says} See {self.rules}." if self.rules else self.says

    def with_ways_out(self) -> str:
        """What the check says, then what helps: "The hem … trip. This would help: Flare the skirt. Or: …"."""
        if not self.ways_out:
            return self.says
        return f"{self.says} This would help: {' Or: '.join(way.says for way in self.ways_out)}"


@dataclass(frozen=True, slots=True)
class Adjustment:
    """A value that the draft moved by itself, and why. Nothing that was asked is moved without one of these.

    `key` names what moved: the style key that asks for it ("sleeve_length"), or, of what no key asks for, a name of its
    own ("bust_level"). `before` and `after` are in `unit` ("mm", "deg", or "" for none); girths are all round.
    """

    key: str
    what: str
    before: float
    after: float
    why: str
    unit: str = "mm"


@dataclass(frozen=True, slots=True)
class Try:
    """A change worth trying: a key of the style, its value, and the sentence, in which `{}` stands for `length` mm."""

    key: str
    value: float | str
    says: str
    length: float = 0.0


@dataclass(frozen=True, slots=True)
class Shaping:
    """A choice that was made and that shapes some edges: what to look at first where one of them crosses another.

    `key` is the style's key; `says` is the sentence that names it as the cause. `edges` are the names of edges, shaped
    by it from `top` to `bottom` mm below the side-neck level, finished. `ways` are changes worth trying, best first:
    of each group the first that helps is offered.
    """

    key: str
    says: str
    edges: frozenset[str]
    ways: tuple[tuple[Try, ...], ...]
    top: float = -math.inf
    bottom: float = math.inf

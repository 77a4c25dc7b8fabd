"""Lengths as a person writes and reads them: the only place where inches become millimetres.

Inside the program every length is a float of millimetres. What a person types comes in through `read_length`;
what is read off a tape goes out through `Tape.reading`, rounded once, at the very end, by whole steps.
Fractions are reckoned exactly, so `10 1/2`, `10½` and `10.5 in` give the very same float.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

INCH = 25.4
CM = 10.0

Unit = Literal["cm", "in"]
UNIT_NAMES: dict[Unit, str] = {"in": "inches", "cm": "centimetres"}
"""How the units are named where readings follow."""
TapeStep = Literal["1/8", "1/4", "0.5", "0.1"]

_IN_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(str(INCH)),
    "ft": Fraction(str(INCH)) * 12,
    "yd": Fraction(str(INCH)) * 36,
}
_UNIT_WORDS = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), "in"),
    **dict.fromkeys(("ft", "foot", "feet", "'"), "ft"),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), "yd"),
}
# The smaller unit that may follow a bigger one; the first is meant when none is written ("1 m 62", "5' 4").
_FOLLOWS = {"m": ("cm", "mm"), "ft": ("in",), "yd": ("in", "ft")}
_STEP_MM = {
    ("in", "1/8"): Fraction(str(INCH)) / 8,
    ("in", "1/4"): Fraction(str(INCH)) / 4,
    ("cm", "0.5"): Fraction(5),
    ("cm", "0.1"): Fraction(1),
}
_GLYPHS = {(1, 8): "⅛", (1, 4): "¼", (3, 8): "⅜", (1, 2): "½", (5, 8): "⅝", (3, 4): "¾", (7, 8): "⅞"}

# A tie between two steps goes up. The hair keeps a tie a tie when arithmetic on another machine ends 1e-13 lower.
_TIE = Fraction(1, 1_000_000)
_LONGEST_MM = 100_000  # our choice, because no cloth on a table and no person is longer than 100 m
_LONGEST_TEXT = 60  # our choice, because no length a person writes needs more characters

_SHOWN_TEXT = 30  # our choice, because a sentence about a slip must stay readable
_FRACTION_SLASH = "\u2044"
_DOUBLE_QUOTES = "\u2033\u201c\u201d\u201e\u201f\uff02"  # double prime, curly, low and wide quotes: inches
_SINGLE_QUOTES = "\u2032\u2018\u2019\u201b\u00b4\u0060\uff07"  # prime, curly quotes, accents, wide: feet
_DASHES = "\u2212\u2013\u2012\u2010\u2011"  # minus sign, en and figure dash, hyphens
_SLASHES = _FRACTION_SLASH + "\u2215"
_ALIKE = {'"': _DOUBLE_QUOTES, "'": _SINGLE_QUOTES, "-": _DASHES, "/": _SLASHES}
_TO_PLAIN = str.maketrans({odd: plain for plain, odds in _ALIKE.items() for odd in odds})
_AMOUNT = r"(?:\d+(?: +| ?- ?))?\d+ ?/ ?\d+|\d+[.,]?\d*|[.,]\d+"
_UNIT = r"[a-z]+\.?|'|\""
_LENGTH = re.compile(rf"(?P<first>{_AMOUNT}) ?(?P<unit>{_UNIT})?(?: ?(?P<second>{_AMOUNT}) ?(?P<small>{_UNIT})?)?")
_FRACTION = re.compile(r"(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+) ?/ ?(?P<bottom>\d+)")
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}")

_HOW = "write a length such as 26.5 cm, 265 mm, 10 1/2 in or 5' 4\""


@dataclass(frozen=True, slots=True)
class LengthProblem:
    """Why a typed length cannot be read, and what to write instead: plain words without a final full stop."""

    wrong: str
    fix: str


@dataclass(frozen=True, slots=True)
class Amount:
    """A length as it was typed: the number, the unit it stands in ("mm", "cm", "m", "in", "ft", "yd") and its mm."""

    number: Fraction
    unit: str

    @property
    def mm(self) -> float:
        """The length in millimetres."""
        return float(self.number * _IN_MM[self.unit])

    @property
    def words(self) -> str:
        """The number and its unit as a person writes them, such as "98 in" or "31¼ in"."""
        eighths = self.number * 8
        if self.unit == "in" and eighths.denominator == 1:
            return f"{_mixed(int(eighths), 8, glyph=True)} in"
        return f"{float(self.number):.7g} {self.unit}"

    def in_other_units(self) -> tuple["Amount", ...]:
        """The same number under the other units that are easily taken for it, likeliest first (cm, in, mm, m)."""
        if self.unit not in ("cm", "in", "mm"):
            return ()
        return tuple(Amount(self.number, unit) for unit in ("cm", "in", "mm", "m") if unit != self.unit)


def read_length(text: str | float, unit: Unit, *, signed: bool = False) -> float | LengthProblem:
    r"""Read a length as typed; a bare number stands in `unit`. Returns mm, or a LengthProblem in plain words.

    Understands decimals with point or comma, fractions written out or as one character, feet and inches,
    metres and centimetres, yards, and the quote marks that keyboards put for inches and feet.
    A length below zero is refused unless `signed` (an ease may be negative). Exact to the last bit of a float.

    >>> read_length("10½", "in"), read_length("26,5 cm", "in"), read_length("5' 4\"", "cm")
    (266.7, 265.0, 1625.6)
    """
    amount = read_amount(text, unit, signed=signed)
    return amount if isinstance(amount, LengthProblem) else amount.mm


def read_amount(text: str | float, unit: Unit, *, signed: bool = False) -> Amount | LengthProblem:
    """Read a length as `read_length` does, but keep the number and the unit it was typed in."""
    if isinstance(text, bool):
        return LengthProblem("this is not a length", _HOW)
    amount = _read_text(text, unit) if isinstance(text, str) else _read_number(text, unit)
    if isinstance(amount, LengthProblem):
        return amount
    if amount.number < 0 and not signed:
        return LengthProblem(f"{amount.words} is below zero", "write a length of zero or more")
    if abs(amount.number) * _IN_MM[amount.unit] > _LONGEST_MM:
        return LengthProblem("this is longer than 100 metres", "look at the number and its unit again")
    return amount


def _read_number(number: float, unit: Unit) -> Amount | LengthProblem:
    if abs(number) > _LONGEST_MM:  # infinity and whole numbers of a thousand digits too
        return LengthProblem("this is longer than 100 metres", "look at the number and its unit again")
    if math.isnan(number):
        return LengthProblem("this is not a number", _HOW)
    return Amount(Fraction(repr(number)), unit)  # by its digits, so that 31.3 and "31.3" are the same length


def _read_text(text: str, unit: Unit) -> Amount | LengthProblem:
    if len(text) > _LONGEST_TEXT:
        return LengthProblem("this is too long for a length", _HOW)
    plain = _plain(text)
    if not plain:
        return LengthProblem("nothing is written here", _HOW)
    sign = -1 if plain[0] == "-" else 1
    found = _LENGTH.fullmatch((plain[1:] if plain[0] in "+-" else plain).strip())
    if found is None:
        return LengthProblem(f"“{_shown(text)}” cannot be read as a length", _HOW)
    typed = _unit_of(found["unit"], unit)
    number = _number(found["first"])
    if isinstance(typed, LengthProblem):
        return typed
    if isinstance(number, LengthProblem):
        return number
    if found["second"] is not None:
        rest = _rest(found, typed, text)
        if isinstance(rest, LengthProblem):
            return rest
        number += rest / _IN_MM[typed]
    return Amount(sign * number, typed)


def _rest(found: re.Match[str], big: str, text: str) -> Fraction | LengthProblem:
    """The smaller part of a length in two units ("4 in" of 5 ft 4 in), exact mm."""
    unread = LengthProblem(f"“{_shown(text)}” cannot be read as a length", _HOW)
    if found["unit"] is None or big not in _FOLLOWS or not found["first"].isdecimal():
        return unread
    if big == "m" and found["small"] is None and len(found["second"]) == 1:
        first, second = found["first"], found["second"]
        return LengthProblem(
            f"{first} m {second} can mean {first} m {second} cm or {first}.{second} m", "write it with a point or in cm"
        )
    small = _FOLLOWS[big][0] if found["small"] is None else _UNIT_WORDS.get(found["small"].rstrip("."))
    if small is None or small not in _FOLLOWS[big]:
        return unread
    part = _number(found["second"])
    if isinstance(part, LengthProblem):
        return part
    if part * _IN_MM[small] >= _IN_MM[big]:
        return LengthProblem(
            f"in “{_shown(text)}” the second part is as long as 1 {big} or longer", "look at both parts again"
        )
    return part * _IN_MM[small]


def _number(text: str) -> Fraction | LengthProblem:
    """One number, whole, decimal or with a fraction, read exactly."""
    mixed = _FRACTION.fullmatch(text)
    if mixed is None:
        if _THOUSANDS.fullmatch(text):
            short = text.replace(",", ".").rstrip("0").rstrip(".")
            return LengthProblem(
                f"{text} can mean {text.replace(',', '')} or {short}", "write the one you mean without a comma"
            )
        return Fraction(text.replace(",", "."))
    whole, top, bottom = (int(mixed[part] or 0) for part in ("whole", "top", "bottom"))
    if bottom == 0:
        return LengthProblem(f"{top}/0 is not a fraction", "write a fraction such as 1/2 or 3/8")
    if mixed["whole"] is not None and top >= bottom:
        return LengthProblem(
            f"after a whole number the fraction is less than 1, and {top}/{bottom} is not", "look at the fraction again"
        )
    return whole + Fraction(top, bottom)


def _unit_of(word: str | None, unit: Unit) -> str | LengthProblem:
    if word is None:
        return unit
    known = _UNIT_WORDS.get(word.rstrip("."))
    if known is None:
        return LengthProblem(f"“{_shown(word)}” is not a unit of length known here", "write cm, mm, m, in, ft or yd")
    return known


def _plain(text: str) -> str:
    """The text in plain characters: digits 0 to 9, straight quotes, fractions written out, single spaces."""
    out: list[str] = []
    for character in text:
        if character.isdecimal():
            out.append(str(unicodedata.decimal(character)))
        elif unicodedata.category(character) == "No" and _FRACTION_SLASH in unicodedata.normalize("NFKD", character):
            out.append(" " + unicodedata.normalize("NFKD", character))
        elif unicodedata.category(character) != "Cf":  # invisible marks of direction and joining
            out.append(character)
    joined = "".join(out).translate(_TO_PLAIN).replace("''", '"').lower()
    return re.sub(r"\s+", " ", joined).strip()


def _shown(text: str) -> str:
    """The text as it may stand in a sentence: printable, at most 30 characters."""
    safe = "".join(character for character in text if character.isprintable()).strip()
    return safe if len(safe) <= _SHOWN_TEXT else safe[: _SHOWN_TEXT - 1] + "…"


#: How long a tape is, mm, where nothing is said: 150 cm, or 60 in (common practice, no source).
USUAL_TAPE: dict[Unit, float] = {"cm": 1500.0, "in": 60 * INCH}
#: How long a tape may be, mm, by the unit it is told in. Our choice: no half of a piece is wider than the least, and
#: the rest is a measuring reel. Whole numbers, so that the limit that is said can be typed.
TAPE_LENGTHS: dict[Unit, tuple[float, float]] = {"cm": (1200.0, 5000.0), "in": (48 * INCH, 200 * INCH)}
# A further 0 lies at a multiple of 10 cm or 10 in, at most two thirds down the tape: our choice, because it is found
# at once and what lies a hand's breadth past the tape's end is still read with tape to spare.
_ZERO_AT: dict[Unit, int] = {"cm": 100, "in": 10}
_ZERO_SHARE = Fraction(2, 3)


@dataclass(frozen=True, slots=True)
class Tape:
    """The tape in the person's hand: its unit, the smallest step that is read on it, its length in mm (0: as usual).

    A reading past its end starts from a second 0, which lies `zero_every` mm down from the first.
    """

    unit: Unit
    step: TapeStep
    length: float = 0.0

    def __post_init__(self) -> None:
        """A step that the unit does not have is a slip in the program, not of the person."""
        if (self.unit, self.step) not in _STEP_MM:
            raise ValueError(f"a tape in {self.unit} has no step of {self.step}")

    @property
    def size(self) -> float:
        """One step in mm."""
        return float(_STEP_MM[self.unit, self.step])

    def reading(self, mm: float) -> "Reading":
        """The nearest whole number of steps; a tie goes up. At most half a step (and 1e-5 mm) from `mm`."""
        return Reading(math.floor(Fraction(mm) / _STEP_MM[self.unit, self.step] + Fraction(1, 2) + _TIE), self)

    @property
    def finest(self) -> "Tape":
        """The same tape read in its finest steps."""
        return Tape("in", "1/8", self.length) if self.unit == "in" else Tape("cm", "0.1", self.length)

    @property
    def reach(self) -> float:
        """How far it reads, mm."""
        return self.length or USUAL_TAPE[self.unit]

    @property
    def zero_every(self) -> "Reading":
        """How far down a second 0 lies from the first, and a third from the second: a whole reading."""
        size = _ZERO_AT[self.unit] * _IN_MM["mm" if self.unit == "cm" else "in"]
        count = max(1, math.floor(Fraction(self.reach) * _ZERO_SHARE / size + _TIE))
        return Reading(int(count * size / _STEP_MM[self.unit, self.step]), self)

    def from_zero(self, reading: "Reading") -> tuple[int, "Reading"]:
        """Which 0 a reading is taken from (1 is the first), and what the tape then reads: never more than it reaches.

        >>> Tape("cm", "0.5").from_zero(Tape("cm", "0.5").reading(1500.0))[0]
        1
        >>> Tape("cm", "0.5").from_zero(Tape("cm", "0.5").reading(1505.0))[1].text
        '50.5'
        """
        number, every = 1, self.zero_every
        while reading.mm > self.reach + 1e-6:
            reading = Reading(reading.steps - every.steps, self)
            number += 1
        return number, reading


TAPES = (Tape("in", "1/8"), Tape("in", "1/4"), Tape("cm", "0.5"), Tape("cm", "0.1"))


@dataclass(frozen=True, slots=True)
class Reading:
    """What a person reads on the tape: a whole number of its steps, so that 2 8/8 cannot arise."""

    steps: int
    tape: Tape

    @property
    def mm(self) -> float:
        """The length that this reading stands for, in mm."""
        return float(self.steps * _STEP_MM[self.tape.unit, self.tape.step])

    @property
    def text(self) -> str:
        """Plain characters without the unit: "8 1/8" in inches, always one decimal in centimetres ("26.0")."""
        return self._written(glyph=False)

    @property
    def pretty(self) -> str:
        """As `text`, with the fraction as one character: "8⅛"."""
        return self._written(glyph=True)

    def _written(self, *, glyph: bool) -> str:
        if self.tape.unit == "in":
            return _mixed(self.steps, 8 if self.tape.step == "1/8" else 4, glyph=glyph)
        whole, tenth = divmod(abs(self.steps) * (5 if self.tape.step == "0.5" else 1), 10)
        return f"{'-' if self.steps < 0 else ''}{whole}.{tenth}"


def _mixed(steps: int, parts: int, *, glyph: bool) -> str:
    """`steps` of 1/`parts` as a whole number and a reduced fraction."""
    whole, left = divmod(abs(steps), parts)
    sign = "-" if steps < 0 else ""
    if left == 0:
        return f"{sign}{whole}"
    part = Fraction(left, parts)
    if glyph:
        return f"{sign}{whole or ''}{_GLYPHS[part.numerator, part.denominator]}"
    return f"{sign}{f'{whole} ' if whole else ''}{part.numerator}/{part.denominator}"


def say_sold(mm: float, unit: Unit) -> str:
    """A length as it is asked for in a shop, no shorter than what is cut of it: whole centimetres, or half inches."""
    step = CM if unit == "cm" else INCH / 2
    return say_length(math.ceil(mm / step - 1e-6) * step, unit)


def say_length(mm: float, unit: Unit, *, digits: int = 1) -> str:
    """A length for a sentence: "56.1 cm", "56 cm", "22⅛ in".

    Centimetres carry at most `digits` decimals with ending zeros dropped; inches go to the nearest ⅛.
    """
    if unit == "in":
        return f"{Tape('in', '1/8').reading(mm).pretty} in"
    # Half up with the hair of _TIE, so that the words are the same on every machine.
    tens = 10**digits
    steps = math.floor(abs(mm) / CM * tens + 0.5 + 1e-6)
    number = f"{steps // tens}.{steps % tens:0{digits}d}".rstrip("0").rstrip(".") if digits else str(steps)
    return f"{'-' if mm < 0 and steps else ''}{number} cm"

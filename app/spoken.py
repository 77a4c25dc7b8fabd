"""What is read aloud on the chalk screen: tape readings as they are said at a table, in whole words."""

from app.chalking import Item
from app.text import words

_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_PARTS = {
    "⅛": "an eighth", "¼": "a quarter", "⅜": "three eighths", "½": "a half", "⅝": "five eighths",
    "¾": "three quarters", "⅞": "seven eighths",
}  # fmt: skip


def whole(number: int) -> str:
    """A whole number from 0 to 999 in words."""
    if number < len(_ONES):
        return _ONES[number]
    hundreds, rest = divmod(number, 100)
    if hundreds:
        return f"{_ONES[hundreds]} hundred" + (f" and {whole(rest)}" if rest else "")
    tens, ones = divmod(number, 10)
    return _TENS[tens] + (f"-{_ONES[ones]}" if ones else "")


def reading(pretty: str) -> str:
    """A tape reading such as "17⅛", "43.5" or "0" in words; what is no reading stays as it is."""
    body, part = (pretty[:-1], _PARTS[pretty[-1]]) if pretty[-1:] in _PARTS else (pretty, "")
    before, _, tenth = body.partition(".")
    if not (before.isdecimal() or (part and not before)) or (tenth and not tenth.isdecimal()) or len(before) > 3:
        return pretty
    number = int(before or "0")
    if tenth.strip("0") == "5":
        part = "a half"
    elif tenth.strip("0"):
        return f"{whole(number)} point {' '.join(_ONES[int(each)] for each in tenth)}"
    if not part:
        return whole(number)
    return f"{whole(number)} and {part}" if number else part


def named(item: Item) -> str:
    """What an item is called over its readings: a mark with its number."""
    return words("chalk.mark", number=item.number, label=item.says) if item.kind == "mark" else item.says


def aloud(item: Item) -> str:
    """What is said of an item: its name and readings, or the words of its step."""
    values = {label: reading(value) for label, value in item.pairs}
    name = item.says
    if item.kind == "mark":
        name = words("aloud.name", number=item.number, label=item.says)
    elif item.kind == "proof":
        name = item.says.replace("(", "").replace(")", ",").replace(" →", ";")
    match values:
        case {"across": across, "down": down}:
            return words("aloud.mark", name=name, across=_first(across), down=down)
        case {"across": across, "down_second": down}:
            return words("aloud.mark_second", name=name, across=_first(across), down=down)
        case {"straight": straight}:
            return words("aloud.proof", name=name, straight=_first(straight))
    readings = "".join(f" {words(f'chalk.{label}')}: {value}." for label, value in values.items())
    return words("aloud.words", title=item.title, says=item.says) + readings


def heard(item: Item, piece: str, marks: int, unit: str) -> str:
    """The same as a reader of the screen says it, with the readings as they are written.

    `piece` is what the piece is called, and `marks` how many it has.
    """
    values = dict(item.pairs)
    match item.kind, values:
        case "mark", {"across": across, "down": down}:
            return words(
                "chalk.heard.mark", piece=piece, number=item.number, all=marks, label=item.says, across=across,
                down=down, unit=unit,
            )  # fmt: skip
        case "mark", {"across": across, "down_second": down}:
            return words(
                "chalk.heard.mark_second", piece=piece, number=item.number, all=marks, label=item.says, across=across,
                down=down, unit=unit,
            )  # fmt: skip
        case "proof", {"straight": straight}:
            return words("chalk.heard.proof", piece=piece, label=item.says, straight=straight, unit=unit)
    says = words("chalk.heard.step", piece=piece, says=item.title if item.kind == "words" else item.says)
    readings = [
        words("chalk.heard.reading", what=words(f"chalk.{label}"), value=value, unit=unit)
        for label, value in values.items()
    ]
    return " ".join([says, *readings])


def _first(text: str) -> str:
    """The text as it begins a sentence."""
    return text[:1].upper() + text[1:]

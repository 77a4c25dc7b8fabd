"""Small turns of wording that every part that tells something needs."""

from collections.abc import Sequence


def listed(items: Sequence[str]) -> str:
    """One, two and three."""
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"


def lower_first(words: str) -> str:
    """The words as they stand in the middle of a sentence."""
    return words[:1].lower() + words[1:]


def upper_first(words: str) -> str:
    """The words as they stand at the beginning of a sentence."""
    return words[:1].upper() + words[1:]

"""Words made fit for a page: what no page can hold is taken out, nothing else is changed."""

import unicodedata

#: Kinds of character that have no shape of their own: controls, marks of direction, lone surrogates.
_SHAPELESS = frozenset({"Cc", "Cf", "Cs"})
#: Joiners change the shape of their neighbours, so they stay where a reader may join.
_JOINERS = frozenset("\u200c\u200d")
#: The last two places of every plane are no characters; XML refuses the first pair.
_NO_CHARACTER = 0xFFFE


def plain(text: str) -> str:
    """The text on one line: tabs and line ends become spaces, shapeless characters go, the rest stays as typed."""
    spaced = "".join(" " if character in "\t\n\r\v\f\u2028\u2029" else character for character in text)
    return "".join(c for c in spaced if _has_shape(c))


def _has_shape(character: str) -> bool:
    if ord(character) & 0xFFFF >= _NO_CHARACTER:
        return False
    return character in _JOINERS or unicodedata.category(character) not in _SHAPELESS

"""Records and plain data, by what the records say of themselves: reading one strictly, and describing it as a schema.

What is saved on this device is read leniently (app.state); what comes from a file may be anything, so here every value
must be of its kind, no longer than people write, and no deeper than its record.
"""

from collections.abc import Hashable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

LONGEST = 20_000
"""Letters of the longest text that is read: our choice, because a note of ten pages is shorter."""
MOST = 20_000
"""Entries of the longest list that is read within a record: our choice, because no person types so many."""
HIGHEST = 10**9
"""The largest whole number that is read: our choice, because a record counts nothing higher."""

Kept = TypeVar("Kept")
At = tuple[str | int, ...]
"""Where a value stands, from the outside in."""


class UnfitError(ValueError):
    """A value is not of its kind; `at` says where it stands."""

    def __init__(self, at: At) -> None:
        """Takes the place of the value."""
        super().__init__(".".join(map(str, at)))
        self.at = at


def kinds_of(record: type) -> dict[str, Any]:
    """The kind of every field of a record."""
    return _kinds(record)


@cache
def _kinds(record: Hashable) -> dict[str, Any]:
    return get_type_hints(record)


class Reader:
    """Reads records. `unknown` gathers where a key stood that a record does not have; such keys are passed over."""

    def __init__(self, longest: int = LONGEST) -> None:
        """Takes how many letters a text may have."""
        self.longest = longest
        self.unknown: list[At] = []

    def record(self, kind: type[Kept], value: Any, at: At = ()) -> Kept:
        """A record of plain data; what is left out takes its default, where it has one.

        Raises UnfitError where a value is not of its kind.
        """
        if not isinstance(value, dict):
            raise UnfitError(at)
        kinds = kinds_of(kind)
        self.unknown += [(*at, str(key)) for key in value if key not in kinds]
        read: dict[str, Any] = {}
        for each in fields(cast(Any, kind)):
            if each.name in value:
                read[each.name] = self._read(kinds[each.name], value[each.name], (*at, each.name))
            elif _is_needed(each):
                raise UnfitError((*at, each.name))
        return kind(**read)

    def text(self, value: Any, at: At = ()) -> str:
        """A text; raises UnfitError where it is none, or longer than it may be."""
        read: str = self._read(str, value, at)
        return read

    def _read(self, kind: Any, value: Any, at: At) -> Any:
        origin, inner = get_origin(kind), get_args(kind)
        if is_dataclass(kind) and isinstance(kind, type):
            return self.record(kind, value, at)
        if origin in (Union, UnionType):
            return None if value is None and NoneType in inner else self._read(_one(inner), value, at)
        if origin is tuple and isinstance(value, list) and len(value) <= MOST:
            return tuple(self._read(inner[0], each, (*at, place)) for place, each in enumerate(value, 1))
        if origin in (dict, Mapping) and isinstance(value, dict) and len(value) <= MOST:
            return {self.text(key, at): self._read(inner[1], each, (*at, key)) for key, each in value.items()}
        if origin is Literal:
            fits = any(type(each) is type(value) and each == value for each in inner)
        else:
            fits = kind in (str, int, bool) and type(value) is kind
        too_much = len(value) > self.longest if isinstance(value, str) else type(value) is int and abs(value) > HIGHEST
        if not fits or too_much:
            raise UnfitError(at)
        return value


def _is_needed(each: Field[Any]) -> bool:
    return each.default is MISSING and each.default_factory is MISSING


def _one(inner: tuple[Any, ...]) -> Any:
    """What may stand where None may stand too."""
    (kind,) = (each for each in inner if each is not NoneType)
    return kind


def schema_of(record: type, **strings: str) -> dict[str, Any]:
    """A record as JSON Schema. `strings` are the patterns of texts by the name of their field."""
    kinds = kinds_of(record)
    known = fields(cast(Any, record))
    properties = {each.name: _schema(kinds[each.name]) for each in known}
    for name in properties.keys() & strings.keys():
        properties[name] = {"type": "string", "pattern": strings[name]}
    needed = [each.name for each in known if _is_needed(each)]
    described = (record.__doc__ or "").split("\n\n", maxsplit=1)[0]
    return {
        "type": "object",
        "description": " ".join(described.split()),
        "properties": properties,
        **({"required": needed} if needed else {}),
    }


def _schema(kind: Any) -> dict[str, Any]:
    origin, inner = get_origin(kind), get_args(kind)
    if is_dataclass(kind) and isinstance(kind, type):
        return schema_of(kind)
    if origin in (Union, UnionType):
        return {"anyOf": [_schema(_one(inner)), {"type": "null"}]}
    if origin is Literal:
        return {"enum": list(inner)}
    if origin is tuple:
        return {"type": "array", "items": _schema(inner[0]), "maxItems": MOST}
    if origin in (dict, Mapping):
        names = {"maxLength": LONGEST}
        return {
            "type": "object",
            "propertyNames": names,
            "additionalProperties": _schema(inner[1]),
            "maxProperties": MOST,
        }
    if kind is str:
        return {"type": "string", "maxLength": LONGEST}
    if kind is bool:
        return {"type": "boolean"}
    if kind is int:
        return {"type": "integer", "minimum": -HIGHEST, "maximum": HIGHEST}
    raise TypeError(kind)

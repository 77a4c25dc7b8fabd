"""What is said at a field about what was typed there, once it is left."""

from dataclasses import dataclass

from app import parts
from app.text import words
from app.typed import at_field, sentence
from drafting.problems import Problem


@dataclass(frozen=True, slots=True)
class Judged:
    """What keeps the draft from being made, or what should be looked at again, and what was likely meant."""

    problem: str = ""
    warning: str = ""
    instead: parts.Instead | None = None


def judged(problems: tuple[Problem, ...], field: str, typed: str) -> Judged:
    """What is said about the text typed at a field of the order; nothing about a field left empty."""
    found = at_field(problems, field) if typed.strip() else None
    if found is None:
        return Judged()
    instead = parts.Instead(words("field.instead", text=found.instead), found.instead) if found.instead else None
    says = sentence(found)
    return Judged(says, "", instead) if found.severity == "refuse" else Judged("", says, instead)

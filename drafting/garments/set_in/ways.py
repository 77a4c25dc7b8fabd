"""What makes `set_in` go on its cloth, or on less of it; ways out of the shared checks are those of every top."""

from typing import Final

from drafting.parts.top_ways import CLOSE, ELBOW, RIB, STRAIGHT, WAYS, less_ease

__all__ = ["TO_FIT", "TO_SAVE", "WAYS"]

_LESS_EASE = less_ease("The garment is narrower at the bust, and its sleeve sits closer under the arm.")

#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final = (_LESS_EASE, CLOSE, STRAIGHT)
TO_SAVE: Final = (RIB, STRAIGHT, ELBOW)

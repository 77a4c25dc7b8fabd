"""What leggings and trousers ask alike, and how a figure of theirs is found in a draft. All of it is our choice."""

from collections.abc import Callable, Mapping
from typing import Final

from drafting.contract.fields import Chosen, Field, Option
from drafting.contract.set_out import SetOut
from drafting.parts.legs.style import TURNED
from drafting.parts.rib import rib_fields

LENGTH_WORDS: Final = {
    "mid_thigh": "Mid-thigh", "knee": "Knee", "mid_calf": "Mid-calf", "ankle": "Ankle", "floor": "Floor",
}  # fmt: skip
_EDGES: Final = {"waist": "Allowance, waist", "seams": "Allowance, seams", "hem": "Allowance, hem"}


def options(**words: str) -> tuple[Option, ...]:
    """Options by their values."""
    return tuple(Option(value, said) for value, said in words.items())


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _waist_allowance(draft: SetOut) -> float | None:
    """What lies beyond the stitching at the waist: of a casing that is turned in, without the casing itself."""
    found = _allowance("waist")(draft)
    return found if found is None or draft.choices.waistband != TURNED else draft.choices.waist


def _figure(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((figure.value for figure in draft.figures if figure.at == at), None)


def _girth(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.girth for girth in draft.girths if girth.at == at), None)


def _may_hold_by_itself(chosen: Chosen) -> bool:
    return chosen("waistband", "auto") in {"auto", "jersey"}


def length_field(landmarks: tuple[str, ...], usual: str) -> Field:
    """How long the leg is."""
    return Field(
        "length", "choice_or_length", "Length, finished",
        tuple(Option(value, LENGTH_WORDS[value]) for value in landmarks), lambda chosen: usual,
        length_words="From the waist at the side to the hem, finished",
    )  # fmt: skip


WAIST_FIELD: Final = Field(
    "waistband", "choice", "Waist",
    options(auto="As the cloth allows", jersey="Band that holds by itself", casing="Band with elastic",
            turned="Casing turned in, with elastic"),
    lambda chosen: "auto",
)  # fmt: skip


def further_fields(seam_edge: str, allowances: Mapping[str, float]) -> tuple[Field, ...]:
    """Hem, height of the band, rib and allowances; `seam_edge` is an edge that has the allowance of the seams."""
    drafted = {"waist": _waist_allowance, "seams": _allowance(seam_edge), "hem": _allowance("hem")}
    return (
        Field(
            "hem_girth", "choice_or_length", "Hem girth", (Option("auto", "Worked out"),), lambda chosen: "auto",
            length_words="Round one leg, finished", drafted=_girth("hem"),
        ),
        Field("waistband_height", "length", "Height of waistband or casing, finished", drafted=_figure("band_height")),
        *rib_fields(_may_hold_by_itself),
        *(
            Field(
                f"allowances.{edge}", "length", words, drafted=drafted[edge], begins=allowances[edge],
                explained_by="allowance" if edge == "waist" else "",
            )
            for edge, words in _EDGES.items()
        ),
    )  # fmt: skip

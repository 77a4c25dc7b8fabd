"""What tops of stretch cloth ask alike, in words that do not depend on the garment. All of it is our choice."""

from collections.abc import Callable, Mapping
from typing import Final

from drafting.contract.fields import Chosen, Field, Option
from drafting.contract.set_out import SetOut
from drafting.parts.flounce_style import has_hem_flounce
from drafting.parts.hood_style import hood_fields
from drafting.parts.rib import rib_fields
from drafting.parts.top_style import BANDED, usual_finish

WORKED_OUT: Final = (Option("auto", "Worked out"),)
ROUND: Final = "Ease the whole way round; a minus makes it smaller"


def options(**words: str) -> tuple[Option, ...]:
    """Options of these words, by their values."""
    return tuple(Option(value, said) for value, said in words.items())


def girth_of(at: str) -> Callable[[SetOut], float | None]:
    """Finds a girth of a draft, mm."""
    return lambda draft: next((girth.girth for girth in draft.girths if girth.at == at), None)


def ease_of(at: str) -> Callable[[SetOut], float | None]:
    """Finds the ease of a girth of a draft, mm."""
    return lambda draft: next((girth.ease for girth in draft.girths if girth.at == at), None)


def figure_of(at: str) -> Callable[[SetOut], float | None]:
    """Finds a figure of a draft, mm."""
    return lambda draft: next((figure.value for figure in draft.figures if figure.at == at), None)


def allowance_of(edge: str) -> Callable[[SetOut], float | None]:
    """Finds the allowance of an edge of a draft, mm."""
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _finish(chosen: Chosen) -> str:
    picked = chosen("neck_finish", "auto")
    return usual_finish(chosen("neck", "round")) if picked == "auto" else picked


def _usual_finish(chosen: Chosen, value: str) -> str | None:
    if value != "auto":
        return None
    return "As usual: turned in" if usual_finish(chosen("neck", "round")) == "turned" else "As usual: with a band"


def has_band(chosen: Chosen) -> bool:
    """Whether the neck has a band or a collar."""
    return _finish(chosen) in BANDED


def is_v(chosen: Chosen) -> bool:
    """Whether the neck is a V."""
    return chosen("neck", "round") == "v"


def has_cuff(chosen: Chosen) -> bool:
    """Whether the sleeves have cuffs."""
    return chosen("sleeve_finish", "hem") == "cuff"


def has_hem_band(chosen: Chosen) -> bool:
    """Whether the hem has a band."""
    return chosen("hem_finish", "turned") == "band"


def any_band(chosen: Chosen) -> bool:
    """Whether there is any band."""
    return has_band(chosen) or has_cuff(chosen) or has_hem_band(chosen)


def left_to_draft(key: str, words: str, length_words: str, drafted: Callable[[SetOut], float | None],
                   *, signed: bool = False, explained_by: str = "",
                   shown: Callable[[Chosen], bool] = lambda chosen: True) -> Field:  # fmt: skip
    """A length that is worked out unless somebody chooses their own."""
    return Field(
        key, "choice_or_length", words, WORKED_OUT, lambda chosen: "auto", length_words=length_words, signed=signed,
        drafted=drafted, explained_by=explained_by, shown=shown,
    )  # fmt: skip


_EDGES: Final = {
    "shoulder": ("Allowance, shoulder", "shoulder"),
    "armhole": ("Allowance, armhole and cap", "armhole"),
    "side": ("Allowance, side and under seam", "side"),
    "hem": ("Allowance, hem", "hem"),
    "sleeve_end": ("Allowance, sleeve end", "sleeve_end"),
    "neck": ("Allowance, neck edge", "neck_edge"),
}

LENGTH: Final = Field(
    "length",
    "choice_or_length",
    "Length, finished",
    options(cropped="Cropped", hip="Hip", mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"),
    lambda chosen: "hip",
    length_words="From the side-neck point to the hem, finished",
)
NECK: Final = Field("neck", "choice", "Neck", options(round="Round", boat="Boat", v="V"), lambda chosen: "round")
NECK_FINISH: Final = Field(
    "neck_finish",
    "choice",
    "Neck edge",
    options(auto="As usual", band="Band", roll="Roll collar", turned="Turned in", hood="Hood"),
    lambda chosen: "auto",
    option_words=_usual_finish,
)
HOOD: Final = hood_fields(lambda chosen: _finish(chosen) == "hood")
SLEEVE_LENGTH: Final = Field(
    "sleeve_length",
    "choice_or_length",
    "Sleeve length, finished",
    options(wrist="Wrist", elbow="Elbow", short="Short"),
    lambda chosen: "wrist",
    length_words="From the shoulder point to the sleeve end, finished",
)
SLEEVE_FINISH: Final = Field(
    "sleeve_finish", "choice", "Sleeve end", options(hem="Hem", cuff="Cuff", flounce="Flounce"), lambda chosen: "hem"
)
FIT: Final = Field(
    "fit",
    "choice",
    "Fit",
    options(close="Close", regular="Regular", loose="Loose"),
    lambda chosen: "regular",
)
BODY: Final = Field(
    "body",
    "choice",
    "Body",
    options(straight="Straight", flared="Flared", pegged="Pegged"),
    lambda chosen: "straight",
    explains="pegged",
)
HEM_FINISH: Final = Field(
    "hem_finish", "choice", "Hem", options(turned="Turned up", band="Band", flounce="Flounce"), lambda chosen: "turned"
)
NECK_DEPTH: Final = left_to_draft(
    "neck_depth",
    "Depth of the V",
    "From the side-neck level down to the point, finished",
    figure_of("front_neck"),
    shown=is_v,
)
BAND_HEIGHT: Final = left_to_draft(
    "band_height",
    "Height of the neck band or collar",
    "Its height, finished",
    figure_of("neck_band_height"),
    shown=has_band,
)
CUFF_HEIGHT: Final = left_to_draft(
    "cuff_height", "Height of the cuff", "Its height, finished", figure_of("cuff_height"), shown=has_cuff
)
HEM_BAND_HEIGHT: Final = left_to_draft(
    "hem_band_height",
    "Height of the hem band",
    "Its height, finished",
    figure_of("hem_band_height"),
    shown=has_hem_band,
)
SHOULDER_SLOPE: Final = Field(
    "shoulder_slope",
    "degrees",
    "Slope of the shoulder",
    ends=("level", "sloping"),
    low=12.0,
    high=lambda chosen: 28.0,
    usual=lambda chosen: 20.0,
)
SLEEVE_END_GIRTH: Final = left_to_draft(
    "sleeve_end_girth", "Girth of the sleeve end", "The whole way round, finished", girth_of("sleeve_end")
)
HEM_GIRTH: Final = left_to_draft("hem_girth", "Hem girth", "The whole way round, finished", girth_of("hem"))
SLIT: Final = Field(
    "slit",
    "choice_or_length",
    "Side slits",
    options(auto="Where a step needs them", none="None"),
    lambda chosen: "auto",
    length_words="Height of the slits, finished",
    shown=lambda chosen: not has_hem_band(chosen) and not has_hem_flounce(chosen),
)
EASE_BUST: Final = left_to_draft(
    "ease_bust", "Ease at the bust", ROUND, ease_of("bust"), signed=True, explained_by="ease"
)
EASE_WAIST: Final = left_to_draft("ease_waist", "Ease at the waist", ROUND, ease_of("waist"), signed=True)
EASE_HIP: Final = left_to_draft("ease_hip", "Ease at the hip", ROUND, ease_of("hip"), signed=True)
RIB: Final = rib_fields(any_band)


def allowance_fields(usual: Mapping[str, float]) -> tuple[Field, ...]:
    """The allowance of every edge; `usual` are those where none are given, mm."""
    return tuple(
        Field(
            f"allowances.{key}", "length", words, drafted=allowance_of(edge), begins=usual[key],
            explained_by="allowance" if key == "shoulder" else "",
        )
        for key, (words, edge) in _EDGES.items()
    )  # fmt: skip

"""What `drop_shoulder` asks, in the order of its screen, and its starting points. All of it is our choice."""

from collections.abc import Callable
from typing import Final

from drafting.contract.fields import Chosen, Field, Option, Preset
from drafting.contract.set_out import SetOut
from drafting.garments.drop_shoulder.style import ALLOWANCES, usual_finish
from drafting.parts.rib import rib_fields

_WORKED_OUT: Final = (Option("auto", "Worked out"),)
_ROUND: Final = "Ease the whole way round; a minus makes it smaller"


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _girth(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.girth for girth in draft.girths if girth.at == at), None)


def _ease(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.ease for girth in draft.girths if girth.at == at), None)


def _figure(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((figure.value for figure in draft.figures if figure.at == at), None)


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _finish(chosen: Chosen) -> str:
    picked = chosen("neck_finish", "auto")
    return usual_finish(chosen("neck", "round")) if picked == "auto" else picked


def _usual_finish(chosen: Chosen, value: str) -> str | None:
    if value != "auto":
        return None
    return "As usual: turned in" if usual_finish(chosen("neck", "round")) == "turned" else "As usual: with a band"


def _has_band(chosen: Chosen) -> bool:
    return _finish(chosen) != "turned"


def _is_v(chosen: Chosen) -> bool:
    return chosen("neck", "round") == "v"


def _has_cuff(chosen: Chosen) -> bool:
    return chosen("sleeve_finish", "hem") == "cuff"


def _has_hem_band(chosen: Chosen) -> bool:
    return chosen("hem_finish", "turned") == "band"


def _any_band(chosen: Chosen) -> bool:
    return _has_band(chosen) or _has_cuff(chosen) or _has_hem_band(chosen)


def _left_to_draft(key: str, words: str, length_words: str, drafted: Callable[[SetOut], float | None],
                   *, signed: bool = False, explained_by: str = "",
                   shown: Callable[[Chosen], bool] = lambda chosen: True) -> Field:  # fmt: skip
    return Field(
        key, "choice_or_length", words, _WORKED_OUT, lambda chosen: "auto", length_words=length_words, signed=signed,
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

FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(cropped="Cropped", hip="Hip", mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"),
        lambda chosen: "hip", length_words="From the side-neck point to the hem, finished",
    ),
    Field("neck", "choice", "Neck", _options(round="Round", boat="Boat", v="V"), lambda chosen: "round"),
    Field(
        "neck_finish", "choice", "Neck edge",
        _options(auto="As usual", band="Band", roll="Roll collar", turned="Turned in"), lambda chosen: "auto",
        option_words=_usual_finish,
    ),
    Field(
        "sleeve_length", "choice_or_length", "Sleeve length, finished",
        _options(wrist="Wrist", elbow="Elbow", short="Short"), lambda chosen: "wrist",
        length_words="From the shoulder point to the sleeve end, finished",
    ),
    Field("sleeve_finish", "choice", "Sleeve end", _options(hem="Hem", cuff="Cuff"), lambda chosen: "hem"),
    Field(
        "fit", "choice", "Fit", _options(close="Close", regular="Regular", loose="Loose"), lambda chosen: "regular",
    ),
    Field(
        "body", "choice", "Body", _options(straight="Straight", flared="Flared", pegged="Pegged"),
        lambda chosen: "straight", explains="pegged",
    ),
    Field(
        "waist", "choice", "Sides at the waist", _options(straight="Straight", shaped="Shaped"),
        lambda chosen: "straight",
    ),
    Field("hem_finish", "choice", "Hem", _options(turned="Turned up", band="Band"), lambda chosen: "turned"),
    *rib_fields(_any_band),
    _left_to_draft("neck_depth", "Depth of the V", "From the side-neck level down to the point, finished",
                   _figure("front_neck"), shown=_is_v),
    _left_to_draft("band_height", "Height of the neck band or collar", "Its height, finished",
                   _figure("neck_band_height"), shown=_has_band),
    _left_to_draft("cuff_height", "Height of the cuff", "Its height, finished", _figure("cuff_height"),
                   shown=_has_cuff),
    _left_to_draft("hem_band_height", "Height of the hem band", "Its height, finished", _figure("hem_band_height"),
                   shown=_has_hem_band),
    _left_to_draft("extension", "Shoulder past the shoulder point", "From the shoulder point on, finished",
                   _figure("extension")),
    Field(
        "shoulder_slope", "degrees", "Slope of the shoulder", ends=("level", "sloping"), low=12.0,
        high=lambda chosen: 28.0, usual=lambda chosen: 20.0,
    ),
    _left_to_draft("cap_height", "Height of the sleeve cap", "From the top of the cap to the underarm, finished",
                   lambda draft: draft.choices.cap_height),
    _left_to_draft("sleeve_end_girth", "Sleeve end", "The whole way round, finished", _girth("sleeve_end")),
    _left_to_draft("hem_girth", "Hem girth", "The whole way round, finished", _girth("hem")),
    Field(
        "slit", "choice_or_length", "Side slits", _options(auto="Where a step needs them", none="None"),
        lambda chosen: "auto", length_words="Height of the slits, finished",
        shown=lambda chosen: not _has_hem_band(chosen),
    ),
    _left_to_draft("ease_bust", "Ease at the bust", _ROUND, _ease("bust"), signed=True, explained_by="ease"),
    _left_to_draft("ease_waist", "Ease at the waist", _ROUND, _ease("waist"), signed=True),
    _left_to_draft("ease_hip", "Ease at the hip", _ROUND, _ease("hip"), signed=True),
    *(
        Field(
            f"allowances.{key}", "length", words, drafted=_allowance(edge), begins=ALLOWANCES[key],
            explained_by="allowance" if key == "shoulder" else "",
        )
        for key, (words, edge) in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final[tuple[Preset, ...]] = (
    Preset(
        "jumper", "Jumper", "Jumper",
        "Jumper with a round neck band, down to the hip, sleeves to the wrist",
        {
            "length": "hip", "neck": "round", "neck_finish": "auto", "sleeve_length": "wrist", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "straight",
        },
    ),
    Preset(
        "sailor", "Boat-neck top", "Boat-neck top",
        "Short top with a boat neck and sleeves to the elbow",
        {
            "length": "cropped", "neck": "boat", "neck_finish": "auto", "sleeve_length": "elbow",
            "sleeve_finish": "hem", "hem_finish": "turned", "fit": "regular", "body": "straight",
        },
    ),
    Preset(
        "cosy", "Roll-collar jumper", "Roll-collar jumper",
        "Loose jumper with a roll collar, cuffs and a hem band",
        {
            "length": "hip", "neck": "round", "neck_finish": "roll", "sleeve_length": "wrist", "sleeve_finish": "cuff",
            "hem_finish": "band", "fit": "loose", "body": "straight",
        },
    ),
    Preset(
        "shift", "Easy dress", "Dress with dropped shoulders",
        "Flared dress with a V neck, down to the knee, short sleeves",
        {
            "length": "knee", "neck": "v", "neck_finish": "auto", "sleeve_length": "short", "sleeve_finish": "hem",
            "hem_finish": "turned", "fit": "regular", "body": "flared",
        },
    ),
)  # fmt: skip

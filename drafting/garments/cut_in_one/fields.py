"""What `cut_in_one` asks, in the order of its screen, and its starting points. All of it is our choice."""

from collections.abc import Callable
from typing import Final

from drafting import sources
from drafting.contract.fields import Chosen, Field, Option, Preset, always
from drafting.contract.set_out import SetOut
from drafting.garments.cut_in_one.style import (
    ALLOWANCES,
    FLARE_WORDS,
    SLEEVE_WORDS,
    usual_overarm,
)
from drafting.parts.flounce_style import HEM_FLOUNCE, SLEEVE_FLOUNCE, has_hem_flounce
from drafting.parts.hood_style import hood_fields
from drafting.parts.pockets import POCKETS_FIELD
from drafting.parts.pouch import POUCH_FIELD
from drafting.parts.rib import rib_fields
from drafting.parts.side import sides_are_straight
from drafting.units import CM, read_length


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _girth(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.girth for girth in draft.girths if girth.at == at), None)


def _ease(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((girth.ease for girth in draft.girths if girth.at == at), None)


def _above_waist(draft: SetOut) -> float | None:
    """How far a deep underarm lies above the waist, finished."""
    if not draft.choices.deep:
        return None
    return draft.body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK - draft.points["underarm"].y


def _allowance(edge: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name == edge), None)


def _folded(chosen: Chosen) -> bool:
    return chosen("neck_layers") == "folded"


def _slanted(chosen: Chosen) -> bool:
    return not _folded(chosen) and chosen("neck_slant", "0").strip(" °") not in {"", "0"}


def _straight(chosen: Chosen) -> bool:
    return sides_are_straight(chosen("waist", "auto"), chosen.kind)


def _scooped(chosen: Chosen) -> bool:
    """Whether the neck is so low that its edge is scooped; a band may be sewn to it then."""
    height = read_length(chosen("neck_height"), "cm") if chosen("neck_height") else None
    return isinstance(height, float) and height < sources.NECK_SCOOP_BELOW


def _banded(chosen: Chosen) -> bool:
    return _scooped(chosen) and chosen("neck_finish", "turned") == "band"


def _cuffed(chosen: Chosen) -> bool:
    return chosen("sleeve_finish", "hem") == "cuff"


def _band_height(name: str) -> Callable[[SetOut], float | None]:
    """The finished height of a band: half of what its piece is high, folded."""

    def found(draft: SetOut) -> float | None:
        ends = (edge.stitch for piece in draft.pieces for edge in piece.edges if edge.name == f"{name}_end")
        return next((end.length() / 2 * (1 - draft.cloth.shrink_along) for end in ends), None)

    return found


def _usual_sides(chosen: Chosen, value: str) -> str | None:
    if value != "auto":
        return None
    return "As usual: straight" if sides_are_straight("auto", chosen.kind) else "As usual: shaped"


_WORKED_OUT: Final = (Option("auto", "Worked out"),)
_ROUND: Final = "Ease the whole way round; a minus makes it smaller"

_EDGES: Final = {
    "shoulder": "Allowance, shoulder and overarm",
    "side": "Allowance, side and underarm",
    "hem": "Allowance, hem",
    "sleeve_end": "Allowance, sleeve end",
    "neck_top": "Allowance, neck edge",
    "centre_back": "Allowance, centre back seam",
    "sleeve_joint": "Allowance, joint of the lower sleeve",
}


def _left_to_draft(key: str, words: str, length_words: str, drafted: Callable[[SetOut], float | None],
                   *, signed: bool = False, explained_by: str = "",
                   shown: Callable[[Chosen], bool] = always) -> Field:  # fmt: skip
    return Field(
        key, "choice_or_length", words, _WORKED_OUT, lambda chosen: "auto", length_words=length_words, signed=signed,
        drafted=drafted, explained_by=explained_by, shown=shown,
    )  # fmt: skip


FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(hip="Hip", mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"),
        lambda chosen: "knee", length_words="From the side-neck point to the hem, finished",
    ),
    Field(
        "neck_height", "slide", "Neck height, finished", ends=("scooped", "high"),
        usual=lambda chosen: (5 if chosen.kind == "child" else 14) * CM,
        high=lambda chosen: (28 if _folded(chosen) else 18) * CM,
    ),
    Field(
        "sleeve_length", "choice_or_length", "Sleeve length, finished", _options(wrist="Wrist", elbow="Elbow"),
        lambda chosen: SLEEVE_WORDS[0], length_words="From the shoulder point to the sleeve end, finished",
    ),
    Field(
        "flare", "choice_or_length", "Sleeve flare",
        _options(none="None", slight="Slight", bell="Bell", wide="Wide"), lambda chosen: FLARE_WORDS[0],
        length_words="Sleeve end, the whole way round, finished",
    ),
    Field(
        "fit", "choice", "Fit", _options(close="Close", regular="Regular", loose="Loose"), lambda chosen: "regular",
    ),
    Field(
        "body", "choice", "Body", _options(straight="Straight", flared="Flared", pegged="Pegged"),
        lambda chosen: "straight", explains="pegged",
    ),
    Field(
        "waist", "choice", "Sides at the waist",
        _options(auto="As usual", shaped="Shaped", straight="Straight"), lambda chosen: "auto",
        option_words=_usual_sides,
    ),
    Field(
        "overarm_angle", "degrees", "How far the sleeve falls", ends=("level", "falling"), high=lambda chosen: 30.0,
        usual=lambda chosen: usual_overarm(straight=_straight(chosen)),
    ),
    Field("underarm", "choice", "Underarm", _options(regular="Regular", deep="Deep"), lambda chosen: "regular"),
    Field(
        "underarm_above_waist", "length", "Underarm above the waist, for a deep underarm", drafted=_above_waist,
    ),
    Field(
        "neck_opening", "choice", "Neck opening", _options(none="None", centre_back="Slit at centre back"),
        lambda chosen: "none",
    ),
    Field(
        "neck_layers", "choice", "Neck layers", _options(single="Single", folded="Folded over"),
        lambda chosen: "single",
    ),
    Field(
        "neck_finish", "choice", "Neck edge", _options(turned="Turned in", band="Band", hood="Hood"),
        lambda chosen: "turned", shown=_scooped,
    ),
    *hood_fields(lambda chosen: _scooped(chosen) and chosen("neck_finish") == "hood"),
    _left_to_draft("neck_band_height", "Height of the neck band", "Its height, finished",
                   _band_height("neck_band"), shown=_banded),
    Field(
        "neck_lean", "degrees", "Neck opens upward", ends=("upright", "open"), high=lambda chosen: 15.0,
        usual=lambda chosen: 0.0,
    ),
    Field(
        "neck_slant", "degrees", "Neck edge slants", ends=("level", "slanted"), high=lambda chosen: 12.0,
        usual=lambda chosen: 0.0, shown=lambda chosen: not _folded(chosen),
    ),
    Field(
        "neck_slant_side", "choice", "Lower at the wearer’s", _options(left="Left", right="Right"),
        lambda chosen: "left", shown=_slanted,
    ),
    _left_to_draft("neck_half_width", "Neck width", "Half the neck’s width, finished",
                   lambda draft: draft.facts["half_width"]),
    Field(
        "shoulder_drop", "length", "Shoulder point below the side-neck point",
        drafted=lambda draft: draft.points["shoulder_point"].y,
    ),
    _left_to_draft("narrowest_girth", "Sleeve at its narrowest", "The whole way round, finished", _girth("narrowest")),
    _left_to_draft("hem_girth", "Hem girth", "The whole way round, finished", _girth("hem")),
    Field(
        "slit", "choice_or_length", "Side slits", _options(auto="Where a step needs them", none="None"),
        lambda chosen: "auto", length_words="Height of the slits, finished",
        shown=lambda chosen: not has_hem_flounce(chosen),
    ),
    Field(
        "centre_back", "choice", "Centre back", _options(fold="On the fold", seam="With a seam"), lambda chosen: "fold",
    ),
    Field(
        "lower_sleeve", "choice", "Lower sleeve",
        _options(whole="In one with the body", joined="Cut apart and joined"), lambda chosen: "whole",
    ),
    Field("sleeve_finish", "choice", "Sleeve end", _options(hem="Hem", cuff="Cuff", flounce="Flounce"),
          lambda chosen: "hem"),
    *SLEEVE_FLOUNCE,
    Field(
        "hem_finish", "choice", "Hem", _options(turned="Turned up", flounce="Flounce"),
        lambda chosen: "turned",
    ),
    *HEM_FLOUNCE,
    POUCH_FIELD,
    POCKETS_FIELD,
    _left_to_draft("cuff_height", "Height of the cuff", "Its height, finished",
                   _band_height("cuff"), shown=_cuffed),
    *rib_fields(lambda chosen: _banded(chosen) or _cuffed(chosen)),
    _left_to_draft("ease_bust", "Ease at the bust", _ROUND, _ease("bust"), signed=True, explained_by="ease"),
    _left_to_draft("ease_waist", "Ease at the waist", _ROUND, _ease("waist"), signed=True),
    _left_to_draft("ease_hip", "Ease at the hip", _ROUND, _ease("hip"), signed=True),
    *(
        Field(
            f"allowances.{edge}", "length", words, drafted=_allowance(edge), begins=ALLOWANCES[edge],
            explained_by="allowance" if edge == "shoulder" else "",
        )
        for edge, words in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final[tuple[Preset, ...]] = (
    Preset(
        "pullover", "Pullover", "Pullover",
        "Pullover, down to the hip, sleeves to the wrist",
        {
            "length": "hip", "sleeve_length": "wrist", "flare": "none", "neck_height": "9 cm", "fit": "regular",
            "body": "straight", "underarm": "regular", "overarm_angle": "",
        },
    ),
    Preset(
        "tunic", "Tunic", "Tunic",
        "Tunic, down to mid-thigh, loose and flared, sleeves to the elbow",
        {
            "length": "mid_thigh", "sleeve_length": "elbow", "flare": "none", "neck_height": "5 cm", "fit": "loose",
            "body": "flared", "underarm": "regular", "overarm_angle": "",
        },
    ),
    Preset(
        "dress", "Bell dress", "Bell dress",
        "Bell dress, down to the knee, flared, bell sleeves to the wrist",
        {
            "length": "knee", "sleeve_length": "wrist", "flare": "bell", "neck_height": "14 cm", "fit": "regular",
            "body": "flared", "underarm": "regular", "overarm_angle": "",
        },
    ),
    Preset(
        "wing", "Deep underarm", "Pullover with a deep underarm",
        "Deep underarm, down to the hip, loose, sleeves to the wrist",
        {
            "length": "hip", "sleeve_length": "wrist", "flare": "none", "neck_height": "5 cm", "fit": "loose",
            "body": "straight", "underarm": "deep", "overarm_angle": "15",
        },
    ),
)  # fmt: skip

"""What `kaftan` asks, in the order of its screen. All of it is our choice."""

import math
from collections.abc import Callable
from typing import Final

from drafting import sources
from drafting.contract.fields import Chosen, Field, Option, Preset, always
from drafting.contract.set_out import SetOut
from drafting.garments.kaftan.style import ALLOWANCES
from drafting.parts.pockets import POCKETS_FIELD


def _options(**words: str) -> tuple[Option, ...]:
    return tuple(Option(value, said) for value, said in words.items())


def _allowance(*edges: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((e.allowance for p in draft.pieces for e in p.edges if e.name in edges), None)


def _figure(at: str) -> Callable[[SetOut], float | None]:
    return lambda draft: next((figure.value for figure in draft.figures if figure.at == at), None)


def _fact(name: str) -> Callable[[SetOut], float | None]:
    return lambda draft: draft.facts.get(name)


def _is_joined(chosen: Chosen) -> bool:
    return chosen("lower_sleeve") == "joined"


_EDGES: Final = {
    "shoulder": ("Allowance, shoulder and overarm", ("shoulder",)),
    "side": ("Allowance, underarm and side", ("side",)),
    "hem": ("Allowance, hem", ("hem",)),
    "sleeve_end": ("Allowance, sleeve end", ("sleeve_end",)),
    "neck": ("Allowance, neck edge and facing", ("neck_edge",)),
    "sleeve_joint": ("Allowance, sleeve joint", ("sleeve_joint", "joint")),
}

FIELDS: Final[tuple[Field, ...]] = (
    Field(
        "length", "choice_or_length", "Length, finished",
        _options(hip="Hip", mid_thigh="Mid-thigh", knee="Knee", mid_calf="Mid-calf", ankle="Ankle"),
        lambda chosen: "mid_calf", length_words="From the side-neck point to the hem, finished",
        drafted=_figure("length"),
    ),
    Field(
        "sleeve_length", "choice_or_length", "Sleeve length, finished", _options(wrist="Wrist", elbow="Elbow"),
        lambda chosen: "wrist",
        length_words="From the shoulder point to the sleeve end, finished", drafted=_figure("sleeve"),
    ),
    Field(
        "sleeve_shape", "choice", "Shape of the sleeve",
        _options(tapered="Narrower towards the wrist", straight="As wide as the underarm"), lambda chosen: "tapered",
    ),
    Field(
        "neck_slit", "choice_or_length", "Slit of the neck", _options(auto="As long as the head needs"),
        lambda chosen: "auto", length_words="Length of the slit, finished", drafted=_figure("neck_slit"),
    ),
    Field(
        "lower_sleeve", "choice", "Lower sleeve",
        _options(whole="In one with the body", joined="Cut apart and joined"), lambda chosen: "whole",
    ),
    Field(
        "ease_bust", "choice_or_length", "Ease at the bust", _options(auto="Worked out"), lambda chosen: "auto",
        length_words="Wider than the bust by, all round", drafted=_fact("bust_ease"), explained_by="ease",
    ),
    Field(
        "sleeve_end_girth", "choice_or_length", "Girth of the sleeve end", _options(auto="Worked out"),
        lambda chosen: "auto", length_words="The whole way round, finished", drafted=_fact("sleeve_end_girth"),
    ),
    Field(
        "overarm_angle", "degrees", "Slope of the overarm", ends=("level", "sloping"), low=0.0,
        high=lambda chosen: math.degrees(sources.KAFTAN_OVERARM_MOST),
        usual=lambda chosen: math.degrees(sources.KAFTAN_OVERARM),
    ),
    Field(
        "slit", "choice_or_length", "Side slits", _options(auto="Where a step needs them", none="None"),
        lambda chosen: "auto", length_words="Height of the slits, finished",
    ),
    POCKETS_FIELD,
    *(
        Field(
            f"allowances.{key}", "length", words, drafted=_allowance(*edges), begins=ALLOWANCES[key],
            explained_by="allowance" if key == "shoulder" else "",
            shown=_is_joined if key == "sleeve_joint" else always,
        )
        for key, (words, edges) in _EDGES.items()
    ),
)  # fmt: skip

PRESETS: Final = (
    Preset(
        "market", "Market kaftan", "Kaftan", "Kaftan with sleeves to the wrist, down to the calf",
        {"length": "mid_calf", "sleeve_length": "wrist", "sleeve_shape": "tapered"},
    ),
    Preset(
        "evening", "Evening kaftan", "Long kaftan", "Kaftan with wide sleeves, down to the ankle",
        {"length": "ankle", "sleeve_length": "wrist", "sleeve_shape": "straight"},
    ),
    Preset(
        "garden", "Garden tunic", "Tunic", "Tunic with sleeves to the elbow, down to the middle of the thigh",
        {"length": "mid_thigh", "sleeve_length": "elbow", "sleeve_shape": "straight"},
    ),
)  # fmt: skip

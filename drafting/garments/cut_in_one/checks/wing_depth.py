"""How deep the batwing is: how far the underarm lies below the armpit on the way to the waist."""

from drafting import sources
from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "wing_depth"
ORDER = 41


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the underarm lies more than 65 % of the way down: an arm above the shoulder then lifts everything."""
    value, limit = 100 * draft.facts["wing_depth"], 100 * sources.WING_DEPTH_SHARE
    if value <= limit:
        return Check(ID, "pass", "The underarm lies high enough to raise the arms.", value, limit, "%")
    says = "The batwing is deep: raising the arms above the shoulders lifts the whole garment."
    return Check(ID, "warn", says, value, limit, "%")


def _above_waist(draft: SetOut) -> list[Value]:
    waist = draft.body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    room = (waist - draft.body.scye_depth) * (1 - sources.WING_DEPTH_SHARE)
    return [millimetres(room + 1)] if draft.choices.deep else []


WAYS = (
    fixed("style.underarm", "regular", "Choose the regular underarm."),
    Way(
        "style.underarm_above_waist",
        _above_waist,
        lambda value, words: f"Put the underarm {words(length_of(value))} above the waist.",
    ),
    fixed("style.overarm_angle", 10, "Let the sleeve fall by 10 degrees only."),
    fixed("style.overarm_angle", 0, "Let the sleeve lie level."),
    fixed("style.fit", "close", "Choose a closer fit."),
)

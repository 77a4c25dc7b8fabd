"""How wide leggings and trousers are, before any edge is drawn: hip, waist edge, extensions. Finished millimetres."""

from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.person.measures import Body
from drafting.person.passing import foot_needs, hip_needs
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class Upper:
    """Hip and waist edge all round, both measured straight across, and what a leg loses between them.

    `front`, `back` and `side` are what it loses at the centre front, at the centre back and at each of its sides.
    """

    hip: float
    waist: float
    front: float
    back: float
    side: float

    @property
    def front_hip(self) -> float:
        """The front of one leg at the hip."""
        return sources.FRONT_OF_HIP * self.hip / 2

    @property
    def back_hip(self) -> float:
        """The back of one leg at the hip."""
        return self.hip / 2 - self.front_hip


def slack(chalked: ChalkedLine, cloth: ClothFacts, corners: int) -> float:
    """By how much a ring may come out short whose ends are chalked at so many corners, all round.

    Each is read half a step of the tape off at the worst, both across and down an edge that slants a little (CALC).
    """
    return 0.75 * corners * chalked.tape.finest.size * (1 - cloth.shrink_across)


def upper(
    body: Body, cloth: ClothFacts, hip: float, round_waist: float, lose: tuple[float, float, float], spare: float,
    adjusted: list[Adjustment],
) -> Upper:  # fmt: skip
    """Hip and waist edge: the largest of the waist, of what passes over the hip, and of what the seams may take in.

    `round_waist` is what goes round the waist, `lose` what a leg may lose at centre front, centre back and each side,
    × scale; `spare` what the steps of the tape may take. Where the waist is wider than the hip, the hip is let out to
    it, and that is told.
    """
    grown = sources.scale(body.stature)
    front, back, side = (grown * most for most in lose)
    most = front + back + 2 * side
    passes = hip_needs(body) / passing_factor(cloth.across) + spare
    waist = max(round_waist, passes, hip - 2 * most)
    if waist > hip + 1e-6:
        why = (
            "the waist is wider than the hip, and the seams fall straight from it"
            if round_waist >= passes
            else "the waist goes on over the hip, and the cloth gives little"
        )
        adjusted.append(Adjustment("hip", "hip, all round", hip, waist, why))
        hip = waist
    share = (hip - waist) / 2 / most
    return Upper(hip, waist, share * front, share * back, share * side)


def least_hem(body: Body, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The least girth of a hem that goes over the foot, also as it is chalked."""
    return foot_needs(body) / passing_factor(cloth.across) + chalked.tape.finest.size


def trousers_crotch(body: Body) -> float:
    """How far below the waist the crotch of trousers lies."""
    return body.crotch_depth + sources.CROTCH_EASE * sources.scale(body.stature)


def knee_level(body: Body, crotch: float) -> float:
    """How far below the waist the knee lies, and always some way below the crotch."""
    return max(body.waist_height - body.knee_height, crotch + 0.06 * body.stature)


def ankle_level(body: Body) -> float:
    """How far below the waist the ankle lies."""
    return body.waist_height - sources.ANKLE_SHARE * body.stature


def hip_level(body: Body, crotch: float) -> float:
    """How far below the waist the full hip is reached."""
    return min(body.waist_to_hip, crotch - sources.HIP_ABOVE_CROTCH * sources.scale(body.stature))

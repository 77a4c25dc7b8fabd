"""How `cut_in_one` is sewn up, tried on and what it takes besides the cloth: only what applies to the draft and cloth.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.cut_in_one.lay_out import Parts
from drafting.parts.flounce_sewing import flounce_hung, flounce_rows, flounce_sewn
from drafting.parts.hood_sewing import hood_sewn, hood_to_buy
from drafting.parts.pouch import pouch_sewn
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import (
    BUST_FREE,
    BUST_LONGER,
    BUST_STEP,
    LONG_FROM,
    THREAD,
    Say,
    bought,
    elastic,
    fuller_than_chest,
    hang,
    hem_needle,
    longer_front,
    neck_band,
    needle,
    not_washed,
    pulled_by,
    room_to_grow,
    shoulder_elastic,
    small_child,
    stitch,
)
from drafting.person.measures import Body
from drafting.sentences import listed
from drafting.units import Unit

#: How far either side of the underarm its seam is sewn twice, mm.
SEWN_TWICE = 60.0
#: A gusset's side for a body of middle height, mm; for others in proportion, in whole centimetres.
GUSSET = 100.0
#: Above this a front is not eased in but takes a dart, and so far from the bust level it is eased, mm.
BUST_DART, BUST_EASED = 20.0, 80.0


@dataclass(frozen=True, slots=True)
class _Facts:
    """What decides which lines apply."""

    parts: Parts
    scooped: bool
    asked_neck: float
    asked_sleeve: float
    shoulder: float
    facing: tuple[float, float] | None
    #: How far in front of the shoulder seams the quarter marks of a neck band lie, mm.
    before_shoulder: float

    @property
    def body(self) -> Body:
        return self.parts.body

    @property
    def cloth(self) -> ClothFacts:
        return self.parts.cloth

    @property
    def opened(self) -> bool:
        return self.parts.choices.opening

    @property
    def back_seam(self) -> bool:
        return self.parts.choices.back_seam

    @property
    def folded(self) -> bool:
        """Whether the neck is folded over; a scooped one has nothing to fold."""
        return self.parts.choices.folded and not self.scooped


def after_cut(
    parts: Parts,
    facts: dict[str, float],
    shoulder: float,
    *,
    scooped: bool,
    unit: Unit,
    facing: tuple[float, float] | None = None,
    back_neck: float = 0.0,
) -> AfterCut:
    """What follows the cut. `shoulder` is the finished shoulder from the neck to the shoulder point, mm.

    `facing` is width and length as cut of the facing of an opening, where there is one. `back_neck` is half the length
    of a scooped back, mm.
    """
    found = _Facts(
        parts,
        scooped,
        pulled_by(parts.body.head_girth, facts["head_ring"]),
        pulled_by(parts.body.hand_girth, facts["sleeve_passing"]),
        shoulder,
        facing,
        0.0 if parts.neck_band is None else parts.neck_band.ring / 4 - back_neck,
    )
    say = Say(unit)
    return AfterCut(
        needle(found.cloth),
        THREAD,
        stitch(
            found.cloth,
            say,
            (found.asked_neck, "the neck is stretched over the head"),
            (found.asked_sleeve, "the sleeve is stretched over the hand"),
        ),
        tuple(_order(found, say)),
        tuple(_try_on(found, say)),
        tuple(_buy(found, say)),
        room_to_grow(found.body, say),
    )


# ---- the order of sewing -----------------------------------------------------------------------------------------


def _order(found: _Facts, say: Say) -> list[SewStep]:
    steps = [*pouch_sewn(found.parts.pouch, say), *found.parts.pockets.sewn_first(say), _shoulders(found, say)]
    if found.back_seam:
        steps.append(_back_seam(found, say))
    elif found.opened:
        steps.append(SewStep("opening", "Opening at the neck", _facing(found, say)))
    steps.append(_overarm(found, say))
    joined = found.parts.joint is not None
    if joined:
        says = (
            "Pin each lower sleeve to its sleeve: its centre line to the overarm seam, notch on notch. Sew the joint."
        )
        steps.append(SewStep("joint", "Sleeve joint", says))
    band = found.parts.neck_band
    if found.parts.hood is not None:
        steps.append(hood_sewn(found.parts.hood, say))
    elif band is not None:
        steps.append(SewStep("neck_edge", "Neck band", neck_band("neck band", found.before_shoulder, say)))
    else:
        steps.append(_neck_edge(found, say))
    steps += found.parts.pockets.around(_underarm(found, say), say)
    if found.parts.cuff is not None:
        steps.append(_cuffs(found))
    flounces = found.parts.flounces
    steps += [flounce_sewn(flounce, say) for flounce in flounces]
    long = found.parts.at.hem > found.parts.at.hip * LONG_FROM
    steps.append(flounce_hung(found.cloth, say) if flounces else hang(found.cloth, long=long))
    return [*steps, *_hems(found, say)]


def _shoulders(found: _Facts, say: Say) -> SewStep:
    long = say(elastic(found.shoulder, found.cloth))
    says = (
        f"Cut two pieces of clear elastic, or of the selvage, {long} long. Sew them onto the shoulder "
        "seam of the back, from the neck to the shoulder point. Do not stretch them."
    )
    if not found.opened:
        says += " Never onto the neck itself, which has to stretch over the head."
    return SewStep("shoulders", "Stay the shoulders", says)


def _back_seam(found: _Facts, say: Say) -> SewStep:
    if found.opened:
        says = (
            "Sew the two backs together from the hem up to the notch at the end of the opening. Above it the seam "
            "stays open and needs no facing: turn both allowances back and stitch them down."
        )
        if found.folded:
            below = say(sources.FOLD_OVER_TURNS_BELOW)
            says += (
                f" Snip both allowances to the stitching line {below} below the fold-over line, and turn them to the "
                "other side from there up: folded over, that part shows its inside."
            )
        return SewStep("back_seam", "Centre back seam", says)
    if found.folded:
        says = f"Sew the two backs together, notch on notch, from the hem up. {_changes_sides(say)}"
        return SewStep("back_seam", "Centre back seam", says)
    return SewStep(
        "back_seam", "Centre back seam", "Sew the two backs together, notch on notch, from the neck to the hem."
    )


def _changes_sides(say: Say) -> str:
    """How a seam of a folded neck goes on above the snip, so that its allowances are hidden when it is folded over."""
    below = say(sources.FOLD_OVER_TURNS_BELOW)
    return (
        f"Stop at the notch {below} below the fold-over line. Snip both allowances to the stitching there, turn the "
        "work, and sew on to the neck edge with the allowances to the other side: folded over, that part shows its "
        "inside."
    )


def _closed(found: _Facts) -> str:
    """The closure of an opening, and what it must not be on a small child."""
    where = "just below the fold-over line, where the neck stands" if found.folded else "at the neck edge"
    says = (
        f"Close it {where}: sew a short loop of doubled cloth under one edge, so that it laps under the other, and set "
        "a flat snap through both."
    )
    if not small_child(found.body):
        return says
    return (
        f"{says} Under three years nothing small may come off: take a snap that is pressed through the cloth, and pull "
        "hard at it before each wear."
    )


def _facing(found: _Facts, say: Say) -> str:
    says = (
        "Interface the facing with an interfacing that stretches, and neaten its sides and its foot. Lay it on the "
        "back, right sides together, its top on the cut edge of the neck and its marked line on the opening. Sew "
        f"{say(sources.FACING_BESIDE)} beside the marked line, down one side, tapering to a point at its end, and up "
        "the other. Only then cut both layers along the marked line, up to the point. Turn the facing in and press it."
    )
    if found.folded:
        says += " Where the neck is folded over, the facing shows."
    return says


def _overarm(found: _Facts, say: Say) -> SewStep:
    end = "sleeve joint" if found.parts.joint is not None else "sleeve end"
    if found.folded:
        says = f"Right sides together, sew front and back from the {end}, over the shoulder, and up the neck."
        return SewStep("overarm", "Overarm seams", f"{says} {_changes_sides(say)}")
    says = f"Right sides together, sew front and back from the neck edge, over the shoulder, to the {end}."
    return SewStep("overarm", "Overarm seams", says)


def _neck_edge(found: _Facts, say: Say) -> SewStep:
    trim = "Trim the slanted edge first, as it is marked. " if found.parts.slant_drop > 0 else ""
    allowance = say(found.parts.allowances["neck_top"])
    ends = " Turn in its ends at the opening." if found.opened else ""
    says = f"{trim}Turn the edge in once, by {allowance}, and sew it with a stitch that stretches.{ends}"
    if found.folded:
        says = (
            f"Turn the edge once, by {allowance}, to the outside: folded over, that is its inside. Sew it with a "
            f"stitch that stretches.{ends} Fold the neck over along the fold-over line."
        )
    if found.opened:
        says += f" {_closed(found)}"
    return SewStep("neck_edge", "Neck edge", says)


def _underarm(found: _Facts, say: Say) -> SewStep:
    slits = ", down to the top of the slit" if found.parts.slit > 0 else " to the hem"
    says = f"Baste underarm and side in one seam, from the sleeve end{slits}. Try the garment on."
    says += f"{not_washed(found.cloth)} Then sew the seam."
    if not found.parts.sleeve.cap:
        far = say.about(SEWN_TWICE)
        says += f" Sew once more over the same stitching, from {far} before the underarm to {far} beyond it."
    return SewStep("underarm", "Underarm and side", says, tries_on=True)


def _cuffs(found: _Facts) -> SewStep:
    says = (
        "Close each cuff to a ring and fold it along its line, wrong sides together. Pin its seam to the underarm seam "
        "and its fold to the overarm seam, and stretch it to the sleeve evenly. Sew it on with both its edges together."
    )
    return SewStep("cuffs", "Cuffs", says)


def _hems(found: _Facts, say: Say) -> list[SewStep]:
    allow = found.parts.allowances
    edges = [] if found.parts.sleeve_sewn else [f"the sleeve ends by {say(allow['sleeve_end'])}"]
    if found.parts.hem_flounce is None:
        edges.append(f"the hem by {say(allow['hem'])}")
    if found.parts.slit > 0:
        edges.append(f"the edges of the slits by {say(allow['side'])}")
    return [SewStep("hems", "Hems", f"Turn up {listed(edges)}. {hem_needle(say)}")] if edges else []


# ---- the try-on --------------------------------------------------------------------------------------------------


def _try_on(found: _Facts, say: Say) -> list[TryOn]:
    rows = flounce_rows() if found.parts.flounces else []
    if not found.scooped:
        lower = f"Lower the front neck by {say.span(10, 15)}."
        rows.append(TryOn("The neck stand pushes at the throat, and the garment slides back.", lower))
    if found.body.kind == "woman" and fuller_than_chest(found.body):
        rows.append(TryOn("The front hem rises over a full bust, and folds point at it.", _full_bust(found, say)))
    pinch = (
        f"Pinch out {say.span(10, 20)} at the centre back waist, running to nothing at the sides. Sew that into the "
        "centre back seam."
        if found.back_seam
        else f"Next time order a back with a seam at its centre, and take out {say.span(10, 20)} there at the waist."
    )
    rows.append(TryOn("There are folds across the small of the back.", pinch))
    longer = f"Next time cut the back {say(10)} longer there, and wider."
    rows.append(TryOn("It pulls across the shoulder blades.", longer))
    slope = say.span(5, 10)
    into = (
        f"The shoulders slope more. Take in {slope} at the shoulder point"
        f"{'' if found.parts.sleeve.cap else ', and lower the underarm as much'}."
    )
    rows.append(TryOn("Folds run from the neck to the underarm.", into))
    rows.append(
        TryOn("Folds run from the shoulder point to the neck.", f"The shoulders are squarer. Let out {slope} there.")
    )
    forward = f"Move the seam {say(10)} forward at the shoulder point, and not at all at the neck."
    rows.append(TryOn("The shoulder seam lies behind the shoulder.", forward))
    tight = f"Let both seams out by {slope}, as far as the allowances go."
    tight += "" if found.parts.sleeve.cap else f" Then the underarm lies {say(10)} lower."
    rows.append(TryOn("The upper arm is tight.", tight))
    rows.append(
        TryOn(
            "It drags at the waist, or juts out at the hip.",
            f"Let the side out at the waist by up to {say(10)}, as far as the allowance goes.",
        )
    )
    if not found.parts.sleeve.cap:
        gusset = round(GUSSET * sources.scale(found.body.stature), -1)
        lift = f"Next time choose a higher underarm or a more level overarm. Now, set in a gusset of {say(gusset)}."
        rows.append(TryOn("The raised arm lifts the whole garment.", lift))
    return rows


def _full_bust(found: _Facts, say: Say) -> str:
    over = found.body.bust_girth - found.body.upper_chest_girth - BUST_FREE
    says = longer_front(say)
    if over > 0 and not found.body.estimated("upper_chest_girth"):
        says += f" By these measures that is {say(over / BUST_STEP * BUST_LONGER)}."
    return (
        f"{says} Ease it in within {say.about(BUST_EASED)} of the bust level; above {say(BUST_DART)} sew a side dart."
    )


# ---- before the cut, and the shop --------------------------------------------------------------------------------


def _buy(found: _Facts, say: Say) -> list[ToBuy]:
    """Needle, thread, elastic, and what the opening takes. An overlock eats thread from a cone a needle or looper."""
    parts = found.parts
    bands = [band for band in (parts.neck_band, parts.cuff) if band is not None]
    buys = [*bought(found.cloth, say, "the hems"), shoulder_elastic(found.shoulder, found.cloth, say)]
    buys += hood_to_buy(parts.hood, parts.cloth, say)
    buys += parts.pockets.bought
    buys += rib_to_buy(bands, parts.choices.rib, found.cloth, say)
    if found.opened:
        snap = "flat snap to be pressed through the cloth" if small_child(found.body) else "flat snap"
        buys.append(ToBuy(snap))
        if found.facing is not None:
            across, long = found.facing
            buys.append(ToBuy(f"light interfacing that stretches, {say(across)} wide, for the facing", long))
    return buys

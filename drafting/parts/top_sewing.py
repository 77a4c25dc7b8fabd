"""How tops of stretch cloth are sewn alike: shoulders, neck, sides, cuffs, hems; words with lengths in the tape's unit.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm.
"""

from typing import Final

from drafting.contract.after_cut import SewStep, TryOn
from drafting.parts.band import Band
from drafting.parts.flounce_sewing import flounce_hung, flounce_rows, flounce_sewn
from drafting.parts.hood_sewing import hood_sewn
from drafting.parts.sewing import LONG_FROM, Say, elastic, hang, hem_needle, neck_band, not_washed
from drafting.parts.top import TopParts
from drafting.sentences import listed, lower_first

#: A sleeve end this many times as wide as its cuff is gathered; less is only stretched. Our choice.
GATHERED_FROM: Final = 1.35


def shoulder_seam(parts: TopParts, end: float) -> float:
    """The finished shoulder seam, mm; `end` is how far across its end lies."""
    return parts.neck.end.distance(parts.base.end(end))


def shoulders(shoulder: float, parts: TopParts, say: Say) -> SewStep:
    """The shoulder seams, stayed; `shoulder` is one, finished."""
    long = say(elastic(shoulder, parts.cloth))
    says = (
        f"Cut two pieces of clear elastic, or of the selvage, {long} long. Lay front and back right sides together and "
        "sew the shoulder seams, with the elastic on the seam of the back. Do not stretch it. Never sew it onto the "
        "neck edge, which has to stretch over the head."
    )
    return SewStep("shoulders", "Shoulder seams", says)


def neck_edge(parts: TopParts, say: Say) -> SewStep:
    """The neck, turned in, or with its band or its hood."""
    band = parts.bands.neck
    if parts.hood is not None:
        return hood_sewn(parts.hood, say)
    if band is None:
        says = f"Turn the edge in once, by {say(parts.allowances['neck'])}, and sew it with a stitch that stretches."
        if parts.choices.neck == "v":
            says += " At the point of the V snip the allowance up to the stitching first."
        if parts.choices.neck == "boat":
            says += " At the shoulders it comes to a point: snip the allowance there up to the stitching first."
        return SewStep("neck", "Neck edge", says)
    name = band.label.lower()
    if parts.choices.neck == "v":
        says = (
            f"Close the {name} to a ring and fold it along its line, wrong sides together. At its middle sew a mitre "
            "that is as pointed as the V. Snip the point of the front up to the stitching line. Pin the seam of the "
            f"{name} to the centre back and its mitre to the point, and sew it on from the point round, stretched "
            "evenly."
        )
        return SewStep("neck", "Neck band", says)
    says = neck_band(name, parts.neck.ring / 4 - parts.neck.back.length(), say)
    return SewStep("neck", band.label, says)


def sides(parts: TopParts) -> SewStep:
    """Under seam and side in one, basted for the try-on first."""
    slits = ", down to the top of the slit" if parts.slit > 0 else " to the hem"
    says = f"Baste under seam and side in one seam, from the sleeve end{slits}. Try the garment on."
    says += f"{not_washed(parts.cloth)} Then sew the seam."
    return SewStep("sides", "Under seam and side", says, tries_on=True)


def cuffs(band: Band) -> SewStep:
    """The cuffs; where the sleeve is much wider it is gathered."""
    fitted = "stretch it to the sleeve" if band.ring / band.length < GATHERED_FROM else "gather the sleeve to it"
    says = (
        "Close each cuff to a ring and fold it along its line, wrong sides together. Pin its seam to the under seam, "
        f"and {fitted} evenly. Sew it on with both its edges together."
    )
    return SewStep("cuffs", "Cuffs", says)


def hem_band_sewn(band: Band) -> SewStep:
    """The band of the hem."""
    says = (
        "Close the hem band to a ring and fold it along its line, wrong sides together. Pin its seam to a side, its "
        "fold to the other and its quarter marks to the centres of front and back. Sew it on with both its edges "
        "together, stretched evenly."
    )
    return SewStep("hem_band", band.label, says)


def ends(parts: TopParts, say: Say) -> list[SewStep]:
    """All that follows the sides: cuffs, flounces, hanging, hem band and hems."""
    steps = []
    if parts.bands.cuff is not None:
        steps.append(cuffs(parts.bands.cuff))
    steps += [flounce_sewn(flounce, say) for flounce in parts.flounces]
    steps.append(flounce_hung(parts.cloth, say) if parts.flounces else _hang(parts))
    if parts.bands.hem is not None:
        steps.append(hem_band_sewn(parts.bands.hem))
    edges = hem_edges(parts, say)
    if edges:
        steps.append(SewStep("hems", "Hems", f"Turn up {listed(edges)}. {hem_needle(say)}"))
    return steps


def _hang(parts: TopParts) -> SewStep:
    return hang(parts.cloth, long=parts.at.hem > parts.at.hip * LONG_FROM)


def hem_edges(parts: TopParts, say: Say) -> list[str]:
    """What is turned up, each with its allowance."""
    allow, edges = parts.allowances, list[str]()
    if not parts.choices.sleeve_sewn:
        edges.append(f"the sleeve ends by {say(allow['sleeve_end'])}")
    if not parts.choices.hem_sewn:
        edges.append(f"the hem by {say(allow['hem'])}")
    if parts.slit > 0:
        edges.append(f"the edges of the slits by {say(allow['side'])}")
    return edges


def hems_bought(parts: TopParts, say: Say) -> str:
    """What the needle for a hem is bought for; nothing where nothing is turned up."""
    turned = parts.hood is not None and not parts.hood.lined
    return "the hems" if hem_edges(parts, say) or parts.flounces or turned else ""


def stands_off(parts: TopParts, say: Say) -> list[TryOn]:
    """A neck band or a flounce that stands off, where there is one."""
    rows = flounce_rows() if parts.flounces else []
    if parts.bands.neck is not None:
        again = f"Take its seam in by {say.span(10, 20)}, and sew it on again."
        rows = [TryOn(f"The {lower_first(parts.bands.neck.label)} stands off.", again), *rows]
    return rows


def lies_on_the_shoulders(say: Say) -> list[TryOn]:
    """Back and shoulders at the try-on."""
    longer = f"Next time cut the back {say(10)} longer there, and wider."
    slope = say.span(5, 10)
    return [
        TryOn("It pulls across the shoulder blades.", longer),
        TryOn(
            "Folds run from the neck to the underarm.",
            f"The shoulders slope more. Take in {slope} at the end of the shoulder, and lower the underarm as much.",
        ),
        TryOn(
            "The shoulder seam lies behind the shoulder.",
            f"Move the seam {say(10)} forward at its end, and not at all at the neck.",
        ),
    ]

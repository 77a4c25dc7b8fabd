"""`draft.json`: the public record of a draft, as models that write its JSON Schema themselves. Lengths in mm."""

from collections.abc import Sequence
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting.chalk.marks import Apart, ApartKind, Counts
from drafting.chalk.plan import PieceMarks
from drafting.chalk.words.joining import joined
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut
from drafting.contract.pieces import Piece
from drafting.contract.seams import sewn_to
from drafting.geometry.point import Point
from drafting.layout import (
    SOLD_BY,
    Layout,
    across_folds,
    at_table,
    cost,
    heed,
    in_cutting_order,
    length_to_buy,
    offers,
)
from drafting.order import Result


class _Record(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class MarkRecord(_Record):
    """One mark: exact place, what the tape says, its number in chalking, how the line reaches it.

    `across` and `down` are counted from the first 0. `zero` is the 0 that its place down is read from, 2 where the tape
    does not reach, and `reads` what the tape then says. `stage` is the key of its stage of chalking, `joined` says how
    the outline runs to it ("straight from 4", "swung by 24.5 from 1").
    """

    id: str
    label: str
    kind: str
    x: float
    y: float
    across: str
    down: str
    order: int
    joins: Literal["straight", "curve", "swing"]
    stage: str
    zero: int
    reads: str
    joined: str


class StageRecord(_Record):
    """A stage of chalking: its key, and the title that a person reads."""

    key: str
    title: str


class NotchRecord(_Record):
    """A notch: `at` along its seam's stitching line; x and y on the cutting line."""

    seam: str
    id: str
    at: float
    x: float
    y: float


class SewnTo(_Record):
    """The other side of a seam."""

    piece: str
    seam: str


class SeamRecord(_Record):
    """A seam's length along the stitching line and its other side."""

    name: str
    length: float
    sewn_to: SewnTo
    ease: float


class ProofRecord(_Record):
    """A check length between two chalked marks."""

    start: str = Field(alias="from")
    end: str = Field(alias="to")
    length: float
    reads: str


class LookRecord(_Record):
    """One look that shows across and down exchanged: the mark, which way it lies farther, and the sentence."""

    mark: str
    farther: Literal["across", "down"]
    says: str


class TrimRecord(_Record):
    """A point of a slanted neck edge on the opened-out piece; x is positive towards the low side."""

    x: float
    y: float
    across: str
    down: str


class GuideRecord(_Record):
    """A line inside a piece that is chalked on it: its joined points as cut, what it is called, its marks by their ids.

    `says` is what to know of it while chalking, with the numbers of the marks; empty where there are no marks.
    """

    id: str
    label: str
    stage: str
    line: list[tuple[float, float]]
    marks: list[str]
    says: str


class LiesRecord(_Record):
    """Which way a piece lies while it is chalked: first mirrored (x to −x), then turned clockwise by these degrees."""

    turned: int
    mirrored: bool


class PieceRecord(_Record):
    """A piece: levels, outlines, marks, notches, seams, check lengths. All share its origin.

    `marks` go once round the outline; behind them stand those of the `guides`, the lines inside the piece.

    `stages` are the stages of its chalking in their order; `zeros` says how far down a second 0 is chalked, where the
    tape is too short for the piece.
    `lies` says which way it lies on the cloth, null before it is laid. `laid_whole` says that both its halves are
    chalked, so that the line it is drafted from is a centre and no fold. `other_cloth` is what the piece is cut of
    ("rib") where that is not the cloth of the garment, else empty; it is then laid nowhere.
    """

    name: str
    label: str
    cut: int
    on_fold: bool
    laid_whole: bool
    other_cloth: str
    lies: LiesRecord | None
    levels: dict[str, float]
    stitch_line: list[tuple[float, float]]
    cut_line: list[tuple[float, float]]
    stages: list[StageRecord]
    zeros: list[str]
    marks: list[MarkRecord]
    guides: list[GuideRecord]
    notches: list[NotchRecord]
    clips: list[tuple[float, float]]
    seams: list[SeamRecord]
    proofs: list[ProofRecord]
    look: LookRecord | None
    slit: float
    trim: list[TrimRecord]
    trim_side: str


class PassesRecord(_Record):
    """What goes through a girth as the garment is put on: the widest of it, what that needs, and how far it opens."""

    what: str
    needs: float
    opens: float


class GirthRecord(_Record):
    """A finished girth; body and ease are null where it goes round nothing in particular.

    `passes` says what goes through it, null where nothing does or where it is opened for that.
    """

    at: str
    girth: float
    body: float | None
    ease: float | None
    after_rounding: float | None
    passes: PassesRecord | None


class FigureRecord(_Record):
    """A place or length of the sewn garment that is no girth, mm: `label` says what and from where."""

    at: str
    label: str
    value: float


class EstimateRecord(_Record):
    """A measure that was not taken, and its spread (one standard deviation)."""

    measure: str
    value: float
    sd: float


class AdjustedRecord(_Record):
    """What the draft moved by itself. `key` is the style key that asks for it, or a name of its own.

    `from` and `to` are in `unit`.
    """

    key: str
    what: str
    before: float = Field(alias="from")
    after: float = Field(alias="to")
    unit: str
    why: str


class CheckRecord(_Record):
    """A check. `fix` says the ways out in words; `set` gives, for each, the order keys that it sets.

    `rules` names the published rules behind it.
    """

    id: str
    result: Literal["pass", "shown", "caution", "warn", "stop"]
    value: float | None
    limit: float | None
    unit: str
    says: str
    fix: list[str]
    set: list[dict[str, Any]]
    rules: str = ""


class PlaceRecord(_Record):
    """Where a piece's origin lies on the cloth: x from the left fold or edge, y from the cut end.

    `opened` is a piece laid whole; `layers` is 2 where it is cut through two layers.
    """

    piece: str
    x: float
    y: float
    turned: int
    mirrored: bool
    opened: bool
    layers: int


class FoldRecord(_Record):
    """A fold: across the laid cloth at `at` from its left (`across`: from the cut end); `depth` is turned over."""

    at: float
    depth: float
    across: bool


class LayoutRecord(_Record):
    """The pieces on the cloth: the way (`fold`), how wide it then lies, its folds and refoldings, outlines chalked.

    `buy` is the length bought for it, mm. `cost` is what ways are compared by: that, and a step of what cloth is sold
    by (10 cm or ⅛ yd) for each outline to chalk and each folding, in mm too. `heed` is what to know before it is taken.
    """

    fold: str
    cloth_width: float
    laid_width: float
    folds: list[FoldRecord]
    refolds: int
    foldings: int
    chalked: int
    length: float
    buy: float
    cost: float
    heed: str
    bound: float
    use: float
    places: list[PlaceRecord]


class OfferRecord(_Record):
    """A way that buys less than the one taken: which, how much less (mm), and what it costs in work, in words."""

    fold: str
    less: float
    outlines: int
    foldings: int
    says: str
    heed: str


class LayingRecord(_Record):
    """One piece set down, in the order of cutting: tape readings of its origin and the words for it."""

    order: int
    piece: str
    across: str
    down: str
    counted_from: str
    says: str


class AtTableRecord(_Record):
    """The work at the cloth before chalking."""

    title: str
    folding: list[str]
    layings: list[LayingRecord]
    count: str


class BuyRecord(_Record):
    """What to buy of the cloth in hand: laid + squaring + wash, rounded up as shops sell."""

    width: float
    laid: float
    squaring: float
    wash: float
    buy: float


class ReadRecord(_Record):
    """One reading of a tape and what it counts from."""

    counts: Counts
    reads: str


class ApartRecord(_Record):
    """One thing that a step says, told alone: what it is about, its words, at most two readings, and what to light.

    `marks` are ids of marks, `spot` another place and `line` joined points, both on the piece; of a "trim" they lie on
    the piece opened out, x to the right of one who looks at it with its neck away. `place` is the number of a place of
    the layout, from 0, where it concerns the cloth.
    """

    id: str
    kind: ApartKind
    title: str
    says: str
    reads: list[ReadRecord]
    marks: list[str]
    spot: tuple[float, float] | None
    line: list[tuple[float, float]]
    place: int | None


class StepRecord(_Record):
    """One step at the table; `heed` marks what is to be known before any work, `after_cut` what waits for the cut.

    `apart` are the things it says, one by one, and `rest` is what is left of `says` where those, the marks and the
    proof lengths are told alone; null where a step tells nothing but its words.
    """

    order: int
    piece: str
    title: str
    says: str
    marks: list[str]
    heed: bool
    after_cut: bool
    apart: list[ApartRecord]
    rest: str | None


class SewStepRecord(_Record):
    """One step of sewing up. `key` stays the same whatever the words are; `tries_on`: the garment is tried on in it."""

    key: str
    title: str
    says: str
    tries_on: bool


class TryOnRecord(_Record):
    """What is seen at the try-on, and what to change."""

    seen: str
    change: str


class ToBuyRecord(_Record):
    """Something to buy besides the cloth; `length` is null where it is not sold by length."""

    what: str
    length: float | None


class AfterCutRecord(_Record):
    """What follows the cut. `before_cut` is what one may want to change before it; `buy` leaves the cloth out."""

    before_cut: list[str]
    needle: str
    thread: str
    stitch: str
    order: list[SewStepRecord]
    try_on: list[TryOnRecord]
    buy: list[ToBuyRecord]


class DraftFile(_Record):
    """The whole of draft.json, version 1. `mending` is what to do when the cloth slipped or a mark is wrong.

    `after_cut` is null where nothing was set out.
    """

    format: Literal["foldmark-draft"] = "foldmark-draft"
    version: Literal[1] = 1
    garment: str
    title: str
    result: Literal["pass", "warn", "stop"]
    pieces: list[PieceRecord]
    finished: list[GirthRecord]
    figures: list[FigureRecord]
    estimates: list[EstimateRecord]
    adjusted: list[AdjustedRecord]
    checks: list[CheckRecord]
    warnings: list[str]
    layout: LayoutRecord | None
    layouts: list[LayoutRecord]
    offers: list[OfferRecord]
    at_table: AtTableRecord | None
    buy: BuyRecord | None
    chalk: list[StepRecord]
    mending: list[str]
    after_cut: AfterCutRecord | None


def _mm(value: float) -> float:
    # Nine places: far below the millionth that two platforms may differ by, and no longer than needed.
    return round(value, 9) + 0.0


def _pair(point: Point) -> tuple[float, float]:
    return _mm(point.x), _mm(point.y)


def draft_file(result: Result) -> DraftFile:
    """The record of a result. A draft that stops keeps its outlines but has no marks and no steps."""
    marked = {m.piece: m for m in result.plan.pieces} if result.plan else {}
    plans = [p for p in (result.plan, result.stitch_plan) if p is not None]
    return DraftFile(
        garment=result.order.garment,
        title=result.order.title,
        result=result.outcome,
        pieces=[_piece(piece, marked.get(piece.name), result) for piece in result.draft.pieces],
        finished=[
            GirthRecord(
                at=g.at,
                girth=_mm(g.girth),
                body=_mm(g.body) if g.body else None,
                ease=_mm(g.ease) if g.body else None,
                after_rounding=_mm(g.after_rounding) if result.plan else None,
                passes=None
                if g.passes is None
                else PassesRecord(what=g.passes.what, needs=_mm(g.passes.needs), opens=_mm(g.passes.opened(g.girth))),
            )
            for g in result.girths
        ],
        figures=[FigureRecord(at=f.at, label=f.label, value=_mm(f.value)) for f in result.draft.figures],
        estimates=[EstimateRecord(measure=e.measure, value=_mm(e.value), sd=_mm(e.sd)) for e in result.estimates],
        adjusted=[
            AdjustedRecord.model_validate(
                {
                    "key": a.key,
                    "what": a.what,
                    "from": _mm(a.before),
                    "to": _mm(a.after),
                    "unit": a.unit,
                    "why": a.why,
                }
            )
            for a in result.draft.adjusted
        ],
        checks=[
            CheckRecord(
                id=c.id,
                result=c.result,
                value=None if c.value is None else _mm(c.value),
                limit=None if c.limit is None else _mm(c.limit),
                unit=c.unit,
                says=c.says,
                fix=[way.says for way in c.ways_out],
                set=[dict(way.changes) for way in c.ways_out],
                rules=c.rules,
            )
            for c in result.checks
        ],
        warnings=[problem.line() for problem in result.warnings],
        layout=None if result.layout is None else _layout(result.layout, result.ready.cloth),
        layouts=[_layout(layout, result.ready.cloth) for layout in result.layouts],
        offers=[
            OfferRecord(
                fold=offer.layout.way,
                less=_mm(offer.less),
                outlines=offer.layout.chalked,
                foldings=offer.layout.foldings,
                says=offer.says,
                heed=offer.heed,
            )
            for offer in offers(result.layouts, result.ready.cloth)
        ],
        at_table=None if result.layout is None else _at_table(result.layout, result),
        buy=None if result.layout is None else _buy(result.layout, result),
        chalk=[
            StepRecord(
                order=s.order,
                piece=s.piece,
                title=s.title,
                says=s.says,
                marks=list(s.marks),
                heed=s.heed,
                after_cut=s.belongs == "after",
                apart=[_apart(one) for one in s.apart],
                rest=s.rest,
            )
            for p in plans
            for s in p.steps
        ],
        mending=list(result.plan.mending) if result.plan else [],
        after_cut=None if result.draft.after_cut is None else _after_cut(result.draft.after_cut),
    )


def _apart(told: Apart) -> ApartRecord:
    return ApartRecord(
        id=told.id,
        kind=told.kind,
        title=told.title,
        says=told.says,
        reads=[ReadRecord(counts=counts, reads=reads) for counts, reads in told.reads],
        marks=list(told.marks),
        spot=None if told.spot is None else _pair(told.spot),
        line=[_pair(point) for point in told.line],
        place=told.place,
    )


def _after_cut(told: AfterCut) -> AfterCutRecord:
    return AfterCutRecord(
        before_cut=list(told.before_cut),
        needle=told.needle,
        thread=told.thread,
        stitch=told.stitch,
        order=[
            SewStepRecord(key=step.key, title=step.title, says=step.says, tries_on=step.tries_on) for step in told.order
        ],
        try_on=[TryOnRecord(seen=row.seen, change=row.change) for row in told.try_on],
        buy=[ToBuyRecord(what=one.what, length=None if one.length is None else _mm(one.length)) for one in told.buy],
    )


def _layout(layout: Layout, cloth: ClothFacts) -> LayoutRecord:
    return LayoutRecord(
        fold=layout.way,
        cloth_width=_mm(layout.cloth_width),
        laid_width=_mm(layout.laid_width),
        folds=[FoldRecord(at=_mm(fold.at), depth=_mm(fold.depth), across=fold.across) for fold in layout.folds],
        refolds=layout.refolds,
        foldings=layout.foldings,
        chalked=layout.chalked,
        length=_mm(layout.length),
        buy=_mm(length_to_buy(layout, cloth, cloth.sold_in).buy),
        cost=_mm(cost(layout, cloth) * SOLD_BY[cloth.sold_in]),
        heed=heed(layout),
        bound=_mm(layout.bound),
        use=_mm(layout.use),
        places=[
            PlaceRecord(
                piece=p.piece, x=_mm(p.x), y=_mm(p.y), turned=p.turned, mirrored=p.mirrored, opened=p.opened,
                layers=p.layers,
            )
            for p in layout.places
        ],
    )  # fmt: skip


def _at_table(layout: Layout, result: Result) -> AtTableRecord:
    told = at_table(layout, result.draft.pieces, result.ready.tape)
    return AtTableRecord(
        title=told.title,
        folding=list(told.folding),
        layings=[
            LayingRecord(
                order=one.order,
                piece=one.piece,
                across=one.across.text,
                down=one.down.text,
                counted_from=one.counted_from,
                says=one.says,
            )
            for one in told.layings
        ],
        count=told.count,
    )


def _buy(layout: Layout, result: Result) -> BuyRecord:
    bought = length_to_buy(layout, result.ready.cloth, result.order.person.unit)
    return BuyRecord(
        width=_mm(bought.width),
        laid=_mm(bought.laid),
        squaring=_mm(bought.squaring),
        wash=_mm(bought.wash),
        buy=_mm(bought.buy),
    )


def _lies(name: str, layout: Layout, pieces: Sequence[Piece]) -> LiesRecord | None:
    """How the first of a piece lies; on a fold across the cloth its half lies on the end that is turned over."""
    place = next((one for one in in_cutting_order(layout, pieces) if one.piece == name), None)
    if place is None:
        return None
    mirrored = place.mirrored
    for fold in across_folds(layout, pieces):
        if fold.place == place:
            mirrored = (place.turned % 360 == 90) != (fold.end == "cut end")
    return LiesRecord(turned=place.turned % 360, mirrored=mirrored)


def _piece(piece: Piece, marked: PieceMarks | None, result: Result) -> PieceRecord:
    tape = result.ready.tape
    legs = joined(marked.marks, closed=not piece.on_fold) if marked else {}
    inside = {guide.guide: guide for guide in marked.guides} if marked else {}
    for guided in inside.values():
        legs |= joined(guided.marks)
    return PieceRecord(
        name=piece.name,
        label=piece.label,
        cut=piece.cut,
        on_fold=piece.on_fold,
        laid_whole=result.layout is not None and piece.name in result.layout.laid_whole,
        other_cloth=piece.other_cloth,
        lies=None if result.layout is None else _lies(piece.name, result.layout, result.draft.pieces),
        levels={level.key: _mm(level.down) for level in piece.levels},
        stitch_line=[_pair(p) for p in piece.stitch_line],
        cut_line=[_pair(p) for p in piece.cut_line],
        stages=[StageRecord(key=stage.key, title=stage.title) for stage in piece.stages],
        zeros=[place.text for place in marked.zeros] if marked else [],
        marks=[
            MarkRecord(
                id=m.id,
                label=m.label,
                kind=m.kind,
                x=_mm(m.point.x),
                y=_mm(m.point.y),
                across=m.across.text,
                down=m.down.text,
                order=m.order,
                joins=m.joins,
                stage=m.stage,
                zero=m.zero,
                reads=m.reads.text,
                joined=legs[m.id],
            )
            for m in (*(marked.marks if marked else ()), *(m for guided in inside.values() for m in guided.marks))
        ],
        guides=[
            GuideRecord(
                id=guide.id,
                label=guide.label,
                stage=guide.stage,
                line=[_pair(p) for p in guide.line],
                marks=[m.id for m in inside[guide.id].marks] if inside else [],
                says=inside[guide.id].says if inside else "",
            )
            for guide in piece.guides
        ],
        notches=[
            NotchRecord(seam=n.seam, id=n.id, at=_mm(n.at), x=_mm(n.outer.x), y=_mm(n.outer.y)) for n in piece.notches
        ],
        clips=[_pair(outer) for outer, _ in piece.clips],
        seams=[
            SeamRecord(
                name=e.name,
                length=_mm(e.stitch.length()),
                ease=_mm(other[1]),
                sewn_to=SewnTo(piece=other[0].piece, seam=other[0].edge),
            )
            for e in piece.edges
            if (other := sewn_to(result.draft.seams, piece.name, e.name)) is not None
        ],
        proofs=[
            ProofRecord.model_validate({"from": p.start, "to": p.end, "length": _mm(p.length), "reads": p.reads.text})
            for p in (marked.proofs if marked else ())
        ],
        look=LookRecord(mark=marked.look.mark, farther=marked.look.farther, says=marked.look.says)
        if marked and marked.look
        else None,
        slit=_mm(piece.slit.high if piece.slit else 0.0),
        trim=[
            TrimRecord(x=_mm(p.x), y=_mm(p.y), across=tape.reading(abs(p.x)).text, down=tape.reading(p.y).text)
            for p in piece.trim
        ],
        trim_side=piece.trim_side,
    )

"""The pattern at true size on sheets of paper that are glued together.

Each sheet keeps a margin of 10 mm that a printer may not reach, and overlaps its neighbours by 10 mm. Register
crosses lie in the middle of the overlap, at the same place of the pattern on both sheets, so they come to lie on
each other. Sheets without any line of the piece are left out: on the map those outside it are crossed out, and blank
ones inside it say so. The sheets that are printed follow the lines, so each joins another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.contract.pieces import Piece
from drafting.drawing.piece import Drawing, Label, Stroke, crosses_box, cut_words, label_box, piece_drawing
from drafting.drawing.shared import differing, label_of, onto, together
from drafting.geometry.point import Point
from drafting.render.fonts import Fonts
from drafting.render.pdf import MARGIN, PAPERS, Paper, PaperName, runs_within
from drafting.units import INCH, Tape

OVERLAP = 10.0
#: Room kept between the cut line and the first sheet's edge, mm: the fold is drawn 1.1 mm wide (our choice).
LEAD = 3.0
#: Words and signs at true size, times those of a small sheet (our choice: read from arm's length).
LETTERS = 1.5
_NAME_WIDE = 58.0  # room for the words on a sheet, mm
_TITLE, _HEAD, _BODY, _SMALL, _SMALLEST = 18.0, 12.0, 9.5, 8.0, 7.0
_LEFT_OUT = "left out"
#: A sheet is printed where one of these runs: levels, widths and words alone need none.
_LINES = frozenset({"cut", "stitch", "fold", "centre", "guide", "notch", "clip", "trim"})
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet of a piece: row and sheet counted from 1, and the part of the cloth it shows, mm.

    A `blank` one lies on the piece but shows no line of it; it is left out, as one outside the piece is.
    """

    row: int
    sheet: int
    box: Box
    needed: bool
    blank: bool = False


@dataclass(frozen=True, slots=True)
class Tiling:
    """All sheets of a piece, row by row."""

    piece: Piece
    drawing: Drawing
    rows: int
    sheets: int
    tiles: tuple[Tile, ...]
    whole: bool = False
    others: tuple[Piece, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All pieces that these sheets show."""
        return (self.piece, *self.others)

    @property
    def label(self) -> str:
        """What the pieces on these sheets are called."""
        return label_of(self.pieces)

    def at(self, row: int, sheet: int) -> Tile | None:
        """The tile at a place, None when there is none or it is left out."""
        if not (1 <= row <= self.rows and 1 <= sheet <= self.sheets):
            return None
        tile = self.tiles[(row - 1) * self.sheets + sheet - 1]
        return tile if tile.needed else None


def pattern(
    pieces: Sequence[Piece],
    tape: Tape,
    *,
    title: str = "Pattern",
    person: str = "",
    paper: PaperName | tuple[float, float] | None = None,
    fonts: Fonts | None = None,
    whole: frozenset[str] = frozenset(),
) -> bytes:
    """A PDF of every piece at true size: first the test squares, the map and the list, then the sheets.

    `paper` is a name, or width and height in mm; left out, A4 for a tape in cm and Letter for one in inches.
    `whole` names the pieces that are laid open on the cloth, so that their straight edge is a centre and no fold.
    Raises ValueError for a side over 14,400 points or a sheet too small to hold anything. Lines are true to 0.05 mm.
    """
    size = PAPERS[paper or ("A4" if tape.unit == "cm" else "Letter")] if not isinstance(paper, tuple) else paper
    sheet = Paper(size, f"{title}: pattern at true size", fonts)
    laid = tuple(
        tiling(group[0], tape, size, whole=group[0].name in whole, others=group[1:])
        for group in together(pieces, whole)
    )
    _first_page(sheet, laid, title, person)
    for tiles in laid:
        for tile in tiles.tiles:
            if tile.needed:
                _tile_page(sheet, tiles, tile)
    return sheet.finish()


def tiling(
    piece: Piece, tape: Tape, size: tuple[float, float], *, whole: bool = False, others: tuple[Piece, ...] = ()
) -> Tiling:
    """How a piece, and others drawn on it, is cut up into sheets of `size` mm."""
    wide, tall = size[0] - 2 * MARGIN, size[1] - 2 * MARGIN
    step_x, step_y = wide - OVERLAP, tall - OVERLAP
    if min(step_x, step_y) < 10 * OVERLAP:
        raise ValueError("a sheet for the pattern must be at least 130 mm wide and high")
    drawing = piece_drawing(piece, None, tape, letters=LETTERS, show_marks=False, whole=whole, others=others)
    outlines = [onto(piece, one).cut_line for one in (piece, *others)]
    left, top = -LEAD, min(point.y for line in outlines for point in line) - LEAD
    columns = _count(max(point.x for line in outlines for point in line) + LEAD - left, step_x)
    rows = _count(max(point.y for line in outlines for point in line) + LEAD - top, step_y)
    tiles = []
    for row in range(rows):
        for column in range(columns):
            x, y = left + column * step_x, top + row * step_y
            # What lies in the overlap to the right or below is on the neighbour too, so only a last sheet owns it.
            own = (x, y, x + (wide if column == columns - 1 else step_x), y + (tall if row == rows - 1 else step_y))
            needed = _holds(drawing, own, grain=not piece.on_fold)
            blank = not needed and _inside(Point((own[0] + own[2]) / 2, (own[1] + own[3]) / 2), piece.cut_line)
            tiles.append(Tile(row + 1, column + 1, (x, y, x + wide, y + tall), needed, blank))
    return Tiling(piece, drawing, rows, columns, tuple(tiles), whole, others)


def _count(length: float, step: float) -> int:
    """How many sheets reach over a length when each but the last gives one step and the last its overlap besides."""
    count = 1
    while count * step + OVERLAP < length:
        count += 1
    return count


def _holds(drawing: Drawing, box: Box, *, grain: bool) -> bool:
    """Whether a line that is cut, sewn or folded runs through a box; where there is no fold, the grain counts too."""
    roles = _LINES | ({"grain"} if grain else set())
    return any(
        crosses_box(a, b, box)
        for item in drawing.items
        if isinstance(item, Stroke) and item.role in roles
        for a, b in pairwise([*item.points, item.points[0]] if item.closed else item.points)
    )


def _inside(point: Point, line: Sequence[Point]) -> bool:
    inside = False
    for a, b in zip(line, [*line[1:], line[0]], strict=True):
        if (a.y > point.y) != (b.y > point.y) and point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y):
            inside = not inside
    return inside


# ---- the first page ----------------------------------------------------------------------------------------------


def _first_page(paper: Paper, laid: Sequence[Tiling], title: str, person: str) -> None:
    paper.add_page()
    wide = paper.sheet_width - 2 * MARGIN
    text, size = paper.fitted(title, wide, _TITLE, smallest=13.0, strong=True, about="Title")
    paper.words(MARGIN, MARGIN + 6, text, size, strong=True)
    under = f"Pattern at true size, for {person}" if person else "Pattern at true size"
    text, size = paper.fitted(under, wide, _HEAD, smallest=9.0, about="For")
    paper.words(MARGIN, MARGIN + 12, text, size)
    paper.rule(MARGIN, MARGIN + 15, wide, 0.4)
    top = MARGIN + 19
    sheets = sum(tile.needed for tiles in laid for tile in tiles.tiles)
    metric = (
        "Print at 100 %, without fitting to the page.",
        "Then lay a ruler on both squares, across and down. If a side is off by more than 1 mm, the print is not true: "
        "set the size to 100 % and print again.",
        f'{sheets} sheets follow. On the map "2, 4" is row 2, sheet 4. A crossed place holds nothing of the piece, a '
        "struck one inside it would be blank: both are left out.",
        "Trim each along the right and the lower edge of its frame, lay it over the next so that the "
        "crosses meet, and tape.",
    )
    _square(paper, MARGIN, top, 100.0, name="This square is 100 mm each way", lines=metric)
    pieces = [f"{piece.label}: {cut_words(piece, tiles.whole)}" for tiles in laid for piece in tiles.pieces]
    if any(_necks(tiles) for tiles in laid):
        pieces.append("Where two cutting lines are drawn, each is named after its piece: cut that piece along its own.")
    lines = [
        *pieces,
        "The solid line is the cutting line; every allowance is inside it. The dashed line is the stitching line, the "
        "size when finished.",
    ]
    if any(tiles.piece.on_fold and not tiles.whole for tiles in laid):
        lines.append("The heavy line is the fold. Lay it on the fold of the cloth and do not cut there.")
    if any(tiles.whole for tiles in laid):
        lines.append(
            "The dash-dot line is a centre line: chalk round this half, turn it over along that line, chalk the other."
        )
    _square(paper, MARGIN, top + 103, 4 * INCH, name="This square is 4 in each way", lines=lines)
    left = MARGIN + 4 * INCH + 7
    _maps(paper, laid, left, top, paper.sheet_width - MARGIN - left)
    _in_full(paper)


def _necks(tiles: Tiling) -> bool:
    """Whether the pieces on these sheets have lines of their own."""
    return any(differing(onto(tiles.piece, one).cut_line, tiles.piece.cut_line) for one in tiles.others)


def _square(paper: Paper, x: float, y: float, side: float, *, name: str, lines: Sequence[str]) -> None:
    paper.pen(0.3)
    paper.rect(x, y, side, side)
    paper.words(x + 4, y + 8, name, _HEAD, strong=True)
    at = y + 15
    for line in lines:
        for part in paper.wrapped(line, side - 8, _BODY):
            paper.words(x + 4, at, part, _BODY)
            at += 4.6
        at += 1.8


def _maps(paper: Paper, laid: Sequence[Tiling], left: float, top: float, room: float) -> None:
    """The map of sheets of every piece, as many on a page as are easily read, further ones on pages of their own."""
    floor = paper.sheet_height - MARGIN
    y, columns = top, [left]
    share = (floor - top) / min(len(laid), 2) - 4
    for tiles in laid:
        wide, tall = _cell(tiles, paper)
        scale = min(room / (tiles.sheets * wide), (share - 12) / (tiles.rows * tall))
        high = tiles.rows * tall * scale + 12
        if y + high > floor:
            if len(columns) > 1:  # a page of maps alone has two columns
                columns.pop(0)
            else:
                paper.add_page()
                columns = [MARGIN, left]
            y = MARGIN
        paper.words(columns[0], y + 4, f"{tiles.label}: map of the sheets", _HEAD, strong=True)
        _map(paper, tiles, columns[0], y + 7, scale)
        y += high + 4


def _cell(tiles: Tiling, paper: Paper) -> tuple[float, float]:
    return paper.sheet_width - 2 * MARGIN - OVERLAP, paper.sheet_height - 2 * MARGIN - OVERLAP


def _map(paper: Paper, tiles: Tiling, x: float, y: float, scale: float) -> None:
    wide, tall = (side * scale for side in _cell(tiles, paper))
    first = tiles.tiles[0].box
    outline = [Point(x + (p.x - first[0]) * scale, y + (p.y - first[1]) * scale) for p in tiles.piece.cut_line]
    for tile in tiles.tiles:
        at_x, at_y = x + (tile.sheet - 1) * wide, y + (tile.row - 1) * tall
        paper.pen(0.15)
        paper.rect(at_x, at_y, wide, tall)
        if tile.needed:
            _map_name(paper, f"{tile.row}, {tile.sheet}", (at_x, at_y, at_x + wide, at_y + tall), outline)
        else:
            paper.line(at_x, at_y + tall, at_x + wide, at_y)
            if not tile.blank:
                paper.line(at_x, at_y, at_x + wide, at_y + tall)
            elif paper.width_of(_LEFT_OUT, _SMALLEST) < wide - 1:
                paper.words(at_x + wide / 2, at_y + tall - 1.2, _LEFT_OUT, _SMALLEST, anchor="middle")
    paper.pen(0.45)
    points = [(p.x, p.y) for p in outline]
    paper.polyline(points, polygon=not tiles.piece.on_fold)
    for other in tiles.others:
        for run in differing(onto(tiles.piece, other).cut_line, tiles.piece.cut_line):
            paper.polyline([(x + (p.x - first[0]) * scale, y + (p.y - first[1]) * scale) for p in run])
    if tiles.piece.on_fold and not tiles.whole:
        paper.pen(0.9)
        paper.line(*points[0], *points[-1])


def _map_name(paper: Paper, name: str, cell: Box, outline: Sequence[Point]) -> None:
    """The name of a sheet in its cell on the map, off the outline where there is room."""
    wide, tall = cell[2] - cell[0], cell[3] - cell[1]
    size = max(min(8.0, 0.85 * wide), _SMALLEST)
    half_wide, half_tall = paper.width_of(name, size) / 2 + 0.5, size * 0.17 + 0.4
    spots = [
        (cell[0] + wide * across, cell[1] + tall * down)
        for down in (0.5, 0.75, 0.25, 0.88, 0.12)
        for across in (0.5, 0.3, 0.7)
    ]

    def struck(spot: tuple[float, float]) -> bool:
        box = (spot[0] - half_wide, spot[1] - half_tall, spot[0] + half_wide, spot[1] + half_tall)
        return any(crosses_box(a, b, box) for a, b in pairwise(outline))

    at_x, at_y = next((spot for spot in spots if not struck(spot)), spots[0])
    paper.words(at_x, at_y + size * 0.127, name, size, anchor="middle")


def _in_full(paper: Paper) -> None:
    """What did not fit above, in full and small, so that nothing is cut off unsaid."""
    if not paper.shortened:
        return
    lines = [
        part
        for about, text in paper.shortened
        for part in paper.wrapped(f"{about} in full: {text}", paper.sheet_width - 2 * MARGIN, _SMALL)
    ]
    paper.add_page()
    y = MARGIN + 5
    for line in lines:
        paper.words(MARGIN, y, line, _SMALL)
        y += 3.8


# ---- the sheets --------------------------------------------------------------------------------------------------


def _tile_page(paper: Paper, tiles: Tiling, tile: Tile) -> None:
    paper.add_page()
    wide, tall = tile.box[2] - tile.box[0], tile.box[3] - tile.box[1]
    with paper.rect_clip(MARGIN, MARGIN, wide, tall):
        paper.draw(tiles.drawing, MARGIN, MARGIN, tile.box)
    paper.pen(0.15)
    paper.rect(MARGIN, MARGIN, wide, tall)
    for across in (OVERLAP / 2, wide / 2, wide - OVERLAP / 2):
        for down in (OVERLAP / 2, tall / 2, tall - OVERLAP / 2):
            if (across, down) != (wide / 2, tall / 2):
                _cross(paper, MARGIN + across, MARGIN + down)
    name = f"{tiles.label} \u2013 row {tile.row}, sheet {tile.sheet}"
    joins = paper.wrapped(_joins(tiles, tile), _NAME_WIDE, _SMALL)
    room = max(paper.width_of(name, _HEAD, strong=True), *(paper.width_of(line, _SMALL) for line in joins))
    x, y = _quiet(tiles.drawing, tile, room + 5, 7.0 + 3.6 * len(joins))
    x += 2.5  # clear of a line beside it
    paper.words(x, y + 4.5, name, _HEAD, strong=True)
    for index, line in enumerate(joins):
        paper.words(x, y + 9 + 3.6 * index, line, _SMALL)


def _cross(paper: Paper, x: float, y: float) -> None:
    paper.pen(0.2)
    paper.line(x - 3, y, x + 3, y)
    paper.line(x, y - 3, x, y + 3)
    paper.circle(x, y, 1.5)


def _joins(tiles: Tiling, tile: Tile) -> str:
    """Which sheets it joins, in words."""
    around = (("on the left", 0, -1), ("on the right", 0, 1), ("above", -1, 0), ("below", 1, 0))
    said, blank = [], []
    for where, down, across in around:
        place = tile.row + down, tile.sheet + across
        other = tiles.at(*place)
        if other is not None:
            said.append(f"row {other.row}, sheet {other.sheet} {where}")
        elif any((one.row, one.sheet) == place and one.blank for one in tiles.tiles):
            blank.append(where)
    joins = f"joins {'; '.join(said)}" if said else "stands alone"
    return f"{joins}. Left out, being blank: {' and '.join(blank)}" if blank else joins


def _quiet(drawing: Drawing, tile: Tile, wide: float, tall: float) -> tuple[float, float]:
    """A place of `wide` × `tall` mm on the sheet where no line runs, as near the upper left as can be."""
    box = tile.box
    room_x, room_y = box[2] - box[0], box[3] - box[1]
    lines = [
        pair
        for item in drawing.items
        if not isinstance(item, Label) and item.role != "piece_fill"
        for run, _ in runs_within(item, box)
        for pair in pairwise(run)
    ]
    words = [label_box(item, drawing.scale) for item in drawing.items if isinstance(item, Label)]
    best, fewest = (MARGIN + 12.0, MARGIN + 12.0), 10**9
    for down in _spread(OVERLAP + 1, room_y - OVERLAP - tall, 9):
        for across in _spread(OVERLAP + 2, room_x - OVERLAP - wide, 9):
            x, y = box[0] + across, box[1] + down
            spot = (x, y, x + wide, y + tall)
            struck = sum(crosses_box(a, b, spot) for a, b in lines)
            struck += sum(w[0] < spot[2] and spot[0] < w[2] and w[1] < spot[3] and spot[1] < w[3] for w in words)
            if struck < fewest:
                best, fewest = (MARGIN + across, MARGIN + down), struck
            if struck == 0:
                return best
    return best


def _spread(start: float, end: float, count: int) -> list[float]:
    if end <= start:
        return [start]
    return [start + (end - start) * step / (count - 1) for step in range(count)]

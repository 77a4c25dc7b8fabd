"""Makes the two bundled fonts in assets/fonts/ from Debian's package `fonts-inter` (3.019, SIL Open Font License).

What is changed, and why the result carries a name of its own:
the glyphs are cut down to what is shown, the outlines turned from cubics into quadratics (a plain TrueType file is
what every PDF writer and the browser's engine take), the plain digits become the figures of equal width, so that
columns of readings stand straight everywhere without asking for a feature, ⅔ is put together from its parts because
the original lacks it, and the features that redraw what was typed (ligatures, contextual forms) are left out.
Kerning and mark placement stay.

The output is committed; run this again only for a new source or more glyphs:

    apt-get install fonts-inter
    .venv/bin/python build/chores/fonts.py

The same source gives the same bytes.
"""

import argparse
from pathlib import Path
from typing import Any

from fontTools import subset
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.recordingPen import DecomposingRecordingPen, replayRecording
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable

ROOT = Path(__file__).resolve().parents[2]
SOURCE = Path("/usr/share/fonts/opentype/inter")
FAMILY = "Foldmark Sans"
STYLES = {"Regular": "Inter-Regular.otf", "SemiBold": "Inter-SemiBold.otf"}

RANGES = (
    (0x0020, 0x007E),  # Basic Latin
    (0x00A0, 0x024F),  # Latin-1, Latin Extended-A and B
    (0x0300, 0x036F),  # combining marks, for names typed in parts
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x045F),  # Cyrillic of today's languages
    (0x0490, 0x04FF),
    (0x1E00, 0x1EFF),  # Latin for Vietnamese, Yoruba, Igbo and others
    (0x2010, 0x2044),  # dashes, quotes, bullet, ellipsis, primes
)
SINGLES = "⅓⅔⅛⅜⅝⅞←↑→↓↔↕✓−≈≤≥□■○●△▲"
REDRAWN_AT_MOST = 1.0  # font units of 2816 to the em: how far a quadratic may leave its cubic
FEATURES = ["kern", "mark", "mkmk", "ccmp", "locl"]


def asked() -> list[int]:
    """Every code point the fonts should have."""
    return sorted({code for low, high in RANGES for code in range(low, high + 1)} | {ord(sign) for sign in SINGLES})


def single_substitutions(font: Any, tag: str) -> dict[str, str]:
    """What one feature swaps, glyph for glyph."""
    table = font["GSUB"].table
    found: dict[str, str] = {}
    for record in table.FeatureList.FeatureRecord:
        if record.FeatureTag != tag:
            continue
        for index in record.Feature.LookupListIndex:
            for part in table.LookupList.Lookup[index].SubTable:
                found.update(getattr(getattr(part, "ExtSubTable", part), "mapping", {}))
    return found


def tabular_digits(font: Any) -> None:
    """Points the ten digits at the figures of equal width."""
    swaps = single_substitutions(font, "tnum")
    for table in font["cmap"].tables:
        for digit in range(0x30, 0x3A):
            if digit in table.cmap:
                # Several tables may share one mapping, so it may be swapped already.
                table.cmap[digit] = swaps.get(table.cmap[digit], table.cmap[digit])


def one_width(font: Any) -> None:
    """Gives the ten digits exactly one width; the semi-bold's differ by a thousandth of an em."""
    names = font.getBestCmap()
    digits = [names[digit] for digit in range(0x30, 0x3A)]
    widest = max(font["hmtx"][name][0] for name in digits)
    for name in digits:
        font["hmtx"][name] = (widest, font["hmtx"][name][1])


def contours(glyph: Any) -> list[list[Any]]:
    """The closed outlines of a glyph, from left to right, as recorded pen calls."""
    recording = DecomposingRecordingPen(None)
    glyph.draw(recording)
    found: list[list[Any]] = [[]]
    for call in recording.value:
        found[-1].append(call)
        if call[0] == "closePath":
            found.append([])
    return sorted(found[:-1], key=lambda calls: min(point[0] for _, points in calls for point in points))


def two_thirds(font: Any) -> None:
    """Adds ⅔: the slash and the lower 3 of the original's ⅓, moved on, behind the original's small upper 2."""
    names, glyphs = font.getBestCmap(), font.getGlyphSet()
    small = single_substitutions(font, "numr")
    one, two = (glyphs[small[names[ord(figure)]]] for figure in "12")
    third, shift = glyphs[names[0x2153]], two.width - one.width
    across = third.width + shift
    pen = T2CharStringPen(round(across), glyphs)
    two.draw(pen)
    for outline in contours(third)[1:]:
        replayRecording(outline, TransformPen(pen, (1, 0, 0, 1, shift, 0)))
    top, new = font["CFF "].cff.topDictIndex[0], "uni2154"
    shape = pen.getCharString(private=top.Private, globalSubrs=font["CFF "].cff.GlobalSubrs)
    top.CharStrings.charStringsIndex.append(shape)
    top.CharStrings.charStrings[new] = len(top.CharStrings.charStringsIndex) - 1
    top.charset.append(new)
    bounds = BoundsPen(None)
    shape.draw(bounds)
    font["hmtx"][new] = (round(across), round(bounds.bounds[0]))
    font.setGlyphOrder(top.charset)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[0x2154] = new


def to_quadratic(font: Any) -> None:
    """Turns the outlines into TrueType's, every point within REDRAWN_AT_MOST font units."""
    glyphs, order = font.getGlyphSet(), font.getGlyphOrder()
    drawn = {}
    for name in order:
        pen = TTGlyphPen(None)
        glyphs[name].draw(Cu2QuPen(pen, REDRAWN_AT_MOST, reverse_direction=True))
        drawn[name] = pen.glyph()
    font["loca"], font["glyf"] = newTable("loca"), newTable("glyf")
    font["glyf"].glyphOrder, font["glyf"].glyphs = order, drawn
    del font["CFF "]
    if "VORG" in font:
        del font["VORG"]
    largest = font["maxp"]
    largest.tableVersion = 0x00010000
    for name, value in {
        "maxZones": 1, "maxTwilightPoints": 0, "maxStorage": 0, "maxFunctionDefs": 0, "maxInstructionDefs": 0,
        "maxStackElements": 0, "maxSizeOfInstructions": 0, "maxComponentElements": 0, "maxComponentDepth": 0,
        "maxPoints": 0, "maxContours": 0, "maxCompositePoints": 0, "maxCompositeContours": 0,
    }.items():  # fmt: skip
        setattr(largest, name, value)
    font["head"].glyphDataFormat = 0
    font["post"].formatType = 3.0
    font.sfntVersion = "\000\001\000\000"


def rename(font: Any, style: str) -> None:
    """Gives the fonts their own name, keeps the copyright and the licence, says what they are made from."""
    table = font["name"]
    copyright_line, licence, licence_page = (table.getDebugName(number) for number in (0, 13, 14))
    version = table.getDebugName(5)
    table.names = []
    words = {
        0: copyright_line,
        1: FAMILY if style == "Regular" else f"{FAMILY} {style}",
        2: "Regular",
        3: f"FoldmarkSans-{style} from {version}",
        4: f"{FAMILY} {style}",
        5: f"Version 1.000; subset and redrawn from {version}",
        6: f"FoldmarkSans-{style}",
        13: licence,
        14: licence_page,
    } | ({} if style == "Regular" else {16: FAMILY, 17: style})
    for number, text in words.items():
        table.setName(text, number, 3, 1, 0x409)


def make(source: Path, style: str, target: Path) -> int:
    """Writes one font; returns its size in bytes."""
    font = TTFont(source, recalcTimestamp=False)
    two_thirds(font)
    tabular_digits(font)
    options = subset.Options()
    options.layout_features = FEATURES
    options.name_IDs = ["*"]
    options.notdef_outline = True
    options.hinting = False
    options.desubroutinize = True
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=asked())
    cutter.subset(font)
    to_quadratic(font)
    one_width(font)
    rename(font, style)
    font.save(target, reorderTables=True)
    return target.stat().st_size


def main() -> None:
    """Makes both fonts."""
    reader = argparse.ArgumentParser(description="Make the bundled fonts.")
    reader.add_argument("--source", type=Path, default=SOURCE, help="folder of the original .otf files")
    reader.add_argument("--out", type=Path, default=ROOT / "assets" / "fonts")
    chosen = reader.parse_args()
    if not chosen.source.is_dir():
        raise SystemExit("The source fonts are not here: apt-get install fonts-inter")
    for style, name in STYLES.items():
        target = chosen.out / f"FoldmarkSans-{style}.ttf"
        print(target.name, make(chosen.source / name, style, target), "bytes")


if __name__ == "__main__":
    main()

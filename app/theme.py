"""Colours, sizes and touch targets: two surfaces, paper for what is written and cloth for what is chalked.

Beside each colour stands its contrast on the ground it is used on (WCAG 2.2, relative luminance); a test reckons them
all again. Words keep at least 4.5, readings 7, the edges of controls 3. In the dark setting paper turns dark grey and
cloth stays cloth. The colours are our choice, because chalk on dark cloth does not dazzle and ink on warm paper reads
in daylight; the one accent is the yellow of a tape measure. A device that forces colours gets black and white.
"""

from dataclasses import dataclass
from typing import Final, Literal

import flet as ft

Surface = Literal["paper", "cloth"]

#: Sizes of letters, px.
SMALL: Final = 14
BODY: Final = 16
LARGE: Final = 20
TITLE: Final = 28
BIG: Final = 44
READING: Final = 72

#: The grid that everything stands on, the space between targets, at the edges, and the least side of a target, px.
GRID: Final = 4
GAP: Final = 8
EDGE: Final = 16
TOUCH: Final = 48
#: The widest column of words and fields, px; two columns beside each other from `WIDE` on.
COLUMN: Final = 560
WIDE: Final = 900
#: A page lower than `LOW` px and at least `LYING` wide is a phone that lies on its side: two narrower columns.
LOW: Final = 500
LYING: Final = 600
#: Round corners, px: small for what is typed into, larger for cards.
CORNER: Final = 6
CARD_CORNER: Final = 10

FONT: Final = "FoldmarkSans"
STRONG: Final = "FoldmarkSansStrong"
#: The families and their files below assets/; the page must know both.
FONTS: Final = {FONT: "fonts/FoldmarkSans-Regular.ttf", STRONG: "fonts/FoldmarkSans-SemiBold.ttf"}


@dataclass(frozen=True, slots=True)
class Look:
    """The colours of one surface.

    ground: behind everything. sheet: cards and fields. well: pressed in, chosen. ink: words and readings. soft: what
    is said beside. hair: parting lines. edge: the edges of controls. accent: this one, now. deed and on_deed: the
    button that moves the work on. tape and on_tape: the tape measure. faded: marks that are done.
    stop, caution and good: always with a sign and a word.
    """

    name: str
    dark: bool
    ground: str
    sheet: str
    well: str
    ink: str
    soft: str
    hair: str
    edge: str
    accent: str
    deed: str
    on_deed: str
    tape: str
    on_tape: str
    faded: str
    stop: str
    caution: str
    good: str


# The numbers are contrasts on: ground, sheet, well; for on_… on their own fill.
PAPER: Final = Look(
    name="paper",
    dark=False,
    ground="#F6F3EC",
    sheet="#FFFDF9",
    well="#ECE7DC",
    ink="#1C1B19",  # 15.5, 16.9, 14.0
    soft="#55514A",  # 7.1, 7.8, 6.4
    hair="#D8D1C3",  # parts only, carries nothing
    edge="#827B6E",  # 3.8, 4.1, 3.4
    accent="#664B00",  # 7.4, 8.0, 6.6
    deed="#1D222D",
    on_deed="#F7F3E8",  # 14.4
    tape="#F5C83A",
    on_tape="#1C1B19",  # 10.8
    faded="#827B6E",  # 3.8, 4.1, 3.4
    stop="#9B1C10",  # 7.4, 8.1, 6.6
    caution="#704400",  # 7.5, 8.2, 6.8
    good="#1F5B36",  # 7.3, 7.9, 6.5
)
PAPER_DARK: Final = Look(
    name="paper",
    dark=True,
    ground="#1F1E1C",
    sheet="#292826",
    well="#353330",
    ink="#F1EEE6",  # 14.4, 12.7, 10.9
    soft="#BDB8AD",  # 8.4, 7.5, 6.4
    hair="#44413C",  # parts only, carries nothing
    edge="#8F897D",  # 4.8, 4.2, 3.6
    accent="#F2C94C",  # 10.5, 9.3, 7.9
    deed="#F2C94C",
    on_deed="#1C1B19",  # 10.8
    tape="#F2C94C",
    on_tape="#1C1B19",  # 10.8
    faded="#8F897D",  # 4.8, 4.2, 3.6
    stop="#FFA08F",  # 8.5, 7.5, 6.4
    caution="#FFC27A",  # 10.5, 9.3, 7.9
    good="#9BD3A8",  # 9.7, 8.6, 7.4
)
CLOTH: Final = Look(
    name="cloth",
    dark=True,
    ground="#161A23",
    sheet="#1F2430",
    well="#2A303D",
    ink="#F5F2E9",  # 15.6, 13.9, 11.8
    soft="#B9BAB8",  # 8.9, 8.0, 6.8
    hair="#363C4A",  # parts only, carries nothing
    edge="#858B99",  # 5.1, 4.5, 3.9
    accent="#FFD23E",  # 12.1, 10.7, 9.2
    deed="#FFD23E",
    on_deed="#161A23",  # 12.1
    tape="#FFD23E",
    on_tape="#161A23",  # 12.1
    faded="#858B99",  # 5.1, 4.5, 3.9
    stop="#FFA394",  # 9.1, 8.1, 6.9
    caution="#FFC685",  # 11.3, 10.1, 8.6
    good="#A3DBB2",  # 11.1, 9.9, 8.4
)
# Where the device forces colours: pure black and white, edges as clear as words, and cloth as light or dark as paper.
STARK: Final = Look(
    name="stark",
    dark=False,
    ground="#FFFFFF",
    sheet="#FFFFFF",
    well="#EDEDED",
    ink="#000000",  # 21.0, 21.0, 17.9
    soft="#262626",  # 15.1, 15.1, 12.9
    hair="#595959",  # parts only, carries nothing
    edge="#000000",  # 21.0, 21.0, 17.9
    accent="#4A2E00",  # 12.5, 12.5, 10.7
    deed="#000000",
    on_deed="#FFFFFF",  # 21.0
    tape="#000000",
    on_tape="#FFFFFF",  # 21.0
    faded="#595959",  # 7.0, 7.0, 6.0
    stop="#8A0000",  # 10.1, 10.1, 8.6
    caution="#5C3700",  # 10.5, 10.5, 9.0
    good="#00441B",  # 11.4, 11.4, 9.7
)
STARK_DARK: Final = Look(
    name="stark",
    dark=True,
    ground="#000000",
    sheet="#000000",
    well="#1F1F1F",
    ink="#FFFFFF",  # 21.0, 21.0, 16.5
    soft="#E6E6E6",  # 16.8, 16.8, 13.2
    hair="#A6A6A6",  # parts only, carries nothing
    edge="#FFFFFF",  # 21.0, 21.0, 16.5
    accent="#FFE14D",  # 16.1, 16.1, 12.7
    deed="#FFE14D",
    on_deed="#000000",  # 16.1
    tape="#FFE14D",
    on_tape="#000000",  # 16.1
    faded="#A6A6A6",  # 8.6, 8.6, 6.8
    stop="#FFB3A6",  # 12.3, 12.3, 9.6
    caution="#FFD199",  # 14.8, 14.8, 11.6
    good="#B3F0C2",  # 16.2, 16.2, 12.7
)


def look_for(surface: Surface, dark: bool = False, stark: bool = False) -> Look:
    """The colours of a surface in the light or the dark setting; cloth is the same in both.

    `stark` is for a device that forces colours: both surfaces are alike then.
    """
    if stark:
        return STARK_DARK if dark else STARK
    if surface == "cloth":
        return CLOTH
    return PAPER_DARK if dark else PAPER


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1, of a colour "#RRGGBB" (WCAG 2.2, from sRGB IEC 61966-2-1)."""
    red, green, blue = (_linear(int(colour[start : start + 2], 16) / 255) for start in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21 (WCAG 2.2)."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def see_through(colour: str, share: float) -> str:
    """A colour of which only a share (0 to 1) covers what is below."""
    return f"#{round(share * 255):02X}{colour[1:]}"


def page_theme(dark: bool, stark: bool = False) -> ft.Theme:
    """The theme of a page, so that what Flet draws by itself keeps to our colours and letters."""
    look = look_for("paper", dark, stark)
    scheme = ft.ColorScheme(
        primary=look.accent,
        on_primary=look.sheet,
        secondary=look.deed,
        on_secondary=look.on_deed,
        error=look.stop,
        on_error=look.sheet,
        surface=look.ground,
        on_surface=look.ink,
        on_surface_variant=look.soft,
        outline=look.edge,
        outline_variant=look.hair,
        surface_tint=look.ground,
    )
    still = ft.PageTransitionTheme.NONE
    return ft.Theme(
        color_scheme=scheme,
        font_family=FONT,
        scaffold_bgcolor=look.ground,
        page_transitions=ft.PageTransitionsTheme(android=still, ios=still, linux=still, macos=still, windows=still),
        visual_density=ft.VisualDensity.STANDARD,
    )

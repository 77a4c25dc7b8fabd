"""The parts that screens are put together from, one a file. They know colours and shapes, and no words of their own."""

from app.parts.body_outline import TAPES
from app.parts.bottom_bar import bottom_bar
from app.parts.buttons import icon_button, primary_button, quiet_button
from app.parts.cards import Action, More, garment_card, person_card
from app.parts.check_card import Way, adjust_card, check_card
from app.parts.choices import Option, choice_rows, choices, one_of
from app.parts.compare_rows import Compared, compare_rows
from app.parts.drawing_view import drawing_view
from app.parts.empty_state import empty_state
from app.parts.explained import explained
from app.parts.field import Instead, field
from app.parts.figure import figure
from app.parts.fitted import fitted
from app.parts.growth_curve import curve_places, growth_curve
from app.parts.hand import HAND, Hand
from app.parts.keypad import keypad
from app.parts.named import alone, named
from app.parts.notice import notice
from app.parts.page_frame import page_frame, page_top
from app.parts.piece_thumbnail import piece_thumbnail
from app.parts.progress_line import Stop, progress_line
from app.parts.reading import Pair, Zone, named_readings, zone_for
from app.parts.section_fold import section_fold
from app.parts.signs import result_sign, sign
from app.parts.slider import slider
from app.parts.stops import after, stops_in
from app.parts.stretch_picture import stretch_picture
from app.parts.table_frame import BAND, FOOT, TOP, table_frame
from app.parts.tick_row import tick_row
from app.parts.tiles import tiles, tiling
from app.parts.to_do_list import ToDo, to_do_list
from app.parts.touchable import touchable
from app.parts.way_card import way_card
from app.parts.words import gap, heading, said_height, say, stack, strip, tight
from app.parts.worn_view import worn_view

__all__ = [
    "BAND",
    "FOOT",
    "HAND",
    "TAPES",
    "TOP",
    "Action",
    "Compared",
    "Hand",
    "Instead",
    "More",
    "Option",
    "Pair",
    "Stop",
    "ToDo",
    "Way",
    "Zone",
    "adjust_card",
    "after",
    "alone",
    "bottom_bar",
    "check_card",
    "choice_rows",
    "choices",
    "compare_rows",
    "curve_places",
    "drawing_view",
    "empty_state",
    "explained",
    "field",
    "figure",
    "fitted",
    "gap",
    "garment_card",
    "growth_curve",
    "heading",
    "icon_button",
    "keypad",
    "named",
    "named_readings",
    "notice",
    "one_of",
    "page_frame",
    "page_top",
    "person_card",
    "piece_thumbnail",
    "primary_button",
    "progress_line",
    "quiet_button",
    "result_sign",
    "said_height",
    "say",
    "section_fold",
    "sign",
    "slider",
    "stack",
    "stops_in",
    "stretch_picture",
    "strip",
    "table_frame",
    "tick_row",
    "tight",
    "tiles",
    "tiling",
    "to_do_list",
    "touchable",
    "way_card",
    "worn_view",
    "zone_for",
]  # fmt: skip

"""Lay: ways to lay the pieces side by side, what saves cloth, how much to buy, a piece in hand, two garments at once."""

import flet as ft

from app import actions as act
from app import parts
from app.laying import PIECE, PRICE, WITH, price_of
from app.names import garment_name
from app.screens.begin import begin
from app.screens.cloth import Setting
from app.screens.changed_band import changed_card
from app.screens.laid_cloth import WORD_PX, cloth_heard, laid_cloth
from app.screens.scene import Scene, frame
from app.screens.trade_words import words_told
from app.state import GarmentRecord, LaidOut
from app.text import words
from app.theme import LOW, SMALL
from app.typed import NOTES
from drafting.layout import (
    NO_DIFFERENCE,
    Layout,
    Purchase,
    Together,
    WouldDo,
    at_table,
    heed,
    left_out,
    length_to_buy,
    offers,
    say_bought,
    say_laid,
    say_less,
    way_name,
)  # fmt: skip
from drafting.order import Result
from drafting.sentences import listed
from drafting.units import Unit, say_length

_FIRST_PART = 2
"""So many of the fields of a piece in hand say its width and length; the others are for a second part."""
_HIGH = 340.0
"""The most that the drawing takes above the words, px."""
_TOP = 56.0
"""What the top of a page takes above the cloth where it stands alone, px."""
_READ_PX = 16.0
"""How large the words on the cloth are where it stands alone on a page that is not low, px."""


def lay(scene: Scene) -> ft.Control:
    """How the garment in work is laid on its cloth."""
    look, garment, drafted = scene.paper, scene.state.garment, scene.state.drafted
    if garment is None:
        return frame(scene, look, title=words("lay.title"), children=[], on_back=scene.go_home)
    result = drafted.result if drafted is not None and drafted.garment == garment.id and drafted.laid else None
    if drafted is None or result is None:
        stuck = drafted is not None and drafted.garment == garment.id and drafted.result is None
        says = parts.say(look, words("lay.none_shortly" if stuck else "lay.waiting"), soft=True)
        return frame(scene, look, title=words("lay.title"), children=[says], on_back=scene.go("proof"))
    answer = scene.state.laid
    if answer is not None and answer.result is not result:
        answer = None
    unit = result.order.person.unit
    show = _Show(scene, garment, result, answer, unit)
    if scene.state.place.step == 1 and result.layout is not None:
        return show.large(result.layout)
    children = [*changed_card(scene, look, garment), *show.ways(), *show.saves(), *show.buying(), *show.hand(), *show.together(), *show.table()]
    return frame(
        scene, look, title=words("lay.title"), children=children, on_back=scene.go("proof"),
        foot=begin(scene, garment, drafted), drawn=show.drawn(),
    )  # fmt: skip


class _Show:
    """Makes the parts of the screen from what is known so far."""

    def __init__(
        self, scene: Scene, garment: GarmentRecord, result: Result, answer: LaidOut | None, unit: Unit
    ) -> None:
        self.scene, self.garment, self.result, self.answer, self.unit = scene, garment, result, answer, unit
        self.look = scene.paper
        self.set_to = Setting(scene, garment, answer.problems if answer is not None else (), unit)

    def _long(self, mm: float) -> str:
        return say_length(mm, self.unit)

    def drawn(self) -> ft.Control | None:
        """The chosen way, drawn."""
        layout = self.result.layout
        if layout is None:
            return None
        return laid_cloth(
            self.scene, layout, self.result.draft.pieces, self.result.ready.cloth, self.unit, identifier="lay-cloth",
            says=self._heard(layout), beside=self.scene.wide,
            height=self.scene.beside[1] if self.scene.wide else min(_HIGH, self.scene.height * 0.4),
        )  # fmt: skip

    def _taken(self, layout: Layout) -> str:
        return words("lay.drawn", way=way_name(layout.way), length=say_laid(layout.length, self.unit))

    def _heard(self, layout: Layout) -> str:
        return cloth_heard(self._taken(layout), layout, self.result.draft.pieces, self.result.ready.tape)

    def large(self, layout: Layout) -> ft.Control:
        """The cloth as large as the page is, with words that can be read from where one stands."""
        scene, look = self.scene, self.look
        drawing = laid_cloth(
            scene, layout, self.result.draft.pieces, self.result.ready.cloth, self.unit, identifier="lay-cloth",
            says=self._heard(layout), width=scene.width, height=max(scene.height - _TOP, _HIGH / 2), word_px=_READ_PX if scene.height > LOW else WORD_PX,
        )  # fmt: skip
        top = parts.page_top(look, self._taken(layout), scene.go("lay"), words("back"))
        return parts.page_frame(
            look, identifier="screen-lay", top=top, children=[], pinned=drawing, width=scene.width, wide=True,
            scroll_key="large",
        )  # fmt: skip

    def ways(self) -> list[ft.Control]:
        """Every way that goes, to choose from, and those that do not."""
        found = self.answer.ways if self.answer is not None else None
        if self.answer is None or found is None:
            return [parts.say(self.look, words("lay.waiting"), soft=True)]
        chosen = self.result.layout
        shown = list(found)
        if chosen is not None and all(each.way != chosen.way for each in found):
            shown.append(chosen)
        rest = [way_name(way).lower() for way in left_out(self.answer.cloth, found)]
        lines: list[ft.Control] = [self._heading(shown=chosen is not None)]
        if not shown:
            lines.append(parts.say(self.look, words("lay.none")))
        else:
            lines.append(parts.say(self.look, words("lay.ways.says"), soft=True, size=SMALL))
            lines.append(self._cards(shown, chosen.way if chosen is not None else None))
        if rest:
            lines.append(parts.say(self.look, words("lay.cannot", ways="; ".join(rest)), soft=True, size=SMALL))
        return [parts.stack(lines)]

    def _heading(self, *, shown: bool) -> ft.Control:
        """The heading of the ways, and where the drawing is small the way to one that fills the page."""
        heading = parts.heading(self.look, words("lay.ways"))
        if self.scene.wide or not shown:
            return heading
        large = parts.icon_button(
            self.look, "fit", words("lay.large"), self.scene.go("lay", 1), identifier="lay-large", show_label=True
        )
        return ft.Row([ft.Container(heading, expand=True), large], vertical_alignment=ft.CrossAxisAlignment.CENTER)

    def _cards(self, shown: list[Layout], chosen: str | None) -> ft.Control:
        """The ways that go, of which one is taken."""
        cards = [self._card(each, shown[0], taken=each.way == chosen) for each in shown]
        return parts.one_of(
            parts.stack(cards), "lay-way", words("lay.ways"), chosen, lambda fold: self._take(fold, shown[0])
        )

    def _take(self, fold: str, best: Layout) -> None:
        self.set_to("lay", None if fold == best.way else fold)

    def _card(self, each: Layout, best: Layout, *, taken: bool) -> ft.Control:
        """One way: what it costs in cloth and outlines, its price beside the best, and the rest folded away."""
        length, way = say_laid(each.length, self.unit), way_name(each.way)
        headline = words("lay.way.costs", length=length, count=each.chalked)
        if each.chalked == 1:
            headline = words("lay.way.costs.1", length=length)
        notes = [note for note in (self._beside(each, best), heed(each)) if note]
        details = []
        if each.refolds:
            details.append(words("lay.way.refold") if each.refolds == 1 else words("lay.way.refolds", count=each.refolds))
        if each.bound < each.length - NO_DIFFERENCE:
            details.append(words("lay.way.bound", bound=self._long(each.bound)))
        told = at_table(each, self.answer.pieces if self.answer is not None else (), self.result.ready.tape)
        return parts.way_card(
            self.look, identifier=f"lay-{each.way}", value=each.way, headline=headline, name=way, notes=notes,
            taken=words("lay.way.taken") if taken else "", more=words("lay.way.details", way=way),
            details=(*told.folding, *details),
            on_take=lambda: self._take(each.way, best),
        )  # fmt: skip

    def _beside(self, each: Layout, best: Layout) -> str:
        """What it costs more or less than the way that is taken where nobody chooses."""
        cloth = self.result.ready.cloth
        if each is best:
            return words("lay.way.usual")
        offer = next(iter(offers((best, each), cloth)), None)
        if offer is not None:
            return offer.says
        more = length_to_buy(each, cloth, self.unit).buy - length_to_buy(best, cloth, self.unit).buy
        return words("lay.way.same") if more < NO_DIFFERENCE else words("lay.way.more", more=say_less(more, self.unit))

    def saves(self) -> list[ft.Control]:
        """Changes of the garment that save cloth, each to take by one tap."""
        layout = self.result.layout
        if self.answer is None or self.answer.ways is None or layout is None:
            return []
        lines: list[ft.Control] = [parts.heading(self.look, words("lay.saves"))]
        if self.answer.saves is None:
            return [*lines, parts.say(self.look, words("lay.saves.waiting"), soft=True)]
        if not self.answer.saves:
            return [*lines, parts.say(self.look, words("lay.saves.none"), soft=True)]
        ways = self.answer.saves
        options = [
            parts.Option(
                str(index), way.says,
                words("lay.save", looks=way.looks, less=self._long(layout.length - way.layout.length)),
            )
            for index, way in enumerate(ways)
        ]  # fmt: skip
        take = self.scene.send
        lines.append(parts.choice_rows(
            self.look, identifier="save", options=options, chosen=None, called=words("lay.saves"),
            on_choose=lambda index: take(
                act.TakeWayOut(self.garment.id, ways[int(index)].changes, ways[int(index)].says)
            ),
        ))  # fmt: skip
        return lines

    def buying(self) -> list[ft.Control]:
        """What to ask for in the shop, and every common width beside it."""
        if self.answer is None:
            return []
        lines: list[ft.Control] = [parts.heading(self.look, words("lay.buy"))]
        if self.result.outcome == "stop":
            return [*lines, parts.say(self.look, words("lay.buy.stopped"), strong=True)]
        bought = self.answer.buy
        if bought is not None:
            amount = words("lay.buy.this", amount=self._sold(bought), width=self._long(bought.width))
            lines.append(parts.named("lay-buy", parts.say(self.look, amount, strong=True)))
            says = [words("lay.buy.how", laid=say_laid(bought.laid, self.unit), squaring=self._long(bought.squaring))]
            if bought.wash:
                says.append(words("lay.buy.wash", wash=self._long(bought.wash)))
            elif self.result.ready.cloth.holds_shrinkage:
                says.append(words("lay.buy.washed"))
            lines += [parts.say(self.look, each, soft=True, size=SMALL) for each in says]
        if self.answer.widths is None:
            lines.append(parts.say(self.look, words("lay.widths.waiting"), soft=True))
        else:
            rows = [
                parts.Compared(
                    words("lay.width", width=self._long(each.width)),
                    self._sold(each) if each.layout is not None else words("lay.width.no"),
                    way_name(each.layout.way) if each.layout is not None else "",
                    bought is not None and abs(each.width - bought.width) < 1e-6,
                )
                for each in self.answer.widths
            ]
            lines.append(parts.compare_rows(self.look, rows, identifier="lay-widths"))
        return [*lines, self._price()]

    def _sold(self, bought: Purchase) -> str:
        amount = say_bought(bought.buy, self.unit)
        return amount if bought.cost is None else f"{amount} · {bought.cost:.2f}"

    def _price(self) -> ft.Control:
        text = self.garment.cloth.get(PRICE, "")
        wrong = words("lay.price.wrong") if text.strip() and price_of(text) is None else ""
        label = words(f"lay.price.{self.unit}")
        return self.scene.region(PRICE, (self.look, self.unit, text), lambda: parts.field(
            self.look, identifier="lay-price", label=label, value=text, how=(words("lay.price.how"),), problem=wrong,
            keys="number",
            on_change=lambda typed: self.set_to(PRICE, typed),
        ))  # fmt: skip

    def hand(self) -> list[ft.Control]:
        """Whether it goes on a piece of cloth that is there."""
        fields = [self.set_to.length(NOTES + name) for name in PIECE]
        lines: list[ft.Control] = []
        held = self.answer.in_hand if self.answer is not None else None
        if self.answer is not None and held is not None:
            names = {piece.name: piece.label.lower() for piece in self.answer.pieces}
            if held.answer == "yes" and held.layout is not None:
                way = way_name(held.layout.way).lower()
                says = words("lay.hand.yes", way=way, length=say_laid(held.layout.length, self.unit))
            elif held.answer == "part":
                fits, rest = (listed([names[each] for each in some]) for some in (held.fits, held.left_out))
                says = words("lay.hand.part", fits=fits, rest=rest)
            else:
                says = words("lay.hand.no")
            lines.append(parts.named("lay-hand-says", parts.say(self.look, says, strong=True)))
            if held.would_do is not None:
                lines.append(parts.named("lay-hand-would", parts.say(self.look, self._would_do(held.would_do))))
            if held.layout is not None:
                lines.append(laid_cloth(
                    self.scene, held.layout, self.answer.pieces, self.answer.cloth, self.unit,
                    identifier="lay-hand-cloth", says=says, height=_HIGH,
                ))  # fmt: skip
        # The answer stands below the first part, where it is seen as it is typed; its place is kept while it is empty.
        first, second = fields[:_FIRST_PART], fields[_FIRST_PART:]
        answer = ft.Container(parts.stack(lines) if lines else None, key="lay-hand-answer")
        children = [parts.say(self.look, words("lay.hand.says"), soft=True), *first, answer, *second]
        return [parts.section_fold(self.look, identifier="lay-hand", title=words("lay.hand"), children=children)]

    def _would_do(self, piece: WouldDo) -> str:
        """Why the piece in hand will not do, and what would."""
        length, width = self._long(piece.length), self._long(piece.width)
        if piece.narrow:
            return words("lay.hand.narrow", width=width, length=length)
        if piece.short > 0:
            return words("lay.hand.short", short=self._long(piece.short), length=length)
        return words("lay.hand.straight", width=width, length=length)

    def together(self) -> list[ft.Control]:
        """This garment and another on one length."""
        others = [each for each in self.scene.state.book.garments if each.id != self.garment.id]
        lines: list[ft.Control] = [parts.say(self.look, words("lay.together.says"), soft=True)]
        chosen = self.garment.cloth.get(WITH, "")
        if not others:
            lines.append(parts.say(self.look, words("lay.together.none")))
        else:
            options = [parts.Option(each.id, garment_name(self.scene.state.book, each)) for each in others]
            lines.append(parts.choices(
                self.look, identifier="lay-with", options=[parts.Option("", words("lay.together.alone")), *options],
                chosen=chosen if any(each.id == chosen for each in others) else "",
                on_choose=lambda value: self.set_to(WITH, value or None),
            ))  # fmt: skip
        both = self.answer.together if self.answer is not None else None
        if self.answer is not None and both is not None:
            lines.append(parts.named("lay-both-says", parts.say(self.look, self._both(both), strong=True)))
            if both.layout is not None:
                lines.append(laid_cloth(
                    self.scene, both.layout, both.pieces, self.answer.cloth, self.unit,
                    identifier="lay-both-cloth", says=words("lay.together"), height=_HIGH,
                ))  # fmt: skip
        elif self.answer is not None and self.answer.done and any(each.id == chosen for each in others):
            lines.append(parts.say(self.look, words("lay.together.cannot")))
        return [parts.section_fold(self.look, identifier="lay-both", title=words("lay.together"), children=lines)]

    def _both(self, both: Together) -> str:
        if both.layout is None:
            return words("lay.together.not")
        whole, way = say_laid(both.layout.length, self.unit), way_name(both.layout.way).lower()
        alone = " + ".join(say_laid(one.length, self.unit) for one in both.apart if one is not None)
        if both.saving < NO_DIFFERENCE:
            return words("lay.together.same", together=whole, apart=alone, way=way)
        return words("lay.together.saved", together=whole, apart=alone, saving=self._long(both.saving), way=way)

    def table(self) -> list[ft.Control]:
        """Folding, where each piece begins, and how many there are."""
        layout = self.result.layout
        if layout is None:
            return []
        told = at_table(layout, self.result.draft.pieces, self.result.ready.tape)
        lines: list[ft.Control] = [parts.say(self.look, each) for each in told.folding]
        lines += [
            parts.say(self.look, words("lay.table.piece", order=each.order, says=each.says)) for each in told.layings
        ]
        lines.append(parts.say(self.look, told.count, strong=True))
        lines += words_told(self.scene, (*told.folding, *(each.says for each in told.layings)))
        return [
            parts.section_fold(self.look, identifier="lay-table", title=words("lay.table"), children=lines, opened=True)
        ]

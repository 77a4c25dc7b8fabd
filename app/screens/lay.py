"""Lay: ways to lay the pieces side by side, what saves cloth, how much to buy, a piece in hand, two garments at once."""

import flet as ft

from app import actions as act
from app import parts
from app.laying import PIECE, PRICE, WITH, price_of
from app.screens.cloth import Setting
from app.screens.laid_cloth import laid_cloth
from app.screens.scene import Scene, frame
from app.state import GarmentRecord, LaidOut
from app.text import words
from app.theme import SMALL
from app.typed import NOTES
from drafting.layout import (
    NO_DIFFERENCE,
    Layout,
    Purchase,
    Together,
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
from drafting.units import Unit, say_length

_HIGH = 340.0


def lay(scene: Scene) -> ft.Control:
    """How the garment in work is laid on its cloth."""
    look, garment, drafted = scene.paper, scene.state.garment, scene.state.drafted
    if garment is None:
        return frame(scene, look, title=words("lay.title"), children=[], on_back=scene.go_home)
    result = drafted.result if drafted is not None and drafted.garment == garment.id and drafted.laid else None
    if result is None:
        stuck = drafted is not None and drafted.garment == garment.id and drafted.result is None
        says = parts.say(look, words("lay.none_shortly" if stuck else "lay.waiting"), soft=True)
        return frame(scene, look, title=words("lay.title"), children=[says], on_back=scene.go("proof"))
    answer = scene.state.laid
    if answer is not None and answer.result is not result:
        answer = None
    unit = result.order.person.unit
    show = _Show(scene, garment, result, answer, unit)
    start = parts.primary_button(
        look, words("proof.go_on") if garment.chalking else words("proof.chalk"),
        lambda: scene.send(act.StartChalking(garment.id)), identifier="start-chalking",
        enabled=result.plan is not None or garment.chalking, busy=scene.state.busy,
    )  # fmt: skip
    children = [*show.ways(), *show.saves(), *show.buying(), *show.hand(), *show.together(), *show.table()]
    return frame(
        scene, look, title=words("lay.title"), children=children, on_back=scene.go("proof"), foot=[start],
        drawn=show.drawn(),
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
        says = f"{way_name(layout.fold)}: {say_laid(layout.length, self.unit)}"
        return laid_cloth(
            self.scene, layout, self.result.draft.pieces, self.result.ready.cloth, self.unit, identifier="lay-cloth",
            says=says, height=self.scene.beside[1] if self.scene.wide else min(_HIGH, self.scene.height * 0.4),
            beside=self.scene.wide,
        )  # fmt: skip

    def ways(self) -> list[ft.Control]:
        """Every way that goes, to choose from, and those that do not."""
        found = self.answer.ways if self.answer is not None else None
        if self.answer is None or found is None:
            return [parts.say(self.look, words("lay.waiting"), soft=True)]
        chosen = self.result.layout
        shown = list(found)
        if chosen is not None and all(each.fold != chosen.fold for each in found):
            shown.append(chosen)
        rest = [way_name(way).lower() for way in left_out(self.answer.pieces, self.answer.cloth, found)]
        lines: list[ft.Control] = [parts.heading(self.look, words("lay.ways"))]
        if not shown:
            lines.append(parts.say(self.look, words("lay.none")))
        else:
            lines.append(
                parts.choice_rows(
                    self.look, identifier="lay", how=(words("lay.ways.says"),), chosen=chosen.fold if chosen else None,
                    options=[parts.Option(each.fold, way_name(each.fold), self._way(each, shown[0])) for each in shown],
                    on_choose=lambda way: self.set_to("lay", None if way == shown[0].fold else way),
                )
            )  # fmt: skip
        if rest:
            lines.append(parts.say(self.look, words("lay.cannot", ways="; ".join(rest)), soft=True, size=SMALL))
        return lines

    def _way(self, each: Layout, best: Layout) -> str:
        cloth = self.result.ready.cloth
        more = length_to_buy(each, cloth, self.unit).buy - length_to_buy(best, cloth, self.unit).buy
        length = say_laid(each.length, self.unit)
        offer = next(iter(offers((best, each), cloth)), None)
        if each is best:
            says = words("lay.way.taken", length=length)
        elif offer is not None:
            says = words("lay.way.less", length=length, says=offer.says)
        elif more < NO_DIFFERENCE:
            says = words("lay.way.same", length=length)
        else:
            says = words("lay.way.more", length=length, more=say_less(more, self.unit))
        work = words("lay.way.chalk.1") if each.chalked == 1 else words("lay.way.chalk", count=each.chalked)
        if each.refolds:
            work += words("lay.way.refold") if each.refolds == 1 else words("lay.way.refolds", count=each.refolds)
        least = words("lay.way.bound", bound=self._long(each.bound)) if each.bound < each.length - NO_DIFFERENCE else ""
        return " ".join(part for part in (says, f"{work}.", heed(each), least) if part)

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
            self.look, identifier="save", options=options, chosen=None,
            on_choose=lambda index: take(act.TakeWayOut(self.garment.id, ways[int(index)].changes)),
        ))  # fmt: skip
        return lines

    def buying(self) -> list[ft.Control]:
        """What to ask for in the shop, and every common width beside it."""
        if self.answer is None:
            return []
        lines: list[ft.Control] = [parts.heading(self.look, words("lay.buy"))]
        bought = self.answer.buy
        if bought is not None:
            amount = words("lay.buy.this", amount=self._sold(bought), width=self._long(bought.width))
            lines.append(parts.named("lay-buy", parts.say(self.look, amount, strong=True)))
            wash = words("lay.buy.wash", wash=self._long(bought.wash)) if bought.wash else words("lay.buy.washed")
            how = words("lay.buy.how", laid=say_laid(bought.laid, self.unit), squaring=self._long(bought.squaring), wash=wash)
            lines.append(parts.say(self.look, how, soft=True, size=SMALL))
        if self.answer.widths is None:
            lines.append(parts.say(self.look, words("lay.widths.waiting"), soft=True))
        else:
            rows = [
                parts.Compared(
                    words("lay.width", width=self._long(each.width)),
                    self._sold(each) if each.layout is not None else words("lay.width.no"),
                    way_name(each.layout.fold) if each.layout is not None else "",
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
            on_change=lambda typed: self.set_to(PRICE, typed),
        ))  # fmt: skip

    def hand(self) -> list[ft.Control]:
        """Whether it goes on a piece of cloth that is there."""
        fields = [self.set_to.length(NOTES + name) for name in PIECE]
        lines: list[ft.Control] = [parts.say(self.look, words("lay.hand.says"), soft=True), *fields]
        held = self.answer.in_hand if self.answer is not None else None
        if self.answer is not None and held is not None:
            names = {piece.name: piece.label.lower() for piece in self.answer.pieces}
            if held.answer == "yes" and held.layout is not None:
                way = way_name(held.layout.fold).lower()
                says = words("lay.hand.yes", way=way, length=say_laid(held.layout.length, self.unit))
            elif held.answer == "part":
                fits = ", ".join(names[each] for each in held.fits)
                says = words("lay.hand.part", fits=fits, rest=", ".join(names[each] for each in held.left_out))
            else:
                says = words("lay.hand.no")
            lines.append(parts.named("lay-hand-says", parts.say(self.look, says, strong=True)))
            if held.layout is not None:
                lines.append(laid_cloth(
                    self.scene, held.layout, self.answer.pieces, self.answer.cloth, self.unit,
                    identifier="lay-hand-cloth", says=says, height=_HIGH,
                ))  # fmt: skip
        return [parts.section_fold(self.look, identifier="lay-hand", title=words("lay.hand"), children=lines)]

    def together(self) -> list[ft.Control]:
        """This garment and another on one length."""
        others = [each for each in self.scene.state.book.garments if each.id != self.garment.id]
        lines: list[ft.Control] = [parts.say(self.look, words("lay.together.says"), soft=True)]
        chosen = self.garment.cloth.get(WITH, "")
        if not others:
            lines.append(parts.say(self.look, words("lay.together.none")))
        else:
            options = [parts.Option(each.id, each.title.strip() or words("garment.untitled")) for each in others]
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
        whole, way = say_laid(both.layout.length, self.unit), way_name(both.layout.fold)
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
        return [
            parts.section_fold(self.look, identifier="lay-table", title=words("lay.table"), children=lines, opened=True)
        ]

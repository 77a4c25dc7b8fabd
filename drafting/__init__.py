"""Foldmark's drafting core: from body measures to proven marks on folded cloth. No screen, no files, no clock."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.order import Order, Result


def make(order: "Order") -> "Result":
    """The whole core in one call: an order in, a draft with its checks, layout and chalk plan out."""
    from drafting import order as orders  # noqa: PLC0415 - loaded on first use, so that a part can be used alone

    return orders.make(order)

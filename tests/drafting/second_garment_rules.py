"""What the tests of every garment must know of the second one."""

from drafting.contract.set_out import SetOut

#: The edges that take a band.
BANDED = (("front", "neck_edge"), ("back", "neck_edge"), ("front", "hem"), ("back", "hem"), ("sleeve", "sleeve_end"))


def sewn_to_rib(draft: SetOut) -> frozenset[tuple[str, str]]:
    """Edges that take a band of rib, which is bought and is no piece."""
    if draft.choices.rib is None:
        return frozenset()
    turned = {(piece.name, edge.name) for piece in draft.pieces for edge in piece.edges if edge.turned}
    return frozenset(BANDED) - turned

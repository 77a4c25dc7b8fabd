"""The seams of `cut_in_one`: front to back over the arm and down the side, and those of what is cut apart."""

from collections.abc import Sequence

from drafting.contract.pieces import Piece
from drafting.contract.seams import Seam, plain_seam


def seams(made: Sequence[Piece]) -> tuple[Seam, ...]:
    """Every seam of these pieces; at a joint by how much its two edges differ, where the cloth shrinks unevenly."""
    pieces = {piece.name: piece for piece in made}
    found = [plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")]
    if not pieces["back"].on_fold:
        found.append(plain_seam(("back", "centre_back"), ("back", "centre_back")))
    if "lower_sleeve" in pieces:
        lower = pieces["lower_sleeve"].edge("joint").stitch.length()
        for name in ("front", "back"):
            more = pieces[name].edge("sleeve_joint").stitch.length() - lower
            found.append(plain_seam((name, "sleeve_joint"), ("lower_sleeve", "joint"), more))
        found.append(plain_seam(("lower_sleeve", "under"), ("lower_sleeve", "under")))
    return tuple(found)

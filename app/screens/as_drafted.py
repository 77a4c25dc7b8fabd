"""The numbers that stand where nothing was chosen: as the draft has them, else as the core begins with them."""

from drafting.contract.fields import Field
from drafting.order import Result


def as_drafted(made: Result | None, field: Field) -> float | None:
    """The length in mm that the draft has for a field; None where it is not known."""
    drafted = made is not None and bool(made.draft.pieces) and field.drafted is not None
    found = field.drafted(made.draft) if drafted and made and field.drafted else None
    return field.begins if found is None else found

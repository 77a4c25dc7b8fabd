"""What the store keeps of a state, as its records, and the app opened with them."""

from collections.abc import Iterable, Mapping

from app import actions as act
from app.saved import FROZEN, all_kept, read_all, text_of_all
from app.state import Book, FrozenDraft, Place, State


def texts(of: State | Book, frozen: Mapping[str, FrozenDraft] | None = None) -> dict[str, str]:
    """Every record of a state, by key, as it is kept."""
    state = State(of, frozen=dict(frozen or {})) if isinstance(of, Book) else of
    return {key: text_of_all(of) for key, of in all_kept(state)}


def loaded(
    of: State | Book | Mapping[str, str] | None = None,
    route: str = "/",
    place: Place | None = None,
    unread: Iterable[str] = (),
    without_frozen: bool = False,
) -> act.Loaded:
    """The reading of these records, of none where there are none; `unread` could not be read."""
    records = texts(of) if isinstance(of, State | Book) else dict(of or {})
    unread = tuple(unread)
    kept = {
        key: text
        for key, text in records.items()
        if key not in unread and not (without_frozen and key.startswith(FROZEN))
    }
    return act.Loaded(read_all(kept, unread), route, Place() if place is None else place)


def again(book: Book) -> Book:
    """A book that was saved and read back."""
    return read_all(texts(book)).book

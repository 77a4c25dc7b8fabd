"""Times a large book: 2,000 people and 5,000 garments, in this Python or in the browser's.

Opening is all between the store's answer and a state that can be shown: every record is read, home finds and sorts.
Searching is one letter more in the field of home. Saving is one name typed, and its record written. Each is the least
of several rounds. Memory is what the records take once they are read, beside the texts that they came from.
"""

import gc
import sys
import time
import tracemalloc
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
PEOPLE, GARMENTS, ROUNDS = 2000, 5000, 15
AT_MOST = 400.0 if sys.platform == "emscripten" else 100.0
"""What each may take, ms: more in the browser's Python, which is several times slower."""


def large_book() -> Any:
    """A state whose people and garments are the demo's, many times over, each with a name of its own."""
    from app import actions as act
    from app.pictured import with_picture
    from app.saved import ReadBook
    from app.state import Book, Place, State
    from app.update import start, update

    state = start("/")[0]
    empty = act.Loaded(ReadBook(Book(), {}, {}), "/", Place(), "m", "2026-01-01")
    for action in (empty, act.AddDemo((ROOT / "assets" / "demo" / "order.json").read_text("utf-8"))):
        state = update(state, action)[0]
    person, garment = state.book.people[0], state.book.garments[0]
    picture = with_picture(state).book.pictures.get(garment.id, "")
    people = tuple(replace(person, id=f"p{at}-m", name=f"Person {at}") for at in range(PEOPLE))
    garments = tuple(
        replace(garment, id=f"g{at}-m", person=f"p{at % PEOPLE}-m", title=f"Garment {at}", cut_notes="Cut 1 cm longer.")
        for at in range(GARMENTS)
    )
    pictures = {each.id: picture for each in garments if picture}
    return State(book=replace(state.book, people=people, garments=garments, pictures=pictures), loaded=True)


def least(work: Callable[[], object]) -> float:
    """The least milliseconds of several rounds."""
    taken = []
    for _ in range(ROUNDS):
        gc.collect()
        since = time.perf_counter()
        work()
        taken.append((time.perf_counter() - since) * 1000)
    return min(taken)


def saving(state: Any, texts: dict[str, str]) -> Callable[[], object]:
    """One name typed and saved, in a session that has read the book."""
    from app import actions as act
    from app.effects import Effects
    from app.saved import all_kept
    from app.storage import MemoryStore, Record
    from app.update import update

    store, now = MemoryStore(), [state]
    store._records = {key: Record(text, 1) for key, text in texts.items()}
    effects = Effects(store, None, lambda: now[0], lambda action: None)  # type: ignore[arg-type]
    effects._kept = dict(all_kept(state))
    effects._revisions = dict.fromkeys(texts, 1)

    def one() -> None:
        now[0] = update(now[0], act.TypeName("p77-m", f"Ann {time.perf_counter()}"))[0]
        work = effects._save_changes()
        try:
            work.send(None)  # nothing in it waits, since this store answers at once
        except StopIteration as end:
            if end.value:
                raise RuntimeError("it was not saved") from end
        else:
            raise RuntimeError("it waited")

    return one


def main() -> None:
    """Print the table."""
    from app import actions as act
    from app.found import garments_found, people_found
    from app.saved import all_kept, read_all, text_of_all
    from app.state import Place
    from app.update import start, update

    state = large_book()
    texts = {key: text_of_all(of) for key, of in all_kept(state)}

    def opened() -> Any:
        book = read_all(texts)
        after = update(start("/")[0], act.Loaded(book, "/", Place(), "m", "2026-01-01"))[0]
        return after, garments_found(after), people_found(after)

    def looked() -> None:
        after = update(state, act.LookFor("4999"))[0]
        assert len(garments_found(after)) == 1
        people_found(after)

    assert opened()[0].book.garments[0].title == f"Garment {GARMENTS - 1}"
    found = {"open": least(opened), "search": least(looked), "save one change": least(saving(state, texts))}
    tracemalloc.start()
    kept = read_all(texts)
    memory = tracemalloc.get_traced_memory()[0] / 1e6
    tracemalloc.stop()
    assert kept.left == {}
    size = sum(len(text.encode()) for text in texts.values()) / 1e6
    print(f"{PEOPLE} people and {GARMENTS} garments, {size:.1f} MB, Python {sys.version.split()[0]} on {sys.platform}")
    for name, taken in found.items():
        print(f"{name:28}{taken:9.1f} ms of at most {AT_MOST:.0f}")
    print(f"{'memory of the records read':28}{memory:9.1f} MB")


if __name__ == "__main__":
    main()

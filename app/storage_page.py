"""Records of the static site, in the browser's IndexedDB."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Sequence
from typing import Any

from app.storage import Change, Changed, Found, Record, Room, SaveFailed, at_home


class PageStore:
    """Records in the browser's IndexedDB, for the static site.

    storage.js does the work, in the same worker or, in WebKit, in its page.

    Guarantees: a change of a record is all or nothing; the record before stays until the new text was written beside
    it, read back and found equal; the browser is asked to write through to the device before it reports done; two tabs
    cannot overwrite each other unknowingly, since revision and text change in one transaction; other tabs are told. Not
    guaranteed: that the browser keeps its storage when the device runs out of room or the person clears it (the page
    asks for persistence, the browser decides).
    """

    def __init__(self) -> None:
        """Join the page script; only possible inside the site's worker."""
        import page_storage  # type: ignore[import-not-found]

        self._page: Any = page_storage
        self._proxies: list[Any] = []

    async def load(self, key: str) -> Record | SaveFailed | None:
        """See Store."""
        answer = await self._ask(self._page.get(key))
        if isinstance(answer, SaveFailed):
            return answer
        return None if answer["text"] is None else Record(answer["text"], int(answer["revision"]))

    async def load_all(self, start: str) -> Found | SaveFailed:
        """See Store."""
        answer = await self._ask(self._page.all(start))
        if isinstance(answer, SaveFailed):
            return answer
        return Found({key: Record(text, revision) for key, text, revision in json.loads(answer["records"])})

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        return (await self.save_all([Change(key, text, revision)]))[key]

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        answer = (await self.save_all([Change(key, None, revision)]))[key]
        return answer if isinstance(answer, SaveFailed) else None

    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        """See Store."""
        asked = json.dumps([[each.key, each.text, each.revision] for each in changes])
        answer = await self._ask(self._page.change(asked))
        if isinstance(answer, SaveFailed):
            return {each.key: answer for each in changes}
        told = json.loads(answer["answers"])
        return {each.key: _answered(told[each.key]) for each in changes}

    async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed:
        """See Store."""
        answer = await self._ask(self._page.list(start))
        return answer if isinstance(answer, SaveFailed) else tuple(answer["keys"])

    async def room(self) -> Room | None:
        """See Store; the browser counts all that the site keeps, the app itself too."""
        answer = await self._ask(self._page.room())
        if isinstance(answer, SaveFailed) or not isinstance(answer.get("used"), (int, float)):
            return None
        used, quota = int(answer["used"]), answer.get("quota")
        return Room(used, max(int(quota) - used, 0) if isinstance(quota, (int, float)) else None)

    async def erase(self) -> SaveFailed | None:
        """See Store; in one transaction."""
        answer = await self._ask(self._page.erase())
        return answer if isinstance(answer, SaveFailed) else None

    def on_change(self, call: Changed) -> None:
        """See Store."""
        from pyodide.ffi import create_proxy  # type: ignore[import-not-found]

        tell = at_home(call)
        self._proxies.append(create_proxy(lambda key, revision: tell(str(key), int(revision))))
        self._page.watch(self._proxies[-1])

    @staticmethod
    async def _ask(promise: Awaitable[Any]) -> dict[str, Any] | SaveFailed:
        try:
            answer: dict[str, Any] = (await promise).to_py()
        except Exception as trouble:  # storage.js answers, so this is a mistake of ours; its message may quote a text
            return SaveFailed.because("fault", type(trouble).__name__)
        if not isinstance(answer.get("text"), str):
            answer["text"] = None  # JavaScript's null arrives as an object of its own
        return _failed(answer) if "failed" in answer else answer


def _failed(answer: dict[str, Any]) -> SaveFailed:
    return SaveFailed.because(answer["failed"], str(answer.get("detail", "")))


def _answered(answer: dict[str, Any]) -> int | SaveFailed:
    return _failed(answer) if "failed" in answer else int(answer["revision"])

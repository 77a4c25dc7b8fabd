"""Records of the static site, in the browser's IndexedDB."""

from __future__ import annotations

from collections.abc import Awaitable
from typing import Any

from app.storage import Changed, Record, SaveFailed, at_home


class PageStore:
    """Records in the browser's IndexedDB, for the static site (storage.js does the work, in the same worker).

    Guarantees: a change is all or nothing; the record before stays until the new text was written beside it, read back
    and found equal; the browser is asked to write through to the device before it reports done; two tabs cannot
    overwrite each other unknowingly, since revision and text change in one transaction; other tabs are told. Not
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

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        answer = await self._ask(self._page.put(key, text, revision))
        return answer if isinstance(answer, SaveFailed) else int(answer["revision"])

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        answer = await self._ask(self._page.remove(key, revision))
        return answer if isinstance(answer, SaveFailed) else None

    async def keys(self) -> tuple[str, ...] | SaveFailed:
        """See Store."""
        answer = await self._ask(self._page.list())
        return answer if isinstance(answer, SaveFailed) else tuple(answer["keys"])

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
        except Exception as trouble:  # a JavaScript exception: storage.js gives answers, so this is the browser's own
            return SaveFailed.because("closed", f"{type(trouble).__name__}: {trouble}"[:200])
        if not isinstance(answer.get("text"), str):
            answer["text"] = None  # JavaScript's null arrives as an object of its own
        if "failed" in answer:
            return SaveFailed.because(answer["failed"], str(answer.get("detail", "")))
        return answer

"""What only the page can do for the static site: a voice, a screen that stays awake, a place on the device."""

from typing import Any, Literal

from app.state import Installs

Heard = Literal["spoken", "no_voice", "not_here"]
"""What became of something to be read aloud; "not_here" where no script of ours runs."""


async def speak_in_page(text: str) -> Heard:
    """Say it with a voice of the device, or stop saying anything where the text is empty."""
    return "spoken" if await ask("speak", text) == "spoken" else "no_voice"


async def awake_in_page(on: bool) -> bool:
    """Keep the screen awake or let it sleep again; False where the browser refuses."""
    return bool(await ask("stayAwake", on))


async def installs_in_page(now: bool) -> Installs:
    """Whether the browser lets the page be installed; with `now` the person is asked by the browser first."""
    answer = await ask("installs", now)
    return answer if answer in ("asks", "by_hand") else "no"


async def ask(name: str, *given: object) -> Any:
    """Ask the page, by name, for what a worker cannot do. The answer is a plain value, or JavaScript's own null."""
    import page_asks  # type: ignore[import-not-found]

    asks: Any = page_asks
    return await asks.ask(name, *given)

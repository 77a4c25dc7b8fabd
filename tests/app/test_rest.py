"""At rest the site does no work: in real Chromium, page and worker."""

import browser as b
import pytest
from journey import demo_to_chalk
from playwright.sync_api import BrowserContext

COUNT = """() => {
    const counted = (self.counted = {});
    for (const name of ["requestAnimationFrame", "setTimeout", "setInterval"]) {
        const real = self[name];
        self[name] = (does, ...more) => real((...given) => {
            counted[name] = (counted[name] ?? 0) + 1;
            return does(...given);
        }, ...more);
    }
}"""
"""Counts the frames and timers of a page or a worker that come due."""
SETTLES = 12_000
"""Milliseconds in which a screen may still do what follows its opening."""


@pytest.mark.parametrize("rest", [10_000, pytest.param(60_000, marks=pytest.mark.long)])
def test_at_rest_no_frame_is_drawn_and_no_timer_runs(static: b.Server, known_phone: BrowserContext, rest: int) -> None:
    """A phone that lies on the table with a mark on its screen spends nothing but its light."""
    known_phone.add_init_script(f"({COUNT})()")
    page = b.open_app(known_phone, static.address)
    demo_to_chalk(page)
    (worker,) = page.workers
    worker.evaluate(COUNT)
    here, there = "() => self.counted", "() => Object.values(self.counted).length"
    assert page.evaluate(here)["requestAnimationFrame"] > 10, "what is drawn is counted"
    b.tap(page, "done")
    b.wait_until(page, lambda: worker.evaluate(there) > 0, "what Python waits for is counted")
    b.still(page)
    page.wait_for_timeout(SETTLES)
    for each in (page, worker):
        each.evaluate("() => { for (const name in self.counted) delete self.counted[name]; }")
    page.wait_for_timeout(rest)
    assert worker.evaluate(here) == {}
    assert page.evaluate(here) == {}

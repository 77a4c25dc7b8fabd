"""The content security policy of a page: the browser itself refuses other hosts, and scripts that are not ours.

What stands in the page itself is allowed by its hash, so that nothing that is put in later runs. The client may fill
style sheets of its own, which carry the nonce of the page. WebAssembly is allowed because the client paints with it.
Nothing on the page is compiled from text: on the site Python runs in a worker, which a page's policy does not reach.
"""

import base64
import hashlib
import re
from typing import Final

_SCRIPT: Final = re.compile(r"<script>(.*?)</script>", re.DOTALL)
_STYLE: Final = "<style>"
_CONFIGURED: Final = "var flutterConfig = {"


def policy_of(page: str, nonce: str = "", reach: str = "") -> str:
    """The policy of a page by its text. `nonce` is that of its style sheets, `reach` what else it may connect to."""
    hashes = (hashlib.sha256(script.encode()).digest() for script in _SCRIPT.findall(page))
    scripts = (f"'sha256-{base64.b64encode(found).decode()}'" for found in hashes)
    return "; ".join(
        (
            "default-src 'self' blob: data:",
            *([f"connect-src 'self' blob: data: {reach}"] if reach else []),
            " ".join(("script-src 'self' blob: 'wasm-unsafe-eval'", *scripts)),
            f"style-src 'self' 'nonce-{nonce}'" if nonce else "style-src 'self'",
        )
    )


def with_nonce(page: str, nonce: str) -> str:
    """A page whose own style sheet carries a nonce."""
    return page.replace(_STYLE, f'<style nonce="{nonce}">')


def taking_the_nonce(bootstrap: str) -> str:
    """The client's first script, which hands the nonce of the page on; ValueError where it is not the one we know."""
    if bootstrap.count(_CONFIGURED) != 1:
        raise ValueError("Flet's flutter_bootstrap.js has changed: where the client is configured was not found.")
    return bootstrap.replace(_CONFIGURED, f'{_CONFIGURED}\n    nonce: document.querySelector("style")?.nonce,')

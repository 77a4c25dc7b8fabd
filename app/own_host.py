"""Keeps Flet's client from asking any other host for a script.

At every start the compiled client puts a script of another host on its page, for a kind of animation that the app has
none of. The content security policy refuses it; better is not to ask.
"""

import re
from typing import Final

_SCRIPT: Final = re.compile(
    rb"\n(\w+)\.src=A\.\w+\(\)\+a\n\1\.type=\"application/javascript\"\n\1\.defer=!0\n(\w+\.document\.body\.append\(\1\)\n)"
)
"""Where the client makes a script of an address that another function of it names, and puts it on the page."""


def asking_no_other_host(client: bytes) -> bytes:
    """The compiled client that never puts that script on its page; ValueError where it is not the one that we know.

    What waits for the script goes on waiting, as it does where the browser refuses it.
    """
    found = list(_SCRIPT.finditer(client))
    if len(found) != 1:
        raise ValueError(f"Flet's client has changed: {len(found)} scripts of another host where one was known")
    start, end = found[0].span(2)
    return client[:start] + client[end:]

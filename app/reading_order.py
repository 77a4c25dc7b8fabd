"""Makes Flet's client go by Tab through what scrolls before it goes on to what stands below it.

Flutter goes from place to place on the screen, and the foot of a page lies above what has not been scrolled into sight
yet. What scrolls therefore becomes a group of its own, as `FocusTraversalGroup` makes one; Flet has no control for it.
"""

import re
from typing import Final

_GROUP: Final = re.compile(rb"\n(\w+)\(a,b\)\{return new A\.\w+\(b==null\?A\.\w+\(\):b,a,null\)\}")
"""`FocusTraversalGroup` of a child and a policy, as a function of the compiled client."""
_END: Final = re.compile(
    rb"n=i\.\w+\(a,i\.\w+\(a,n,m\),m\)\nl=A\.\w+\(a\)\n"
    rb"if\(l!=null\)\{i=k\.d\ni\.toString\nn=new A\.\w+\(k,i,n,l,j\)\}return n\}\}"
)
"""The end of `ScrollableState.build`: all that scrolls is built there."""


def in_reading_order(client: bytes) -> bytes:
    """The compiled client with what scrolls as a group; ValueError where the client is not the one that we know."""
    groups, ends = _GROUP.findall(client), _END.findall(client)
    if len(groups) != 1 or len(ends) != 1:
        raise ValueError(f"Flet's client has changed: {len(groups)} makers of groups and {len(ends)} that scroll")
    grouped = ends[0].removesuffix(b"return n}}") + b"return A." + groups[0] + b"(n,null)}}"
    return client.replace(ends[0], grouped)

"""The cases of a garment: styles that every test of a garment drafts for every test body.

Plain data, so that a garment brings its own tests with it. A case is an order in short: what stands in `style` and
`cloth` is written as in an order, and what is left out is what nothing was said about.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Case:
    """One style to be drafted; `cloth` is what its cloth must be, where the usual jersey of the tests will not do."""

    style: Mapping[str, Any] = field(default_factory=dict)
    cloth: Mapping[str, Any] = field(default_factory=dict)

"""Long texts made short for the device's storage, and back; the core packs and unpacks them."""

from drafting.record.packed import LONGEST, packed, unpacked

__all__ = ["LONGEST", "packed", "unpacked"]

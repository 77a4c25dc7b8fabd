"""Reads a QR code that a terminal shows, as a phone's camera would; for the address that `build/run --lan` prints.

Written from the public description of the code (ISO/IEC 18004): versions 1 to 3, and nothing is corrected, since
nothing is blurred. Enough for an address of up to 42 letters.
"""

Modules = list[list[bool]]

_HALVES = {"█": (False, False), "▀": (False, True), "▄": (True, False), " ": (True, True)}
"""What the two halves of a letter show: ink is light in a terminal, so what is not inked is dark."""
_MASKS = (
    lambda row, column: (row + column) % 2 == 0,
    lambda row, column: row % 2 == 0,
    lambda row, column: column % 3 == 0,
    lambda row, column: (row + column) % 3 == 0,
    lambda row, column: (row // 2 + column // 3) % 2 == 0,
    lambda row, column: row * column % 2 + row * column % 3 == 0,
    lambda row, column: (row * column % 2 + row * column % 3) % 2 == 0,
    lambda row, column: ((row + column) % 2 + row * column % 3) % 2 == 0,
)


def read_terminal(said: str) -> str:
    """The text in the one code among lines of a terminal; raises where there is none."""
    drawn = [line for line in said.splitlines() if line and set(line) <= set(_HALVES)]
    rows: Modules = []
    for line in drawn:
        both = [[_HALVES[letter][half] for letter in line] for half in (0, 1)]
        rows += [cells for cells in both if not all(cells)]  # under the last line nothing is inked
    dark = [(row, column) for row, cells in enumerate(rows) for column, is_dark in enumerate(cells) if is_dark]
    left, right = min(column for _, column in dark), max(column for _, column in dark)
    top = min(row for row, _ in dark)
    side = right - left + 1
    return read([cells[left : right + 1] for cells in rows[top : top + side]])


def read(code: Modules) -> str:
    """The text of a code, its quiet edge taken off."""
    side = len(code)
    version = (side - 17) // 4
    if side != 17 + 4 * version or not 1 <= version <= 3 or any(len(cells) != side for cells in code):
        raise ValueError(f"{side} modules a side")
    form = [code[8][column] for column in (0, 1, 2, 3, 4)]
    masked = sum(bit << place for bit, place in zip(form[2:], (2, 1, 0), strict=True)) ^ 0b101
    bits = [code[row][column] ^ _MASKS[masked](row, column) for row, column in _way(side, version)]
    stream = "".join("01"[bit] for bit in bits)
    level = (not form[0], form[1])  # of correction; these two bits are masked with 10
    half = {(True, True): 17, (True, False): 13}.get(level, 0) if version == 3 else 0
    if half:  # its words stand in two blocks, dealt out in turn
        words = [stream[start : start + 8] for start in range(0, 16 * half, 8)]
        stream = "".join(words[0::2] + words[1::2])
    if stream[:4] != "0100":
        raise ValueError(f"not a text of bytes: {stream[:4]}")
    length = int(stream[4:12], 2)
    return bytes(int(stream[start : start + 8], 2) for start in range(12, 12 + 8 * length, 8)).decode("ascii")


def _way(side: int, version: int) -> list[tuple[int, int]]:
    """Where the bits stand, in their order: two columns at a time, up and down, past what every code has."""

    def fixed(row: int, column: int) -> bool:
        corner = (row < 9 and (column < 9 or column >= side - 8)) or (row >= side - 8 and column < 9)
        small = version > 1 and side - 9 <= row <= side - 5 and side - 9 <= column <= side - 5
        return corner or small or 6 in (row, column)

    way, up = [], True
    for right in (column for column in range(side - 1, 0, -2)):
        pair = right if right > 6 else right - 1
        for row in range(side - 1, -1, -1) if up else range(side):
            way += [(row, column) for column in (pair, pair - 1) if not fixed(row, column)]
        up = not up
    return way

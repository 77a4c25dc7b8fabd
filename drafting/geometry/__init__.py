"""Points, lines, cubics, paths, offsets and intersections: plane geometry that knows nothing of the trade.

Axes: x to the right, y downward, as on cloth, screen and paper. Angles in radians, positive from x towards y.
"""

"""A neutral list of strokes and words in mm: pieces, the laid cloth, and where words find room."""

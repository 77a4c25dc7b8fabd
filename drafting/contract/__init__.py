"""What a garment hands over to everything else, as records.

Pieces with their levels, seams, girths, fields, checks and ways out.
"""

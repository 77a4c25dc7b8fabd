"""Parts that several garments are made of. They import what a garment hands over, and no garment."""

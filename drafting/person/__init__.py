"""A person's measures: read, limits, bands, estimates."""

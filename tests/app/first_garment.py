"""What the first garment asks, for tests of the screens that show it."""

from drafting.garments import garments

GARMENT = garments()["cut_in_one"]
PRESETS = {preset.key: dict(preset.style) for preset in GARMENT.presets}
NAMED = {preset.key: preset.named for preset in GARMENT.presets}
#: Every key whose length can be told while it is left open.
TOLD = {field.key for field in GARMENT.fields if field.drafted}


def garment_words() -> list[str]:
    """Every word of every garment's form."""
    found = []
    for garment in garments().values():
        for field in garment.fields:
            options = [option.words for option in field.options]
            found += [field.words, field.length_words, *field.ends, *options]
        for preset in garment.presets:
            found += [preset.words, preset.named]
    return sorted({words for words in found if words})

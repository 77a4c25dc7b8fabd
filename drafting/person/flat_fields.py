"""What is asked of a garment that fits and lies flat: each field with its words and how it is measured."""

from dataclasses import dataclass

__all__ = ["FLAT_CHOICES", "FLAT_FIELDS", "FlatChoice", "FlatField"]


@dataclass(frozen=True, slots=True)
class FlatField:
    """A field of FlatGarment that is typed: a length, or a percentage. Without one that is `needed` nothing is told."""

    name: str
    label: str
    how: tuple[str, ...]
    percent: bool = False
    needed: bool = False


@dataclass(frozen=True, slots=True)
class FlatChoice:
    """A field of FlatGarment that is chosen; each option with its words, the first is taken unless another is."""

    name: str
    label: str
    how: tuple[str, ...]
    options: tuple[tuple[str, str], ...]


FLAT_FIELDS: tuple[FlatField, ...] = (
    FlatField(
        "stature",
        "Stature of its wearer",
        ("The room in a garment grows with it.", "A figure that is right to 5 cm or 2 in will do."),
        needed=True,
    ),
    FlatField(
        "stretch_across",
        "Stretch of its cloth, round the body",
        (
            "Make two marks across it, 10 apart in any unit. Hold one still, and pull the other until it resists.",
            "If they are then 13 apart, write 30.",
        ),
        percent=True,
        needed=True,
    ),
    FlatField(
        "half_chest",
        "Half width at the chest",
        (
            "Close the garment and lay it flat, without stretching it.",
            "Measure just under the arms, from fold to fold.",
        ),
        needed=True,
    ),
    FlatField("half_waist", "Half width at the waist", ("Measure from fold to fold where its wearer's waist is.",)),
    FlatField(
        "half_hip", "Half width at the hip", ("Measure from fold to fold where it lies on the fullest of the hip.",)
    ),
    FlatField("half_hem", "Half width at the hem", ("Measure along the hem, from fold to fold.",)),
    FlatField(
        "side_neck_to_hem",
        "Length",
        ("Measure from the side of the neck, where the shoulder begins, straight down to the hem.",),
    ),
    FlatField(
        "along_sleeve",
        "Length of the sleeve",
        ("Measure from the point of the shoulder, where the arm begins, to the end of the sleeve.",),
    ),
    FlatField(
        "half_upper_arm",
        "Half width of the sleeve at the upper arm",
        ("Measure square to the sleeve, from where it meets the side.",),
    ),
    FlatField(
        "half_wrist",
        "Half width of the sleeve at its end",
        ("Measure across the end of the sleeve, from fold to fold.",),
    ),
)
FLAT_CHOICES: tuple[FlatChoice, ...] = (
    FlatChoice(
        "fit",
        "How does it sit?",
        ("Look at its wearer in it.",),
        (("regular", "With some room"), ("close", "Close"), ("loose", "Loose")),
    ),
    FlatChoice(
        "ends_at",
        "Where does the sleeve end?",
        (),
        (("wrist", "At the wrist"), ("above", "Above it")),
    ),
)

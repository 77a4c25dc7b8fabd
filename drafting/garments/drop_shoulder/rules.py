"""The numbers of `drop_shoulder`, each with where it comes from. Millimetres; "× scale" grows with stature.

What says nothing else is our choice, tried on 453 people of the 1988 survey and 12 styles.
"""

import math
from typing import Final

# --- Body and armhole ------------------------------------------------------------------------------------------------
#: The side lies this far outside the shoulder's end, so that the armhole has room to turn a right angle in.
SIDE_OUTSIDE_SHOULDER: Final = 20.0
#: The shoulder reaches past the shoulder point by this × scale, least and most, where nothing is asked; 0 may be asked.
EXTENSION_LEAST, EXTENSION_MOST = 30.0, 60.0
#: From this ease at the bust on, as a share, it is said that the shoulders decide the width.
EASE_TOLD_FROM: Final = 0.22
#: The underarm lies this × scale below the armpit. Common practice, from memory.
UNDERARM_BELOW_ARMPIT: Final = 50.0
#: An underarm lowered for the arm by less than this is a finished figure, by more it is told as moved.
LOWERED_TOLD_FROM: Final = 20.0
#: And it lies at least this × scale above the waist.
UNDERARM_ABOVE_WAIST: Final = 40.0
#: Handles of the armhole: at the shoulder as a share of its chord, at the underarm as a share and at least so long.
ARMHOLE_SHOULDER, ARMHOLE_UNDERARM, ARMHOLE_UNDERARM_LEAST = 0.22, 0.32, 56.0
#: Its radius keeps this beyond its allowance, or its cut edge cannot be followed by shears.
ARMHOLE_SPARE: Final = 15.0
#: A front over a full bust: from this difference of bust and upper chest on, longer by this, and by this share of what
#: is over, at most so much.
FULL_BUST_FROM, FULL_BUST, FULL_BUST_SHARE, FULL_BUST_MOST = 40.0, 13.0, 0.5, 25.0
#: Handles of a hem that falls to the front, as a share of its width.
DIP_HANDLE: Final = 0.35

# --- Sleeve ------------------------------------------------------------------------------------------------------
#: Height of the cap × scale, and the most.
CAP_HEIGHT, CAP_MOST = 40.0, 60.0
#: Handles of the cap as shares of its half width; level at both ends.
CAP_HANDLES: Final = (0.45, 0.55)
#: Where the cap is steeper than this a woven cloth would be eased; in a knit it is warned of.
CAP_STEEP: Final = math.radians(30)
#: The least half width of a cap that is looked for.
CAP_NARROWEST: Final = 0.5
#: Room of the sleeve under the arm × scale, by fit. Common practice, from memory (2.5–4.5 in).
ARM_ROOM: Final = {"close": 60.0, "regular": 80.0, "loose": 110.0}
#: Handles of the under seam, as shares of its length.
UNDER_HANDLES: Final = (0.18, 0.16)
#: In a short one the lower handle is longer, at most this, so that the cut edge keeps this radius.
UNDER_HANDLE_MOST: Final = 0.6
END_TURN_SPARE: Final = 10.0
#: The under seam is at least this × scale long.
UNDER_LEAST: Final = 40.0
SHORT_SLEEVE_SHARE: Final = 0.33
#: The under seam slants on average by at most this; with a cuff more, since that is gathered.
TAPER_MOST, TAPER_MOST_CUFF = math.radians(15), math.radians(18)

"""The numbers of `set_in`, each with where it comes from. Millimetres; "× scale" grows with stature.

What says nothing else is our choice, tried on 453 people of the 1988 survey.
"""

from typing import Final

# --- Body and armhole ------------------------------------------------------------------------------------------------
#: Half the garment across the back is half the back width and this; it lies at most so far inside the shoulder point
#: × scale.
ACROSS_BACK: Final = 3.0
ACROSS_INSIDE_MOST: Final = 22.0
#: The armhole leaves the shoulder square with a handle of at least this × scale, and turns upright without coming back
#: out: so far inside the end of the shoulder it runs at the least.
SHOULDER_HANDLE_LEAST: Final = 20.0
#: The front is narrower across by this × scale. Common practice, from memory.
FRONT_NARROWER: Final = 8.0
#: The quarter at the bust is wider than the back across by at least this share of the bust, so that the armhole has
#: room to turn under the arm.
TURNS_WITHIN: Final = 0.04
#: The shoulder ends this × scale inside the shoulder point, and at most so far outside the back across, else it gets
#: wings wider than its underarm.
SHOULDER_INSIDE: Final = 5.0
SHOULDER_OVER_ACROSS: Final = 22.0
#: What is moved by less than this, mm, is a finished figure; by more it is told as moved.
TOLD_FROM: Final = 5.0
#: The underarm lies this × scale below the armpit, by fit.
UNDERARM_BELOW_ARMPIT: Final = {"close": 12.0, "regular": 22.0, "loose": 38.0}
#: And it lies at least this × scale above the waist.
UNDERARM_ABOVE_WAIST: Final = 60.0
#: Where the armhole runs upright, as a share of its depth below the end of the shoulder: front, back.
UPRIGHT_AT: Final = (0.60, 0.55)
#: Handles of its upper part, as shares of its chord, and of its lower part, as shares of the way down and of the way
#: out: front, back.
UPPER_HANDLES: Final = (0.36, 0.36)
LOWER_HANDLES: Final = ((0.62, 0.50), (0.52, 0.44))
#: It runs upright farther down where it could not turn with this radius otherwise, mm: a child has little room there.
#: A quarter ellipse turns with the square of its one half axis over the other (CALC).
TURNS_WITH: Final = 28.0
#: At the underarm its radius is at least this × scale, where a handle of at most so much of the way out gives it: a
#: broad back leaves so little room there that shears could not follow the cut edge.
UNDERARM_RADIUS: Final = 39.0
OUT_MOST: Final = 0.75
#: The last of an armhole and of a cap is straight by this, mm, so that its cut edge is carried on square to the side.
STRAIGHT_END: Final = 1.0
#: An armhole keeps this radius beyond its allowance, or its cut edge cannot be followed by shears.
ARMHOLE_SPARE: Final = 15.0
#: A shaped side comes in between underarm and bust level by this for each mm down at the most, and by this share of its
#: slope from bust to waist; nearer to each other than this, mm, the two levels are one.
COMES_IN_MOST, COMES_IN_SHARE, LEVELS_APART = 0.12, 0.45, 10.0

# --- Sleeve ----------------------------------------------------------------------------------------------------------
#: Room of the sleeve under the arm × scale, by fit. Common practice, from memory (4–10 cm for regular and loose).
ARM_ROOM: Final = {"close": 10.0, "regular": 40.0, "loose": 80.0}
#: The cap is longer than the armhole by this share. Common practice, from memory (0–1 % in a knit).
CAP_EASE: Final = 0.005
#: Height of the cap as a share of both armholes, by fit: least and most.
CAP_LEAST: Final = {"close": 0.24, "regular": 0.205, "loose": 0.16}
CAP_MOST: Final = {"close": 0.345, "regular": 0.325, "loose": 0.31}
#: Handles at the top of the cap, as shares of the width of its half: front, back.
TOP_HANDLES: Final = (0.52, 0.56)
#: Handles at its corner are chosen between these shares, in so many steps; of the back less by this.
HOLLOW: Final = (0.32, 0.62)
HOLLOW_STEPS: Final = 6
HOLLOW_BACK_LESS: Final = 0.06
#: The cap lies on the armhole over this share of its length from the underarm; farther off than this, mm, is said.
LIES_OVER: Final = 0.22
LIES_WITHIN: Final = 15.0
#: Each half of the cap is as long as its armhole and its ease within this, mm.
CAP_WITHIN: Final = 1.0
#: Room at the wrist × scale, by fit.
END_ROOM: Final = {"close": 30.0, "regular": 30.0, "loose": 60.0}
#: The elbow lies half-way down the arm and this farther; the sleeve is so much wider there, by fit.
ELBOW_BELOW_HALF: Final = 20.0
ELBOW_ROOM: Final = {"close": 0.0, "regular": 20.0, "loose": 20.0}
#: Short and elbow sleeves cover these shares of the arm, and at least the cap and this × scale.
SHORT_SHARE, ELBOW_SHARE = 0.36, 0.58
UNDER_LEAST: Final = 50.0
#: The under seam turns square to the sleeve's end over this, mm, at most this share of its length.
END_TURN, END_TURN_SHARE = 40.0, 0.35
#: The second of the double notch lies so far below the first, mm. Common practice, from memory.
NOTCH_APART: Final = 12.0

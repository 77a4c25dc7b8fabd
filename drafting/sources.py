"""Every drafting constant, with where it comes from.

Lengths are millimetres; those marked "× scale" are for a stature of 1630 mm and grow with stature / 1630.
Marks: "common practice, no source"; "from memory"; "CALC" for pure geometry; "our choice, because …" for what
we judged ourselves; a publication or open survey by name. "Survey" is the 1988 US Army anthropometric survey
(public domain), 2,208 women and 1,774 men.
"""

import math
from typing import Final

#: Stature for which the lengths marked "× scale" hold: the survey's median woman (162.8) rounded up.
REFERENCE_STATURE: Final = 1630.0

# --- Neck and shoulder -------------------------------------------------------------------------------------------
#: A neck that stands needs 2.5 cm over the neck girth, the two-finger rule. Common practice, no source.
NECK_STANDING_EASE: Final = 25.0
#: Over this ease a neck falls softly instead of standing. Our choice, because 12 cm is a hand's breadth all round.
NECK_SOFT_EASE: Final = 120.0
#: What must pass over the head has 1 cm more than the head. Common practice, no source.
HEAD_EASE: Final = 10.0
#: An estimated head counts with so much more, mm: women and children, men. The spread of heads of one stature in the
#: 1988 US Army survey, as a standard deviation; our choice to add it once.
HEAD_SPREAD: Final = 13.0
HEAD_SPREAD_MAN: Final = 14.0
#: Half the width between the side-neck points is a fifth of the neck base. Common practice, no source (6.4–7.5 cm).
NECK_BASE_SHARE: Final = 1 / 5
#: Shoulder slope when none is given. Our choice: just under the 22.3°/23.6° of Taniyama et al. 1970 (n = 337).
SHOULDER_SLOPE: Final = math.radians(20)
#: Slopes accepted. Common practice, no source (12–28°).
SHOULDER_SLOPE_LIMITS: Final = (math.radians(12), math.radians(28))
#: Shortest run of shoulder outside the neck: 2.5 cm, and 4 cm × scale. Our choice, because a shorter one cannot be sewn
#: and turned, and the neck would hang on the shoulder point.
SHOULDER_RUN_LEAST: Final = 25.0
SHOULDER_RUN_SCALED: Final = 40.0
#: Neck column heights when none is given, grown and child. Common practice, no source (stand 10–15; children low).
NECK_HEIGHT: Final = 140.0
NECK_HEIGHT_CHILD: Final = 50.0
#: Most that a column may be high, as shares of stature: single, folded over, and under 1.34 m. Our choice, because the
#: throat of the survey's median is about a tenth of stature from side-neck point to chin.
NECK_SINGLE_SHARE: Final = 0.10
NECK_FOLDED_SHARE: Final = 0.17
NECK_FOLDED_MOST: Final = 280.0
NECK_SMALL_CHILD_SHARE: Final = 0.07
NECK_SMALL_CHILD_STATURE: Final = 1340.0
#: Below this a column rolls over instead of standing, so the edge is scooped. Our choice.
NECK_SCOOP_BELOW: Final = 40.0
#: Scooped neck: drop at the back, least and most drop at the front. Common practice, no source (Baldt 1916: back ¾ in).
SCOOP_BACK: Final = 20.0
SCOOP_FRONT: Final = (70.0, 100.0)
#: A scooped neck begins this far outside the side-neck point × scale. Our choice, because the edge then lies on the
#: neck.
SCOOP_OUTSIDE: Final = 15.0
#: The shoulder leaves the column in a curve of equal legs of 3 cm × scale. Common practice, no source (2–4 cm).
COLUMN_CURVE_LEG: Final = 30.0
#: Its radius keeps this beyond the allowance. Our choice, because a smaller cut curve cannot be followed by shears.
COLUMN_CURVE_SPARE: Final = 10.0
#: Softening where shoulder and overarm meet: legs of 5 cm × scale, at most this share of the shoulder run. Our choice.
SOFTENING_LEG: Final = 50.0
SOFTENING_SHARE: Final = 0.45
#: And at most this share of a sleeve, so that the end of a short one is still straight. Our choice.
SOFTENING_SLEEVE_SHARE: Final = 0.6
#: A slanted neck edge runs square for this much at each side, so that the seams meet smoothly. Our choice.
SLANT_SQUARE: Final = 15.0
#: The edge of a folded neck ends so far above the side-neck level, mm, so that it does not ride up where the neck stand
#: bends into the shoulder. Our choice, from geometry, not sewn.
FOLD_OVER_EDGE_ABOVE: Final = 10.0
#: So far below the fold-over line its seams change sides, mm. Common practice, no source.
FOLD_OVER_TURNS_BELOW: Final = 10.0
#: The facing of a neck opening: its width, how far it is longer than the slit, and how far beside the marked line it is
#: sewn, mm. Common practice, no source.
FACING_WIDE: Final = 60.0
FACING_LONGER: Final = 30.0
FACING_BESIDE: Final = 3.0
#: An opening at the back may go at most this share of the way from side-neck level to waist. Our choice.
OPENING_SHARE: Final = 0.6
#: An opening at the back reaches at least this far below the foot of the neck stand, or below a scooped edge, mm. Our
#: choice: a shorter one cannot be faced.
OPENING_LEAST: Final = 30.0

# --- Body ----------------------------------------------------------------------------------------------------------
#: Down from the side-neck level, the waist lies 2 cm further than the nape-to-waist length: the side-neck points lie
#: that much higher than the nape. Common practice, no source (back neck drop ¾ in, Baldt 1916).
NAPE_ABOVE_SIDE_NECK: Final = 20.0
#: Angle of the overarm below level, and beside straight sides. Our choice: straight sides put the underarm further out
#: and so lower, and at 20° two of three of the survey's people would lift the garment with the arm.
OVERARM_ANGLE: Final = 20.0
OVERARM_ANGLE_STRAIGHT: Final = 10.0
#: A closed waist or hem passes the largest girth that goes through it with 4 cm × scale to spare. Our choice.
PASSING_EASE: Final = 40.0
#: From waist to hip one seam without a dart goes out by at most this, by fit, on a depth of 22 cm, and less on a
#: shorter one (common practice, no source: 5 cm). The steepest place is then 22°, 19° and 13° to the fold (CALC).
SHAPED_TO_HIP: Final = {"close": 60.0, "regular": 50.0, "loose": 35.0}
SHAPED_TO_HIP_DEPTH: Final = 220.0
#: From bust to waist it comes in by at most this share of the depth between them. Our choice: 24° at its steepest.
SHAPED_TO_BUST: Final = 0.30
#: Ease that shaping may leave in the waist before straight sides are offered. Our choice: one in thirteen of the
#: survey's women has more at knee length.
WAIST_EASE_MUCH: Final = 150.0
#: Years: under this age children put small things into their mouths, and a nappy is likely. Common practice, no source.
SMALL_PARTS_UNDER: Final = 3
#: Ease in a shaped waist that is worth a word. Our choice: less reads as nothing.
WAIST_EASE_SHOWN: Final = 5.0
#: A straight side slants out to the hip by at most this. Our choice, because more hangs in a point at the side.
STRAIGHT_SIDE_SLANT: Final = math.radians(6)
#: An estimated bust level lies at most this share of the way from side neck to waist. Our choice, because a full bust's
#: estimate otherwise lands in the waist.
BUST_ESTIMATE_LOWEST: Final = 0.75
#: Where the side changes its slope below the hip it turns over this × scale, at most this share of what is left. Our
#: choice, so that no corner shows.
SIDE_TURN: Final = 60.0
SIDE_TURN_SHARE: Final = 0.6
#: The side slants at most this at an asked hem, outward and inward. Our choice: knit hangs in folds beyond, and drags.
HEM_FLARE_MOST: Final = math.radians(25)
HEM_PEG_MOST: Final = math.radians(12)
#: A side that slants less at the hem has a straight hem. Our choice: 1° is a chalk line over 12 cm.
HEM_STRAIGHT_UNDER: Final = math.radians(1)
#: The hem rises or falls to the side over at least this, and at most this share of the half width. Our choice.
HEM_RUN_LEAST: Final = 20.0
HEM_RUN_SHARE: Final = 0.9
#: The bust level lies at least this much above the waist level. Our choice: nearer, one of the two was taken wrongly.
BUST_ABOVE_WAIST_LEAST: Final = 10.0
#: The side seam begins to come in no nearer than 11 cm × scale above the waist. Our choice.
BUST_ABOVE_WAIST: Final = 110.0
#: Above the waist the seam is let out by at most about this, a side, for a bust that lies low. Our choice, because more
#: would stand off as a bulge.
BUST_LET_OUT_MOST: Final = 40.0
#: Flare and mean taper below the hip, a side and unit of length; a pegged side ends at twice its mean. Our choice,
#: because knits hang in folds beyond 0.14.
SKIRT_FLARE: Final = 0.14
SKIRT_PEG: Final = -0.07
#: "Hip" length ends this share of stature below the hip level; "knee" covers the kneecap by this share. Our choice.
HIP_LENGTH_SHARE: Final = 0.03
KNEE_LENGTH_SHARE: Final = 0.02
#: Mid-thigh lies this share of the way from the knee up to the hip level. Our choice, because walking hems then come
#: out as common practice gives them (90 cm at 163 cm stature).
MID_THIGH_SHARE: Final = 0.4
#: Height of the ankle-bone above the floor, as a share of stature. From memory.
ANKLE_SHARE: Final = 0.045
#: A garment ends at least this far below the waist × scale. Our choice, because a shorter one has no side seam to
#: hang by.
SHORTEST_BELOW_WAIST: Final = 40.0

# --- Underarm and sleeve ---------------------------------------------------------------------------------------------
#: A regular underarm lies 6 cm × scale below the armpit. Rosenfeld 1918: at least 1½–2 in below a set-in armhole.
UNDERARM_BELOW_ARMPIT: Final = 60.0
#: What an ordinary body needs at the most below the armpit × scale, by the angle of the overarm; more is told as moved.
#: Our choice: 36 mm more than the 95th percentile of the survey's women needs with regular room at 0°, 20° and 30°.
UNDERARM_ORDINARY: Final = ((0.0, 126.0), (math.radians(20), 160.0), (math.radians(30), 193.0))
#: A deep one this much above the waist × scale, and the least. Our choice.
UNDERARM_ABOVE_WAIST: Final = 80.0
UNDERARM_ABOVE_WAIST_LEAST: Final = 40.0
#: Room in the ring of the underarm over the upper arm × scale. Common practice, no source (upper arm + 4–10 in, knit).
ARM_ROOM: Final = {"close": 80.0, "regular": 120.0, "loose": 180.0}
#: Room at the narrowest place of the sleeve × scale. Our choice.
SLEEVE_ROOM: Final = {"close": 50.0, "regular": 80.0, "loose": 140.0}
#: The sleeve narrows by at least this × scale from the underarm ring. Our choice.
SLEEVE_NARROWS: Final = 20.0
#: What must pass over the hand has 2 cm more. Common practice, no source.
HAND_EASE: Final = 20.0
#: An estimated hand counts with so much more, mm: women and children, men. As for the head.
HAND_SPREAD: Final = 7.0
HAND_SPREAD_MAN: Final = 8.0
#: Share of the arm's length at which it is as thick as at its fullest, at the elbow (from, to), at the wrist. Our
#: choice, from where those measures are taken.
ARM_FULLEST_AT: Final = 0.25
ELBOW_AT: Final = (0.5, 0.6)
#: An elbow sleeve covers this share of the arm. Our choice: the far end of the elbow.
ELBOW_LENGTH_SHARE: Final = 0.6
#: A sleeve without flare shorter than this share of the arm is narrowest at its end. Our choice.
SHORT_SLEEVE_SHARE: Final = 0.6
#: Where a flared sleeve that is too short for its underarm curve may be narrowest instead, as shares of its length. Our
#: choice: within the shares that may be asked for.
NARROWEST_FURTHER: Final = (0.6, 0.7)
#: The nearest to the shoulder that it may be narrowest. Our choice, so that the under line has room.
NARROWEST_NEAREST: Final = 0.35
#: But not so that the flare is shorter than this. Our choice: a shorter one has no straight edge to turn a hem against.
FLARE_SHORTEST: Final = 80.0
#: Least length of a flared under edge. Our choice: twice its allowance and as much again for the bend.
FLARE_EDGE_LEAST: Final = 60.0
#: Underarm curve: wanted and least radius as shares of stature. Common practice, no source (≥ 8, better 10 cm).
UNDERARM_RADIUS_SHARE: Final = 0.06
UNDERARM_RADIUS_WARN_SHARE: Final = 0.05
#: The underarm curve and its allowance: radius at least the allowance and 2 cm. CALC, with our margin.
UNDERARM_RADIUS_SPARE: Final = 20.0
#: The underarm curve takes at most this share of the sleeve's under line. Our choice.
UNDERARM_CURVE_SHARE: Final = 0.6
#: Nearer than this × scale to the side, and never nearer than the least, there is no room for an underarm curve with
#: its allowance, and the sleeve is a cap. Our choice.
CAP_NEARER_THAN: Final = 50.0
CAP_NEARER_LEAST: Final = 47.0
#: Handles of the under line as shares of its chord: from the underarm corner, and at a narrowest place from which it
#: turns out into a flare. At the end of a plain sleeve only the last bit turns square (mm, or a share of the chord),
#: so that there is room at the elbow. Our choice, from looking at the outlines of eight bodies.
UNDER_LINE_BEGINS: Final = 0.35
UNDER_LINE_TURN: Final = 0.4
UNDER_LINE_SQUARE: Final = 60.0
UNDER_LINE_SQUARE_SHARE: Final = 0.18
#: Handles of the flared edge, at the narrowest place and at the end, as shares of its chord. Our choice: longer ones
#: make the end tuck back under.
BELL_HANDLES: Final = (0.42, 0.25)
#: A short sleeve whose under line would turn with less than this radius is a cap. Our choice: the least for allowances.
UNDER_LINE_LEAST: Final = 30.0
#: A cap's opening goes round the upper arm with this to spare. Our choice.
CAP_ROOM: Final = 60.0
#: Radius with which the side seam turns out under a cap × scale, and the least. Our choice: what CAP_NEARER_THAN
#: leaves.
CAP_RADIUS: Final = 37.0
CAP_RADIUS_LEAST: Final = 35.0
#: The end of a cap lies at least this × scale below the armpit. Our choice: an armhole needs 2–3 cm.
CAP_BELOW_ARMPIT: Final = 25.0
#: Angles of the sleeve's flare, and the steepest the under edge may hang. Our choice; they come out at common
#: practice's +10–15, +20–35 and +40–60 cm for grown people and still work on children.
FLARE_ANGLES: Final = {"slight": math.radians(15), "bell": math.radians(30), "wide": math.radians(50)}
FLARE_STEEPEST: Final = math.radians(65)
#: Radius where the sleeve turns outward: warn below, and the least beyond the allowance. Our choice.
SLEEVE_TURN_WARN: Final = 40.0
SLEEVE_TURN_SPARE: Final = 10.0
#: Room between the cut edges of sleeve and body. Our choice: the width of the shears.
SLEEVE_GAP: Final = 20.0
#: A wing deeper than this share of the way from armpit to waist lifts the whole garment with the arm. Our choice.
WING_DEPTH_SHARE: Final = 0.65
#: Arm lift that goes unnoticed, and that is felt. Our choice.
ARM_LIFT: Final = (50.0, 100.0)

# --- Walking
# -----------------------------------------------------------------------------------------------------------
#: Step and hip height as shares of stature, grown and child (child: from memory). CALC from a step of 0.41 stature.
STEP_SHARE: Final = 0.41
STEP_SHARE_CHILD: Final = 0.48
HIP_HEIGHT_SHARE: Final = 0.53
HIP_HEIGHT_SHARE_CHILD: Final = 0.49
#: Leg girth as a share of stature at (height above floor / stature): ankle, calf, knee, mid-thigh, seat fold. Our
#: choice, so that the walking hems of common practice (90, 99, 129, 142 cm at 163 cm) come out.
LEG_GIRTH: Final = ((0.045, 0.123), (0.163, 0.221), (0.281, 0.221), (0.374, 0.307), (0.47, 0.36))
#: A slit goes this much above the level that is wide enough. Common practice, no source.
SLIT_ABOVE: Final = 20.0

# --- Edges
# ---------------------------------------------------------------------------------------------------------------
#: A lower sleeve cut apart is joined at this share of a sleeve that is narrowest at its end. Our choice: above the
#: elbow.
JOINT_AT: Final = 0.5
#: The joint keeps this beyond the end of the underarm curve, and the lower sleeve is at least this long. Our choice,
#: because a shorter strip cannot be turned and hemmed.
JOINT_BEYOND_CURVE: Final = 20.0
LOWER_SLEEVE_LEAST: Final = 80.0
#: Hems on a flared or curved edge at most this. Common practice, no source (1–1.5 cm).
CURVED_HEM_MOST: Final = 15.0
#: A hem on a slanting side takes at most this over the slope, and always CURVED_HEM_MOST: turned up it
#: is then this much too long at the side (CALC). Our choice: 1.5 mm are eased in unseen.
SLANTING_HEM_EASED: Final = 1.5
#: A sleeve end flared by more than this counts as curved. Our choice: a slight flare still turns up flat.
CURVED_END_FROM: Final = math.radians(20)
#: A scooped neck edge is turned by at most this. Our choice, because its curve is tight.
SCOOP_HEM_MOST: Final = 10.0
#: Smallest radius that can be cut: shears, 45 mm rotary blade, 28 mm rotary blade. Our choice.
CUT_RADIUS: Final = {"shears": 15.0, "rotary 45": 30.0, "rotary 28": 15.0}
#: Clips into an inward curve this far apart. Common practice, no source (1–1.5 cm).
CLIP_EVERY: Final = 15.0
#: A hanging seam or edge counts as equal within this. Our choice: half of what a chalk line is wide.
EQUAL_WITHIN: Final = 0.5

# --- Skirt and waistband --------------------------------------------------------------------------------------------
#: What goes on over the hip has 1 cm more than the hip. Our choice, as for the head (common practice, no source).
HIP_EASE: Final = 10.0
#: A waistband that holds by itself, as a share of the waist of the body. Our choice: between the 0.90 and 0.95 that are
#: common practice; a band of that share of a waist seam which the hip has set is longer than the waist, and slides
#: down.
WAISTBAND_RATIO: Final = 0.92
#: Elastic as a share of the waist. Common practice, no source.
ELASTIC_RATIO: Final = 0.90
#: Elastic is so much narrower than its casing, and is joined over this length, mm. Common practice, no source.
ELASTIC_ROOM: Final = 5.0
ELASTIC_JOINED: Final = 20.0
#: A skirt reaches at least this share of the stature below the hip. Our choice: it covers the seat.
SKIRT_BELOW_HIP: Final = 0.03
#: Ease of a knit skirt at the hip, as a share of the hip, by fit. Our choice: less than a top has, since a skirt hangs
#: from the waist and not from the hip.
SKIRT_EASE: Final = {"close": 0.0, "regular": 0.03, "loose": 0.06}
#: Its waist edge is this much wider than the waist × scale. Our choice: 2 cm are gathered in unseen.
SKIRT_WAIST_EASE: Final = 20.0
#: One seam shapes SHAPED_TO_HIP of the regular fit on a depth of 22 cm, and at most this many times as much on a longer
#: one. Our choice.
SKIRT_SHAPED_MOST: Final = 1.15
#: The side leaves the waist at this many times the slope of the straight from waist to hip. Our choice: the side is
#: then round over the hip.
SKIRT_LEAVES_WAIST: Final = 1.2
#: The waist edge rises to the side by this share of what the side comes in there. Our choice: 1 cm for 5 cm (common
#: practice, no source: 1–1.5 cm).
SKIRT_WAIST_RISES: Final = 0.2
#: The flare at a side seam is at most this, a side and unit of length. Our choice: what is more falls in a point there.
SKIRT_FLARE_MOST: Final = 0.2
#: Elastic of a knit skirt as a share of the waist. Our choice: between the 0.90 and 0.95 that are common practice; the
#: limits of gathering below were tried with it.
SKIRT_ELASTIC_RATIO: Final = 0.92
#: A waist edge so many times as long as what holds it is drawn in evenly, and up to the second is seen to be gathered.
#: Our choice.
GATHERED: Final = (1.35, 1.5)
#: A hip that is sat down on is wider by this share. From memory.
SITTING_HIP: Final = 0.06

# --- Leggings and trousers of stretch cloth ---------------------------------------------------------------------------
#: Leggings are smaller than the body by this share of the stretch, at most by the second. Our choice: half the stretch
#: is left for moving.
LEGGINGS_LESS: Final = (0.2, 0.12)
#: Their waist edge is smaller than the waist by this share of what they are smaller by at the hip. Our choice.
LEGGINGS_WAIST_LESS: Final = 0.5
#: Ease of trousers at the hip, as a share of the hip, by cut. Common practice, no source.
TROUSERS_EASE: Final = {"straight": 0.05, "wide": 0.08}
#: The front has this share of half the hip. Common practice, no source: the back is 1 to 2 cm wider.
FRONT_OF_HIP: Final = 0.485
#: Trousers reach this far below the seat of the chair × scale. Common practice, no source: 1.5–2.5 cm.
CROTCH_EASE: Final = 20.0
#: The full hip is reached at least this far above the crotch × scale. Our choice: many measure the seat too low.
HIP_ABOVE_CROTCH: Final = 50.0
#: Crotch extensions of trousers, front and back, as shares of the finished hip. Common practice, no source: a twentieth
#: and a tenth.
EXTENSIONS: Final = (0.05, 0.105)
#: Least and largest extensions of leggings together, as shares of the finished hip, and what of it is the front's. Our
#: choice, tried on bodies of the survey.
LEGGINGS_EXTENSION: Final = (0.085, 0.155)
LEGGINGS_EXTENSION_FRONT: Final = 0.30
#: A trouser leg is this much wider than the thigh × scale. Our choice.
THIGH_ROOM: Final = 40.0
#: What a leg may lose from hip to waist at the centre front, the centre back and each side × scale. Our choice; common
#: practice for the side of a skirt is 5 cm on a depth of 22 cm.
LEGGINGS_LOSE: Final = (15.0, 35.0, 0.0)
TROUSERS_LOSE: Final = (12.0, 35.0, 30.0)
#: The seat curve begins this share of the crotch level above it, front and back. Its handles are shares of how far down
#: and how far out it runs. Our choice, tried on bodies of the survey.
SEAT_BEGINS: Final = (0.34, 0.38)
SEAT_HANDLES: Final = ((0.62, 0.70), (0.66, 0.66))
#: The seat turns no more tightly than its allowance and this, mm. Our choice: else the cut line has a corner.
SEAT_ROUNDER: Final = 2.0
#: Where no seat turns so wide, its cut line keeps at least this radius, mm, and the allowance is less. Our choice.
SEAT_CUT_LEAST: Final = 1.0
#: The waist edge is raised at the centre back by this × scale, of leggings as far as sitting needs between two figures,
#: and lowered at the centre front. Common practice, no source: 2–3 cm behind.
BACK_RAISED: Final = 25.0
LEGGINGS_RAISED: Final = (35.0, 55.0)
FRONT_LOWERED: Final = 5.0
#: So far at most the crotch of leggings is then lowered × scale. Our choice: past it a measure is wrong.
CROTCH_LOWERED_MOST: Final = 60.0
#: Sitting takes this much more than the crotch length × scale. From memory.
SITTING_SEAT: Final = 30.0
#: The inner leg leaves the crotch this much steeper than straight to the knee. Our choice: a slight hollow.
INNER_LEG_LEAVES: Final = 1.45
#: Trouser legs at the knee and at the hem, as shares of the leg at the crotch, by cut. Our choice.
TROUSER_LEG: Final = {"straight": (0.78, 0.70), "wide": (0.92, 0.88)}
#: A trouser hem that was asked for is at most this many times the leg at the crotch. Our choice: more falls in points.
TROUSER_HEM_MOST: Final = 1.4
#: The front is narrower than half of the leg by this × scale, and the back wider: of trousers at knee and hem, of
#: leggings at knee, calf and ankle (half of it, since front and back are one piece). Common practice, no source.
LEG_SPLIT: Final = (16.0, 14.0)
LEGGINGS_SPLIT: Final = (5.0, 3.5, 2.5)
#: The crease of the back lies this far towards the side from the middle × scale. Our choice.
BACK_CREASE: Final = 6.0
#: The calf is fullest this share of the way from knee to ankle. Common practice, no source.
CALF_BELOW_KNEE: Final = 0.30
#: A trouser hem ends this far above the floor. Common practice, no source.
ABOVE_FLOOR: Final = 20.0
#: What a hem needs beyond the girth round heel and instep, to be put on over the foot. Common practice, no source.
HEEL_EASE: Final = 10.0
#: A leg runs square into its hem over the last bit of its edge, and over at most this share of what lies below the
#: knee. Our choice: else the hem has a corner at each seam.
LEG_TURN: Final = 40.0
LEG_TURN_SHARE: Final = 0.35
#: Crotch depth as shares of the stature that are usual, and how far at least it lies below the hip level. From memory.
CROTCH_DEPTH_USUAL: Final = (0.145, 0.20)
CROTCH_BELOW_HIP: Final = 20.0
#: Leggings are best cut of cloth that stretches so much across and along, as fractions. Common practice, no source.
LEGGINGS_STRETCH: Final = (0.40, 0.15)

# --- Woven cloth ----------------------------------------------------------------------------------------------------
#: A slit neck of woven cloth has so much more than the head, grown and child. Common practice, no source.
SLIT_HEAD_EASE: Final = 40.0
SLIT_HEAD_EASE_CHILD: Final = 30.0
#: A neck slit is at least so long × scale, and ends so far above the bust level. Our choice.
SLIT_LEAST: Final = 120.0
SLIT_ABOVE_BUST: Final = 10.0
#: The neck of a kaftan lies so far outside the side-neck point and farther below it, mm; under SMALL_PARTS_UNDER
#: years this is added, so that the slit is shorter. Our choice.
KAFTAN_NECK: Final = 10.0
KAFTAN_NECK_SMALL: Final = 10.0
#: Ease of a kaftan × scale, at bust and hip, and how far half its width reaches past the shoulder. Common practice, no
#: source (16–40 cm of ease).
KAFTAN_EASE: Final = 240.0
KAFTAN_HIP_EASE: Final = 170.0
KAFTAN_PAST_SHOULDER: Final = 20.0
#: The least ease of cloth that does not stretch: at the bust for reaching out, at the hip for sitting down. Common
#: practice, no source.
WOVEN_BUST_EASE: Final = 120.0
WOVEN_HIP_EASE: Final = 80.0
#: The overarm of a kaftan falls by this angle, and the most. Our choice.
KAFTAN_OVERARM: Final = math.radians(8)
KAFTAN_OVERARM_MOST: Final = math.radians(15)
#: Its underarm lies so far below the armpit × scale (Rosenfeld 1918: at least 1½–2 in below a set-in armhole; the rest
#: is our choice), or lower until its ring has so much room over the upper arm × scale.
KAFTAN_UNDERARM: Final = 70.0
KAFTAN_ARM_ROOM: Final = 140.0
#: Its tapered sleeve ends with this share of that ring, and at least with so much more than the hand × scale. Our
#: choice.
KAFTAN_END_SHARE: Final = 0.8
KAFTAN_HAND_EASE: Final = 80.0
#: Its under line comes in by at most this. Our choice.
KAFTAN_TAPER_MOST: Final = math.radians(25)
#: Its side runs out by this below the underarm, a side and unit of length. Our choice.
KAFTAN_FLARE: Final = 0.10
#: Radius of its underarm as a share of the stature, and the least, mm. Our choice.
KAFTAN_CORNER: Final = 0.05
KAFTAN_CORNER_LEAST: Final = 30.0
#: Its neck facing is so wide × scale, and the part round the slit so wide and so much longer than the slit, mm. Common
#: practice, no source.
NECK_FACING_WIDE: Final = 60.0
#: A gusset's side × scale (Baldt 1916: 4 in square).
GUSSET: Final = 100.0
#: A patch pocket is half the hand and this × scale wide, at most this share of the quarter at the bust, and at least
#: half the hand and this, mm. It is so many times as deep as it is wide. Our choice, like all about pockets.
PATCH_ROOM: Final = 65.0
PATCH_OF_QUARTER: Final = 0.62
PATCH_ROOM_LEAST: Final = 30.0
PATCH_DEPTH: Final = 1.15
#: Its foot lies at least so far × scale above the hem, its sides at least so far from side and centre, mm.
PATCH_ABOVE_HEM: Final = 40.0
PATCH_FROM_SIDE: Final = 30.0
PATCH_FROM_CENTRE: Final = 20.0
#: Pockets begin so far × scale below the waist; a patch pocket of a short garment goes up to where this × scale is
#: left, and is then less deep: at least this share of its width.
POCKET_BELOW_WAIST: Final = 50.0
PATCH_BELOW_WAIST_LEAST: Final = 10.0
PATCH_DEPTH_LEAST: Final = 0.8
#: A pocket in a seam opens by half the hand and this × the scale and so much, but at most × 1, mm.
OPENING_ROOM: Final = 55.0
OPENING_CHILD: Final = 0.1
#: Its bag is so wide × scale, and reaches so far above and below the opening; where the hem is near, at least so far
#: below. It ends so far above the hem, and above the top of a slit, mm.
BAG_WIDE: Final = 150.0
BAG_ABOVE: Final = 15.0
BAG_BELOW: Final = 100.0
BAG_BELOW_LEAST: Final = 60.0
BAG_ABOVE_HEM: Final = 40.0
BAG_ABOVE_SLIT: Final = 20.0
#: In trousers it ends at most so far below the crotch, mm.
BAG_BELOW_CROTCH: Final = 60.0
#: It is sewn on so far outside the seam line, mm, so that it does not show; its stay is so much longer than its
#: opening.
BAG_SEWN_NEARER: Final = 3.0
OPENING_STAYED: Final = 40.0


def scale(stature: float) -> float:
    """Growth of the lengths marked "× scale": 1 at REFERENCE_STATURE."""
    return stature / REFERENCE_STATURE

"""One small job with figures that are easy in the head, for everything about money. All of it is invented."""

from rodwork.comparing import compare

BOX = """
[job]
name = "Two boxes for the kiln room"

[money]
hour = 36
cabinets_to_come = 50

[prices]
"dowel 8x30" = { price = 6.40, pieces = 200 }
"screw 4x50" = { price = 7.90, pieces = 200 }
glue = { price = 8 }

[times]
fetch_machine = 3
change_cutter = 2
set_fence = 2
set_depth = 1
first_off = 2
hold_board = 0.5
set_batten = 1.5
bore = 0.5
bore_in_place = 0.4
slot = 0.5
channel = 2
fit_piece = 0.2
drive = 0.3
spread_glue = 1
clamp = 1
wait = 45

[boards.ply18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]

[joints.mixed]
use = [{ family = "dowel", count = 2 }, { family = "screw" }]

[every_cabinet]
count = 2
width = 500
height = 400
depth = 300
board = "ply18"
joint = "mixed"

[cabinets.box]
"""


def compared(text=BOX, **how):
    return compare(text, "box.toml", **how)[1]


def way(name, text=BOX, **how):
    return next(w for w in compared(text, **how).all if w.name == name)


def line(of, what):
    (found,) = [x for x in of.lines if x.what == what]
    return found

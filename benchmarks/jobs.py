"""Jobs of any number of cabinets as text, for the measurements. Sizes are invented and no two cabinets are equal."""

HEAD = """\
[job]
name = "Measured job"

[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]
price = 64.00

[boards.birch6]
material = "birch plywood"
thickness = 6
actual = 5.8
sheet = [2440, 1220]

[edgings.birch]
thickness = 1.0
price_per_m = 0.85

[joints.dowels]
use = [{ family = "dowel", size = "8x30" }]

[joints.mixed]
use = [{ family = "dowel", size = "8x30", count = 2 }, { family = "screw", first = 90, end = 90 }]

[joints.housed]
use = [{ family = "housing", depth = 6 }]

[every_cabinet]
board = "birch18"
edging = { with = "birch", on = "fronts" }
"""

KINDS = (
    ("wall", 720, 320, 'joint = "dowels"\nback = { board = "birch6", style = "grooved all round", void = 22 }\n'
                       'openings = [260, "rest"]\nloose_shelves = [0, 1]'),
    ("bookcase", 1950, 280, 'corner_joint = "dowels"\nshelf_joint = "housed"\n'
                            'back = { board = "birch6", style = "rebated in the sides" }\nfixed_shelves = 3'),
    ("base", 780, 560, 'joint = "dowels"\ncorner_joint = "mixed"\nsides = "between"\n'
                       'back = { board = "birch6", style = "planted" }\ndividers = 1\nfixed_shelves = 1'),
)  # fmt: skip


def job_text(number: int) -> str:
    """A job of so many cabinets, kinds in turn, widths and heights a little different."""
    parts = [HEAD]
    for i in range(number):
        kind, height, depth, rest = KINDS[i % len(KINDS)]
        width, height = 600 + (i * 7) % 300, height + (i * 3) % 90
        parts.append(
            f'\n[cabinets.unit-{i + 1}]\nkind = "{kind}"\nmark = "{_mark(i)}"\nwidth = {width}\nheight = {height}\n'
            f"depth = {depth}\n{rest}\n"
        )
    return "".join(parts)


def alike_text(number: int, own: int = 0) -> str:
    """The same cabinets in a form that every family can be tried on: one bay with its shelves each.

    `own`: it names so many files with families of its own.
    """
    names = ", ".join(f'"own-{n}.toml"' for n in range(own))
    head = HEAD.split("[joints.dowels]")[0].replace("[job]", f"[job]\nfamilies = [{names}]" if own else "[job]")
    parts = [head, '[every_cabinet]\nboard = "birch18"\n']
    backs = ("grooved all round", "rebated in the sides", "planted")
    for i in range(number):
        kind, height, depth, _ = KINDS[i % len(KINDS)]
        parts.append(
            f'\n[cabinets.unit-{i + 1}]\nkind = "{kind}"\nmark = "{_mark(i)}"\nwidth = {600 + (i * 7) % 300}\n'
            f"height = {height + (i * 3) % 90}\ndepth = {depth}\nfixed_shelves = {1 + i % 3}\n"
            f'back = {{ board = "birch6", style = "{backs[i % len(backs)]}" }}\n'
        )
    return "".join(parts)


def _mark(i: int) -> str:
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    return letters[i // 676 % 26] + letters[i // 26 % 26] + letters[i % 26]

"""The mark of every board: cabinet, copy, part. Unique in the job, short enough to pencil."""

from rodwork.model.panel import Panel

_CODES = {
    "top": "T",
    "bottom": "B",
    "fixed shelf": "FS",
    "loose shelf": "L",
    "divider": "D",
    "part divider": "PD",
    "back": "BK",
    "door": "DR",
    "rail": "RL",
    "batten": "BT",
    "plinth board": "PB",
    "plinth frame": "PF",
    "stiffener": "SF",
    "face frame": "FF",
    "end panel": "EP",
    "infill": "IN",
    "scribe": "SC",
    "worktop": "WT",
    "upstand": "UP",
    "cornice": "CN",
    "pelmet": "PM",
}
_NAMED = {"front rail": "RF", "back rail": "RB", "fixing rail": "RX", "plinth front": "PFF", "plinth back": "PFB",
          "cabinet batten": "BTC", "wall batten": "BTW", "wall packer": "BTP"}  # fmt: skip
_DRAWER = {"front": "F", "box front": "I", "left side": "L", "right side": "R", "back": "K", "bottom": "B"}


def marks(
    cabinet_mark: str, first_copy: int, count: int, panel: Panel, glued_on: Panel | None = None
) -> tuple[str, ...]:  # fmt: skip
    """G1-LS, G2-LS, ... for every copy of a cabinet. `glued_on`: the board that a lipping goes on: G1-LPLSF."""
    code = _code(panel) if glued_on is None else f"LP{_code(glued_on)}{panel.name.split()[-2][0].upper()}"
    return tuple(f"{cabinet_mark}{n}-{code}" for n in range(first_copy, first_copy + count))


def _code(panel: Panel) -> str:
    words = panel.name.split()
    number = words[-1] if words[-1].isdigit() else ""
    if panel.name in _NAMED:
        return _NAMED[panel.name]
    if panel.role == "side":
        return "LS" if words[0] == "left" else "RS"
    if words[0] == "drawer":
        number = words[1] if words[1].isdigit() else ""
        return f"W{number}{_DRAWER[' '.join(w for w in words[1:] if not w.isdigit())]}"
    if panel.role == "face frame":
        return f"FF{words[0][0].upper()}{number}"
    if panel.role in ("door", "scribe") and words[0] in ("left", "right"):
        return f"{'SB' if words[-1] == 'batten' else _CODES[panel.role]}{words[0][0].upper()}"
    return f"{_CODES[panel.role]}{'R' if 'return' in words else ''}{number}"

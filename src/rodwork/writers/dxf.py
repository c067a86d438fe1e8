"""A machining drawing as DXF: circles, closed polylines with bulges and texts, nothing that a machine could not read.

R12 by default, which every reader takes. It cannot say its unit, so the file's name does. The same drawing gives the
same bytes: no clock and no chance is in them.
"""

import io
import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Literal

from rodwork.documents.machining_drawing import (
    TEXT,
    Label,
    Layer,
    Loop,
    MachiningDrawing,
    Purpose,
    Round,
    kinds_of_board,
    machining_drawing,
)
from rodwork.documents.sheet_machining import sheet_machining
from rodwork.model.cutting import CuttingPlan
from rodwork.model.panel import Part
from rodwork.model.rod import Rod
from rodwork.writers.user_text import file_name, one_line, told_apart

Version = Literal["R12", "R2010"]
_COLOUR: dict[Purpose, int] = {"outline": 7, "machining": 1, "guide": 8, "notes": 3}
_LETTER = 0.95  # width of a letter over its height in the readers' plain font, generously
_CODES = "\\^"  # each begins a code in a text


def dxf_files(rod: Rod, version: Version = "R12") -> tuple[tuple[str, bytes], ...]:
    """(file name, bytes) for every kind of board of the job that has a machining drawing."""
    kinds = [kind for cabinet in rod.cabinets for kind in kinds_of_board(cabinet)]
    names = told_apart([dxf_name(part) for part, _ in kinds])
    return tuple(
        (name, dxf_bytes(machining_drawing(part, marks), version))
        for name, (part, marks) in zip(names, kinds, strict=True)
    )


def sheet_dxf_files(plan: CuttingPlan, version: Version = "R12") -> tuple[tuple[str, bytes], ...]:
    """(file name, bytes) for every sheet of a cutting plan, sheets that are cut alike too: their boards differ."""
    return tuple(
        (file_name((f"sheet-{number}", board.board), "mm.dxf"), dxf_bytes(sheet_machining(sheet, number), version))
        for board in plan.boards
        for sheet in board.sheets
        for number in sheet.numbers
    )


def dxf_name(part: Part) -> str:
    """Such as G1-LS_left_side_mm.dxf: the first mark, what it is, and the unit."""
    return file_name((part.marks[0] if part.marks else part.id, part.name), "mm.dxf")


def dxf_bytes(drawing: MachiningDrawing, version: Version = "R12") -> bytes:
    """The drawing as a DXF file, its extents set: R12 in plain ASCII, R2010 (which knows that it is in mm) in UTF-8."""
    from ezdxf.filemanagement import new

    with _quiet_and_without_clock():
        document = new(version, setup=False)
        document.header["$INSUNITS"] = 0 if version == "R12" else 4  # 4 is mm; R12 has no such field
        document.header["$MEASUREMENT"] = 1
        space = document.modelspace()
        for layer in drawing.layers:
            document.layers.add(layer.name, color=_COLOUR[layer.purpose])
            for shape in layer.shapes:
                _draw(space, shape, layer, version)
        (x0, y0), (x1, y1) = _extents(drawing)
        document.header["$EXTMIN"], document.header["$EXTMAX"] = (x0, y0, 0.0), (x1, y1, 0.0)
        document.header["$LIMMIN"], document.header["$LIMMAX"] = (x0, y0), (x1, y1)
        document.set_modelspace_vport(1.05 * max(y1 - y0, (x1 - x0) / 1.34), ((x0 + x1) / 2, (y0 + y1) / 2))
        # newer readers take the extents from the layout, older ones from the head of the file
        space.dxf.extmin, space.dxf.extmax = (x0, y0, 0.0), (x1, y1, 0.0)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # left to itself it takes them in any order
            document.classes.add_class(kind)
        out = io.StringIO()
        document.write(out)
    return out.getvalue().replace("\r\n", "\n").replace("\n", "\r\n").encode("utf-8")


@contextmanager
def _quiet_and_without_clock() -> Iterator[None]:
    """While this holds the library writes fixed dates, and does not say aloud that R12 has no unit."""
    from ezdxf._options import options

    log = logging.getLogger("ezdxf")
    clock, level = options.write_fixed_meta_data_for_testing, log.level
    options.write_fixed_meta_data_for_testing = True
    log.setLevel(logging.ERROR)
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = clock
        log.setLevel(level)


def _draw(space: Any, shape: Round | Loop | Label, layer: Layer, version: Version) -> None:
    on = {"layer": layer.name}
    if isinstance(shape, Round):
        space.add_circle(shape.centre, shape.radius, dxfattribs=on)
    elif isinstance(shape, Loop):
        add = space.add_polyline2d if version == "R12" else space.add_lwpolyline
        add(shape.points, format="xyb", close=True, dxfattribs=on)
    else:
        from ezdxf.enums import TextEntityAlignment

        align = TextEntityAlignment.RIGHT if shape.ends_here else TextEntityAlignment.LEFT
        space.add_text(dxf_text(shape.text, version), height=TEXT, dxfattribs=on).set_placement(shape.at, align=align)


def dxf_text(text: str, version: Version = "R12") -> str:
    """The text on one line, with none of the codes that a reader would act upon.

    In R12 letters beyond ASCII are written as \\U+00E9, which is how a DXF says them; one that needs more than four
    figures becomes a question mark. Two per-cent signs in a row begin a code, so a space parts them.
    """
    safe = "".join(ch if _is_plain(ch, version) else _escaped(ch) for ch in one_line(text))
    while "%%" in safe:
        safe = safe.replace("%%", "% %")
    return safe


def _is_plain(ch: str, version: Version) -> bool:
    return ch not in _CODES and (ch.isascii() or version != "R12")


def _escaped(ch: str) -> str:
    return f"\\U+{ord(ch):04X}" if ord(ch) <= 0xFFFF else "?"


def _extents(drawing: MachiningDrawing) -> tuple[tuple[float, float], tuple[float, float]]:
    boxes = [_box(shape) for layer in drawing.layers for shape in layer.shapes]
    return (
        (round(min(b[0] for b in boxes), 3), round(min(b[1] for b in boxes), 3)),
        (round(max(b[2] for b in boxes), 3), round(max(b[3] for b in boxes), 3)),
    )


def _box(shape: Round | Loop | Label) -> tuple[float, float, float, float]:
    if isinstance(shape, Round):
        (x, y), r = shape.centre, shape.radius
        return (x - r, y - r, x + r, y + r)
    if isinstance(shape, Loop):  # arcs here are corners rounded inwards: they never pass their end points
        xs, ys = [p[0] for p in shape.points], [p[1] for p in shape.points]
        return (min(xs), min(ys), max(xs), max(ys))
    x, y = shape.at
    width = _LETTER * TEXT * len(one_line(shape.text))
    foot = y - 0.4 * TEXT  # letters with tails hang below the line
    return (x - width, foot, x, y + TEXT) if shape.ends_here else (x, foot, x + width, y + TEXT)

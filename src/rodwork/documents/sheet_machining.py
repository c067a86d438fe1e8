"""A sheet for a router: each board to go round, the sheet itself and the names beside it, one layer for each purpose.

Lengths are mm from the lower left corner of the sheet as bought. The lines are the boards as they are to be sawn: the
cutter goes outside them, by half its width.
"""

from rodwork.documents.machining_drawing import TEXT, Label, Layer, Loop, MachiningDrawing
from rodwork.model.cutting import CutSheet


def sheet_machining(sheet: CutSheet, number: int) -> MachiningDrawing:
    """The drawing of one sheet; `number`: which of those that are cut alike."""
    copy = sheet.numbers.index(number)
    parts = tuple(_box(s.x, s.y, s.length, s.width) for s in sheet.sawn)
    kept = tuple(_box(x.x, x.y, x.length, x.width) for x in sheet.leftovers if x.kept)
    names = [Label(at=(s.x + TEXT / 2, s.y + TEXT / 2), text=f"{s.marks[copy]} {s.name}") for s in sheet.sawn]
    names += [Label(at=(x.x + TEXT / 2, x.y + TEXT / 2), text=f"keep {x.name}") for x in sheet.leftovers if x.kept]
    layers = [
        Layer(name="BOARDS_THROUGH", purpose="outline", shapes=parts),
        Layer(name="SHEET", purpose="guide", shapes=(_box(0.0, 0.0, *sheet.size), *kept)),
        Layer(name="NOTES", purpose="notes", shapes=tuple(names)),
    ]
    return MachiningDrawing(layers=tuple(layers))


def _box(x: float, y: float, length: float, width: float) -> Loop:
    corners = ((x, y), (x + length, y), (x + length, y + width), (x, y + width))
    return Loop(points=tuple((round(a, 3), round(b, 3), 0.0) for a, b in corners))

"""A drawing as SVG text in millimetres. The y axis is flipped here and nowhere else."""

from html import escape

from rodwork.documents.drawing import FONT_FAMILY, Circle, Drawing, Ink, Path_, Pen, Shape, Text, printable

INKS: dict[Ink, str] = {"black": "#000", "grey": "#767676", "light": "#e2e2e2", "white": "#fff", "none": "none"}
DECIMALS = 3


def svg(drawing: Drawing, decimals: int = DECIMALS) -> str:
    """The drawing as an SVG of its own size in mm, its texts in our font and escaped.

    Numbers have at most `decimals` places and never a minus nought, so that equal drawings are equal text.
    """
    w, h = number(drawing.width, decimals), number(drawing.height, decimals)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}"'
        f' font-family="{FONT_FAMILY}, sans-serif" xml:space="preserve">'
    )
    return "\n".join([head, *(_shape(shape, drawing.height, decimals) for shape in drawing.shapes), "</svg>", ""])


def number(value: float, decimals: int = DECIMALS) -> str:
    """A number with at most so many decimals: no trailing noughts, no minus nought."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _shape(shape: Shape, height: float, decimals: int) -> str:
    if isinstance(shape, Path_):
        points = " L".join(f"{number(x, decimals)} {number(height - y, decimals)}" for x, y in shape.points)
        return f'<path d="M{points}{"Z" if shape.closed else ""}"{_style(shape.pen, shape.fill, decimals)}/>'
    if isinstance(shape, Circle):
        x, y, r = (number(v, decimals) for v in (shape.centre[0], height - shape.centre[1], shape.radius))
        return f'<circle cx="{x}" cy="{y}" r="{r}"{_style(shape.pen, shape.fill, decimals)}/>'
    return _text(shape, height, decimals)


def _style(pen: Pen, fill: Ink, decimals: int) -> str:
    style = f' fill="{INKS[fill]}"'
    if pen.ink == "none" or pen.width <= 0:
        return style
    style += f' stroke="{INKS[pen.ink]}" stroke-width="{number(pen.width, decimals)}"'
    if pen.dashes:
        style += f' stroke-dasharray="{" ".join(number(d, decimals) for d in pen.dashes)}"'
    return style


def _text(shape: Text, height: float, decimals: int) -> str:
    x, y = number(shape.at[0], decimals), number(height - shape.at[1], decimals)
    style = f' font-size="{number(shape.size, decimals)}" fill="{INKS[shape.ink]}"'
    if shape.bold:
        style += ' font-weight="700"'
    if shape.anchor != "start":
        style += f' text-anchor="{shape.anchor}"'
    if shape.turn:
        style += f' transform="rotate({number(-shape.turn, decimals)} {x} {y})"'
    return f'<text x="{x}" y="{y}"{style}>{escape(printable(shape.text))}</text>'

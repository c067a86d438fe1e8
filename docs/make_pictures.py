"""Draw the handbook's pictures with the program itself: docs/pictures/*.svg, from examples that tests run too.

    python docs/make_pictures.py

Run it after a change to what is drawn; a test says when a picture is no longer what the program draws. The letters
that a picture uses are put into it, so that it looks the same on a machine that does not have our font.
"""

import base64
import io
import re
from collections.abc import Iterable
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from rodwork.documents.boards import board_pages
from rodwork.documents.drawing import FONT_FAMILY, Drawing, Text, font_file, printable
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import Page, numbered
from rodwork.documents.settings_list import settings_pages
from rodwork.joints.kind import JointKind
from rodwork.joints.registry import joint_kinds
from rodwork.model.rod import Rod
from rodwork.pipeline import set_out
from rodwork.writers.svg import svg

DOCS = Path(__file__).parent
PICTURES = DOCS / "pictures"
EXAMPLE = DOCS.parent / "examples" / "first-cupboard.toml"


def pictures() -> dict[str, Drawing]:
    """Every picture by its file name."""
    out = {f"joint-{kind.file_name}.svg": joint_picture(kind) for kind in joint_kinds().values()}
    rod = set_out(EXAMPLE.read_bytes(), EXAMPLE.name)
    out["pair.svg"] = next(d for p, d in _drawn(board_pages(rod), rod) if "pair" in p.title)
    out["settings.svg"] = next(d for p, d in _drawn(settings_pages(rod), rod) if "machining" in p.title)
    return out


def joint_picture(kind: JointKind) -> Drawing:
    """The opened joint of a family, from the example on its page: a shelf's where there is one."""
    rod = _example(kind)
    made = {j.id for c in rod.cabinets for j in c.joints if kind.name in {f.family for f in j.fixings}}
    pages = [(p, d) for p, d in _drawn(opened_joint_pages(rod), rod) if _is_of(p.title, made)]
    return next((d for p, d in pages if "SHELF" in p.title), pages[0][1])


def _example(kind: JointKind) -> Rod:
    """The job on the family's own page, set out."""
    page = (DOCS / "joints" / f"{kind.file_name}.md").read_text(encoding="utf-8")
    example = re.search(r"```toml\n(.*?)```", page, re.DOTALL)
    assert example, f"docs/joints/{kind.file_name}.md has no example"
    return set_out(example.group(1), f"{kind.file_name}.toml")


def _is_of(title: str, joints: set[str]) -> bool:
    """Whether a page is that of one of these joints: "G1 TOP to LEFT SIDE" is of left side / top."""
    guest, host = re.split(r" (?:to|into) ", title.partition(" ")[2].removesuffix(", both hands").lower())
    return f"{host} / {guest}" in joints


def _drawn(pages: Iterable[Page], rod: Rod) -> list[tuple[Page, Drawing]]:
    pages = tuple(pages)
    return list(zip(pages, numbered(pages, rod), strict=True))


def text_of(drawing: Drawing) -> str:
    """The picture as SVG, its letters in it."""
    head, rest = svg(drawing).split("\n", 1)
    return f"{head}\n{_letters(drawing)}\n{rest}"


def _letters(drawing: Drawing) -> str:
    faces = []
    for bold in (False, True):
        used = {c for s in drawing.shapes if isinstance(s, Text) and s.bold == bold for c in printable(s.text)}
        if used:
            data = base64.b64encode(_subset(font_file(bold), used)).decode()
            weight = 700 if bold else 400
            faces.append(
                f'@font-face{{font-family:"{FONT_FAMILY}";font-weight:{weight};src:url(data:font/ttf;base64,{data})}}'
            )
    return f"<style>{''.join(faces)}</style>"


def _subset(file: Path, letters: set[str]) -> bytes:
    options = Options()
    options.layout_features = ["kern"]
    options.hinting = False
    font = TTFont(file, recalcTimestamp=False)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=sorted(ord(c) for c in letters))
    subsetter.subset(font)
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


def main() -> None:
    """Write every picture, and remove those that are no longer drawn."""
    PICTURES.mkdir(exist_ok=True)
    drawn = pictures()
    for old in PICTURES.glob("*.svg"):
        if old.name not in drawn:
            old.unlink()
    for name, drawing in drawn.items():
        (PICTURES / name).write_text(text_of(drawing), encoding="utf-8", newline="\n")
        print(PICTURES / name)


if __name__ == "__main__":
    main()

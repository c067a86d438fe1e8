"""What bought fasteners are as things that bear, by the first word of their name; each figure with its source."""

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from rodwork.model.figure import Figure

How = Literal["thread", "smooth", "glued", "bearing"]
_SIZE = re.compile(r"(\d+(?:\.\d+)?)(?:\s*x\s*(\d+(?:\.\d+)?))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A dowel, screw, nail or pin: how it bears, its sizes in mm (nought: not in its name), its wire and head."""

    name: str
    how: How
    diameter_mm: float
    length_mm: float
    tensile: Figure | None
    head: Figure | None
    root: Figure | None


@cache
def fastener(item: str) -> Fastener | None:
    """The fastener that something on the buying list is; None where the table does not know it."""
    text = files("rodwork.catalogue").joinpath("data/fasteners.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    names = [name for name in table if item.casefold().startswith(name)]
    if not names:
        return None
    name = max(names, key=len)
    said, size = table[name], _SIZE.search(item)

    def figure(key: str) -> Figure | None:
        value = said.get(key)
        return Figure(value=float(value[0]), standing=value[1], source=value[2]) if value else None

    return Fastener(
        name=name, how=said["how"], diameter_mm=float(size[1]) if size else 0.0,
        length_mm=float(size[2]) if size and size[2] else 0.0, tensile=figure("tensile"), head=figure("head"),
        root=figure("root"),
    )  # fmt: skip

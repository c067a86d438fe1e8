"""What stands in cabinets, by use, each row with its source and how sure it is."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from rodwork.model.figure import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualContents:
    """One use: kg on a metre of shelf or on a square metre of it, whichever it is reckoned by."""

    name: str
    kg_per_m: float | None
    kg_per_m2: float | None
    standing: Standing
    source: str


@cache
def usual_contents() -> Mapping[str, UsualContents]:
    """Every use by its name, in the order of the table."""
    text = files("rodwork.catalogue").joinpath("data/contents.toml").read_text(encoding="utf-8")
    rows = (
        UsualContents(
            name=name, kg_per_m=row.get("kg_per_m"), kg_per_m2=row.get("kg_per_m2"), standing=row["standing"],
            source=row["source"],
        )
        for name, row in tomllib.loads(text)["contents"].items()
    )  # fmt: skip
    return MappingProxyType({row.name: row for row in rows})

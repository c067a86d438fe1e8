"""What sheet materials weigh and whether they have a grain, each row with its source."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A sheet material. `also` are other names of it; `source` says where the density is from, and how sure it is."""

    name: str
    also: tuple[str, ...]
    grain: bool
    density_kg_m3: float
    source: str


@cache
def materials() -> Mapping[str, Material]:
    """Every sheet material by its name, in the order of the table."""
    text = files("rodwork.catalogue").joinpath("data/boards.toml").read_text(encoding="utf-8")
    rows = (
        Material(
            name=name, also=tuple(row.get("also", ())), grain=row["grain"],
            density_kg_m3=float(row["density"]), source=row["source"],
        )
        for name, row in tomllib.loads(text)["materials"].items()
    )  # fmt: skip
    return MappingProxyType({row.name: row for row in rows})

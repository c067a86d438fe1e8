"""Recipes of the job file: which families make a joint, each with the settings that its family knows."""

from collections.abc import Mapping
from typing import Any

from rodwork.job.faults import one_of, shown
from rodwork.job.lines import Path
from rodwork.job.tables import Reading, read_table
from rodwork.job.words import RecipeWords, family_words, setting_words
from rodwork.model.job import Place, Recipe, Use

FAMILY_LEFT_TO_US = "dowel"


def read_recipes(tables: Mapping[str, Any], families: Mapping[str, type], reading: Reading) -> dict[str, Recipe | None]:
    """Every recipe by its name; None where one is written but wrong."""
    return {name: _recipe(name, raw, families, reading) for name, raw in tables.items()}


def recipe_left_to_us(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What a cabinet has where no recipe is named at all: dowels, as their family sets them. None: no such family.

    Its place is the cabinet's, since that is where a recipe could be named.
    """
    settings = families.get(FAMILY_LEFT_TO_US)
    if settings is None:
        return None
    place = Place(path=cabinet)
    return Recipe(name="dowels", uses=(Use(family=FAMILY_LEFT_TO_US, settings=settings(), place=place),), place=place)


def _recipe(name: str, raw: Any, families: Mapping[str, type], reading: Reading) -> Recipe | None:
    path: Path = ("joints", name)
    before = len(reading.faults)
    given = read_table(RecipeWords, raw, path, f"the recipe {shown(name)}", reading)
    uses = [_use(use, (*path, "use", i), families, reading) for i, use in enumerate(given.get("use", ()))]
    if len(reading.faults) > before:
        return None
    return Recipe(name=name, uses=tuple(use for use in uses if use), place=Place(path=path))


def _use(raw: dict[str, Any], path: Path, families: Mapping[str, type], reading: Reading) -> Use | None:
    family = raw.get("family")
    if not isinstance(family, str) or family not in families:
        what = (
            "this entry has no family" if family is None else f"family is {shown(family)}, which is no family of joints"
        )
        mend = one_of(families, family if isinstance(family, str) else "", 'Write family = "dowel"')
        reading.fault((*path, "family"), what, mend)
        return None
    settings = families[family]
    given = read_table(family_words(family, settings), raw, path, f"this {family}", reading)
    fields = setting_words(settings)
    try:
        return Use(
            family=family, settings=settings(**{fields[w]: v for w, v in given.values.items() if w in fields}),
            place=Place(path=path),
        )  # fmt: skip
    except ValueError as error:  # settings that contradict one another, in their family's own words
        reading.fault(path, str(error), "Change one of the two")
        return None

"""The joint kinds, found in the folder kinds/: a new family is one file there and nothing else."""

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from rodwork.joints import kinds
from rodwork.joints.kind import JointKind
from rodwork.joints.own import own_kind
from rodwork.model.job import Back, Place, Recipe, Use


@cache
def joint_kinds() -> Mapping[str, JointKind]:
    """Every family by its name."""
    found = [import_module(f"{kinds.__name__}.{m.name}").KIND for m in iter_modules(kinds.__path__)]
    return MappingProxyType({kind.name: kind for kind in found})


@cache
def families() -> Mapping[str, type]:
    """The settings of every family by its name, for the job file's schema."""
    return MappingProxyType({name: kind.settings for name, kind in joint_kinds().items()})


def kind_of(use: Use) -> JointKind:
    """The family of a use: one of the folder, or the maker's own, which its settings carry."""
    known = joint_kinds().get(use.family)
    return known if known is not None else own_kind(use.settings.family)


def back_recipe(back: Back, place: Place) -> Recipe:
    """How a back of this style is held: the maker's own recipe, or the family that serves the style."""
    if back.joint is not None:
        return back.joint
    for kind in joint_kinds().values():
        if back.style in kind.backs and kind.for_back is not None:
            return Recipe(
                name="back", uses=(Use(family=kind.name, settings=kind.for_back(back), place=place),), place=place
            )
    raise LookupError(f"no family serves a back that is {back.style}")

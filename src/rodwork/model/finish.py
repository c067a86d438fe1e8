"""What a finish adds to boards: its film lies between boards that move past each other or go into one another."""

from dataclasses import dataclass, replace
from typing import Literal

from rodwork.model.shop import Shop

When = Literal["before assembly", "after assembly"]
Mask = Literal["joints", "joints and ends", "nothing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """A film of so many mm on each face and edge; when it goes on, and what is masked while it does.

    `mask`: the glued surfaces and the channels; these and the ends of boards that go into channels; or nothing.
    """

    film_mm: float
    when: When
    mask: Mask

    @property
    def in_channels_mm(self) -> float:
        """What films take of the room of a board in its channel: on its two faces, and on the walls."""
        if self.when == "after assembly":
            return 0.0
        return {"joints": 2, "joints and ends": 0, "nothing": 4}[self.mask] * self.film_mm


def with_finish(shop: Shop, finish: Finish | None) -> Shop:
    """The shop's figures for a cabinet with this finish: its channels are made wider by the films in them."""
    return shop if finish is None else replace(shop, film_mm=round(finish.in_channels_mm, 6))

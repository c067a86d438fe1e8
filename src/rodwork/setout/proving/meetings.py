"""What the datum rule needs to know about a joint."""

from typing import NamedTuple

from rodwork.model.contact import Register
from rodwork.model.fixing import Joint
from rodwork.model.rod import RodCabinet
from rodwork.setout.proving.stand import Stand

_OF_BACK = ("back in a groove", "back in a rebate", "planted back", "inset back")
_UPRIGHT = ("side", "divider", "part divider")
_LYING = ("top", "bottom")


class Met(NamedTuple):
    """A joint with its two boards, and which of the corners it is."""

    joint: Joint
    host: Stand
    guest: Stand
    of_back: bool
    corner: bool
    top_corner: bool
    right_corner: bool
    back_corner: bool  # of a drawer
    mitre: bool

    def registers(self, part: str) -> tuple[Register, Register]:
        """(this board's, its mate's)."""
        contact = self.joint.contact
        pair = (contact.host_register, contact.guest_register)
        return pair if part == self.joint.parts[0] else pair[::-1]

    def mate(self, part: str) -> Stand:
        """The other board."""
        return self.guest if part == self.joint.parts[0] else self.host

    def guest_way(self, surface: str, host: Stand) -> int:
        """+1 where the guest stands beyond its line as seen from this surface of the host, -1 before it."""
        looks = host.looks(surface)
        return -1 if sum(a * b for a, b in zip(self.joint.contact.across, looks, strict=True)) > 0 else 1


def meetings(cabinet: RodCabinet, stands: dict[str, Stand]) -> dict[str, Met]:
    """Every joint whose two boards are there, by id."""
    found = {}
    for joint in cabinet.joints:
        host, guest = stands.get(joint.parts[0]), stands.get(joint.parts[1])
        if host is None or guest is None:
            continue
        place = joint.contact.place
        corner = place == "corner"
        lying = next((s for s in (guest, host) if s.part.role in _LYING or (corner and s.part.role == "rail")), None)
        upright = next((s for s in (guest, host) if s.part.role in _UPRIGHT), None)
        found[joint.id] = Met(
            joint, host, guest, place in _OF_BACK, corner,
            _of_frame(host, guest, stands, 0, 2)
            or (place == "on a slope" and host.part.role == "side")
            or (place == "rail" and guest.low[2] + guest.high[2] > cabinet.size[1])
            or (corner and lying is not None and lying.low[2] + lying.high[2] > cabinet.size[1]),
            _of_frame(host, guest, stands, 2, 0) or (corner and upright is not None and upright.on_right),
            corner and guest.part.role == "drawer back", place == "mitre",
        )  # fmt: skip
    return found


def _of_frame(host: Stand, guest: Stand, stands: dict[str, Stand], runs: int, end: int) -> bool:
    """Whether the top rail (which runs along x, 0) or the right stile (along z, 2) of a face frame is in the joint."""
    members = [s for s in stands.values() if s.part.role == "face frame" and abs(s.columns[0][runs]) > 0.5]
    return any(s in members and s.high[end] >= max(m.high[end] for m in members) for s in (host, guest))

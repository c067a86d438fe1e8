"""How heavy a cabinet is to carry, and how many people that takes.

Source: Health and Safety Executive, L23 and INDG143, lifting and lowering filter, second-hand: at elbow height and
close to the body 25 kg for a man, 16 kg for a woman; at arm's length 15 and 10 (from memory). A team of two manages
2/3 of the sum of what each could, of three 1/2 (from memory). It is a filter for an assessment, no limit that is
safe; it asks for both hands, an upright trunk, no twist and at most 10 m.
"""

from rodwork.model.loading import Lifting
from rodwork.model.rod import RodCabinet

MAN_KG, WOMAN_KG = 25.0, 16.0
TEAM = {1: 1.0, 2: 2 / 3, 3: 1 / 2, 4: 1 / 2}  # share of the sum; four as three, for want of a figure
SOURCE = "HSE L23 and INDG143 lifting guide, second-hand; shares of a team from memory"


def team_kg(people: int, each_kg: float = MAN_KG) -> float:
    """What so many people manage together by the guide, close to the body at elbow height, kg."""
    return people * each_kg * TEAM[people]


def lifting(cabinet: RodCabinet) -> Lifting:
    """How many people by the guide for one cabinet, as made, without contents."""
    if cabinet.weight is None:
        return Lifting(kg=None, people=None, words="Its weight is not known: a board has no density.", source=SOURCE)
    kg = cabinet.weight.kg
    people = next((n for n in sorted(TEAM) if team_kg(n) >= kg), None)
    if people is None:
        words = "Too heavy to lift whole by the guide: take it apart, or use a trolley and a lift table."
    elif people == 1:
        words = "One person by the guide, close to the body; two where it is wide, on stairs or above the shoulder."
    else:
        words = f"{('Two', 'Three', 'Four')[people - 2]} people by the guide; one more on stairs or above the shoulder."
    return Lifting(kg=kg, people=people, words=words, source=SOURCE)

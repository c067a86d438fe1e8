"""What one pair of hands should not lift.

Source of the lifting figures: Health and Safety Executive, L23 and INDG143 (guideline weights for lifting and
lowering): at elbow height and close to the body 25 kg for men and 16 kg for women; less above the shoulder, below
the knee, at arm's length, when twisting or carrying far. They are guidelines for an assessment, not limits.
"""

TWO_PEOPLE_KG = 25.0
TROLLEY_KG = 2 * TWO_PEOPLE_KG  # over what two could do if neither hindered the other, and they do


def carried_by(kg: float) -> str:
    """Who or what carries a load that is too much for one."""
    return "two people, or a trolley" if kg <= TROLLEY_KG else "a trolley or a hoist, it is too much for two"

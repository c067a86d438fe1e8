"""What one pair of hands should not lift.

Source of the lifting figures: Health and Safety Executive, L23 and INDG143 (guideline weights for lifting and
lowering): at elbow height and close to the body 25 kg for men and 16 kg for women; less above the shoulder, below
the knee, at arm's length, when twisting or carrying far. They are guidelines for an assessment, not limits.
"""

TWO_PEOPLE_KG = 25.0

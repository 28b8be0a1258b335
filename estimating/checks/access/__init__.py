"""Access: what goes up through the hatch, and what one person may lift there.

Read it in this order: tilt (a board through a slot), way_up (the hatch and the rooms of a loft), goes_up
(one thing through it), carried_up (boards, ladder and rolls), lifting and lifted (what may be lifted, and
what is), record; then headroom, headroom_strip and proposed_deck (where a deck has headroom).
"""

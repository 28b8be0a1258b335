"""Access: what goes up through the hatch, and what one person may lift there.

Read it in this order: tilt (a board through a slot), way_up (the hatch and the rooms of a loft), lifting
(what may be lifted), record and carried_up (what it comes to for boards, ladder and rolls).
"""

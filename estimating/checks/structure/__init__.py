"""Does it hold: joists, trussed rafters and boards against Eurocode 5 and published tables.

Reading order, each module leaning on those before it:

- `section`, `single_span`, `several_spans`: the statics of a beam, by itself
- `worst_places`: where along a joist its loads do most
- `design_strength`, `buckling`: what timber of a class takes
- `joist`: one joist by Eurocode 5, and the storage that remains
- `dead_load`: what the loft weighs on its joists
- `joist_field`: the joists of a survey, with what was taken because nobody measured it
- `joist_check`, `joist_figures`: the record that papers and screens show, every number with its working
- `joist_verdicts`: what it comes to, in words
"""

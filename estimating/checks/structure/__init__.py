"""Does it hold: joists, trussed rafters and boards against Eurocode 5 and published tables.

Reading order, each module leaning on those before it:

- `section`, `single_span`, `several_spans`: the statics of a beam, by itself
- `worst_places`: where along a joist its loads do most
- `design_strength`, `buckling`: what timber of a class takes
- `joist`: a joist with its loads; `joist_use`: what they use of it by Eurocode 5, and what storage remains
- `weights`, `dead_load`: what lies on the joists of this loft for good
- `joist_in_loft`: a joist of a survey, with what was taken because nobody measured it
- `joist_record`, `joist_figures`: what papers and screens show, every number with its working
- `joist_verdicts`: what it comes to, in words
- `old_spans`: the spans of the tables that builders know; `old_tables`: what they say of this loft
- `truss_figures`, `truss_record`: trussed rafters by the rules that need no design
- `cuts_in_joists`: notches, holes and cuts that were found
"""

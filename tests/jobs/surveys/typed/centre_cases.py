"""Lists of centres and what they mean, given to the server's reader and to the drawing's own."""

READ = (
    ("395 407 400 x 6", "mm", (395, 407, *[400] * 6)),
    ("395, 407; 400x6", "mm", (395, 407, *[400] * 6)),
    ("6 x 400", "mm", (400,) * 6),
    ("400 mm x 2, 395 mm", "m", (400, 400, 395)),
    ("400mm 395mm", "m", (400, 395)),
    ("400 mm 395 mm x 2", "mm", (400, 395, 395)),
    ("40 40.5 41×3", "cm", (400, 405, 410, 410, 410)),
    ("0.4 0.395*2", "m", (400, 395, 395)),
    ("16 in x 24", "in", (406,) * 24),
    ("16 15 1/2", "in", None),
    ("16, 15 1/2", "in", (406, 394)),
    ("400\n395", "mm", (400, 395)),
    ("1' 4\", 400 mm", "mm", (406, 400)),
    ("40 x 40", "cm", (400,) * 40),
    ("  450  ", "mm", (450,)),
)
READ = tuple(case for case in READ if case[2])
REFUSED = (
    ("16 x 24", "in"),  # 24 of 16 inches, or 16 of 24
    ("16 15 1/2", "in"),  # 15 and a half, or 15 and half an inch
    ("1' 4\"", "mm x"),
    ("1' 4\" 400 mm", "mm"),
    ("1 m 20 cm", "mm"),
    ("400 mm 395", "mm"),
    ("400 x 6 x 2", "mm"),
    ("400 x 400", "mm"),
    ("6 x 6", "mm"),
    ("60 x 60", "mm"),
    ("400 x 0", "mm"),
    ("400 x 2.5", "mm"),
    ("40", "mm"),
    ("4000", "mm"),
    ("1,200", "mm"),
    ("0.4", "mm"),
    ("400 x 6", "ask"),
    ("about 400", "mm"),
    ("x 6", "mm"),
    (",", "mm"),
)
REFUSED = tuple((text, unit) for text, unit in REFUSED if unit != "mm x")

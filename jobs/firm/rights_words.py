"""What a firm says of its customers' rights until its owner writes it otherwise: common practice, our words.

None of it is legal advice: the settings tell the owner to have it confirmed.
"""

HOW_TO_CANCEL = """Use the form on your link, write us a letter or an e-mail, or ring us. Any clear \
statement is enough, and you need give no reason. We confirm it at once."""

GOODS_BACK = """You need not send anything back. We fetch what was delivered and not fitted, at our cost."""

COMPLAINTS = """Tell us by letter, e-mail or telephone at the address of this quote. We answer within 14 \
days and say what we will do about it."""

GUARANTEES = """Your rights under the law stand whole. We promise nothing beyond them unless this quote \
says so."""

REDRESS = """We have signed no code of conduct and belong to no scheme for settling disputes. If we cannot \
agree, your council's trading standards service can tell you what you may do."""

"""The statutory cancellation form and the model instructions for cancelling, word for word.

Document: Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013 (SI
2013/3134), Schedule 3, Part A (model instructions) and Part B (model cancellation form).
Address: legislation.gov.uk/uksi/2013/3134/schedule/3. Crown copyright, under the Open Government Licence.
Both as copied on public pages, read on 26 November 2026: the form on one page, the instructions on several.
The schedule itself was not seen; hold the two against it before the first paper carries them.
The words in braces are for the firm to fill in.
"""

from __future__ import annotations

SOURCE = "SI 2013/3134, Schedule 3"
ACKNOWLEDGEMENT = (
    "Form and instructions: SI 2013/3134, Schedule 3. © Crown copyright 2013. Contains public sector "
    "information licensed under the Open Government Licence v3.0."
)

FORM_TITLE = "Model cancellation form"
FORM_HEADING = "(Complete and return this form only if you wish to withdraw from the contract)"
FORM_LINES = (
    "To {trader}:",
    "I/We [*] hereby give notice that I/We [*] cancel my/our [*] contract of sale of the following goods [*]/"
    "for the supply of the following service [*],",
    "Ordered on [*]/received on [*],",
    "Name of consumer(s),",
    "Address of consumer(s),",
    "Signature of consumer(s) (only if this form is notified on paper),",
    "Date",
    "[*] Delete as appropriate",
)

# The day that the period runs from, by the notes to Part A.
FROM_CONTRACT = "of the conclusion of the contract"
FROM_LAST_GOODS = (
    "on which you acquire, or a third party other than the carrier and indicated by you acquires, physical "
    "possession of the last good"
)

RIGHT_TO_CANCEL = (
    "You have the right to cancel this contract within 14 days without giving any reason.",
    "The cancellation period will expire after 14 days from the day {from_which_day}.",
    "To exercise the right to cancel, you must inform us, {trader}, of your decision to cancel this contract "
    "by a clear statement (e.g. a letter sent by post, fax or e-mail). You may use the attached model "
    "cancellation form, but it is not obligatory.",
    "To meet the cancellation deadline, it is sufficient for you to send your communication concerning your "
    "exercise of the right to cancel before the cancellation period has expired.",
)
EFFECTS_OF_CANCELLATION = (
    "If you cancel this contract, we will reimburse to you all payments received from you, including the "
    "costs of delivery (except for the supplementary costs arising if you chose a type of delivery other "
    "than the least expensive type of standard delivery offered by us).",
    "We may make a deduction from the reimbursement for loss in value of any goods supplied, if the loss is "
    "the result of unnecessary handling by you.",
    "We will make the reimbursement without undue delay, and not later than: (a) 14 days after the day we "
    "receive back from you any goods supplied, or (b) (if earlier) 14 days after the day you provide "
    "evidence that you have returned the goods, or (c) if there were no goods supplied, 14 days after the "
    "day on which we are informed about your decision to cancel this contract.",
    "We will make the reimbursement using the same means of payment as you used for the initial transaction, "
    "unless you have expressly agreed otherwise; in any event, you will not incur any fees as a result of "
    "the reimbursement.",
)
STARTED_AT_YOUR_REQUEST = (
    "If you requested to begin the performance of services during the cancellation period, you shall pay us "
    "an amount which is in proportion to what has been performed until you have communicated us your "
    "cancellation from this contract, in comparison with the full coverage of the contract."
)

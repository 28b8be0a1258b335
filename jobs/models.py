"""Every model of the app, gathered from the noun folders for Django to find."""

from jobs.customers.models import Customer, Enquiry, Property
from jobs.customers.word_models import KnownWord
from jobs.documents.models import Paper
from jobs.firm.heat_models import FuelPrice, NationTarget
from jobs.firm.insurance_models import Insurance
from jobs.firm.models import Firm, LogInAttempt, RunningNumber
from jobs.layouts.models import StoredLayout
from jobs.mail.models import OutgoingMail
from jobs.orders.models import MaterialsOrder, OrderLine
from jobs.price_books.import_models import ColumnMapping, PriceImport
from jobs.price_books.models import (
    Edition,
    EditionCharge,
    EditionConditionRate,
    EditionLabourRate,
    EditionProduct,
)
from jobs.quotes.customer.models import CustomerLink, CustomerQuestion, Decision, LinkOpening
from jobs.quotes.listing.models import QuoteWord
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights.models import Cancellation, EarlyStart
from jobs.store.models import StoredBoard
from jobs.surveys.models import Clearance, Finding, Photograph, Survey
from jobs.surveys.tablet.models import ArrivedPhotograph, KeptAside, SentChange
from jobs.works.models import Job

__all__ = [
    "ArrivedPhotograph", "Cancellation", "Clearance", "ColumnMapping", "Customer", "CustomerLink",
    "CustomerQuestion", "Decision", "EarlyStart", "Edition", "EditionCharge", "EditionConditionRate",
    "EditionLabourRate", "EditionProduct", "Enquiry", "Finding", "Firm", "FuelPrice", "Insurance", "Job",
    "KeptAside", "KnownWord", "LinkOpening", "LogInAttempt", "MaterialsOrder", "NationTarget", "OrderLine",
    "OutgoingMail", "Paper", "Photograph", "PriceImport", "Property", "Quote", "QuoteWord", "Revision",
    "RunningNumber", "SentChange", "StoredBoard", "StoredLayout", "Survey",
]  # fmt: skip

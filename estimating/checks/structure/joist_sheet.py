"""The calculation sheet of one joist: what its figures share, and how each is written down."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from estimating.checks.structure.dead_load import DeadLoad
from estimating.checks.structure.design_strength import timber_of_grade
from estimating.checks.structure.joist import COMBINATIONS, Joist
from estimating.checks.structure.joist_in_loft import JoistInLoft
from estimating.checks.structure.joist_use import Use
from estimating.checks.structure.rounded_figures import Sized, sized, worked_number
from estimating.published import eurocode_5, loads
from estimating.published.eurocode_5 import Duration, Material, modification_factor
from estimating.published.timber_classes import TimberClass
from estimating.working import Given, Working, default, measured, published, worked_out

BY_CODE = eurocode_5.SOURCE


@dataclass(frozen=True)
class JoistSheet:
    """One joist of the loft with its loads, from which its figures are written."""

    found: JoistInLoft
    dead: DeadLoad

    @property
    def joist(self) -> Joist:
        return self.found.joist

    @property
    def timber(self) -> TimberClass:
        return timber_of_grade(self.joist.grade)

    @cached_property
    def span(self) -> Sized:
        """The longest effective span."""
        given = measured if self.found.field.clear_spans_mm else default
        longest = max(self.found.clear_spans_mm)
        inputs = (given("longest clear span", longest, "mm"), self.bearing)
        source = "centre to centre of bearings: BS 5268-2:2002 2.10.3, from memory"
        value = longest + self.joist.bearing_mm
        return sized("span", value, "mm", Working("longest clear span + bearing", inputs, source), places=0)

    @cached_property
    def permanent(self) -> Sized:
        """What lies along the joist for good, without its own weight."""
        under, deck = self.dead.under_the_deck, self.dead.of_the_deck
        ceiling = measured("strip of ceiling that a joist carries", self.found.width_mm, "mm")
        load = float(under.value * self.found.width_mm + deck.value * self.found.deck_width_mm) / 1000
        formula = f"({under.name} × {ceiling.name} + {deck.name} × {self.deck_strip.name}) / 1000"
        inputs = (worked_out(under), ceiling, worked_out(deck), self.deck_strip)
        return sized("permanent load along the joist", load, "N/mm", Working(formula, inputs, "statics"))

    @cached_property
    def own_weight(self) -> Sized:
        density = published(f"mean density of {self.joist.grade}", self.timber.density_mean, "kg/m³")
        inputs = (density, *self.section, published("gravity", loads.GRAVITY_M_S2, "m/s²"))
        formula = f"{density.name} × gravity × width × depth / 10⁹"
        load = self.joist.self_weight_n_mm
        return sized("joist's own weight", load, "N/mm", Working(formula, inputs, self.timber.source))

    @cached_property
    def storage(self) -> Sized:
        light = published("light storage", loads.LIGHT_STORAGE_KN_M2, "kN/m²")
        load = loads.LIGHT_STORAGE_KN_M2 * float(self.found.deck_width_mm) / 1000
        formula = f"light storage × {self.deck_strip.name} / 1000"
        inputs = (light, self.deck_strip)
        return sized("storage along the joist", load, "N/mm", Working(formula, inputs, loads.SOURCE))

    @cached_property
    def kcrit(self) -> Sized:
        """How far the joist may roll over between the places where its top is held."""
        inputs = (
            published(f"bending strength of {self.joist.grade}", self.timber.bending, "N/mm²"),
            published(
                f"E, one in twenty falls short, of {self.joist.grade}", self.timber.modulus_fifth, "N/mm²"
            ),
            *self.section,
            worked_number("longest stretch over which nothing holds the top", self.found.held_mm, "mm"),
        )
        formula = (
            f"1 where λ is up to 0.75, 1.56 − 0.75 × λ up to 1.4, then 1 / λ², where λ² = {inputs[0].name} / "
            f"(0.78 × width² × E / (depth × (0.9 × {inputs[-1].name} + 2 × depth)))"
        )
        source = f"{BY_CODE}: 6.3.3, Table 6.1"
        return sized("kcrit", self.joist.kcrit, "", Working(formula, inputs, source))

    @property
    def deck_strip(self) -> Given:
        return measured("strip of deck that a joist carries", self.found.deck_width_mm, "mm")

    @property
    def bearing(self) -> Given:
        given = default if self.found.field.bearing_mm is None else measured
        return given("bearing", self.joist.bearing_mm, "mm")

    @property
    def section(self) -> tuple[Given, Given]:
        field = self.found.field
        return measured("width", field.width_mm, "mm"), measured("depth", field.depth_mm, "mm")

    @property
    def runs_through(self) -> bool:
        return len(self.joist.spans_mm) > 1

    @property
    def acting(self) -> tuple[Given, ...]:
        """Loads and spans, as every formula of a force takes them."""
        along: tuple[Given, ...] = (worked_out(self.span),)
        if self.runs_through:
            clear = enumerate(self.found.clear_spans_mm, start=1)
            along = tuple(measured(f"clear span {number}", span, "mm") for number, span in clear)
            along = (*along, self.bearing)
        weights = (worked_out(self.permanent), worked_out(self.own_weight), worked_out(self.storage))
        return (*weights, published("person", int(loads.PERSON_N), "N"), *along)

    def share(self, name: str, use: Use, done: Sized, allowed: Sized) -> Sized:
        """How much of what is allowed is used: 1 is all of it."""
        inputs = (worked_out(done), worked_out(allowed))
        return sized(
            f"{name}, share used", use.share, "", Working(f"{done.name} / {allowed.name}", inputs, BY_CODE)
        )

    def kmod(self, use: Use) -> Given:
        duration = duration_of(use)
        factor = modification_factor(Material.TIMBER, self.joist.service_class, duration)
        return published(f"kmod, {duration} load, service class {self.joist.service_class}", factor)

    def combined(self, use: Use, even: str, point: str) -> str:
        """The formula of a force in the combination that uses most."""
        each = next(one for one in COMBINATIONS if one.name == use.combination)
        lasting = f"{eurocode_5.GAMMA_G} × (permanent load along the joist + joist's own weight)"
        stored = f" + {each.storage} × storage along the joist" if each.storage else ""
        person = f" + {each.person} × person" if each.person else ""
        if not self.runs_through:
            return f"({lasting}{stored}){even}{person}{point if person else ''}"
        stored += " on the spans where it does most" if stored else ""
        person += " where it does most" if person else ""
        supports = len(self.joist.spans_mm) + 1
        return (
            f"the greatest along a joist over {supports} supports by the three-moment equation, of "
            f"{lasting}{stored}{person}"
        )


def duration_of(use: Use) -> Duration:
    """Give how long the loads stay in the combination that uses most.

    Args:
        use: What is used. Record. [-]

    Returns:
        The duration. Choice. [-]

    Source:
        EN 1995-1-1 3.1.3(2).
    """
    return next(each.duration for each in COMBINATIONS if each.name == use.combination)

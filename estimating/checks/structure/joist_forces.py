"""Forces in a joist and what its timber takes of each, as figures."""

from __future__ import annotations

from estimating.checks.structure.design_strength import depth_factor
from estimating.checks.structure.joist_sheet import BY_CODE, JoistSheet
from estimating.checks.structure.joist_use import Use
from estimating.checks.structure.rounded_figures import Sized, sized, worked_number
from estimating.published import eurocode_5
from estimating.published.eurocode_5 import Material
from estimating.working import Working, published, worked_out

_FORCE_SOURCE = "statics; EN 1990 equation 6.10 with UK National Annex"
_GAMMA_M = published("gamma M", eurocode_5.GAMMA_M[Material.TIMBER])
Force = tuple[Sized, Sized, Sized]


def bending_figures(sheet: JoistSheet, use: Use) -> Force:
    """Write down the bending moment, the moment that the joist takes, and the share used.

    Args:
        sheet: The joist with its loads. Record. [-]
        use: The moment at the place that uses most. Record. [N mm]

    Returns:
        The three figures. Tuple. [kNm, kNm, -]

    Source:
        EN 1995-1-1 2.4.1, 3.2(3), 6.1.6, 6.3.3 and 6.6.
    """
    formula = f"({sheet.combined(use, ' × span² / 8', ' × span / 4')}) / 10⁶"
    moment = sized("bending moment", use.done / 1e6, "kNm", Working(formula, sheet.acting, _FORCE_SOURCE))
    joist = sheet.joist
    strength = published(f"bending strength of {joist.grade}", sheet.timber.bending, "N/mm²")
    takes = sized(
        "moment that the joist takes",
        use.allowed / 1e6,
        "kNm",
        Working(
            f"kmod × kh × ksys × kcrit × {strength.name} / gamma M × width × depth² / 6 / 10⁶, where "
            "kh = (150 mm / depth)^0.2, from 1 to 1.3",
            (
                sheet.kmod(use),
                worked_number("kh", depth_factor(joist.section.depth_mm)),
                published("ksys", joist.ksys),
                worked_out(sheet.kcrit),
                strength,
                _GAMMA_M,
                *sheet.section,
            ),
            f"{BY_CODE}: 2.4.1, 3.2(3), 6.1.6, 6.3.3, 6.6",
        ),
    )
    return moment, takes, sheet.share("bending", use, moment, takes)


def shear_figures(sheet: JoistSheet, use: Use) -> Force:
    """Write down the shear force, the force that the joist takes, and the share used.

    Args:
        sheet: The joist with its loads. Record. [-]
        use: The force at the place that uses most. Record. [N]

    Returns:
        The three figures. Tuple. [kN, kN, -]

    Source:
        EN 1995-1-1 2.4.1 and 6.1.7.
    """
    formula = f"({sheet.combined(use, ' × span / 2', '')}) / 1000"
    force = sized("shear force", use.done / 1000, "kN", Working(formula, sheet.acting, _FORCE_SOURCE))
    strength = published(f"shear strength of {sheet.joist.grade}", sheet.timber.shear, "N/mm²")
    takes = sized(
        "shear force that the joist takes",
        use.allowed / 1000,
        "kN",
        Working(
            f"kmod × ksys × {strength.name} / gamma M × kcr × width × depth / 1.5 / 1000",
            (
                sheet.kmod(use),
                published("ksys", sheet.joist.ksys),
                strength,
                _GAMMA_M,
                published("kcr", eurocode_5.KCR),
                *sheet.section,
            ),
            f"{BY_CODE}: 2.4.1, 6.1.7",
        ),
    )
    return force, takes, sheet.share("shear", use, force, takes)


def bearing_figures(sheet: JoistSheet, use: Use) -> Force:
    """Write down the force on a support, the force that the bearing takes, and the share used.

    Args:
        sheet: The joist with its loads. Record. [-]
        use: The force at the support that uses most. Record. [N]

    Returns:
        The three figures. Tuple. [kN, kN, -]

    Source:
        EN 1995-1-1 6.1.5.
    """
    formula = f"({sheet.combined(use, ' × span / 2', '')}) / 1000"
    force = sized("force on a support", use.done / 1000, "kN", Working(formula, sheet.acting, _FORCE_SOURCE))
    across = sheet.timber.compression_across
    strength = published(f"strength across the grain of {sheet.joist.grade}", across, "N/mm²")
    takes = sized(
        "force that the bearing takes",
        use.allowed / 1000,
        "kN",
        Working(
            f"kc,90 × kmod × ksys × {strength.name} / gamma M × width × (bearing + 30 mm) / 1000",
            (
                published("kc,90", eurocode_5.KC90_DISCRETE),
                sheet.kmod(use),
                published("ksys", sheet.joist.ksys),
                strength,
                _GAMMA_M,
                sheet.section[0],
                sheet.bearing,
            ),
            f"{BY_CODE}: 6.1.5, kc,90 from memory",
        ),
    )
    return force, takes, sheet.share("bearing", use, force, takes)

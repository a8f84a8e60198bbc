"""What the grades of purified water allow: limits by grade, and those that depend on temperature or pH."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import sympy

from checks.expressions import completed
from checks.formula import Choice, Formula, Input, Refusal, formula
from checks.lookup import GradeLimit, Table, grade_limits, tables

USP_645 = tables("usp-645-2011")
PH_EUR = tables("ph-eur-0008")

GRADES = {
    "iso_3696_1": "ISO 3696 grade 1",
    "iso_3696_2": "ISO 3696 grade 2",
    "iso_3696_3": "ISO 3696 grade 3",
    "astm_d1193_1": "ASTM D1193 Type I",
    "astm_d1193_2": "ASTM D1193 Type II",
    "astm_d1193_3": "ASTM D1193 Type III",
    "astm_d1193_4": "ASTM D1193 Type IV",
    "clsi_clrw": "CLSI clinical laboratory reagent water",
    "usp_purified": "USP Purified Water",
    "ph_eur_purified": "Ph. Eur. Purified Water",
}


def _by_grade(parameter: str, unit: str) -> Callable[[Callable[..., Any]], Formula]:
    """Declare a formula that looks a limit up by grade; no result where the grade has none."""
    limits = {limit.grade: limit for limit in grade_limits() if limit.parameter == parameter}
    without = [place for place, grade in enumerate(GRADES) if grade not in limits]
    return formula(
        result_unit=unit,
        source=tuple(dict.fromkeys(limits[grade].source for grade in GRADES if grade in limits)),
        refusals=(
            Refusal(
                "no_limit_in_grade", lambda grade: sympy.Or(*(sympy.Eq(grade, code) for code in without))
            ),
        ),
        grade=Choice(GRADES, "grade of water"),
    )


def _table(parameter: str) -> Table:
    """The limits as a table by the grade's place in the list."""
    limits: dict[str, GradeLimit] = {
        limit.grade: limit for limit in grade_limits() if limit.parameter == parameter
    }
    rows = [(float(place), limits[grade]) for place, grade in enumerate(GRADES) if grade in limits]
    first = rows[0][1]
    keys, values = tuple(key for key, _ in rows), tuple(limit.value for _, limit in rows)
    return Table(f"grade_{parameter}", "exact", "1", first.unit, keys, values, first.source)


@_by_grade("conductivity_maximum", "uS/cm")
def grade_conductivity_maximum(grade):
    """Highest conductivity at 25 °C that a grade of water allows ("not more than").

    The pharmacopoeial waters are judged uncompensated, by temperature: they have their own formulas.
    The type numbers of ASTM D1193 are no order of purity. For CLSI water the reciprocal of its
    10 MΩ·cm; for ASTM Type I the printed 0.056, which is a little more than the reciprocal of 18.
    """
    return _table("conductivity_maximum")(grade)


@_by_grade("resistivity_minimum", "Mohm cm")
def grade_resistivity_minimum(grade):
    """Lowest resistivity at 25 °C that a grade of water allows ("not less than").

    For grades whose source states a resistivity. Type I and 18 MΩ·cm is within 1 % of pure water.
    """
    return _table("resistivity_minimum")(grade)


@_by_grade("toc_maximum", "ug/L")
def grade_toc_maximum(grade):
    """Highest total organic carbon that a grade of water allows.

    "Not more than", but "less than" for CLSI water. ISO 3696 and ASTM Type IV have no such limit.
    """
    return _table("toc_maximum")(grade)


@_by_grade("colony_count_maximum", "CFU/mL")
def grade_colony_count_maximum(grade):
    """Highest colony count that a grade of water allows.

    CLSI water: "less than" 10. For the pharmacopoeial waters this is the action level, not a limit
    of acceptance. ISO 3696 has none; ASTM D1193 has its own grades A, B and C.
    """
    return _table("colony_count_maximum")(grade)


@formula(
    result_unit="uS/cm",
    source=USP_645["stage_1"].source,
    symbol="kappa_max",
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=100, symbol="t"),
)
def usp_645_stage_1_limit(temperature):
    """Highest uncompensated conductivity of stage 1 ("not more than").

    The row of the measured temperature or the next lower one; nothing is interpolated or rounded.
    A value above it is not yet a failure: stage 2 decides.
    """
    return USP_645["stage_1"](temperature)


@formula(
    result_unit="uS/cm",
    source=USP_645["stage_3"].source,
    symbol="kappa_max",
    ph=Input("pH", "pH at 25 °C with potassium chloride added", minimum=4.95, below=7.05, symbol="pH"),
)
def usp_645_stage_3_limit(ph):
    """Highest conductivity of the stirred sample for its pH ("not more than").

    The pH is rounded to 0.1 before the table is read, half upwards; outside 5.0 to 7.0 the water fails.
    """
    return USP_645["stage_3"](completed(10 * ph + 0.5) / 10)


@formula(
    result_unit="uS/cm",
    source=PH_EUR["conductivity"].source,
    symbol="kappa_max",
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=100, symbol="t"),
)
def ph_eur_purified_water_limit(temperature):
    """Highest uncompensated conductivity of Purified Water ("not greater than").

    Between the rows of the table the limit lies on a straight line.
    """
    return PH_EUR["conductivity"](temperature)

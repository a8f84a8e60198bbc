"""Static head, the window for a relief valve's set pressure, and what flow it must pass."""

from __future__ import annotations

from checks.formula import Input, Source, formula
from checks.formulas.hydraulics import water_density

STANDARD_GRAVITY = 9.80665

HYDROSTATICS = Source(
    "ISO 80000-4 (hydrostatics), with g of the 3rd CGPM, 1901", "2019", "static pressure", "from memory"
)


@formula(
    result_unit="bar",
    source=HYDROSTATICS,
    symbol="p_h",
    height=Input(
        "m", "height of the upper point above the lower one", minimum=-1000, maximum=1000, symbol="h"
    ),
    temperature=Input("degC", "temperature of the water", minimum=0, maximum=100, default=15, symbol="T"),
)
def static_head(height, temperature):
    """Pressure by which standing water presses harder at its lower end than at its upper end.

    Standing water only: moving water also loses pressure by friction. Negative when the upper
    point is in truth the lower one.
    Standard gravity 9.80665 m/s2; the local value differs by up to 0.3 %.
    """
    return water_density.on(temperature=temperature) * STANDARD_GRAVITY * height / 100000

"""Water and its flow, against iapws (the IAPWS releases) and fluids (textbook fluid mechanics).

iapws is used at 0.1 MPa and on the saturation line only: away from 0.1 MPa the sign of the pressure term in
its simplified liquid formulation is wrong in version 1.5.5. fluids turns turbulent at Re 2040, our formula
at 2300, so the range between is left out.
"""

import math

import fluids
from iapws import IAPWS97
from iapws._iapws import _Kw, _Liquid

from checks.catalogue import FORMULAS
from tests.oracles.comparison import Comparison, every, grid, powers

SAME_LAW = "The same law, computed twice."
RIGID = {"outer_diameter": 12, "wall": 5, "youngs_modulus": 1000}
"""A thick wall of the stiffest material that is accepted: what is left is the water itself."""


def value(name, **given):
    return FORMULAS[name].evaluate(given).value


def liquid(point):
    return _Liquid(point["temperature"] + 273.15)


def ion_product(point):
    kelvin = point["temperature"] + 273.15
    return _Kw(IAPWS97(T=kelvin, x=0).rho, kelvin)


def surge(point):
    water = liquid(point)
    return point["velocity_change"] * (water["rho"] * 1e6 / water["xkappa"]) ** 0.5 / 1e5  # 1/MPa to 1/Pa


def friction(point):
    eD, Re = point["relative_roughness"], point["reynolds_number"]
    return fluids.friction_factor(Re=Re, eD=eD, Method="Colebrook") if Re > 2040 else 64 / Re


def laminar(point):
    return fluids.friction_factor(Re=point["reynolds_number"], eD=point["relative_roughness"])


def flow_of(point):
    """Velocity in m/s, bore in m, density and viscosity of our own: what is compared is the loss."""
    bore = point["bore"] / 1000
    density = value("water_density", temperature=point["temperature"])
    viscosity = value("water_viscosity", temperature=point["temperature"]) / 1000
    return point["flow"] / 60000 / (math.pi / 4 * bore**2), bore, density, viscosity


def reynolds(point):
    velocity, bore, density, viscosity = flow_of(point)
    return fluids.Reynolds(V=velocity, D=bore, rho=density, mu=viscosity)


def pipe_loss(point):
    velocity, bore, density, viscosity = flow_of(point)
    number = fluids.Reynolds(V=velocity, D=bore, rho=density, mu=viscosity)
    factor = fluids.friction_factor(Re=number, eD=point["roughness"] / point["bore"], Method="Colebrook")
    losses = fluids.K_from_f(fd=factor, L=point["length"], D=bore) + point["loss_coefficients"]
    return fluids.dP_from_K(losses, rho=density, V=velocity) / 1e5


def drain(point):
    bore = point["diameter"] / 1000
    angle = 2 * math.acos(1 - 2 * point["depth_ratio"])
    area = bore**2 / 8 * (angle - math.sin(angle))
    velocity = fluids.open_flow.V_Manning(
        Rh=area / (bore * angle / 2), S=point["slope"], n=point["roughness"]
    )
    return velocity * area * 60000


COMPARISONS = [
    Comparison(
        "water_density",
        "iapws",
        "0 to 100 °C",
        every(temperature=grid(0, 100, 201)),
        lambda point: liquid(point)["rho"],
        4e-5,
        "Kell's equation of 1975 against the IAPWS release of 2011: another fit to other measurements.",
    ),
    Comparison(
        "water_viscosity",
        "iapws",
        "0 to 100 °C",
        every(temperature=grid(0, 100, 201)),
        lambda point: liquid(point)["mu"] * 1000,
        1e-12,
        "The same correlation, computed twice.",
    ),
    Comparison(
        "water_ion_product",
        "iapws",
        "0.5 to 100 °C",
        every(temperature=grid(0.5, 100, 200)),
        ion_product,
        4e-4,
        "Our density at atmospheric pressure against the density at saturation; the correlation is the same.",
        absolute=True,
    ),
    Comparison(
        "static_head",
        "iapws",
        "1 to 100 m, 0 to 100 °C",
        every(height=[1, 10, 100], temperature=grid(0, 100, 101)),
        lambda point: liquid(point)["rho"] * 9.80665 * point["height"] / 1e5,
        4e-5,
        "That of the density.",
    ),
    Comparison(
        "water_hammer_pressure",
        "iapws",
        "2 m/s, 0 to 100 °C, a wall that does not give",
        every(
            velocity_change=[2], temperature=grid(0, 100, 101), **{name: [one] for name, one in RIGID.items()}
        ),
        surge,
        3e-3,
        "Kell's compressibility of 1975 against the IAPWS release, and a wall that gives a little.",
    ),
    Comparison(
        "friction_factor",
        "fluids",
        "Re 2300 to 1e8, relative roughness 0 to 0.05",
        every(
            reynolds_number=powers(2300, 1e8, 60), relative_roughness=[0, 1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.05]
        ),
        friction,
        4e-5,
        "An explicit approximation of Colebrook's equation against its solution.",
    ),
    Comparison(
        "friction_factor",
        "fluids",
        "Re 1 to 2039",
        every(reynolds_number=powers(1, 2039, 30), relative_roughness=[0, 0.05]),
        laminar,
        1e-12,
        SAME_LAW,
    ),
    Comparison(
        "reynolds_number",
        "fluids",
        "0.5 to 400 L/min, 6 to 53 mm, 5 to 60 °C",
        every(flow=powers(0.5, 400, 12), bore=[6, 16.2, 53], temperature=[5, 22, 60]),
        reynolds,
        1e-12,
        SAME_LAW,
    ),
    Comparison(
        "pipe_pressure_loss",
        "fluids",
        "6 to 60 L/min, 10 to 32 mm, 5 to 60 °C, turbulent",
        every(
            flow=[6, 12, 30, 60],
            bore=[10, 16.2, 32],
            temperature=[5, 22, 60],
            length=[60],
            roughness=[0.0015, 0.05],
            loss_coefficients=[21.5],
        ),
        pipe_loss,
        4e-5,
        "That of the friction factor.",
    ),
    Comparison(
        "gravity_drain_capacity",
        "fluids",
        "50 mm, fall 0.5 to 10 %, filled 5 to 100 %",
        every(diameter=[50], slope=[0.005, 0.02, 0.1], depth_ratio=grid(0.05, 1, 20), roughness=[0.011]),
        drain,
        1e-9,
        SAME_LAW,
    ),
]

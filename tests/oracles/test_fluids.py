"""Against the open-source package fluids, which implements textbook fluid mechanics."""

import math

import fluids
import pytest

from checks.catalogue import FORMULAS


@pytest.mark.parametrize(("flow", "bore", "temperature"), [(12, 16.2, 22), (0.5, 6, 5), (400, 53, 60)])
def test_reynolds_number_is_that_of_the_same_velocity_density_and_viscosity(flow, bore, temperature):
    given = {"temperature": temperature}
    velocity = FORMULAS["flow_velocity"].evaluate({"flow": flow, "bore": bore}).value
    density = FORMULAS["water_density"].evaluate(given).value
    viscosity = FORMULAS["water_viscosity"].evaluate(given).value / 1000
    expected = fluids.Reynolds(V=velocity, D=bore / 1000, rho=density, mu=viscosity)
    assert FORMULAS["reynolds_number"].evaluate({"flow": flow, "bore": bore, **given}).value == pytest.approx(
        expected, rel=1e-12
    )


@pytest.mark.parametrize("difference", [0.1, 1.0, 2.75, 9.0])
def test_relief_capacity_is_torricelli_with_a_coefficient(difference):
    """fluids has the same law as the discharge of an orifice far smaller than its pipe."""
    density = FORMULAS["water_density"].evaluate({"temperature": 15}).value
    area = 1e-4  # m2, 100 mm2
    diameter = (4 * area / 3.141592653589793) ** 0.5
    mass = fluids.flow_meter.flow_meter_discharge(
        D=1e3 * diameter, Do=diameter, P1=1e5 * difference, P2=0.0, rho=density, C=0.45, expansibility=1.0
    )
    expected = mass / density * 60000
    given = {"flow_area": 100, "discharge_coefficient": 0.45, "pressure_difference": difference}
    assert FORMULAS["relief_discharge_capacity"].evaluate(given).value == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("supply", "relieving"), [(6.0, 2.75), (10.0, 3.0)])
def test_failed_regulator_passes_the_flow_of_a_valve_of_that_kv(supply, relieving):
    """fluids turns Kv into a loss coefficient of a bore; the pressure lost there is the difference."""
    given = {"flow_coefficient_kv": 1.6, "supply_pressure": supply, "relieving_pressure": relieving}
    flow = FORMULAS["regulator_failed_open_flow"].evaluate(given).value / 60000
    bore = 0.015
    velocity = flow / (3.141592653589793 / 4 * bore**2)
    loss = fluids.fittings.Kv_to_K(1.6, bore)
    lost = fluids.dP_from_K(loss, rho=1000.0, V=velocity) / 1e5
    assert lost == pytest.approx(supply - relieving, rel=1e-3)  # fluids relates Kv to 999.1 kg/m3


@pytest.mark.parametrize("roughness", [0, 1e-6, 1e-4, 1e-3, 0.05])
@pytest.mark.parametrize("reynolds", [2300, 1e4, 1e5, 1e6, 1e8])
def test_friction_factor_is_within_0_004_percent_of_colebrook(reynolds, roughness):
    expected = fluids.friction_factor(Re=reynolds, eD=roughness, Method="Colebrook")
    given = {"reynolds_number": reynolds, "relative_roughness": roughness}
    assert FORMULAS["friction_factor"].evaluate(given).value == pytest.approx(expected, rel=4e-5)


@pytest.mark.parametrize("reynolds", [1, 500, 2039])
def test_laminar_friction_is_that_of_poiseuille(reynolds):
    """fluids changes to turbulent flow at 2040, so laminar flow is compared below."""
    given = {"reynolds_number": reynolds, "relative_roughness": 0.01}
    expected = fluids.friction_factor(Re=reynolds, eD=0.01)
    assert FORMULAS["friction_factor"].evaluate(given).value == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("flow", "bore", "temperature"), [(12, 16.2, 22), (30, 20, 5), (400, 53, 60)])
def test_pipe_loss_is_that_of_friction_and_fittings(flow, bore, temperature):
    given = {"temperature": temperature}
    density = FORMULAS["water_density"].evaluate(given).value
    viscosity = FORMULAS["water_viscosity"].evaluate(given).value / 1000
    velocity = FORMULAS["flow_velocity"].evaluate({"flow": flow, "bore": bore}).value
    reynolds = fluids.Reynolds(V=velocity, D=bore / 1000, rho=density, mu=viscosity)
    friction = fluids.friction_factor(Re=reynolds, eD=0.0015 / bore, Method="Colebrook")
    losses = fluids.K_from_f(fd=friction, L=60, D=bore / 1000) + 21.5
    expected = fluids.dP_from_K(losses, rho=density, V=velocity) / 1e5
    given |= {"flow": flow, "bore": bore, "length": 60, "roughness": 0.0015, "loss_coefficients": 21.5}
    assert FORMULAS["pipe_pressure_loss"].evaluate(given).value == pytest.approx(expected, rel=4e-5)


@pytest.mark.parametrize("depth", [0.1, 0.5, 0.7, 1.0])
def test_drain_is_that_of_manning_for_a_partly_filled_circle(depth):
    """fluids has the velocity by the hydraulic radius; the section comes from the angle of the water."""
    angle = 2 * math.acos(1 - 2 * depth)
    area = 0.05**2 / 8 * (angle - math.sin(angle))
    velocity = fluids.open_flow.V_Manning(Rh=area / (0.05 * angle / 2), S=0.02, n=0.011)
    given = {"diameter": 50, "slope": 0.02, "depth_ratio": depth, "roughness": 0.011}
    assert FORMULAS["gravity_drain_capacity"].evaluate(given).value == pytest.approx(
        velocity * area * 60000, rel=1e-9
    )

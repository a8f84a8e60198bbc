// Generated from checks/formulas by checks.generate: change that, then run `python -m checks.generate`.

import {catalogue} from "../judging/nodes.js";

/**
 * Density of air-free water at atmospheric pressure.
 *
 * Does not hold above 100 degC or for sea water.
 * Kell's coefficients; against IAPWS SR6-08 the deviation is at most 0.0015 % (0 to 99 degC).
 *
 * Source: G. S. Kell, J. Chem. Eng. Data 20, 1975, p. 97, equation for the density (from memory).
 */
export function water_density(temperature) {
  return (-2.8054253e-10*Math.pow(temperature, 5) + 1.0556302e-07*Math.pow(temperature, 4) - 4.6170461e-05*Math.pow(temperature, 3) - 0.0079870401*Math.pow(temperature, 2) + 16.945176*temperature + 999.83952)/(0.01687985*temperature + 1);
}

function water_density_slopes(temperature) {
  const x0 = 0.01687985*temperature + 1;
  const x1 = Math.pow(temperature, 2);
  const x2 = Math.pow(temperature, 3);
  const x3 = Math.pow(temperature, 4);
  return [(-0.0159740802*temperature - 0.000138511383*x1 + 4.2225208e-07*x2 - 1.40271265e-09*x3 + 16.945176)/x0 - 0.01687985*(-2.8054253e-10*Math.pow(temperature, 5) + 16.945176*temperature - 0.0079870401*x1 - 4.6170461e-05*x2 + 1.0556302e-07*x3 + 999.83952)/Math.pow(x0, 2)];
}

/**
 * Dynamic viscosity of water at atmospheric pressure.
 *
 * Does not hold for other liquids or above 100 degC.
 * The IAPWS correlation itself, stated there for 253 K to 383 K.
 *
 * Source: IAPWS SR6-08, Thermodynamic Properties of Common Water at 0.1 MPa, 2011, viscosity (from memory).
 */
export function water_viscosity(temperature) {
  const x0 = (1/300)*temperature + 0.9105;
  return 0.061131000000000005*Math.pow(x0, -19.6) + 0.51145*Math.pow(x0, -7.7) + 0.28068*Math.pow(x0, -1.9) + 0.00045903000000000003/Math.pow(x0, 40);
}

function water_viscosity_slopes(temperature) {
  const x0 = (1/300)*temperature + 0.9105;
  return [-0.003993892000000001*Math.pow(x0, -20.6) - 0.013127216666666667*Math.pow(x0, -8.7) - 0.0017776399999999998*Math.pow(x0, -2.9) - 6.1204e-05/Math.pow(x0, 41)];
}

/**
 * Mean velocity in a round bore that runs full.
 *
 * Take the inner diameter: a 20 mm tube may be 16.2 mm inside, which is 52 % in area.
 * 1/60000 turns L/min into m3/s, 1/1000 turns mm into m. Exact by definition.
 *
 * Source: Crane TP-410M, Flow of Fluids, metric edition, chapter 1 (from memory).
 */
export function flow_velocity(flow, bore) {
  return (200/3)*flow/(Math.PI*Math.pow(bore, 2));
}

function flow_velocity_slopes(flow, bore) {
  const x0 = 1/Math.PI;
  return [(200/3)*x0/Math.pow(bore, 2), -400/3*flow*x0/Math.pow(bore, 3)];
}

/**
 * Ratio of inertia to friction in a bore: below 2300 laminar, above 4000 turbulent.
 *
 * Between the two the flow may be either.
 * Density and viscosity are those of water at this temperature. Exact by definition.
 *
 * Source: Crane TP-410M, Flow of Fluids, metric edition, chapter 1 (from memory).
 */
export function reynolds_number(flow, bore, temperature) {
  return bore*flow_velocity(flow, bore)*water_density(temperature)/water_viscosity(temperature);
}

function reynolds_number_slopes(flow, bore, temperature) {
  const x0 = water_viscosity(temperature);
  const x1 = 1/x0;
  const x2 = water_density(temperature);
  const x3 = x1*x2/Math.PI;
  const x4 = flow_velocity(flow, bore);
  const x5 = x1*x4;
  const x6 = (1/300)*temperature + 0.9105;
  const x7 = 0.01687985*temperature + 1;
  const x8 = Math.pow(temperature, 2);
  const x9 = Math.pow(temperature, 3);
  const x10 = Math.pow(temperature, 4);
  return [(200/3)*x3/bore, x2*x5 - 400/3*flow*x3/Math.pow(bore, 2), bore*x5*((-0.0159740802*temperature - 1.40271265e-09*x10 - 0.000138511383*x8 + 4.2225208e-07*x9 + 16.945176)/x7 - 0.01687985*(-2.8054253e-10*Math.pow(temperature, 5) + 16.945176*temperature + 1.0556302e-07*x10 - 0.0079870401*x8 - 4.6170461e-05*x9 + 999.83952)/Math.pow(x7, 2)) + bore*x2*x4*(0.003993892000000001*Math.pow(x6, -20.6) + 0.013127216666666667*Math.pow(x6, -8.7) + 0.0017776399999999998*Math.pow(x6, -2.9) + 6.1204e-05/Math.pow(x6, 41))/Math.pow(x0, 2)];
}

/**
 * How many volumes must flow through a mixed tank until its content is down to the limit.
 *
 * Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
 * A content already at the limit needs none. Exact for perfect mixing.
 *
 * Source: O. Levenspiel, Chemical Reaction Engineering, 3rd edition, chapter on the mixed-flow tank (from memory).
 */
export function washout_volumes(start, limit, inflow) {
  return ((limit >= start) ? (0) : (Math.log((-inflow + start)/(-inflow + limit))));
}

function washout_volumes_slopes(start, limit, inflow) {
  return [((limit >= start) ? (0) : (1/(-inflow + start))), ((limit >= start) ? (0) : (-1/(-inflow + limit))), ((limit >= start) ? (0) : ((-inflow + limit)*(-1/(-inflow + limit) + (-inflow + start)/Math.pow(-inflow + limit, 2))/(-inflow + start)))];
}

/**
 * How long a mixed volume must be flushed until its content is down to the limit.
 *
 * Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
 * Leaving out the inflow's own content makes the time too short. Exact for perfect mixing.
 *
 * Source: O. Levenspiel, Chemical Reaction Engineering, 3rd edition, chapter on the mixed-flow tank (from memory).
 */
export function washout_time(volume, flow, start, limit, inflow) {
  return volume*((limit >= start) ? (0) : (Math.log((-inflow + start)/(-inflow + limit))))/flow;
}

function washout_time_slopes(volume, flow, start, limit, inflow) {
  const x0 = 1/flow;
  const x1 = volume*x0;
  return [x0*((limit >= start) ? (0) : (Math.log((-inflow + start)/(-inflow + limit)))), -volume*((limit >= start) ? (0) : (Math.log((-inflow + start)/(-inflow + limit))))/Math.pow(flow, 2), x1*((limit >= start) ? (0) : (1/(-inflow + start))), x1*((limit >= start) ? (0) : (-1/(-inflow + limit))), x1*((limit >= start) ? (0) : ((-inflow + limit)*(-1/(-inflow + limit) + (-inflow + start)/Math.pow(-inflow + limit, 2))/(-inflow + start)))];
}

/**
 * Content of a mixed volume after flushing for a time.
 *
 * Holds for a dissolved salt in a mixed volume, not for a resin or carbon bed that bleeds.
 * Exact for perfect mixing.
 *
 * Source: O. Levenspiel, Chemical Reaction Engineering, 3rd edition, chapter on the mixed-flow tank (from memory).
 */
export function washout_concentration(volume, flow, time, start, inflow) {
  return inflow + (-inflow + start)*Math.exp(-flow*time/volume);
}

function washout_concentration_slopes(volume, flow, time, start, inflow) {
  const x0 = 1/volume;
  const x1 = time*x0;
  const x2 = Math.exp(-flow*x1);
  const x3 = x2*(-inflow + start);
  const x4 = flow*x3;
  return [time*x4/Math.pow(volume, 2), -x1*x3, -x0*x4, x2, 1 - x2];
}

/**
 * Pressure by which standing water presses harder at its lower end than at its upper end.
 *
 * Standing water only: moving water also loses pressure by friction. Negative when the upper
 * point is in truth the lower one.
 * Standard gravity 9.80665 m/s2; the local value differs by up to 0.3 %.
 *
 * Source: ISO 80000-4 (hydrostatics), with g of the 3rd CGPM, 1901, 2019, static pressure (from memory).
 */
export function static_head(height, temperature) {
  return 9.80665e-05*height*water_density(temperature);
}

function static_head_slopes(height, temperature) {
  const x0 = 0.01687985*temperature + 1;
  const x1 = Math.pow(temperature, 2);
  const x2 = Math.pow(temperature, 3);
  const x3 = Math.pow(temperature, 4);
  return [9.80665e-05*water_density(temperature), 9.80665e-05*height*((-0.0159740802*temperature - 0.000138511383*x1 + 4.2225208e-07*x2 - 1.40271265e-09*x3 + 16.945176)/x0 - 0.01687985*(-2.8054253e-10*Math.pow(temperature, 5) + 16.945176*temperature - 0.0079870401*x1 - 4.6170461e-05*x2 + 1.0556302e-07*x3 + 999.83952)/Math.pow(x0, 2))];
}

export const formulas = catalogue({
  water_density: {unit: "kg/m**3", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_density, measured: ["temperature"], slopes: water_density_slopes},
  water_viscosity: {unit: "mPa s", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_viscosity, measured: ["temperature"], slopes: water_viscosity_slopes},
  flow_velocity: {unit: "m/s", inputs: {"flow": {"unit": "L/min", "above": 0}, "bore": {"unit": "mm", "above": 0}}, compute: flow_velocity, measured: ["flow", "bore"], slopes: flow_velocity_slopes},
  reynolds_number: {unit: "1", inputs: {"flow": {"unit": "L/min", "above": 0}, "bore": {"unit": "mm", "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: reynolds_number, measured: ["flow", "bore", "temperature"], slopes: reynolds_number_slopes, steps: (flow, bore, temperature) => ({"v": flow_velocity(flow, bore), "rho": water_density(temperature), "mu": water_viscosity(temperature)})},
  washout_volumes: {unit: "1", inputs: {"start": {"unit": "any", "minimum": 0}, "limit": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_volumes, measured: ["start", "limit", "inflow"], slopes: washout_volumes_slopes, refusals: [["never_reached", false, (start, limit, inflow) => limit <= inflow && start > limit]]},
  washout_time: {unit: "min", inputs: {"volume": {"unit": "L", "above": 0}, "flow": {"unit": "L/min", "above": 0}, "start": {"unit": "any", "minimum": 0}, "limit": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_time, measured: ["volume", "flow", "start", "limit", "inflow"], slopes: washout_time_slopes, refusals: [["never_reached", false, (volume, flow, start, limit, inflow) => limit <= inflow && start > limit]]},
  washout_concentration: {unit: "any", inputs: {"volume": {"unit": "L", "above": 0}, "flow": {"unit": "L/min", "above": 0}, "time": {"unit": "min", "minimum": 0}, "start": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_concentration, measured: ["volume", "flow", "time", "start", "inflow"], slopes: washout_concentration_slopes},
  static_head: {unit: "bar", inputs: {"height": {"unit": "m", "minimum": -1000, "maximum": 1000}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100, "default": 15}}, compute: static_head, measured: ["height", "temperature"], slopes: static_head_slopes, steps: (height, temperature) => ({"rho": water_density(temperature)})},
});

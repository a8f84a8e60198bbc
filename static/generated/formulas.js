// @ts-nocheck
// Generated from checks/formulas by checks.generate: change that, then run `python -m checks.generate`.

import { catalogue, completed, count, exact, greatest, larger, last, least, linear, linearSlope, poisson, root, slope, smaller, squares, started, stepDown, student, studentDensity, total } from "../judging/nodes.js";
import { tables } from "./tables.js";

function charge_balance(x, w, k, c) {
  return -c*k/(k + x) - w/x + x;
}

function chlorine_balance(x, acid, chlorine) {
  const x0 = 1/acid;
  const x1 = Math.pow(acid, 2)*Math.pow(x, 3);
  const x2 = acid*Math.pow(x, 2)*(5623.413251903491*acid + 1);
  const x3 = 7943282.347242822*x*(13182567385.564047*acid*(213796.20895022326*acid + 1) + 1);
  return (1/2)*chlorine*(3.60679330385224e+27*x1 + 6.776883122784041e+21*x2 + x3)/(251188643150.95822*acid*(7585775.7502918355*acid + 1) + 3.1622776601683796e-14*x0 + 1.2022644346174133e+27*x1 + 3.3884415613920205e+21*x2 + x3 + 1) - chlorine + x*(2.8840315031266057e-08*x0 + 1);
}

function conductance_sum(resistance) {
  return 1/resistance;
}

function conductance_sum_resistance(resistance) {
  return -1/Math.pow(resistance, 2);
}

function error_function_complement(x) {
  return ((x <= 0.46875) ? (-x*(Math.pow(x, 2)*(Math.pow(x, 2)*(Math.pow(x, 2)*(0.18577770618460315*Math.pow(x, 2) + 3.1611237438705655) + 113.86415415105016) + 377.485237685302) + 3209.3775891384694)/(Math.pow(x, 2)*(Math.pow(x, 2)*(Math.pow(x, 2)*(1.0*Math.pow(x, 2) + 23.601290952344122) + 244.02463793444417) + 1282.6165260773723) + 2844.236833439171) + 1) : (x <= 4) ? ((x*(x*(x*(x*(x*(x*(x*(2.1531153547440383e-08*x + 0.5641884969886701) + 8.883149794388377) + 66.11919063714163) + 298.6351381974001) + 881.952221241769) + 1712.0476126340707) + 2051.0783778260716) + 1230.3393547979972)*Math.exp(-Math.pow(x, 2))/(x*(x*(x*(x*(x*(x*(x*(1.0*x + 15.744926110709835) + 117.6939508913125) + 537.1811018620099) + 1621.3895745666903) + 3290.7992357334597) + 4362.619090143247) + 3439.3676741437216) + 1230.3393548037495)) : ((Math.pow(Math.PI, -1/2) - (0.0006587491615298378 + (0.016083785148742275 + (0.12578172611122926 + (0.36034489994980445 + (0.30532663496123236 + 0.016315387137302097/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))/(Math.pow(x, 2)*(0.0023352049762686918 + (0.06051834131244132 + (0.5279051029514285 + (1.8729528499234673 + (2.568520192289822 + 1.0/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))/Math.pow(x, 2))))*Math.exp(-Math.pow(x, 2))/x));
}

function few_enough(x, n, tail) {
  return -tail + poisson(n, x);
}

function fourth_power_sum(u, nu) {
  return Math.pow(u, 4)/nu;
}

function fourth_power_sum_nu(u, nu) {
  return -Math.pow(u, 4)/Math.pow(nu, 2);
}

function fourth_power_sum_u(u, nu) {
  return 4*Math.pow(u, 3)/nu;
}

function index_reached(x, base, slope, solids, limit) {
  const x0 = 1 - x;
  const x1 = solids/x0;
  const x2 = Math.sqrt(x1);
  return base - limit - 5*slope*(-7.5e-06*x1 + 0.005*x2/(0.005*x2 + 1)) - 3*Math.log(x0)/Math.log(10);
}

function many_enough(x, n, rest) {
  return -rest + poisson(n - 1, x);
}

function normal_below(z) {
  return ((z <= 0) ? ((1/2)*error_function_complement((1/2)*Math.sqrt(2)*smaller(larger(z, -z), 37))) : (1 - 1/2*error_function_complement((1/2)*Math.sqrt(2)*smaller(larger(z, -z), 37))));
}

function plain_sum(reading) {
  return reading;
}

function plain_sum_reading(reading) {
  return 1;
}

function square_sum(u) {
  return Math.pow(u, 2);
}

function square_sum_u(u) {
  return 2*u;
}

/** One value less another of the same unit; negative when the second is the larger. */
export function difference(value, subtract) {
  return -subtract + value;
}

function difference_slopes(value, subtract) {
  return [1, -1];
}

/** One value divided by another of the same unit. Exact by definition. */
export function ratio(value, reference) {
  return value/reference;
}

function ratio_slopes(value, reference) {
  return [1/reference, -value/Math.pow(reference, 2)];
}

/** How far a value lies from a reference, as a share of the reference; negative below it. */
export function relative_difference(value, reference) {
  return (-reference + value)/reference;
}

function relative_difference_slopes(value, reference) {
  const x0 = 1/reference;
  return [x0, -x0 - (-reference + value)/Math.pow(reference, 2)];
}

/** The smaller of two values of the same unit. Exact by definition. */
export function smaller_of(first, second) {
  return smaller(first, second);
}

function smaller_of_slopes(first, second) {
  return [((first <= second) ? (1) : (0)), 1 - ((first <= second) ? (1) : (0))];
}

/** The larger of two values of the same unit. Exact by definition. */
export function larger_of(first, second) {
  return larger(first, second);
}

function larger_of_slopes(first, second) {
  return [((first >= second) ? (1) : (0)), 1 - ((first >= second) ? (1) : (0))];
}

/** Sum of up to six values of the same unit; what is left out counts as zero. */
export function sum_of(first, second, third, fourth, fifth, sixth, first_given, second_given, third_given, fourth_given, fifth_given, sixth_given) {
  return fifth + first + fourth + second + sixth + third;
}

function sum_of_slopes(first, second, third, fourth, fifth, sixth, first_given, second_given, third_given, fourth_given, fifth_given, sixth_given) {
  return [1, 1, 1, 1, 1, 1];
}

/** Change of a value in a period, one hour unless another is given; negative when it falls. */
export function change_per_time(start, end, minutes, per) {
  return per*(end - start)/minutes;
}

function change_per_time_slopes(start, end, minutes, per) {
  const x0 = per/minutes;
  return [-x0, x0, -per*(end - start)/Math.pow(minutes, 2)];
}

/** Lower end of a band around a value above zero. Exact by definition. */
export function band_lower(value, share) {
  return value*(1 - share);
}

function band_lower_slopes(value, share) {
  return [1 - share, -value];
}

/** Upper end of a band around a value above zero. Exact by definition. */
export function band_upper(value, share) {
  return value*(share + 1);
}

function band_upper_slopes(value, share) {
  return [share + 1, value];
}

/** How far the balance of three flows may miss before something must be wrong. */
export function flow_balance_band(feed_flow, permeate_flow, concentrate_flow, feed_uncertainty, permeate_uncertainty, concentrate_uncertainty, least) {
  return larger(least, 2*Math.sqrt(Math.pow(concentrate_uncertainty, 2) + Math.pow(permeate_uncertainty, 2) + Math.pow(feed_uncertainty, 2)*Math.pow(concentrate_flow + permeate_flow, 2)/Math.pow(feed_flow, 2))/feed_flow);
}

function flow_balance_band_slopes(feed_flow, permeate_flow, concentrate_flow, feed_uncertainty, permeate_uncertainty, concentrate_uncertainty, least) {
  const x0 = 1 - ((least >= 2*Math.sqrt(Math.pow(concentrate_uncertainty, 2) + Math.pow(permeate_uncertainty, 2) + Math.pow(feed_uncertainty, 2)*Math.pow(concentrate_flow + permeate_flow, 2)/Math.pow(feed_flow, 2))/feed_flow) ? (1) : (0));
  const x1 = Math.pow(feed_flow, -2);
  const x2 = Math.pow(feed_uncertainty, 2);
  const x3 = Math.pow(concentrate_flow + permeate_flow, 2);
  const x4 = x2*x3;
  const x5 = Math.sqrt(Math.pow(concentrate_uncertainty, 2) + Math.pow(permeate_uncertainty, 2) + x1*x4);
  const x6 = 1/x5;
  const x7 = 2*x6;
  const x8 = x0/Math.pow(feed_flow, 3);
  const x9 = x2*x6*x8*(2*concentrate_flow + 2*permeate_flow);
  const x10 = x0*x7/feed_flow;
  return [x0*(-2*x1*x5 - x4*x7/Math.pow(feed_flow, 4)), x9, x9, feed_uncertainty*x3*x7*x8, permeate_uncertainty*x10, concentrate_uncertainty*x10, ((least >= 2*Math.sqrt(Math.pow(concentrate_uncertainty, 2) + Math.pow(permeate_uncertainty, 2) + Math.pow(feed_uncertainty, 2)*Math.pow(concentrate_flow + permeate_flow, 2)/Math.pow(feed_flow, 2))/feed_flow) ? (1) : (0))];
}

/** Dissolved carbon dioxide from alkalinity and pH. */
export function free_carbon_dioxide(alkalinity, ph, temperature, conductivity) {
  return ((ph > 8.3) ? (0) : (0.8794964028776979*Math.pow(10, -ph + 0.06091964*temperature - 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity) - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2))*alkalinity));
}

function free_carbon_dioxide_slopes(alkalinity, ph, temperature, conductivity) {
  return [((ph > 8.3) ? (0) : (0.8794964028776979*Math.pow(10, -ph + 0.06091964*temperature - 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity) - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2)))), ((ph > 8.3) ? (0) : (-0.8794964028776979*Math.pow(10, -ph + 0.06091964*temperature - 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity) - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2))*alkalinity*Math.log(10))), ((ph > 8.3) ? (0) : (0.8794964028776979*Math.pow(10, -ph + 0.06091964*temperature - 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity) - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2))*alkalinity*(-1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity)*(91431.0*(temperature + 273.15)/Math.pow(temperature + 389.15, 2) + 103.40549999999999 - 91431.0/(temperature + 389.15))/((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15)) + 0.06091964 - 126.8339/((temperature + 273.15)*Math.log(10)) + 21834.37/Math.pow(temperature + 273.15, 2) - 3369830/Math.pow(temperature + 273.15, 3))*Math.log(10))), ((ph > 8.3) ? (0) : (-1600683.4532374102*Math.pow(10, -ph + 0.06091964*temperature - 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity) - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2))*alkalinity*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(-4.8e-06 - 8e-06/Math.pow(0.004*Math.sqrt(conductivity) + 1, 2) + 0.002/(Math.sqrt(conductivity)*(0.004*Math.sqrt(conductivity) + 1)))*Math.log(10)))];
}

/** Carbon dioxide that water takes up from air until it is in equilibrium. */
export function carbon_dioxide_in_air_equilibrium(temperature, partial_pressure) {
  const x0 = temperature + 273.15;
  return 0.04401*Math.pow(10, 0.01985076*temperature - 40.45154*Math.log(x0)/Math.log(10) + 113.808735094 - 6919.53/x0 + 669365/Math.pow(x0, 2))*partial_pressure;
}

function carbon_dioxide_in_air_equilibrium_slopes(temperature, partial_pressure) {
  const x0 = temperature + 273.15;
  const x1 = Math.pow(x0, -2);
  const x2 = 1/x0;
  const x3 = Math.log(10);
  const x4 = 40.45154/x3;
  const x5 = 0.04401*Math.pow(10, 0.01985076*temperature + 669365*x1 - 6919.53*x2 - x4*Math.log(x0) + 113.808735094);
  return [partial_pressure*x3*x5*(6919.53*x1 - x2*x4 + 0.01985076 - 1338730/Math.pow(x0, 3)), x5];
}

/** pH of permeate, from the hydrogen carbonate and the carbon dioxide in it. */
export function permeate_ph(bicarbonate, carbon_dioxide, temperature) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  return 0.06091964*temperature - 126.8339*x1*Math.log(x0) + x1*Math.log(0.7212743989380007*bicarbonate/carbon_dioxide) + 372.949599666 - 21834.37/x0 + 1684915/Math.pow(x0, 2);
}

function permeate_ph_slopes(bicarbonate, carbon_dioxide, temperature) {
  const x0 = 1/Math.log(10);
  const x1 = 1.0*x0;
  const x2 = temperature + 273.15;
  return [x1/bicarbonate, -x1/carbon_dioxide, -126.8339*x0/x2 + 0.06091964 + 21834.37/Math.pow(x2, 2) - 3369830/Math.pow(x2, 3)];
}

/** Langelier saturation index: above 0 the water can deposit lime. */
export function langelier_index(ph, temperature, calcium, alkalinity, dissolved_solids) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  const x2 = 0.005*Math.sqrt(dissolved_solids);
  return ph + 0.04546451000000001*temperature + x1*Math.log((1/50040)*alkalinity) + x1*Math.log((1/40078)*calcium) - 32.66939*x1*Math.log(x0) - 9100000.0*Math.pow(x0*(-68.937 + 60954/(temperature + 389.15)), -1.5)*(-7.5e-06*dissolved_solids + x2/(x2 + 1)) + 76.4380309065 + 2312.471/x0 - 563713.9/Math.pow(x0, 2);
}

function langelier_index_slopes(ph, temperature, calcium, alkalinity, dissolved_solids) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  const x2 = 1/x0;
  const x3 = temperature + 389.15;
  const x4 = 1/x3;
  const x5 = 60954*x4 - 68.937;
  const x6 = Math.sqrt(dissolved_solids);
  const x7 = 0.005*x6;
  const x8 = x7 + 1;
  const x9 = 1/x8;
  const x10 = 9100000.0*Math.pow(x0*x5, -1.5);
  return [1, -32.66939*x1*x2 - x10*x2*(-7.5e-06*dissolved_solids + x7*x9)*(91431.0*x0/Math.pow(x3, 2) - 91431.0*x4 + 103.40549999999999)/x5 + 0.04546451000000001 - 2312.471/Math.pow(x0, 2) + 1127427.8/Math.pow(x0, 3), x1/calcium, x1/alkalinity, -x10*(-7.5e-06 - 1.25e-05/Math.pow(x8, 2) + 0.0025*x9/x6)];
}

/** Langelier saturation index of the concentrate of a membrane. */
export function concentrate_langelier_index(ph, temperature, calcium, alkalinity, dissolved_solids, recovery) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  const x2 = 1/(1 - recovery);
  const x3 = dissolved_solids*x2;
  const x4 = Math.sqrt(x3);
  return ph + 0.04546451000000001*temperature + x1*Math.log((1/50040)*alkalinity) + x1*Math.log((1/40078)*calcium) - 32.66939*x1*Math.log(x0) + 3*x1*Math.log(x2) - 9100000.0*Math.pow(x0*(-68.937 + 60954/(temperature + 389.15)), -1.5)*(-7.5e-06*x3 + 0.005*x4/(0.005*x4 + 1)) + 76.4380309065 + 2312.471/x0 - 563713.9/Math.pow(x0, 2);
}

function concentrate_langelier_index_slopes(ph, temperature, calcium, alkalinity, dissolved_solids, recovery) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  const x2 = 1/x0;
  const x3 = temperature + 389.15;
  const x4 = 1/x3;
  const x5 = 60954*x4 - 68.937;
  const x6 = 1 - recovery;
  const x7 = 1/x6;
  const x8 = dissolved_solids*x7;
  const x9 = Math.sqrt(x8);
  const x10 = 0.005*x9 + 1;
  const x11 = 1/x10;
  const x12 = 9100000.0*Math.pow(x0*x5, -1.5);
  const x13 = 1/dissolved_solids;
  const x14 = Math.pow(x10, -2);
  return [1, -32.66939*x1*x2 - x12*x2*(0.005*x11*x9 - 7.5e-06*x8)*(91431.0*x0/Math.pow(x3, 2) - 91431.0*x4 + 103.40549999999999)/x5 + 0.04546451000000001 - 2312.471/Math.pow(x0, 2) + 1127427.8/Math.pow(x0, 3), x1/calcium, x1/alkalinity, -x12*(0.0025*x11*x13*x9 - 1.25e-05*x13*x14*x8 - 7.5e-06*x7), 3*x1*x7 - x12*(-7.5e-06*dissolved_solids/Math.pow(x6, 2) + 0.0025*x11*x7*x9 - 1.25e-05*x14*x7*x8)];
}

/** Highest recovery at which the concentrate's Langelier index stays within its limit. */
export function maximum_recovery(ph, temperature, calcium, alkalinity, dissolved_solids, index_limit) {
  const x0 = temperature + 273.15;
  const x1 = 1/Math.log(10);
  return smaller(0.99, root(x => index_reached(x, ph + 0.04546451000000001*temperature + x1*Math.log((1/50040)*alkalinity) + x1*Math.log((1/40078)*calcium) - 32.66939*x1*Math.log(x0) + 76.4380309065 + 2312.471/x0 - 563713.9/Math.pow(x0, 2), 1820000.0*Math.pow(x0*(-68.937 + 60954/(temperature + 389.15)), -1.5), dissolved_solids, index_limit), 0, 0.999));
}

function maximum_recovery_slopes(ph, temperature, calcium, alkalinity, dissolved_solids, index_limit) {
  const x0 = 1 - ((root(x => index_reached(x, ph + 0.04546451000000001*temperature + Math.log((1/50040)*alkalinity)/Math.log(10) + Math.log((1/40078)*calcium)/Math.log(10) - 32.66939*Math.log(temperature + 273.15)/Math.log(10) + 76.4380309065 + 2312.471/(temperature + 273.15) - 563713.9/Math.pow(temperature + 273.15, 2), 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5), dissolved_solids, index_limit), 0, 0.999) >= 0.99) ? (1) : (0));
  const x1 = 1/Math.log(10);
  const x2 = temperature + 273.15;
  const x3 = Math.pow(x2, -2);
  const x4 = 1/x2;
  const x5 = 32.66939*x1;
  const x6 = temperature + 389.15;
  const x7 = 1/x6;
  const x8 = 60954*x7 - 68.937;
  const x9 = Math.pow(x2*x8, -1.5);
  const x10 = 1820000.0*x9;
  const x11 = 1 - root(x => index_reached(x, ph + 0.04546451000000001*temperature + x1*Math.log((1/50040)*alkalinity) + x1*Math.log((1/40078)*calcium) - 563713.9*x3 + 2312.471*x4 - x5*Math.log(x2) + 76.4380309065, x10, dissolved_solids, index_limit), 0, 0.999);
  const x12 = 1/x11;
  const x13 = dissolved_solids/Math.pow(x11, 2);
  const x14 = dissolved_solids*x12;
  const x15 = Math.sqrt(x14);
  const x16 = 0.005*x15 + 1;
  const x17 = 1.25e-05/Math.pow(x16, 2);
  const x18 = 1/x16;
  const x19 = 9100000.0*x9;
  const x20 = 1/(3*x1*x12 - x19*(0.0025*x12*x15*x18 - x13*x17 - 7.5e-06*x13));
  const x21 = x0*x20;
  const x22 = x1*x21;
  return [-x21, x0*(x10*x20*x4*(-3.7500000000000003e-05*x14 + 0.025*x15*x18)*(91431.0*x2/Math.pow(x6, 2) - 91431.0*x7 + 103.40549999999999)/x8 - x20*(-2312.471*x3 - x4*x5 + 0.04546451000000001 + 1127427.8/Math.pow(x2, 3))), -x22/calcium, -x22/alkalinity, x19*x21*(-x12*x17 - 7.5e-06*x12 + 0.0025*x15*x18/dissolved_solids)];
}

/** Density of air-free water at atmospheric pressure. */
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

/** Dynamic viscosity of water at atmospheric pressure. */
export function water_viscosity(temperature) {
  const x0 = (1/300)*temperature + 0.9105;
  return 0.061131000000000005*Math.pow(x0, -19.6) + 0.51145*Math.pow(x0, -7.7) + 0.28068*Math.pow(x0, -1.9) + 0.00045903000000000003/Math.pow(x0, 40);
}

function water_viscosity_slopes(temperature) {
  const x0 = (1/300)*temperature + 0.9105;
  return [-0.003993892000000001*Math.pow(x0, -20.6) - 0.013127216666666667*Math.pow(x0, -8.7) - 0.0017776399999999998*Math.pow(x0, -2.9) - 6.1204e-05/Math.pow(x0, 41)];
}

/** Mean velocity in a round bore that runs full. */
export function flow_velocity(flow, bore) {
  return (200/3)*flow/(Math.PI*Math.pow(bore, 2));
}

function flow_velocity_slopes(flow, bore) {
  const x0 = 1/Math.PI;
  return [(200/3)*x0/Math.pow(bore, 2), -400/3*flow*x0/Math.pow(bore, 3)];
}

/** Ratio of inertia to friction in a bore: below 2300 laminar, above 4000 turbulent. */
export function reynolds_number(flow, bore, temperature) {
  return bore*flow_velocity(flow, bore)*water_density(temperature)/water_viscosity(temperature);
}

function reynolds_number_slopes(flow, bore, temperature) {
  const x0 = water_viscosity(temperature);
  const x1 = 1/x0;
  const x2 = water_density(temperature);
  const x3 = x1*x2;
  const x4 = bore*x3;
  const x5 = flow_velocity(flow, bore);
  return [x4*flow_velocity_slopes(flow, bore)[0], x3*x5 + x4*flow_velocity_slopes(flow, bore)[1], bore*x1*x5*water_density_slopes(temperature)[0] - bore*x2*x5*water_viscosity_slopes(temperature)[0]/Math.pow(x0, 2)];
}

/** How many volumes must flow through a mixed tank until its content is down to the limit. */
export function washout_volumes(start, limit, inflow) {
  return ((limit >= start) ? (0) : (Math.log((-inflow + start)/(-inflow + limit))));
}

function washout_volumes_slopes(start, limit, inflow) {
  return [((limit >= start) ? (0) : (1/(-inflow + start))), ((limit >= start) ? (0) : (-1/(-inflow + limit))), ((limit >= start) ? (0) : ((-inflow + limit)*(-1/(-inflow + limit) + (-inflow + start)/Math.pow(-inflow + limit, 2))/(-inflow + start)))];
}

/** How long a mixed volume must be flushed until its content is down to the limit. */
export function washout_time(volume, flow, start, limit, inflow) {
  return volume*washout_volumes(start, limit, inflow)/flow;
}

function washout_time_slopes(volume, flow, start, limit, inflow) {
  const x0 = 1/flow;
  const x1 = washout_volumes(start, limit, inflow);
  const x2 = volume*x0;
  return [x0*x1, -volume*x1/Math.pow(flow, 2), x2*washout_volumes_slopes(start, limit, inflow)[0], x2*washout_volumes_slopes(start, limit, inflow)[1], x2*washout_volumes_slopes(start, limit, inflow)[2]];
}

/** Content of a mixed volume after flushing for a time. */
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

/** Pressure surge when moving water is stopped at once. */
export function water_hammer_pressure(velocity_change, outer_diameter, wall, youngs_modulus, temperature) {
  const x0 = water_density(temperature);
  return (1/1000)*Math.sqrt(10)*velocity_change*x0*Math.sqrt(1/(x0*((4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1) + (1/10000)*(outer_diameter - 2*wall)/(wall*youngs_modulus))));
}

function water_hammer_pressure_slopes(velocity_change, outer_diameter, wall, youngs_modulus, temperature) {
  const x0 = water_density(temperature);
  const x1 = Math.sqrt(10);
  const x2 = 1/x0;
  const x3 = 1/wall;
  const x4 = 1/youngs_modulus;
  const x5 = x3*x4;
  const x6 = outer_diameter - 2*wall;
  const x7 = (1/10000)*x6;
  const x8 = 0.01967348*temperature + 1;
  const x9 = 1/x8;
  const x10 = Math.pow(temperature, 2);
  const x11 = Math.pow(temperature, 3);
  const x12 = Math.pow(temperature, 4);
  const x13 = 4.1041099999999996e-16*Math.pow(temperature, 5) + 6.163813e-07*temperature + 1.4591869999999999e-09*x10 + 2.008438e-11*x11 - 5.847726999999999e-14*x12 + 5.0884959999999995e-05;
  const x14 = x13*x9 + x5*x7;
  const x15 = 1/x14;
  const x16 = Math.sqrt(x15*x2);
  const x17 = (1/1000)*x1*x16;
  const x18 = velocity_change*x0*x1*x15*x16;
  const x19 = (1/20000000)*x18;
  const x20 = water_density_slopes(temperature)[0];
  const x21 = velocity_change*x17;
  const x22 = Math.pow(x0, 2);
  return [x0*x17, -x19*x5, (1/2000)*x18*((1/5000)*x5 + x4*x7/Math.pow(wall, 2)), x19*x3*x6/Math.pow(youngs_modulus, 2), x14*x21*x22*(-1/2*x15*x20/x22 + (1/2)*x2*(0.01967348*x13/Math.pow(x8, 2) - x9*(2.9183739999999997e-09*temperature + 6.025314e-11*x10 - 2.3390907999999997e-13*x11 + 2.0520549999999998e-15*x12 + 6.163813e-07))/Math.pow(x14, 2)) + x20*x21];
}

/** Change of pressure per kelvin in a closed section that is full of water, without air. */
export function thermal_pressure_drift(outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) {
  const x0 = Math.pow(temperature, 2);
  const x1 = Math.pow(temperature, 3);
  const x2 = Math.pow(temperature, 4);
  const x3 = Math.pow(temperature, 5);
  return (-3*expansion_coefficient - (-0.0159740802*temperature - 0.000138511383*x0 + 4.2225208e-07*x1 - 1.40271265e-09*x2 + 16.945176)/(16.945176*temperature - 0.0079870401*x0 - 4.6170461e-05*x1 + 1.0556302e-07*x2 - 2.8054253e-10*x3 + 999.83952) + 0.01687985/(0.01687985*temperature + 1))/((6.163813e-07*temperature + 1.4591869999999999e-09*x0 + 2.008438e-11*x1 - 5.847726999999999e-14*x2 + 4.1041099999999996e-16*x3 + 5.0884959999999995e-05)/(0.01967348*temperature + 1) + (1/10000)*(1.25 - poisson_ratio)*(outer_diameter - 2*wall)/(wall*youngs_modulus));
}

function thermal_pressure_drift_slopes(outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) {
  const x0 = 1/wall;
  const x1 = 1/youngs_modulus;
  const x2 = 1.25 - poisson_ratio;
  const x3 = x1*x2;
  const x4 = x0*x3;
  const x5 = (1/10000)*outer_diameter - 1/5000*wall;
  const x6 = 0.01967348*temperature + 1;
  const x7 = 1/x6;
  const x8 = Math.pow(temperature, 2);
  const x9 = Math.pow(temperature, 3);
  const x10 = Math.pow(temperature, 4);
  const x11 = Math.pow(temperature, 5);
  const x12 = 6.163813e-07*temperature - 5.847726999999999e-14*x10 + 4.1041099999999996e-16*x11 + 1.4591869999999999e-09*x8 + 2.008438e-11*x9 + 5.0884959999999995e-05;
  const x13 = x12*x7 + x4*x5;
  const x14 = 0.01687985*temperature + 1;
  const x15 = 0.0159740802*temperature + 1.40271265e-09*x10 + 0.000138511383*x8 - 4.2225208e-07*x9 - 16.945176;
  const x16 = -x15;
  const x17 = 16.945176*temperature + 1.0556302e-07*x10 - 2.8054253e-10*x11 - 0.0079870401*x8 - 4.6170461e-05*x9 + 999.83952;
  const x18 = 1/x17;
  const x19 = (-3*expansion_coefficient - x16*x18 + 0.01687985/x14)/Math.pow(x13, 2);
  const x20 = x0*x19*x5;
  const x21 = 1/x13;
  return [-1/10000*x19*x4, x19*((1/5000)*x4 + x3*x5/Math.pow(wall, 2)), x2*x20/Math.pow(youngs_modulus, 2), x1*x20, -3*x21, x19*(0.01967348*x12/Math.pow(x6, 2) - x7*(2.9183739999999997e-09*temperature + 2.0520549999999998e-15*x10 + 6.025314e-11*x8 - 2.3390907999999997e-13*x9 + 6.163813e-07)) + x21*(-x15*x16/Math.pow(x17, 2) - x18*(-0.000277022766*temperature + 1.26675624e-06*x8 - 5.6108506e-09*x9 - 0.0159740802) - 0.00028492933602249993/Math.pow(x14, 2))];
}

/** Flow that leaks out of a closed section, from its pressure drop less what cooling explains. */
export function leak_rate(volume, pressure_drop, duration, temperature_change, air_volume, absolute_pressure, outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) {
  const x0 = Math.pow(temperature, 2);
  const x1 = Math.pow(temperature, 3);
  const x2 = Math.pow(temperature, 4);
  const x3 = Math.pow(temperature, 5);
  const x4 = 1000*volume;
  return (pressure_drop*(x4*((6.163813e-07*temperature + 1.4591869999999999e-09*x0 + 2.008438e-11*x1 - 5.847726999999999e-14*x2 + 4.1041099999999996e-16*x3 + 5.0884959999999995e-05)/(0.01967348*temperature + 1) + (1/10000)*(1.25 - poisson_ratio)*(outer_diameter - 2*wall)/(wall*youngs_modulus)) + air_volume/absolute_pressure) + temperature_change*x4*(-3*expansion_coefficient - (-0.0159740802*temperature - 0.000138511383*x0 + 4.2225208e-07*x1 - 1.40271265e-09*x2 + 16.945176)/(16.945176*temperature - 0.0079870401*x0 - 4.6170461e-05*x1 + 1.0556302e-07*x2 - 2.8054253e-10*x3 + 999.83952) + 0.01687985/(0.01687985*temperature + 1)))/duration;
}

function leak_rate_slopes(volume, pressure_drop, duration, temperature_change, air_volume, absolute_pressure, outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) {
  const x0 = 1/duration;
  const x1 = outer_diameter - 2*wall;
  const x2 = 1/wall;
  const x3 = 1/youngs_modulus;
  const x4 = 1.25 - poisson_ratio;
  const x5 = x3*x4;
  const x6 = x2*x5;
  const x7 = x1*x6;
  const x8 = 0.01967348*temperature + 1;
  const x9 = 1/x8;
  const x10 = Math.pow(temperature, 2);
  const x11 = Math.pow(temperature, 3);
  const x12 = Math.pow(temperature, 4);
  const x13 = Math.pow(temperature, 5);
  const x14 = 6.163813e-07*temperature + 1.4591869999999999e-09*x10 + 2.008438e-11*x11 - 5.847726999999999e-14*x12 + 4.1041099999999996e-16*x13 + 5.0884959999999995e-05;
  const x15 = x14*x9;
  const x16 = 0.01687985*temperature + 1;
  const x17 = 0.0159740802*temperature + 0.000138511383*x10 - 4.2225208e-07*x11 + 1.40271265e-09*x12 - 16.945176;
  const x18 = -x17;
  const x19 = 16.945176*temperature - 0.0079870401*x10 - 4.6170461e-05*x11 + 1.0556302e-07*x12 - 2.8054253e-10*x13 + 999.83952;
  const x20 = 1/x19;
  const x21 = -3000*expansion_coefficient - 1000*x18*x20 + 16.879849999999998/x16;
  const x22 = temperature_change*x21;
  const x23 = 1/absolute_pressure;
  const x24 = 1000*volume;
  const x25 = air_volume*x23 + x24*(x15 + (1/10000)*x7);
  const x26 = volume*x0;
  const x27 = pressure_drop*x0;
  const x28 = (1/10)*volume*x27;
  const x29 = x1*x2*x28;
  return [x0*(pressure_drop*(1000*x15 + (1/10)*x7) + x22), x0*x25, -(pressure_drop*x25 + volume*x22)/Math.pow(duration, 2), x21*x26, x23*x27, -air_volume*x27/Math.pow(absolute_pressure, 2), x28*x6, x24*x27*(-1/5000*x6 - 1/10000*x1*x5/Math.pow(wall, 2)), -x29*x4/Math.pow(youngs_modulus, 2), -x29*x3, -3000*temperature_change*x26, x0*(pressure_drop*x24*(-0.01967348*x14/Math.pow(x8, 2) + x9*(2.9183739999999997e-09*temperature + 6.025314e-11*x10 - 2.3390907999999997e-13*x11 + 2.0520549999999998e-15*x12 + 6.163813e-07)) + temperature_change*x24*(-x17*x18/Math.pow(x19, 2) - x20*(-0.000277022766*temperature + 1.26675624e-06*x10 - 5.6108506e-09*x11 - 0.0159740802) - 0.00028492933602249993/Math.pow(x16, 2)))];
}

/** Negative logarithm of water's ion product, molal scale, saturated liquid. */
export function water_ion_product(temperature) {
  const x0 = 1/Math.log(10);
  const x1 = temperature + 273.15;
  const x2 = Math.pow(x1, -2);
  const x3 = 1/x1;
  const x4 = water_density(temperature);
  const x5 = Math.exp(-241.451*x2*Math.pow(x4, 2/3) + 8681.05*x3);
  const x6 = 0.0004955277117174774*x4*x5 + 1;
  return -12*x0*Math.log(x6) - 8.033071316801845*x0 - 67707.93*x2 + 48251.33*x3 + 5.946332540609729e-06*Math.pow(x4, 2)*x5*(-51.4471*x3 - 0.00046992000000000003*x4 + 0.813876)/x6 + 0.61415 + 10102100/Math.pow(x1, 3);
}

function water_ion_product_slopes(temperature) {
  const x0 = temperature + 273.15;
  const x1 = Math.pow(x0, -3);
  const x2 = Math.pow(x0, -2);
  const x3 = water_density_slopes(temperature)[0];
  const x4 = 1/x0;
  const x5 = water_density(temperature);
  const x6 = Math.pow(x5, 2/3);
  const x7 = Math.exp(-241.451*x2*x6 + 8681.05*x4);
  const x8 = 0.0004955277117174774*x7;
  const x9 = x5*x8;
  const x10 = x9 + 1;
  const x11 = 1/x10;
  const x12 = x11*x7;
  const x13 = 5.946332540609729e-06*Math.pow(x5, 2);
  const x14 = x12*x13;
  const x15 = -51.4471*x4 - 0.00046992000000000003*x5 + 0.813876;
  const x16 = 482.902*x1*x6 - 160.96733333333333*x2*x3/Math.cbrt(x5) - 8681.05*x2;
  const x17 = x16*x9 + x3*x8;
  return [135415.86*x1 - 12*x11*x17/Math.log(10) + 1.1892665081219458e-05*x12*x15*x3*x5 + x14*x15*x16 + x14*(51.4471*x2 - 0.00046992000000000003*x3) - 48251.33*x2 - x13*x15*x17*x7/Math.pow(x10, 2) - 30306300/Math.pow(x0, 4)];
}

/** Conductivity of water in which nothing is dissolved. */
export function pure_water_conductivity(temperature) {
  const x0 = (1/100)*temperature - 1/4;
  return 0.014710918701638048*Math.exp(0.052757*temperature + 0.7819*Math.pow(x0, 5) - 1.7388*Math.pow(x0, 4) + 2.1772*Math.pow(x0, 3) - 3.3218*Math.pow(x0, 2));
}

function pure_water_conductivity_slopes(temperature) {
  const x0 = (1/100)*temperature - 1/4;
  const x1 = Math.pow(x0, 2);
  const x2 = Math.pow(x0, 3);
  const x3 = Math.pow(x0, 4);
  return [0.014710918701638048*(-0.00066436*temperature + 0.065316*x1 - 0.069552*x2 + 0.039095000000000005*x3 + 0.069366)*Math.exp(0.052757*temperature + 0.7819*Math.pow(x0, 5) - 3.3218*x1 + 2.1772*x2 - 1.7388*x3)];
}

/** Resistivity of water in which nothing is dissolved: no real water is above it by more than 0.6 %. */
export function pure_water_resistivity(temperature) {
  return 1/pure_water_conductivity(temperature);
}

function pure_water_resistivity_slopes(temperature) {
  return [-pure_water_conductivity_slopes(temperature)[0]/Math.pow(pure_water_conductivity(temperature), 2)];
}

/** Conductivity of high-purity water at 25 °C: pure-water part and salt part, each compensated. */
export function conductivity_at_25(conductivity, temperature) {
  return (conductivity - pure_water_conductivity(temperature))/(0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49) + 0.05501;
}

function conductivity_at_25_slopes(conductivity, temperature) {
  const x0 = 0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49;
  const x1 = 1/x0;
  return [x1, -x1*pure_water_conductivity_slopes(temperature)[0] + (conductivity - pure_water_conductivity(temperature))*(-9.4e-05*temperature - 0.018050000000000004)/Math.pow(x0, 2)];
}

/** Resistivity of high-purity water at 25 °C: pure-water part and salt part, each compensated. */
export function resistivity_at_25(resistivity, temperature) {
  return 1/((-pure_water_conductivity(temperature) + 1/resistivity)/(0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49) + 0.05501);
}

function resistivity_at_25_slopes(resistivity, temperature) {
  const x0 = 0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49;
  const x1 = 1/x0;
  const x2 = -pure_water_conductivity(temperature) + 1/resistivity;
  const x3 = Math.pow(x1*x2 + 0.05501, -2);
  return [x1*x3/Math.pow(resistivity, 2), x3*(x1*pure_water_conductivity_slopes(temperature)[0] - x2*(-9.4e-05*temperature - 0.018050000000000004)/Math.pow(x0, 2))];
}

/** Conductivity at the water's temperature, from what a meter with linear compensation shows. */
export function uncompensated_conductivity(conductivity, temperature, meter_mode, coefficient) {
  return ((meter_mode == 0) ? (conductivity*(coefficient*(temperature - 25) + 1)) : (conductivity));
}

function uncompensated_conductivity_slopes(conductivity, temperature, meter_mode, coefficient) {
  return [((meter_mode == 0) ? (coefficient*(temperature - 25) + 1) : (1)), ((meter_mode == 0) ? (coefficient*conductivity) : (0)), ((meter_mode == 0) ? (conductivity*(temperature - 25)) : (0))];
}

/** Conductivity of natural water at 25 °C, by the standard's table of factors. */
export function natural_conductivity_at_25(conductivity, temperature) {
  return conductivity*linear(tables.iso_7888_1985_factor, temperature);
}

function natural_conductivity_at_25_slopes(conductivity, temperature) {
  return [linear(tables.iso_7888_1985_factor, temperature), conductivity*linearSlope(tables.iso_7888_1985_factor, temperature)];
}

/** Conductivity at 25 °C of pure water that holds carbon dioxide and nothing else. */
export function carbon_dioxide_conductivity(carbon_dioxide) {
  const x0 = root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(1.0102959951581649e-11*carbon_dioxide + 1.0071274960682433e-14));
  return 4.4958171784538336e-07*carbon_dioxide/(x0 + 4.4463126746910836e-07) + 349650.0*x0 + 1.999148079695463e-09/x0;
}

function carbon_dioxide_conductivity_slopes(carbon_dioxide) {
  const x0 = 1.0102959951581649e-11*carbon_dioxide;
  const x1 = root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(x0 + 1.0071274960682433e-14));
  const x2 = x1 + 4.4463126746910836e-07;
  const x3 = 1/x2;
  const x4 = Math.pow(x1, -2);
  const x5 = 1/(x0/Math.pow(x2, 2) + 1.0071274960682433e-14*x4 + 1);
  return [-4.542106090355189e-18*carbon_dioxide*x5/Math.pow(x2, 3) - 2.019731298644462e-20*x3*x4*x5 + 3.5324999470705235e-06*x3*x5 + 4.4958171784538336e-07*x3];
}

/** pH at 25 °C of pure water that holds carbon dioxide and nothing else. */
export function carbon_dioxide_ph(carbon_dioxide) {
  return -Math.log(root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(1.0102959951581649e-11*carbon_dioxide + 1.0071274960682433e-14)))/Math.log(10);
}

function carbon_dioxide_ph_slopes(carbon_dioxide) {
  const x0 = 1.0102959951581649e-11*carbon_dioxide;
  const x1 = root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(x0 + 1.0071274960682433e-14));
  const x2 = x1 + 4.4463126746910836e-07;
  return [-1.0102959951581649e-11/(x1*x2*(x0/Math.pow(x2, 2) + 1 + 1.0071274960682433e-14/Math.pow(x1, 2))*Math.log(10))];
}

/** The date that is so many days after another one. */
export function date_after(start, days) {
  return start + completed(days);
}

/** The same day of the month so many calendar months later. */
export function date_after_months(start, months) {
  const x0 = completed((1/146097)*start + 719468/146097);
  const x1 = completed((1/365)*start - 146097/365*x0 - 1/365*completed((1/146096)*start - 146097/146096*x0 + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*x0 + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*x0 + 179867/365) + 719468/365);
  const x2 = completed((5/153)*start - 81165/17*x0 - 1825/153*x1 + (5/153)*completed((1/100)*x1) - 5/153*completed((1/4)*x1) + 1199114/51);
  const x3 = 400*x0 + x1 + (1/12)*x2;
  const x4 = completed(x3);
  const x5 = (1/12)*months + x3;
  const x6 = completed(x5);
  const x7 = 146880*x0 + (1836/5)*x1 + (153/5)*x2;
  const x8 = x7 + 2/5;
  const x9 = (153/5)*months;
  const x10 = completed(x5 + 1/12);
  return smaller(start - 365*x4 + 365*x6 - completed((1/400)*x4) + completed((1/100)*x4) - completed((1/4)*x4) + completed((1/400)*x6) - completed((1/100)*x6) + completed((1/4)*x6) - completed(-1836/5*x4 + x8) + completed(-1836/5*x6 + x8 + x9), 365*x10 + completed((1/400)*x10) - completed((1/100)*x10) + completed((1/4)*x10) + completed(-1836/5*x10 + x7 + x9 + 31) - 719469);
}

/** The earliest of up to eight dates. Exact by definition. */
export function earliest_date(first, second, third, fourth, fifth, sixth, seventh, eighth, first_given, second_given, third_given, fourth_given, fifth_given, sixth_given, seventh_given, eighth_given) {
  return smaller(smaller(smaller(smaller(smaller(smaller(smaller(((first_given != 0) ? (first) : (1000000)), ((second_given != 0) ? (second) : (1000000))), ((third_given != 0) ? (third) : (1000000))), ((fourth_given != 0) ? (fourth) : (1000000))), ((fifth_given != 0) ? (fifth) : (1000000))), ((sixth_given != 0) ? (sixth) : (1000000))), ((seventh_given != 0) ? (seventh) : (1000000))), ((eighth_given != 0) ? (eighth) : (1000000)));
}

/** Standard uncertainty of a reading, from its instrument's specification. */
export function standard_uncertainty(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) {
  return Math.sqrt((1/4)*Math.pow(calibration_uncertainty, 2) + (1/12)*Math.pow(resolution, 2) + (1/3)*Math.pow(accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution, 2));
}

function standard_uncertainty_slopes(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) {
  const x0 = accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution;
  return [(1/3)*accuracy_of_reading*x0*Math.sign(reading)/Math.sqrt((1/4)*Math.pow(calibration_uncertainty, 2) + (1/12)*Math.pow(resolution, 2) + (1/3)*Math.pow(x0, 2))];
}

/** The part of a reading's standard uncertainty that all readings with this instrument share. */
export function instrument_uncertainty(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) {
  return Math.sqrt((1/4)*Math.pow(calibration_uncertainty, 2) + (1/3)*Math.pow(accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution, 2));
}

function instrument_uncertainty_slopes(reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) {
  const x0 = accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution;
  return [(1/3)*accuracy_of_reading*x0*Math.sign(reading)/Math.sqrt((1/4)*Math.pow(calibration_uncertainty, 2) + (1/3)*Math.pow(x0, 2))];
}

/** Standard uncertainty from the step of the display: half a step, rectangular. */
export function resolution_uncertainty(resolution) {
  return (1/6)*Math.sqrt(3)*resolution;
}

/** Factor from standard to expanded uncertainty for a coverage of 95.45 %. */
export function coverage_factor(degrees_of_freedom) {
  return stepDown(tables.jcgm_100_2008_coverage_factor, degrees_of_freedom);
}

function coverage_factor_slopes(degrees_of_freedom) {
  return [0];
}

/** Effective degrees of freedom of a combined standard uncertainty (Welch-Satterthwaite). */
export function effective_degrees_of_freedom(uncertainties, degrees) {
  return Math.pow(total(square_sum, uncertainties), 2)/total(fourth_power_sum, uncertainties, degrees);
}

function effective_degrees_of_freedom_slopes(uncertainties, degrees) {
  const x0 = total(square_sum, uncertainties);
  const x1 = total(fourth_power_sum, uncertainties, degrees);
  const x2 = Math.pow(x0, 2)/Math.pow(x1, 2);
  return [2*x0*total(square_sum_u, uncertainties)/x1 - x2*total(fourth_power_sum_u, uncertainties, degrees), -x2*total(fourth_power_sum_nu, uncertainties, degrees)];
}

/** The reading that just passes when the guard band is the expanded uncertainty (k = 2). */
export function acceptance_limit(limit, side, accuracy_of_reading, accuracy_absolute) {
  return ((side == 0) ? ((-2/3*Math.sqrt(3)*accuracy_absolute + limit)/((2/3)*Math.sqrt(3)*accuracy_of_reading + 1)) : (((2/3)*Math.sqrt(3)*accuracy_absolute + limit)/(-2/3*Math.sqrt(3)*accuracy_of_reading + 1)));
}

function acceptance_limit_slopes(limit, side, accuracy_of_reading, accuracy_absolute) {
  return [((side == 0) ? (1/((2/3)*Math.sqrt(3)*accuracy_of_reading + 1)) : (1/(-2/3*Math.sqrt(3)*accuracy_of_reading + 1)))];
}

/** Probability that the true value is inside the limits, for a normal or Student's distribution. */
export function conformance_probability(reading, standard_uncertainty, lower, upper, degrees_of_freedom, lower_given, upper_given, degrees_of_freedom_given) {
  return -((lower_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (student((lower - reading)/standard_uncertainty, degrees_of_freedom)) : (normal_below((lower - reading)/standard_uncertainty)))) : (0)) + ((upper_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (student((upper - reading)/standard_uncertainty, degrees_of_freedom)) : (normal_below((upper - reading)/standard_uncertainty)))) : (1));
}

function conformance_probability_slopes(reading, standard_uncertainty, lower, upper, degrees_of_freedom, lower_given, upper_given, degrees_of_freedom_given) {
  return [-((lower_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (-studentDensity((lower - reading)/standard_uncertainty, degrees_of_freedom)/standard_uncertainty) : (-1/2*Math.sqrt(2)*Math.exp(-1/2*Math.pow(lower - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*standard_uncertainty)))) : (0)) + ((upper_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (-studentDensity((upper - reading)/standard_uncertainty, degrees_of_freedom)/standard_uncertainty) : (-1/2*Math.sqrt(2)*Math.exp(-1/2*Math.pow(upper - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*standard_uncertainty)))) : (0)), -((lower_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (-(lower - reading)*studentDensity((lower - reading)/standard_uncertainty, degrees_of_freedom)/Math.pow(standard_uncertainty, 2)) : (-1/2*Math.sqrt(2)*(lower - reading)*Math.exp(-1/2*Math.pow(lower - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*Math.pow(standard_uncertainty, 2))))) : (0)) + ((upper_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (-(upper - reading)*studentDensity((upper - reading)/standard_uncertainty, degrees_of_freedom)/Math.pow(standard_uncertainty, 2)) : (-1/2*Math.sqrt(2)*(upper - reading)*Math.exp(-1/2*Math.pow(upper - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*Math.pow(standard_uncertainty, 2))))) : (0)), -((lower_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (studentDensity((lower - reading)/standard_uncertainty, degrees_of_freedom)/standard_uncertainty) : ((1/2)*Math.sqrt(2)*Math.exp(-1/2*Math.pow(lower - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*standard_uncertainty)))) : (0)), ((upper_given != 0) ? (((degrees_of_freedom <= 1000 && degrees_of_freedom_given != 0) ? (studentDensity((upper - reading)/standard_uncertainty, degrees_of_freedom)/standard_uncertainty) : ((1/2)*Math.sqrt(2)*Math.exp(-1/2*Math.pow(upper - reading, 2)/Math.pow(standard_uncertainty, 2))/(Math.sqrt(Math.PI)*standard_uncertainty)))) : (0))];
}

/** What a reading with its uncertainty says about the limits. */
export function guarded_verdict(reading, expanded_uncertainty, lower, upper, guard, rule, lower_given, upper_given) {
  return (((lower_given != 0 && upper_given != 0 || larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) < -1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) && lower_given != 0 && upper_given != 0) && (lower - upper > 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) && lower_given != 0 && upper_given != 0 || lower_given == 0 || upper_given == 0)) ? (5) : ((((((rule != 0 && rule != 1 || expanded_uncertainty*guard > 0.5000000005*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) && lower_given != 0 && upper_given != 0) && (1.000000001*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) < 0 && lower_given != 0 && upper_given != 0 || rule == 0 || rule == 1) || lower_given != 0 && upper_given != 0) && (-lower + upper + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) < 0 && lower_given != 0 && upper_given != 0 || lower_given == 0 || upper_given == 0) || (rule == 0 || rule == 1) && lower_given != 0 && upper_given != 0) && (rule != 0 && rule != 1 || expanded_uncertainty*guard > -1/2*lower + (1/2)*upper + 5e-10*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) && lower_given != 0 && upper_given != 0 || lower_given == 0 || upper_given == 0)) ? (4) : (((rule == 0) ? (((((((upper_given == 0 || larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && (((lower_given == 0 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && ((rule != 0 && rule != 1 || expanded_uncertainty*guard <= -larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) && (rule == 0 || rule == 1 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || lower_given != 0) || (rule == 0 || rule == 1) && lower_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || expanded_uncertainty*guard <= -larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || upper_given != 0) || (rule == 0 || rule == 1) && upper_given != 0) && (rule != 0 && rule != 1 || upper_given == 0 || expanded_uncertainty*guard <= -larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || lower_given != 0 && upper_given != 0) && (lower_given == 0 || upper_given == 0 || larger(-upper + reading, lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || (rule == 0 || rule == 1) && lower_given != 0 && upper_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || upper_given == 0 || expanded_uncertainty*guard <= -larger(-upper + reading, lower - reading) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))))) ? (0) : (((((upper_given == 0 || larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && ((lower_given == 0 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && (larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0 || lower_given != 0) || upper_given != 0) || lower_given != 0 && upper_given != 0) && (lower_given == 0 || upper_given == 0 || larger(-upper + reading, lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0)) ? (1) : (((((((upper_given == 0 || larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && (((lower_given == 0 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && ((rule != 0 && rule != 1 || expanded_uncertainty*guard >= larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) && (rule == 0 || rule == 1 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || lower_given != 0) || (rule == 0 || rule == 1) && lower_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || expanded_uncertainty*guard >= larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || upper_given != 0) || (rule == 0 || rule == 1) && upper_given != 0) && (rule != 0 && rule != 1 || upper_given == 0 || expanded_uncertainty*guard >= larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || lower_given != 0 && upper_given != 0) && (lower_given == 0 || upper_given == 0 || larger(-upper + reading, lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || (rule == 0 || rule == 1) && lower_given != 0 && upper_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || upper_given == 0 || expanded_uncertainty*guard >= larger(-upper + reading, lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))))) ? (2) : (3))))))) : (((((((upper_given == 0 || larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && (((lower_given == 0 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) && ((rule != 0 && rule != 1 || expanded_uncertainty*guard <= -larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) && (rule == 0 || rule == 1 || larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || lower_given != 0) || (rule == 0 || rule == 1) && lower_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || expanded_uncertainty*guard <= -larger(-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), lower - reading) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || upper_given != 0) || (rule == 0 || rule == 1) && upper_given != 0) && (rule != 0 && rule != 1 || upper_given == 0 || expanded_uncertainty*guard <= -larger(-upper + reading, -larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))) || lower_given != 0 && upper_given != 0) && (lower_given == 0 || upper_given == 0 || larger(-upper + reading, lower - reading) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))) <= 0) || (rule == 0 || rule == 1) && lower_given != 0 && upper_given != 0) && (rule != 0 && rule != 1 || lower_given == 0 || upper_given == 0 || expanded_uncertainty*guard <= -larger(-upper + reading, lower - reading) + 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))))) ? (0) : (3))))))));
}

/** Highest resistance that a sound copper conductor of this size and length may have. */
export function conductor_resistance(cross_section, length, conductor_class, temperature, temperature_form) {
  return (1/1000)*length*((temperature_form == 0) ? (0.00393*temperature + 0.9214) : ((1/250)*temperature + 23/25))*((conductor_class == 0 || conductor_class == 1) ? (exact(tables.iec_60228_2004_fixed, cross_section)) : (exact(tables.iec_60228_2004_flexible, cross_section)));
}

function conductor_resistance_slopes(cross_section, length, conductor_class, temperature, temperature_form) {
  const x0 = (1/1000)*((conductor_class == 0 || conductor_class == 1) ? (exact(tables.iec_60228_2004_fixed, cross_section)) : (exact(tables.iec_60228_2004_flexible, cross_section)));
  return [x0*((temperature_form == 0) ? (0.00393*temperature + 0.9214) : ((1/250)*temperature + 23/25)), length*x0*((temperature_form == 0) ? (0.00393) : (1/250))];
}

/** Resistance of a copper conductor at another temperature. */
export function resistance_at_temperature(resistance, temperature, target_temperature, temperature_form) {
  return resistance*((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25)));
}

function resistance_at_temperature_slopes(resistance, temperature, target_temperature, temperature_form) {
  return [((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25))), resistance*((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (-0.00393/Math.pow(0.00393*temperature + 0.9214, 2)) : (-(1/250)/Math.pow((1/250)*temperature + 23/25, 2))), resistance*((temperature_form == 0) ? (0.00393) : (1/250))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25)))];
}

/** Highest acceptable reading of protective earth continuity, from the conductor's own resistance. */
export function continuity_limit(cross_section, length, conductor_class, temperature, temperature_form, allowance) {
  return allowance + conductor_resistance(cross_section, length, conductor_class, temperature, temperature_form);
}

function continuity_limit_slopes(cross_section, length, conductor_class, temperature, temperature_form, allowance) {
  return [conductor_resistance_slopes(cross_section, length, conductor_class, temperature, temperature_form)[0], conductor_resistance_slopes(cross_section, length, conductor_class, temperature, temperature_form)[1]];
}

/** Highest bonding resistance of a permanently connected unit: 10 V at twice the breaker's rating. */
export function permanent_bonding_limit(breaker_rating) {
  return 5/breaker_rating;
}

function permanent_bonding_limit_slopes(breaker_rating) {
  return [-5/Math.pow(breaker_rating, 2)];
}

/** Highest protective-conductor resistance of a unit with a cord: 0.3 Ω, more for long cords. */
export function cord_bonding_limit(length, step_rule) {
  return smaller(1, 0.1*((step_rule == 0) ? (started(0.13333333333333333*larger(0, length - 5))) : (completed(0.13333333333333333*larger(0, length - 5)))) + 0.3);
}

function cord_bonding_limit_slopes(length, step_rule) {
  return [0];
}

/** Resistance of several resistances in parallel. Exact by definition. */
export function parallel_resistance(resistances) {
  return 1/total(conductance_sum, resistances);
}

function parallel_resistance_slopes(resistances) {
  return [-total(conductance_sum_resistance, resistances)/Math.pow(total(conductance_sum, resistances), 2)];
}

/** Lowest insulation resistance between live conductors and earth. */
export function insulation_resistance_minimum(nominal_voltage, circuit) {
  return ((circuit == 0) ? (1) : (0.5));
}

/** Current at which a circuit-breaker surely trips at once: the upper end of its band. */
export function breaker_trip_current(breaker_type, rating) {
  return rating*((breaker_type == 0) ? (5) : (breaker_type == 1) ? (10) : (20));
}

/** Highest earth fault loop impedance at which the protective device still operates in time. */
export function loop_impedance_maximum(voltage, trip_current, rule) {
  return voltage*((rule == 0) ? (0.95) : (rule == 1) ? (0.76) : (rule == 2) ? (2/3) : (rule == 3) ? (0.6203473945409429) : (1))/trip_current;
}

function loop_impedance_maximum_slopes(voltage, trip_current, rule) {
  return [((rule == 0) ? (0.95) : (rule == 1) ? (0.76) : (rule == 2) ? (2/3) : (rule == 3) ? (0.6203473945409429) : (1))/trip_current, -voltage*((rule == 0) ? (0.95) : (rule == 1) ? (0.76) : (rule == 2) ? (2/3) : (rule == 3) ? (0.6203473945409429) : (1))/Math.pow(trip_current, 2)];
}

/** Earth fault loop impedance with the circuit's conductors at operating temperature. */
export function loop_impedance_hot(external, line, protective, temperature, target_temperature, temperature_form) {
  return external + (line + protective)*((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25)));
}

function loop_impedance_hot_slopes(external, line, protective, temperature, target_temperature, temperature_form) {
  const x0 = ((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25)));
  return [1, x0, x0, (line + protective)*((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (-0.00393/Math.pow(0.00393*temperature + 0.9214, 2)) : (-(1/250)/Math.pow((1/250)*temperature + 23/25, 2)))];
}

/** Current that a fault without resistance would drive. */
export function prospective_fault_current(voltage, loop_impedance, error) {
  return voltage/(loop_impedance*(1 - error));
}

function prospective_fault_current_slopes(voltage, loop_impedance, error) {
  const x0 = 1/(1 - error);
  return [x0/loop_impedance, -voltage*x0/Math.pow(loop_impedance, 2)];
}

/** Longest time within which the protective device must disconnect a fault to earth. */
export function disconnection_time_maximum(system, voltage, rating, circuit) {
  return (((circuit == 0 || rating <= 32) && (rating <= 63 || circuit != 0)) ? (((system == 0) ? (exact(tables.iec_60364_4_41_2017_tn, ((voltage <= 120) ? (120) : (((voltage <= 230) ? (230) : (((voltage <= 400) ? (400) : (1000)))))))) : (exact(tables.iec_60364_4_41_2017_tt, ((voltage <= 120) ? (120) : (((voltage <= 230) ? (230) : (((voltage <= 400) ? (400) : (1000)))))))))) : (((system == 0) ? (5) : (1))));
}

function disconnection_time_maximum_slopes(system, voltage, rating, circuit) {
  return [0];
}

/** Voltage of touchable metal at the current at which the residual current device must trip. */
export function touch_voltage(earth_resistance, residual_current) {
  return (1/1000)*earth_resistance*residual_current;
}

function touch_voltage_slopes(earth_resistance, residual_current) {
  return [(1/1000)*residual_current];
}

/** Longest time in which a residual current device may trip. */
export function rcd_trip_time_maximum(multiple, kind) {
  return ((kind == 0) ? (exact(tables.iec_61008_1_2010_general, multiple)) : (exact(tables.iec_61008_1_2010_selective, multiple)));
}

/** Shortest time before which a residual current device must not trip. */
export function rcd_trip_time_minimum(multiple, kind) {
  return ((kind == 0) ? (0) : (exact(tables.iec_61008_1_2010_selective_shortest, multiple)));
}

/** Smallest cross-section that survives the fault current until it is disconnected. */
export function fault_withstand_cross_section(current, time, k) {
  return Math.sqrt(time)*Math.abs(current)/k;
}

function fault_withstand_cross_section_slopes(current, time, k) {
  const x0 = 1/k;
  const x1 = Math.sqrt(time);
  return [x0*x1*Math.sign(current), (1/2)*x0*Math.abs(current)/x1];
}

/** Highest current in the protective conductor of one piece of equipment. */
export function earth_leakage_limit(rated_current, connection) {
  return ((connection == 0) ? (smaller(5, larger(2, (1/2)*rated_current))) : (smaller(10, larger(3.5, (1/2)*rated_current))));
}

/** Total dissolved solids from the conductivity. */
export function dissolved_solids(conductivity, factor) {
  return conductivity*factor;
}

function dissolved_solids_slopes(conductivity, factor) {
  return [factor];
}

/** Most silica, as SiO2, that stays dissolved at equilibrium with amorphous silica. */
export function silica_solubility(temperature) {
  return Math.pow(10, 4.52 - 731/(temperature + 273.15));
}

function silica_solubility_slopes(temperature) {
  const x0 = temperature + 273.15;
  return [731*Math.pow(10, 4.52 - 731/x0)*Math.log(10)/Math.pow(x0, 2)];
}

/** Conductivity of permeate at 25 °C: the salt that passes, and the acid of the carbon dioxide. */
export function permeate_conductivity_expected(feed_conductivity, salt_passage, alkalinity, carbon_dioxide) {
  return feed_conductivity*salt_passage + 394150*((carbon_dioxide > 0) ? (2.0205919903163298e-11*carbon_dioxide/((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide))) : (0));
}

function permeate_conductivity_expected_slopes(feed_conductivity, salt_passage, alkalinity, carbon_dioxide) {
  return [salt_passage, feed_conductivity + 394150*((carbon_dioxide > 0) ? (2.0205919903163298e-11*carbon_dioxide*(-1/2504001600*Math.pow(alkalinity, 2)*salt_passage/Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide) - 1/50040*alkalinity)/Math.pow((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide), 2)) : (0)), 394150*((carbon_dioxide > 0) ? (2.0205919903163298e-11*carbon_dioxide*(-1/2504001600*alkalinity*Math.pow(salt_passage, 2)/Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide) - 1/50040*salt_passage)/Math.pow((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide), 2)) : (0)), 394150*((carbon_dioxide > 0) ? (-4.082791991330507e-22*carbon_dioxide/(Math.pow((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide), 2)*Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide)) + 2.0205919903163298e-11/((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide))) : (0))];
}

/** Surface tension of water against its vapour. */
export function surface_tension(temperature) {
  return 235.8*Math.pow(0.577883343429723 - 0.0015453657571674064*temperature, 1.256)*(0.000965853598229629*temperature + 0.6388229103564231);
}

function surface_tension_slopes(temperature) {
  const x0 = 0.577883343429723 - 0.0015453657571674064*temperature;
  return [-0.4576829403983335*Math.pow(x0, 0.256)*(0.000965853598229629*temperature + 0.6388229103564231) + 0.22774827846254656*Math.pow(x0, 1.256)];
}

/** Least bubble point at the temperature of the test: it follows the surface tension. */
export function bubble_point_at_temperature(bubble_point, reference_temperature, temperature) {
  return bubble_point*surface_tension(temperature)/surface_tension(reference_temperature);
}

function bubble_point_at_temperature_slopes(bubble_point, reference_temperature, temperature) {
  const x0 = surface_tension(temperature);
  const x1 = surface_tension(reference_temperature);
  const x2 = 1/x1;
  return [x0*x2, -bubble_point*x0*surface_tension_slopes(reference_temperature)[0]/Math.pow(x1, 2), bubble_point*x2*surface_tension_slopes(temperature)[0]];
}

/** Width of the smallest round hole that a gas test at this pressure empties of water. */
export function smallest_defect(pressure, temperature) {
  return (1/25)*surface_tension(temperature)/pressure;
}

function smallest_defect_slopes(pressure, temperature) {
  return [-1/25*surface_tension(temperature)/Math.pow(pressure, 2), (1/25)*surface_tension_slopes(temperature)[0]/pressure];
}

/** Pressure drop of a fine filter as it would be at the reference's flow and temperature. */
export function filter_pressure_drop(pressure_drop, flow, temperature, reference_flow, reference_temperature) {
  return pressure_drop*reference_flow*water_viscosity(reference_temperature)/(flow*water_viscosity(temperature));
}

function filter_pressure_drop_slopes(pressure_drop, flow, temperature, reference_flow, reference_temperature) {
  const x0 = 1/flow;
  const x1 = water_viscosity(temperature);
  const x2 = 1/x1;
  const x3 = water_viscosity(reference_temperature);
  const x4 = x0*x2*x3;
  const x5 = pressure_drop*reference_flow*x2;
  return [reference_flow*x4, -x3*x5/Math.pow(flow, 2), -pressure_drop*reference_flow*x0*x3*water_viscosity_slopes(temperature)[0]/Math.pow(x1, 2), pressure_drop*x4, x0*x5*water_viscosity_slopes(reference_temperature)[0]];
}

/** Pressure by which standing water presses harder at its lower end than at its upper end. */
export function static_head(height, temperature) {
  return 9.80665e-05*height*water_density(temperature);
}

function static_head_slopes(height, temperature) {
  return [9.80665e-05*water_density(temperature), 9.80665e-05*height*water_density_slopes(temperature)[0]];
}

/** Highest set pressure at which the relief valve still protects the unit. */
export function relief_set_pressure_maximum(maximum_pressure, basis, valve_family, valve_height, back_pressure, temperature) {
  return ((basis == 0) ? (((valve_family == 0) ? (smaller(0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1), smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1)) : (-0.8333333333333334*back_pressure + 0.8333333333333334*maximum_pressure - 0.8333333333333334*static_head(valve_height, temperature)))) : (smaller(-back_pressure + maximum_pressure - static_head(valve_height, temperature), ((valve_family == 0) ? (smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1)) : (-0.8333333333333334*back_pressure + 0.9166666666666667*maximum_pressure - 0.8333333333333334*static_head(valve_height, temperature))))));
}

function relief_set_pressure_maximum_slopes(maximum_pressure, basis, valve_family, valve_height, back_pressure, temperature) {
  return [((basis == 0) ? (((valve_family == 0) ? ((0.970873786407767 - 0.08826125330979703*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0)) + (1 - ((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0)))*(1 - 0.09090909090909094*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))) : (0.8333333333333334))) : ((1 - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))*((valve_family == 0) ? (1.1 - 0.10000000000000009*((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))) : (0.9166666666666667)) + (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))), ((basis == 0) ? (((valve_family == 0) ? ((1 - ((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0)))*(-(1 - ((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[0] - 0.9090909090909091*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[0]) + (-0.970873786407767*(1 - ((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[0] - 0.8826125330979699*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[0])*((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0))) : (-0.8333333333333334*static_head_slopes(valve_height, temperature)[0]))) : ((1 - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))*((valve_family == 0) ? (-(1 - ((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[0] - 0.9090909090909091*((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[0]) : (-0.8333333333333334*static_head_slopes(valve_height, temperature)[0])) - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[0])), ((basis == 0) ? (((valve_family == 0) ? ((1 - ((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0)))*(0.09090909090909094*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)) - 1) + (0.08826125330979703*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)) - 0.970873786407767)*((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0))) : (-0.8333333333333334))) : ((1 - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))*((valve_family == 0) ? (0.09090909090909094*((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)) - 1) : (-0.8333333333333334)) - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))), ((basis == 0) ? (((valve_family == 0) ? ((1 - ((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0)))*(-(1 - ((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[1] - 0.9090909090909091*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[1]) + (-0.970873786407767*(1 - ((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[1] - 0.8826125330979699*((back_pressure - maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 0.9090909090909091*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[1])*((smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1) - 0.1 >= 0.970873786407767*smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1)) ? (1) : (0))) : (-0.8333333333333334*static_head_slopes(valve_height, temperature)[1]))) : ((1 - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0)))*((valve_family == 0) ? (-(1 - ((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0)))*static_head_slopes(valve_height, temperature)[1] - 0.9090909090909091*((back_pressure - 1.1*maximum_pressure + static_head(valve_height, temperature) + 0.1 <= 0.9090909090909091*back_pressure - 1.0*maximum_pressure + 0.9090909090909091*static_head(valve_height, temperature)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[1]) : (-0.8333333333333334*static_head_slopes(valve_height, temperature)[1])) - (((valve_family == 0 || back_pressure - maximum_pressure + static_head(valve_height, temperature) >= 0.8333333333333334*back_pressure - 0.9166666666666667*maximum_pressure + 0.8333333333333334*static_head(valve_height, temperature)) && (back_pressure - maximum_pressure + static_head(valve_height, temperature) >= -smaller(-0.9090909090909091*back_pressure + 1.0*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature) - 0.1) || valve_family != 0)) ? (1) : (0))*static_head_slopes(valve_height, temperature)[1]))];
}

/** Lowest set pressure at which the relief valve surely closes again and does not weep. */
export function relief_set_pressure_minimum(rest_pressure, valve_family, margin, rest_ratio, surge) {
  return larger(((valve_family == 0) ? (larger(larger(1.2987012987012987*margin + 1.2987012987012987*rest_pressure, 1.25*margin + 1.25*rest_pressure + 0.125), larger(1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279, margin + rest_pressure + 0.7))) : (margin + rest_pressure)), larger(rest_pressure/rest_ratio, rest_pressure + surge));
}

function relief_set_pressure_minimum_slopes(rest_pressure, valve_family, margin, rest_ratio, surge) {
  const x0 = 1 - (((valve_family == 0 || margin + rest_pressure >= larger(rest_pressure/rest_ratio, rest_pressure + surge)) && (larger(rest_pressure/rest_ratio, rest_pressure + surge) <= larger(larger(1.2987012987012987*margin + 1.2987012987012987*rest_pressure, 1.25*margin + 1.25*rest_pressure + 0.125), larger(1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279, margin + rest_pressure + 0.7)) || valve_family != 0)) ? (1) : (0));
  return [x0*(-((rest_pressure + surge <= rest_pressure/rest_ratio) ? (1) : (0)) + 1 + ((rest_pressure + surge <= rest_pressure/rest_ratio) ? (1) : (0))/rest_ratio) + (((valve_family == 0 || margin + rest_pressure >= larger(rest_pressure/rest_ratio, rest_pressure + surge)) && (larger(rest_pressure/rest_ratio, rest_pressure + surge) <= larger(larger(1.2987012987012987*margin + 1.2987012987012987*rest_pressure, 1.25*margin + 1.25*rest_pressure + 0.125), larger(1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279, margin + rest_pressure + 0.7)) || valve_family != 0)) ? (1) : (0))*((valve_family == 0) ? ((1 - ((larger(1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279, margin + rest_pressure + 0.7) <= larger(1.2987012987012987*margin + 1.2987012987012987*rest_pressure, 1.25*margin + 1.25*rest_pressure + 0.125)) ? (1) : (0)))*(0.030927835051546504*((margin + rest_pressure + 0.7 <= 1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279) ? (1) : (0)) + 1) + (0.04870129870129869*((1.2987012987012987*margin + 1.2987012987012987*rest_pressure >= 1.25*margin + 1.25*rest_pressure + 0.125) ? (1) : (0)) + 1.25)*((larger(1.0309278350515465*margin + 1.0309278350515465*rest_pressure + 0.6185567010309279, margin + rest_pressure + 0.7) <= larger(1.2987012987012987*margin + 1.2987012987012987*rest_pressure, 1.25*margin + 1.25*rest_pressure + 0.125)) ? (1) : (0))) : (1)), x0*(1 - ((rest_pressure + surge <= rest_pressure/rest_ratio) ? (1) : (0)))];
}

/** Flow of cold water that an open relief valve passes. */
export function relief_discharge_capacity(flow_area, discharge_coefficient, pressure_difference, temperature) {
  return 12.0*Math.sqrt(5)*discharge_coefficient*flow_area*Math.sqrt(pressure_difference/water_density(temperature));
}

function relief_discharge_capacity_slopes(flow_area, discharge_coefficient, pressure_difference, temperature) {
  const x0 = Math.sqrt(5);
  const x1 = 1/water_density(temperature);
  const x2 = Math.sqrt(pressure_difference*x1);
  const x3 = 12.0*x0*x2;
  const x4 = 6.0*discharge_coefficient*flow_area*x0*x2;
  return [discharge_coefficient*x3, flow_area*x3, x4/pressure_difference, -x1*x4*water_density_slopes(temperature)[0]];
}

/** Flow of cold water through a regulator that has failed open, against the relieving pressure. */
export function regulator_failed_open_flow(flow_coefficient_kv, supply_pressure, relieving_pressure) {
  return (50/3)*flow_coefficient_kv*Math.sqrt(larger(0, -relieving_pressure + supply_pressure));
}

function regulator_failed_open_flow_slopes(flow_coefficient_kv, supply_pressure, relieving_pressure) {
  const x0 = Math.sqrt(larger(0, -relieving_pressure + supply_pressure));
  const x1 = (1/2)*((relieving_pressure - supply_pressure >= 0) ? (1) : (0)) - 1/2;
  const x2 = (50/3)*flow_coefficient_kv/x0;
  return [(50/3)*x0, -x1*x2, x1*x2];
}

/** Mass of a unit that is full of water. */
export function full_mass(empty_mass, water_volume) {
  return empty_mass + water_volume;
}

function full_mass_slopes(empty_mass, water_volume) {
  return [1, 1];
}

/** Load on the floor under a unit, spread evenly over its footprint. */
export function floor_load(mass, footprint) {
  return 0.00980665*mass/footprint;
}

function floor_load_slopes(mass, footprint) {
  return [0.00980665/footprint, -0.00980665*mass/Math.pow(footprint, 2)];
}

/** Direct voltage for the test of insulation resistance. */
export function insulation_test_voltage(nominal_voltage, circuit, electronics) {
  return ((circuit == 0) ? (((electronics == 0) ? (((nominal_voltage > 500) ? (1000) : (500))) : (250))) : (250));
}

/** What is left of a drop of pressure when the change of temperature is taken off. */
export function corrected_pressure_drop(start_pressure, end_pressure, start_temperature, end_temperature, drift) {
  return -drift*(-end_temperature + start_temperature) - end_pressure + start_pressure;
}

function corrected_pressure_drop_slopes(start_pressure, end_pressure, start_temperature, end_temperature, drift) {
  return [1, -1, -drift, drift, end_temperature - start_temperature];
}

/** Temperature at the end less that at the start; negative when it has cooled. Exact by definition. */
export function temperature_change(start, end) {
  return end - start;
}

function temperature_change_slopes(start, end) {
  return [-1, 1];
}

/** Share of the feed that becomes permeate. */
export function recovery(permeate_flow, concentrate_flow) {
  return permeate_flow/(concentrate_flow + permeate_flow);
}

function recovery_slopes(permeate_flow, concentrate_flow) {
  const x0 = concentrate_flow + permeate_flow;
  const x1 = permeate_flow/Math.pow(x0, 2);
  return [-x1 + 1/x0, -x1];
}

/** Recovery from three conductivities, without a flow meter: an independent check. */
export function recovery_from_conductivity(feed_conductivity, concentrate_conductivity, permeate_conductivity) {
  return (concentrate_conductivity - feed_conductivity)/(concentrate_conductivity - permeate_conductivity);
}

function recovery_from_conductivity_slopes(feed_conductivity, concentrate_conductivity, permeate_conductivity) {
  const x0 = concentrate_conductivity - permeate_conductivity;
  const x1 = -1/x0;
  const x2 = (concentrate_conductivity - feed_conductivity)/Math.pow(x0, 2);
  return [x1, -x1 - x2, x2];
}

/** How many times the concentrate is more concentrated than the feed. Exact by definition. */
export function concentration_factor(recovery, salt_passage) {
  return (-recovery*salt_passage + 1)/(1 - recovery);
}

function concentration_factor_slopes(recovery, salt_passage) {
  const x0 = 1 - recovery;
  const x1 = 1/x0;
  return [-salt_passage*x1 + (-recovery*salt_passage + 1)/Math.pow(x0, 2), -recovery*x1];
}

/** How many times the mean concentration along the membrane is that of the feed. */
export function mean_feed_concentration_factor(recovery, mean) {
  return ((mean == 0) ? (((recovery < 0.0001) ? ((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1) : (-Math.log(1 - recovery)/recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - recovery)) : (((recovery < 0.0001) ? ((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1) : (-(-1 + 1/(1 - recovery))/Math.log(1 - recovery)))));
}

function mean_feed_concentration_factor_slopes(recovery, mean) {
  return [((mean == 0) ? (((recovery < 0.0001) ? ((2/3)*recovery + 1/2) : (1/(recovery*(1 - recovery)) + Math.log(1 - recovery)/Math.pow(recovery, 2)))) : (mean == 1) ? ((1/2)/Math.pow(1 - recovery, 2)) : (((recovery < 0.0001) ? ((5/6)*recovery + 1/2) : (-(-1 + 1/(1 - recovery))/((1 - recovery)*Math.pow(Math.log(1 - recovery), 2)) - 1/(Math.pow(1 - recovery, 2)*Math.log(1 - recovery))))))];
}

/** Share of the salt that passes the membrane. */
export function salt_passage(feed_conductivity, permeate_conductivity, recovery, mean) {
  return permeate_conductivity/(feed_conductivity*mean_feed_concentration_factor(recovery, mean));
}

function salt_passage_slopes(feed_conductivity, permeate_conductivity, recovery, mean) {
  const x0 = mean_feed_concentration_factor(recovery, mean);
  const x1 = 1/x0;
  const x2 = 1/feed_conductivity;
  return [-permeate_conductivity*x1/Math.pow(feed_conductivity, 2), x1*x2, -permeate_conductivity*x2*mean_feed_concentration_factor_slopes(recovery, mean)[0]/Math.pow(x0, 2)];
}

/** Share of the salt that the membrane holds back. */
export function salt_rejection(feed_conductivity, permeate_conductivity, recovery, mean) {
  return 1 - salt_passage(feed_conductivity, permeate_conductivity, recovery, mean);
}

function salt_rejection_slopes(feed_conductivity, permeate_conductivity, recovery, mean) {
  return [-salt_passage_slopes(feed_conductivity, permeate_conductivity, recovery, mean)[0], -salt_passage_slopes(feed_conductivity, permeate_conductivity, recovery, mean)[1], -salt_passage_slopes(feed_conductivity, permeate_conductivity, recovery, mean)[2]];
}

/** Conductivity of the concentrate that feed, permeate and recovery lead to expect. */
export function concentrate_conductivity(feed_conductivity, permeate_conductivity, recovery) {
  return (feed_conductivity - permeate_conductivity*recovery)/(1 - recovery);
}

function concentrate_conductivity_slopes(feed_conductivity, permeate_conductivity, recovery) {
  const x0 = 1 - recovery;
  const x1 = 1/x0;
  return [x1, -recovery*x1, -permeate_conductivity*x1 + (feed_conductivity - permeate_conductivity*recovery)/Math.pow(x0, 2)];
}

/** Share of the feed's flow that is in neither permeate nor concentrate. */
export function flow_balance_error(feed_flow, permeate_flow, concentrate_flow) {
  return (-concentrate_flow + feed_flow - permeate_flow)/feed_flow;
}

function flow_balance_error_slopes(feed_flow, permeate_flow, concentrate_flow) {
  const x0 = 1/feed_flow;
  const x1 = -x0;
  return [x0 - (-concentrate_flow + feed_flow - permeate_flow)/Math.pow(feed_flow, 2), x1, x1];
}

/** Share of the feed's salt that is in neither permeate nor concentrate. */
export function salt_balance_error(feed_flow, permeate_flow, concentrate_flow, feed_conductivity, permeate_conductivity, concentrate_conductivity) {
  return (-concentrate_conductivity*concentrate_flow + feed_conductivity*feed_flow - permeate_conductivity*permeate_flow)/(feed_conductivity*feed_flow);
}

function salt_balance_error_slopes(feed_flow, permeate_flow, concentrate_flow, feed_conductivity, permeate_conductivity, concentrate_conductivity) {
  const x0 = 1/feed_flow;
  const x1 = 1/feed_conductivity;
  const x2 = -concentrate_conductivity*concentrate_flow + feed_conductivity*feed_flow - permeate_conductivity*permeate_flow;
  const x3 = x0*x1;
  return [x0 - x1*x2/Math.pow(feed_flow, 2), -permeate_conductivity*x3, -concentrate_conductivity*x3, x1 - x0*x2/Math.pow(feed_conductivity, 2), -permeate_flow*x3, -concentrate_flow*x3];
}

/** Permeability of a membrane as a multiple of that at 25 °C: below 1 when colder. */
export function membrane_temperature_factor(temperature, form, constant) {
  return ((form == 0) ? (((temperature < 25) ? (Math.exp(1510/149 - 3020/(temperature + 273))) : (Math.exp(1320/149 - 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, temperature - 25)));
}

function membrane_temperature_factor_slopes(temperature, form, constant) {
  return [((form == 0) ? (((temperature < 25) ? (3020*Math.exp(1510/149 - 3020/(temperature + 273))/Math.pow(temperature + 273, 2)) : (2640*Math.exp(1320/149 - 2640/(temperature + 273))/Math.pow(temperature + 273, 2)))) : (form == 1) ? (constant*Math.exp(constant*(1/298 - 1/(temperature + 273)))/Math.pow(temperature + 273, 2)) : (0.02955880224154443*Math.pow(1.03, temperature - 25)))];
}

/** Osmotic pressure of salt water. */
export function osmotic_pressure(dissolved_solids, temperature, form) {
  return ((form == 0) ? (0.002654*dissolved_solids*(temperature + 273.15)/(1000 - 1/1000*dissolved_solids)) : ((1/491000)*dissolved_solids*(temperature + 320)));
}

function osmotic_pressure_slopes(dissolved_solids, temperature, form) {
  return [((form == 0) ? (2.6540000000000003e-06*dissolved_solids*(temperature + 273.15)/Math.pow(1000 - 1/1000*dissolved_solids, 2) + 0.002654*(temperature + 273.15)/(1000 - 1/1000*dissolved_solids)) : ((1/491000)*temperature + 8/12275)), ((form == 0) ? (0.002654*dissolved_solids/(1000 - 1/1000*dissolved_solids)) : ((1/491000)*dissolved_solids))];
}

/** Pressure that is left to drive water through the membrane. */
export function net_driving_pressure(feed_pressure, pressure_drop, permeate_pressure, feed_dissolved_solids, permeate_dissolved_solids, recovery, temperature, mean) {
  const x0 = temperature + 273.15;
  const x1 = feed_dissolved_solids*mean_feed_concentration_factor(recovery, mean);
  return feed_pressure + 0.002654*permeate_dissolved_solids*x0/(1000 - 1/1000*permeate_dissolved_solids) - permeate_pressure - 1/2*pressure_drop - 0.002654*x0*x1/(1000 - 1/1000*x1);
}

function net_driving_pressure_slopes(feed_pressure, pressure_drop, permeate_pressure, feed_dissolved_solids, permeate_dissolved_solids, recovery, temperature, mean) {
  const x0 = mean_feed_concentration_factor(recovery, mean);
  const x1 = feed_dissolved_solids*x0;
  const x2 = 1000 - 1/1000*x1;
  const x3 = 0.002654/x2;
  const x4 = temperature + 273.15;
  const x5 = x0*x4;
  const x6 = Math.pow(x2, -2);
  const x7 = 2.6540000000000003e-06*x4;
  const x8 = 1000 - 1/1000*permeate_dissolved_solids;
  const x9 = 1/x8;
  const x10 = mean_feed_concentration_factor_slopes(recovery, mean)[0];
  return [1, -1/2, -1, -feed_dissolved_solids*Math.pow(x0, 2)*x6*x7 - x3*x5, permeate_dissolved_solids*x7/Math.pow(x8, 2) + 0.002654*x4*x9, -2.6540000000000003e-06*Math.pow(feed_dissolved_solids, 2)*x10*x5*x6 - feed_dissolved_solids*x10*x3*x4, 0.002654*permeate_dissolved_solids*x9 - x1*x3];
}

/** Flow of permeate that the rating leads to expect at this pressure and temperature. */
export function expected_permeate_flow(rated_flow, rated_driving_pressure, driving_pressure, temperature, form, constant) {
  return driving_pressure*rated_flow*membrane_temperature_factor(temperature, form, constant)/rated_driving_pressure;
}

function expected_permeate_flow_slopes(rated_flow, rated_driving_pressure, driving_pressure, temperature, form, constant) {
  const x0 = 1/rated_driving_pressure;
  const x1 = membrane_temperature_factor(temperature, form, constant);
  const x2 = x0*x1;
  const x3 = driving_pressure*rated_flow;
  return [driving_pressure*x2, -x1*x3/Math.pow(rated_driving_pressure, 2), rated_flow*x2, x0*x3*membrane_temperature_factor_slopes(temperature, form, constant)[0]];
}

/** Flow of permeate as it would be at the pressure and temperature of the reference. */
export function normalised_permeate_flow(flow, driving_pressure, temperature, reference_driving_pressure, reference_temperature, form, constant) {
  return flow*reference_driving_pressure*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))/driving_pressure;
}

function normalised_permeate_flow_slopes(flow, driving_pressure, temperature, reference_driving_pressure, reference_temperature, form, constant) {
  const x0 = 1/driving_pressure;
  const x1 = x0*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)));
  const x2 = flow*reference_driving_pressure*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)));
  return [reference_driving_pressure*x1, -x2*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))/Math.pow(driving_pressure, 2), x0*x2*((form == 0) ? (((temperature < 25) ? (-3020*Math.exp(-1510/149 + 3020/(temperature + 273))/Math.pow(temperature + 273, 2)) : (-2640*Math.exp(-1320/149 + 2640/(temperature + 273))/Math.pow(temperature + 273, 2)))) : (form == 1) ? (-constant*Math.exp(-constant*(1/298 - 1/(temperature + 273)))/Math.pow(temperature + 273, 2)) : (-0.02955880224154443*Math.pow(1.03, 25 - temperature))), flow*x1, flow*reference_driving_pressure*x0*((form == 0) ? (((reference_temperature < 25) ? (3020*Math.exp(1510/149 - 3020/(reference_temperature + 273))/Math.pow(reference_temperature + 273, 2)) : (2640*Math.exp(1320/149 - 2640/(reference_temperature + 273))/Math.pow(reference_temperature + 273, 2)))) : (form == 1) ? (constant*Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))/Math.pow(reference_temperature + 273, 2)) : (0.02955880224154443*Math.pow(1.03, reference_temperature - 25)))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))];
}

/** Salt passage as it would be at the flow, temperature and recovery of the reference. */
export function normalised_salt_passage(salt_passage, flow, temperature, recovery, reference_flow, reference_temperature, reference_recovery, mean, form, constant) {
  return flow*salt_passage*((mean == 0) ? (((recovery < 0.0001) ? (1/((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-recovery/Math.log(1 - recovery)))) : (mean == 1) ? (1/(1/2 + (1/2)/(1 - recovery))) : (((recovery < 0.0001) ? (1/((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-Math.log(1 - recovery)/(-1 + 1/(1 - recovery))))))*((mean == 0) ? (((reference_recovery < 0.0001) ? ((1/3)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-Math.log(1 - reference_recovery)/reference_recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - reference_recovery)) : (((reference_recovery < 0.0001) ? ((5/12)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-(-1 + 1/(1 - reference_recovery))/Math.log(1 - reference_recovery)))))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))/reference_flow;
}

function normalised_salt_passage_slopes(salt_passage, flow, temperature, recovery, reference_flow, reference_temperature, reference_recovery, mean, form, constant) {
  const x0 = 1/reference_flow;
  const x1 = x0*((mean == 0) ? (((recovery < 0.0001) ? (1/((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-recovery/Math.log(1 - recovery)))) : (mean == 1) ? (1/(1/2 + (1/2)/(1 - recovery))) : (((recovery < 0.0001) ? (1/((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-Math.log(1 - recovery)/(-1 + 1/(1 - recovery))))))*((mean == 0) ? (((reference_recovery < 0.0001) ? ((1/3)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-Math.log(1 - reference_recovery)/reference_recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - reference_recovery)) : (((reference_recovery < 0.0001) ? ((5/12)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-(-1 + 1/(1 - reference_recovery))/Math.log(1 - reference_recovery)))))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)));
  const x2 = flow*salt_passage*x0*((mean == 0) ? (((reference_recovery < 0.0001) ? ((1/3)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-Math.log(1 - reference_recovery)/reference_recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - reference_recovery)) : (((reference_recovery < 0.0001) ? ((5/12)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-(-1 + 1/(1 - reference_recovery))/Math.log(1 - reference_recovery)))))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)));
  const x3 = flow*salt_passage*((mean == 0) ? (((recovery < 0.0001) ? (1/((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-recovery/Math.log(1 - recovery)))) : (mean == 1) ? (1/(1/2 + (1/2)/(1 - recovery))) : (((recovery < 0.0001) ? (1/((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-Math.log(1 - recovery)/(-1 + 1/(1 - recovery))))))*((mean == 0) ? (((reference_recovery < 0.0001) ? ((1/3)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-Math.log(1 - reference_recovery)/reference_recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - reference_recovery)) : (((reference_recovery < 0.0001) ? ((5/12)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-(-1 + 1/(1 - reference_recovery))/Math.log(1 - reference_recovery)))))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)));
  return [flow*x1, salt_passage*x1, x2*((form == 0) ? (((temperature < 25) ? (-3020*Math.exp(-1510/149 + 3020/(temperature + 273))/Math.pow(temperature + 273, 2)) : (-2640*Math.exp(-1320/149 + 2640/(temperature + 273))/Math.pow(temperature + 273, 2)))) : (form == 1) ? (-constant*Math.exp(-constant*(1/298 - 1/(temperature + 273)))/Math.pow(temperature + 273, 2)) : (-0.02955880224154443*Math.pow(1.03, 25 - temperature)))*((mean == 0) ? (((recovery < 0.0001) ? (1/((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-recovery/Math.log(1 - recovery)))) : (mean == 1) ? (1/(1/2 + (1/2)/(1 - recovery))) : (((recovery < 0.0001) ? (1/((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-Math.log(1 - recovery)/(-1 + 1/(1 - recovery)))))), x2*((mean == 0) ? (((recovery < 0.0001) ? ((-2/3*recovery - 1/2)/Math.pow((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1, 2)) : (-recovery/((1 - recovery)*Math.pow(Math.log(1 - recovery), 2)) - 1/Math.log(1 - recovery)))) : (mean == 1) ? (-(1/2)/(Math.pow(1/2 + (1/2)/(1 - recovery), 2)*Math.pow(1 - recovery, 2))) : (((recovery < 0.0001) ? ((-5/6*recovery - 1/2)/Math.pow((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1, 2)) : (1/((-1 + 1/(1 - recovery))*(1 - recovery)) + Math.log(1 - recovery)/(Math.pow(-1 + 1/(1 - recovery), 2)*Math.pow(1 - recovery, 2))))))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature))), -x3*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))/Math.pow(reference_flow, 2), x0*x3*((form == 0) ? (((reference_temperature < 25) ? (3020*Math.exp(1510/149 - 3020/(reference_temperature + 273))/Math.pow(reference_temperature + 273, 2)) : (2640*Math.exp(1320/149 - 2640/(reference_temperature + 273))/Math.pow(reference_temperature + 273, 2)))) : (form == 1) ? (constant*Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))/Math.pow(reference_temperature + 273, 2)) : (0.02955880224154443*Math.pow(1.03, reference_temperature - 25))), flow*salt_passage*x0*((mean == 0) ? (((reference_recovery < 0.0001) ? ((2/3)*reference_recovery + 1/2) : (1/(reference_recovery*(1 - reference_recovery)) + Math.log(1 - reference_recovery)/Math.pow(reference_recovery, 2)))) : (mean == 1) ? ((1/2)/Math.pow(1 - reference_recovery, 2)) : (((reference_recovery < 0.0001) ? ((5/6)*reference_recovery + 1/2) : (-(-1 + 1/(1 - reference_recovery))/((1 - reference_recovery)*Math.pow(Math.log(1 - reference_recovery), 2)) - 1/(Math.pow(1 - reference_recovery, 2)*Math.log(1 - reference_recovery))))))*((mean == 0) ? (((recovery < 0.0001) ? (1/((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-recovery/Math.log(1 - recovery)))) : (mean == 1) ? (1/(1/2 + (1/2)/(1 - recovery))) : (((recovery < 0.0001) ? (1/((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1)) : (-Math.log(1 - recovery)/(-1 + 1/(1 - recovery))))))*((form == 0) ? (((temperature < 25) ? (Math.exp(-1510/149 + 3020/(temperature + 273))) : (Math.exp(-1320/149 + 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(-constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, 25 - temperature)))*((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))];
}

/** Pressure drop along the membrane as it would be at the flow of the reference. */
export function normalised_pressure_drop(pressure_drop, mean_flow, reference_mean_flow, exponent) {
  return pressure_drop*Math.pow(reference_mean_flow/mean_flow, exponent);
}

function normalised_pressure_drop_slopes(pressure_drop, mean_flow, reference_mean_flow, exponent) {
  const x0 = 1/mean_flow;
  const x1 = Math.pow(reference_mean_flow*x0, exponent);
  const x2 = exponent*pressure_drop*x1;
  return [x1, -x0*x2, x2/reference_mean_flow];
}

/** Colonies per volume, the plain result. */
export function colony_count(count, volume) {
  return count/volume;
}

function colony_count_slopes(count, volume) {
  return [-count/Math.pow(volume, 2)];
}

/** Lower limit of the true colony count, from counting alone. */
export function colony_count_lower(count, volume, confidence) {
  return ((count < 1) ? (0) : (root(x => many_enough(x, count, (1/2)*confidence + 1/2), 0, count)))/volume;
}

function colony_count_lower_slopes(count, volume, confidence) {
  return [-((count < 1) ? (0) : (root(x => many_enough(x, count, (1/2)*confidence + 1/2), 0, count)))/Math.pow(volume, 2)];
}

/** Upper limit of the true colony count, from counting alone. */
export function colony_count_upper(count, volume, confidence) {
  return root(x => few_enough(x, count, 1/2 - 1/2*confidence), count, count + 12*Math.sqrt(count + 1) + 12)/volume;
}

function colony_count_upper_slopes(count, volume, confidence) {
  return [-root(x => few_enough(x, count, 1/2 - 1/2*confidence), count, count + 12*Math.sqrt(count + 1) + 12)/Math.pow(volume, 2)];
}

/** Least volume in which so many colonies still show that the water is below the limit. */
export function volume_to_demonstrate(limit, count, confidence) {
  return root(x => few_enough(x, count, 1 - confidence), count, count + 12*Math.sqrt(count + 1) + 12)/limit;
}

function volume_to_demonstrate_slopes(limit, count, confidence) {
  return [-root(x => few_enough(x, count, 1 - confidence), count, count + 12*Math.sqrt(count + 1) + 12)/Math.pow(limit, 2)];
}

/** Friction factor of Darcy, which is four times that of Fanning. */
export function friction_factor(reynolds_number, relative_roughness) {
  return ((reynolds_number < 2300) ? (64/reynolds_number) : (Math.pow(-Math.pow(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), 2)/(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)) - 2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10), -2)));
}

function friction_factor_slopes(reynolds_number, relative_roughness) {
  return [((reynolds_number < 2300) ? (-64/Math.pow(reynolds_number, 2)) : ((2*Math.pow(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), 2)*(2*(-5.02*(5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(Math.pow(reynolds_number, 2)*Math.log(10)) + 60.239999999999995/(Math.pow(reynolds_number, 3)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/(reynolds_number*(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)) + 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(Math.pow(reynolds_number, 2)*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))*Math.log(10)) - 4*(5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(Math.pow(reynolds_number, 2)*Math.log(10)) + 60.239999999999995/(Math.pow(reynolds_number, 3)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)) - 24/(Math.pow(reynolds_number, 2)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/Math.pow(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10), 2) + 2*(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10))*(-4*(5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(Math.pow(reynolds_number, 2)*Math.log(10)) + 60.239999999999995/(Math.pow(reynolds_number, 3)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)) - 48/(Math.pow(reynolds_number, 2)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)) - 48/(Math.pow(reynolds_number, 2)*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/Math.pow(-Math.pow(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), 2)/(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)) - 2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10), 3))), ((reynolds_number < 2300) ? (0) : ((2*Math.pow(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), 2)*(-4*(0.27027027027027023 - 1.3567567567567564/(reynolds_number*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)) + 2*(0.27027027027027023 - 5.02*(0.27027027027027023 - 1.3567567567567564/(reynolds_number*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/(reynolds_number*(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))*Math.log(10)) + 0.5405405405405405/((0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/Math.pow(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10), 2) + 2*(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10))*(-4*(0.27027027027027023 - 1.3567567567567564/(reynolds_number*(0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/((0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))*Math.log(10)) + 1.081081081081081/((0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)) + 1.081081081081081/((0.27027027027027023*relative_roughness + 12/reynolds_number)*Math.log(10)))/Math.pow(-Math.pow(2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), 2)/(-2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10) + 4*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10) - 2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)) - 2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10), 3)))];
}

/** Pressure that moving water loses in a pipe and its fittings. */
export function pipe_pressure_loss(flow, bore, length, roughness, loss_coefficients, temperature) {
  const x0 = 1/bore;
  return (1/200000)*(1000*length*x0*friction_factor(reynolds_number(flow, bore, temperature), roughness*x0) + loss_coefficients)*Math.pow(flow_velocity(flow, bore), 2)*water_density(temperature);
}

function pipe_pressure_loss_slopes(flow, bore, length, roughness, loss_coefficients, temperature) {
  const x0 = 1/bore;
  const x1 = reynolds_number(flow, bore, temperature);
  const x2 = roughness*x0;
  const x3 = friction_factor_slopes(x1, x2)[0];
  const x4 = flow_velocity(flow, bore);
  const x5 = Math.pow(x4, 2);
  const x6 = water_density(temperature);
  const x7 = (1/200)*x5*x6;
  const x8 = length*x7;
  const x9 = x0*x3*x8;
  const x10 = friction_factor(x1, x2);
  const x11 = x0*x10;
  const x12 = 1000*length;
  const x13 = loss_coefficients + x11*x12;
  const x14 = (1/100000)*x13*x4*x6;
  const x15 = Math.pow(bore, -2);
  const x16 = x15*friction_factor_slopes(x1, x2)[1];
  const x17 = (1/200000)*x5;
  const x18 = x17*x6;
  return [x14*flow_velocity_slopes(flow, bore)[0] + x9*reynolds_number_slopes(flow, bore, temperature)[0], x14*flow_velocity_slopes(flow, bore)[1] + x18*(x0*x12*(-roughness*x16 + x3*reynolds_number_slopes(flow, bore, temperature)[1]) - x10*x12*x15), x11*x7, x16*x8, x18, x13*x17*water_density_slopes(temperature)[0] + x9*reynolds_number_slopes(flow, bore, temperature)[2]];
}

/** Length of a dead leg in its own bores. */
export function dead_leg_ratio(length, bore) {
  return length/bore;
}

function dead_leg_ratio_slopes(length, bore) {
  return [1/bore, -length/Math.pow(bore, 2)];
}

/** Least vertical gap between an inlet and the highest level that the water below can reach. */
export function air_gap_minimum(inlet_bore, minimum) {
  return larger(minimum, 2*inlet_bore);
}

function air_gap_minimum_slopes(inlet_bore, minimum) {
  return [2 - 2*((minimum >= 2*inlet_bore) ? (1) : (0))];
}

/** Flow that a drain with a fall carries at a depth of water. */
export function gravity_drain_capacity(diameter, slope, depth_ratio, roughness) {
  const x0 = Math.acos(1 - 2*depth_ratio);
  const x1 = 2*x0 - Math.sin(2*x0);
  return (3/160000)*Math.pow(diameter, 2)*Math.sqrt(slope)*x1*Math.pow(diameter*x1/x0, 2/3)/roughness;
}

function gravity_drain_capacity_slopes(diameter, slope, depth_ratio, roughness) {
  const x0 = 1 - 2*depth_ratio;
  const x1 = Math.acos(x0);
  const x2 = 2*x1;
  const x3 = 2*x1 - Math.sin(x2);
  const x4 = diameter*x3;
  const x5 = Math.sqrt(slope);
  const x6 = diameter/x1;
  const x7 = Math.pow(x3*x6, 2/3)/roughness;
  const x8 = x5*x7;
  const x9 = Math.pow(diameter, 2);
  const x10 = Math.pow(1 - Math.pow(x0, 2), -1/2);
  const x11 = -4*x10*Math.cos(x2) + 4*x10;
  const x12 = (3/160000)*x8;
  return [(1/20000)*x4*x8, (3/320000)*x3*x7*x9/x5, diameter*x1*x12*((2/3)*x11*x6 - 4/3*x10*x4/Math.pow(x1, 2)) + x11*x12*x9];
}

/** Supply pressure at a flow, from a test at another flow. */
export function supply_pressure_at_flow(static_pressure, dynamic_pressure, test_flow, flow) {
  const x0 = -static_pressure;
  return -Math.pow(flow, 2)*(-dynamic_pressure - x0)/Math.pow(test_flow, 2) - x0;
}

function supply_pressure_at_flow_slopes(static_pressure, dynamic_pressure, test_flow, flow) {
  const x0 = Math.pow(flow, 2);
  const x1 = Math.pow(test_flow, -2);
  const x2 = x0*x1;
  const x3 = -2*dynamic_pressure + 2*static_pressure;
  return [1 - x2, x2, x0*x3/Math.pow(test_flow, 3), -flow*x1*x3];
}

/** Silt density index of a feed: by how many percent a minute it plugs a fine filter. */
export function silt_density_index(first_time, last_time, interval, plugging_limit) {
  return (-100*first_time/last_time + 100)/interval;
}

function silt_density_index_slopes(first_time, last_time, interval, plugging_limit) {
  const x0 = 1/interval;
  const x1 = 100/last_time;
  return [-x0*x1, 100*first_time*x0/Math.pow(last_time, 2), -(-first_time*x1 + 100)/Math.pow(interval, 2)];
}

/** Time that water would spend in the empty bed of a carbon filter. */
export function empty_bed_contact_time(bed_volume, flow) {
  return bed_volume/flow;
}

function empty_bed_contact_time_slopes(bed_volume, flow) {
  return [1/flow, -bed_volume/Math.pow(flow, 2)];
}

/** What each litre puts on the anion side of a deioniser, which is the one that ends first. */
export function deioniser_load(conductivity, carbon_dioxide, silica, equivalent_conductance, ph, ph_given) {
  return 0.022722108611679163*carbon_dioxide + 0.016644474034620507*silica + (conductivity - ((ph_given != 0) ? (349700.0*Math.pow(10, -ph)) : (0)))/equivalent_conductance;
}

function deioniser_load_slopes(conductivity, carbon_dioxide, silica, equivalent_conductance, ph, ph_given) {
  const x0 = 1/equivalent_conductance;
  return [x0, 0.022722108611679163, 0.016644474034620507, -(conductivity - ((ph_given != 0) ? (349700.0*Math.pow(10, -ph)) : (0)))/Math.pow(equivalent_conductance, 2), -x0*((ph_given != 0) ? (-349700.0*Math.pow(10, -ph)*Math.log(10)) : (0))];
}

/** How much water a deioniser makes until it is used up. */
export function deioniser_run_volume(resin_volume, capacity, utilisation, load) {
  return 1000*capacity*resin_volume*utilisation/load;
}

function deioniser_run_volume_slopes(resin_volume, capacity, utilisation, load) {
  const x0 = 1/load;
  const x1 = 1000*utilisation*x0;
  const x2 = 1000*capacity*resin_volume;
  return [capacity*x1, resin_volume*x1, x0*x2, -utilisation*x2/Math.pow(load, 2)];
}

/** Arithmetic mean of the readings. */
export function series_mean(readings) {
  return total(plain_sum, readings)/count(readings);
}

function series_mean_slopes(readings) {
  return [total(plain_sum_reading, readings)/count(readings)];
}

/** Experimental standard deviation of repeated readings, with n - 1. Exact by definition. */
export function series_standard_deviation(readings) {
  return Math.sqrt(squares(readings)/(count(readings) - 1));
}

function series_standard_deviation_slopes(readings) {
  return [0];
}

/** Standard uncertainty of the mean of repeated readings, from their scatter (type A). */
export function series_mean_uncertainty(readings) {
  const x0 = count(readings);
  return Math.sqrt(squares(readings)/(x0*(x0 - 1)));
}

function series_mean_uncertainty_slopes(readings) {
  return [0];
}

/** The newest of the readings. */
export function last_reading(readings) {
  return last(readings);
}

function last_reading_slopes(readings) {
  return [1];
}

/** How many readings there are. Exact by definition. */
export function series_count(readings) {
  return count(readings);
}

function series_count_slopes(readings) {
  return [0];
}

/** The largest reading as a multiple of the mean: 1 where all parts are alike. */
export function series_largest_ratio(readings) {
  return greatest(readings)/series_mean(readings);
}

function series_largest_ratio_slopes(readings) {
  const x0 = series_mean(readings);
  return [1/x0 - greatest(readings)*series_mean_slopes(readings)[0]/Math.pow(x0, 2)];
}

/** Relative half-range: how far the readings lie from their middle, as a share of their mean. */
export function reading_stability(readings, resolution) {
  return ((1/2)*greatest(readings) - 1/2*least(readings))/larger(Math.abs(series_mean(readings)), resolution);
}

function reading_stability_slopes(readings, resolution) {
  const x0 = series_mean(readings);
  return [-((1/2)*greatest(readings) - 1/2*least(readings))*((resolution <= Math.abs(series_mean(readings))) ? (1) : (0))*series_mean_slopes(readings)[0]*Math.sign(x0)/Math.pow(larger(Math.abs(x0), resolution), 2)];
}

/** Largest relative half-range that still counts as stable: a share, or two steps of the display. */
export function reading_stability_maximum(readings, resolution, share) {
  return larger(share, 2*resolution/larger(Math.abs(series_mean(readings)), resolution));
}

function reading_stability_maximum_slopes(readings, resolution, share) {
  const x0 = series_mean(readings);
  return [-2*resolution*(1 - ((share >= 2*resolution/larger(Math.abs(series_mean(readings)), resolution)) ? (1) : (0)))*((resolution <= Math.abs(series_mean(readings))) ? (1) : (0))*series_mean_slopes(readings)[0]*Math.sign(x0)/Math.pow(larger(Math.abs(x0), resolution), 2)];
}

/** Least-squares slope of the readings: change from one reading to the next. */
export function reading_trend(readings) {
  return slope(readings);
}

function reading_trend_slopes(readings) {
  return [0];
}

/** Minutes from one instant to another; negative when they are in the other order. */
export function elapsed_minutes(start, end) {
  return (1/60000)*end - 1/60000*start;
}

function elapsed_minutes_slopes(start, end) {
  return [-1/60000, 1/60000];
}

/** A value times a factor. Exact by definition. */
export function scaled(value, factor) {
  return factor*value;
}

function scaled_slopes(value, factor) {
  return [factor, value];
}

/** Share of the free chlorine that is hypochlorous acid, the part that disinfects. */
export function hypochlorous_acid_fraction(ph, temperature) {
  return 1/(Math.pow(10, ph - 0.0253*temperature + 3.1579050000000004 - 3000/(temperature + 273.15)) + 1);
}

function hypochlorous_acid_fraction_slopes(ph, temperature) {
  const x0 = temperature + 273.15;
  const x1 = Math.pow(10, ph - 0.0253*temperature + 3.1579050000000004 - 3000/x0);
  const x2 = x1*Math.log(10)/Math.pow(x1 + 1, 2);
  return [-x2, -x2*(-0.0253 + 3000/Math.pow(x0, 2))];
}

/** Available chlorine that dissolved tablets give, before anything uses it up. */
export function chlorine_dose(tablets, chlorine_per_tablet, volume) {
  return chlorine_per_tablet*tablets/volume;
}

function chlorine_dose_slopes(tablets, chlorine_per_tablet, volume) {
  return [tablets/volume, -chlorine_per_tablet*tablets/Math.pow(volume, 2)];
}

/** Fewest whole tablets with which the dose lies between its limits. */
export function chlorine_tablets(minimum_dose, maximum_dose, chlorine_per_tablet, volume, volume_uncertainty) {
  return started(minimum_dose*volume*(volume_uncertainty + 1)/chlorine_per_tablet);
}

/** Hypochlorous acid, as chlorine, that sodium dichloroisocyanurate sets free. */
export function isocyanurate_hypochlorous_acid(dose, ph) {
  const x0 = (1/70906)*dose;
  return 70906*root(x => chlorine_balance(x, Math.pow(10, -ph), x0), 0, x0);
}

function isocyanurate_hypochlorous_acid_slopes(dose, ph) {
  const x0 = Math.pow(10, 2*ph);
  const x1 = 1/x0;
  const x2 = (1/70906)*dose;
  const x3 = Math.pow(10, ph);
  const x4 = 1/x3;
  const x5 = root(x => chlorine_balance(x, x4, x2), 0, x2);
  const x6 = Math.pow(x5, 3);
  const x7 = x1*x6;
  const x8 = Math.pow(x5, 2);
  const x9 = 5623.413251903491*x4 + 1;
  const x10 = x8*x9;
  const x11 = 6.776883122784041e+21*x10;
  const x12 = x4*(213796.20895022326*x4 + 1);
  const x13 = 7943282.347242822*x5;
  const x14 = x13*(13182567385.564047*x12 + 1);
  const x15 = x11*x4 + x14 + 3.60679330385224e+27*x7;
  const x16 = 3.3884415613920205e+21*x10;
  const x17 = x14 + x16*x4 + 3.1622776601683796e-14*x3 + 251188643150.95822*x4*(7585775.7502918355*x4 + 1) + 1.2022644346174133e+27*x7 + 1;
  const x18 = 1/x17;
  const x19 = x1*x8;
  const x20 = x4*x5*x9;
  const x21 = 1.0471285480508986e+17*x12 + 7943282.347242822;
  const x22 = (1/141812)*dose;
  const x23 = x18*x22;
  const x24 = x15*x22/Math.pow(x17, 2);
  const x25 = 1/(x23*(1.082037991155672e+28*x19 + 1.3553766245568082e+22*x20 + x21) + x24*(-3.60679330385224e+27*x19 - 6.776883122784041e+21*x20 - x21) + 2.8840315031266057e-08*x3 + 1);
  const x26 = x4*x8;
  const x27 = x4*x6;
  const x28 = x13*(5636765862528899.0*x4 + 13182567385.564047);
  return [x25*(-1/2*x15*x18 + 1), -70906*x25*x4*(2.8840315031266057e-08*x0*x5 - x23*(x11 + 3.810921435926489e+25*x26 + 7.21358660770448e+27*x27 + x28) - x24*(3.1622776601683796e-14*x0 - x16 - 1.9054607179632445e+25*x26 - 2.4045288692348266e+27*x27 - x28 - 3.810921435926496e+18*x4 - 251188643150.95822))*Math.log(10)];
}

/** Free chlorine, hypochlorous acid and hypochlorite, that sodium dichloroisocyanurate sets free. */
export function isocyanurate_free_chlorine(dose, ph) {
  return (Math.pow(10, ph - 7.54) + 1)*isocyanurate_hypochlorous_acid(dose, ph);
}

function isocyanurate_free_chlorine_slopes(dose, ph) {
  const x0 = Math.pow(10, ph - 7.54);
  const x1 = x0 + 1;
  return [x1*isocyanurate_hypochlorous_acid_slopes(dose, ph)[0], x0*isocyanurate_hypochlorous_acid(dose, ph)*Math.log(10) + x1*isocyanurate_hypochlorous_acid_slopes(dose, ph)[1]];
}

/** Rate of first-order decay between two readings of chlorine. */
export function chlorine_decay_rate(start, end, time) {
  return Math.log(start/end)/time;
}

function chlorine_decay_rate_slopes(start, end, time) {
  const x0 = 1/time;
  const x1 = 1/end;
  return [x0/start, -x0*x1, -Math.log(start*x1)/Math.pow(time, 2)];
}

/** Contact value: concentration of chlorine times time. */
export function contact_value(start, end, time, method) {
  return ((method == 0) ? (end*time) : (time*(((-end + start)/(end + start) < 0.001) ? (((1/2)*end + (1/2)*start)*(-1/3*Math.pow(-end + start, 2)/Math.pow(end + start, 2) + 1)) : ((-end + start)/Math.log(start/end)))));
}

function contact_value_slopes(start, end, time, method) {
  return [((method == 0) ? (0) : (time*(((-end + start)/(end + start) < 0.001) ? (-1/6*Math.pow(-end + start, 2)/Math.pow(end + start, 2) + ((1/2)*end + (1/2)*start)*(-1/3*(-2*end + 2*start)/Math.pow(end + start, 2) + (2/3)*Math.pow(-end + start, 2)/Math.pow(end + start, 3)) + 1/2) : (1/Math.log(start/end) - (-end + start)/(start*Math.pow(Math.log(start/end), 2)))))), ((method == 0) ? (time) : (time*(((-end + start)/(end + start) < 0.001) ? (-1/6*Math.pow(-end + start, 2)/Math.pow(end + start, 2) + ((1/2)*end + (1/2)*start)*((2/3)*Math.pow(-end + start, 2)/Math.pow(end + start, 3) - 1/3*(2*end - 2*start)/Math.pow(end + start, 2)) + 1/2) : (-1/Math.log(start/end) + (-end + start)/(end*Math.pow(Math.log(start/end), 2)))))), ((method == 0) ? (end) : ((((-end + start)/(end + start) < 0.001) ? (((1/2)*end + (1/2)*start)*(-1/3*Math.pow(-end + start, 2)/Math.pow(end + start, 2) + 1)) : ((-end + start)/Math.log(start/end)))))];
}

/** Contact value that inactivates Giardia cysts by so many powers of ten. */
export function giardia_contact_value(inactivation_log, ph, temperature, chlorine) {
  return inactivation_log*((temperature < 12.5) ? (4.131798473613241*Math.exp(0.125*chlorine + 0.389*ph - 0.073*temperature) + 4.238118) : (5.318135007279768*Math.exp(0.111*chlorine + 0.361*ph - 0.065*temperature) - 0.816221));
}

function giardia_contact_value_slopes(inactivation_log, ph, temperature, chlorine) {
  return [inactivation_log*((temperature < 12.5) ? (1.6072696062355507*Math.exp(0.125*chlorine + 0.389*ph - 0.073*temperature)) : (1.9198467376279962*Math.exp(0.111*chlorine + 0.361*ph - 0.065*temperature))), inactivation_log*((temperature < 12.5) ? (-0.3016212885737666*Math.exp(0.125*chlorine + 0.389*ph - 0.073*temperature)) : (-0.34567877547318493*Math.exp(0.111*chlorine + 0.361*ph - 0.065*temperature))), inactivation_log*((temperature < 12.5) ? (0.5164748092016551*Math.exp(0.125*chlorine + 0.389*ph - 0.073*temperature)) : (0.5903129858080542*Math.exp(0.111*chlorine + 0.361*ph - 0.065*temperature)))];
}

/** Sodium thiosulfate, as pentahydrate, that takes the chlorine away. */
export function thiosulfate_needed(volume, chlorine, basis) {
  return (1/1000)*chlorine*volume*((basis == 0) ? (0.8750317321524271) : (1.9));
}

function thiosulfate_needed_slopes(volume, chlorine, basis) {
  const x0 = (1/1000)*((basis == 0) ? (0.8750317321524271) : (1.9));
  return [chlorine*x0, volume*x0];
}

/** Heat that disinfects, as seconds at 80 °C. */
export function heat_a0(temperature, time, z) {
  return ((temperature < 65) ? (0) : (Math.pow(10, (temperature - 80)/z)*time));
}

function heat_a0_slopes(temperature, time, z) {
  return [((temperature < 65) ? (0) : (Math.pow(10, (temperature - 80)/z)*time*Math.log(10)/z)), ((temperature < 65) ? (0) : (Math.pow(10, (temperature - 80)/z)))];
}

/** Flow that an overflow in the wall of a tank passes under a head of water. */
export function overflow_capacity(bore, head) {
  return 0.0012604274275022738*Math.PI*Math.pow(bore, 2)*Math.sqrt(head);
}

function overflow_capacity_slopes(bore, head) {
  const x0 = Math.sqrt(head);
  return [0.0025208548550045475*Math.PI*bore*x0, 0.0006302137137511369*Math.PI*Math.pow(bore, 2)/x0];
}

/** Flow from a volume caught in a time. */
export function timed_flow(volume, time) {
  return 60*volume/time;
}

function timed_flow_slopes(volume, time) {
  return [60/time, -60*volume/Math.pow(time, 2)];
}

/** Volume of a disinfecting solution that gives a dose. */
export function solution_volume(dose, volume, strength) {
  return dose*volume/strength;
}

function solution_volume_slopes(dose, volume, strength) {
  const x0 = 1/strength;
  return [volume*x0, dose*x0, -dose*volume/Math.pow(strength, 2)];
}

/** Dose that a volume of disinfecting solution gives, before anything uses it up. Exact by definition. */
export function solution_dose(added, strength, volume) {
  return added*strength/volume;
}

function solution_dose_slopes(added, strength, volume) {
  const x0 = 1/volume;
  return [strength*x0, added*x0, -added*strength/Math.pow(volume, 2)];
}

/** The date on which a part that wears while it runs has used up its life. */
export function date_after_use(start, life, used, per_day) {
  return start + completed((life - used)/per_day);
}

function date_after_use_slopes(start, life, used, per_day) {
  return [0, 0, 0];
}

/** Estimate of the fluence that water gets on its way through an annular chamber: never a validated dose. */
export function annular_uv_fluence(uvc_power, flow, transmittance_10mm, inner_radius, outer_radius, length) {
  return 60*uvc_power*(-inner_radius + outer_radius)*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*Math.pow(-inner_radius + outer_radius, 2)*Math.pow(Math.log(transmittance_10mm), 2) + (1/2)*(-inner_radius + outer_radius)*Math.log(transmittance_10mm) + 1) : (-(1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/((-inner_radius + outer_radius)*Math.log(transmittance_10mm))))/flow;
}

function annular_uv_fluence_slopes(uvc_power, flow, transmittance_10mm, inner_radius, outer_radius, length) {
  const x0 = -inner_radius + outer_radius;
  const x1 = 1/flow;
  const x2 = 60*x1*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*Math.pow(-inner_radius + outer_radius, 2)*Math.pow(Math.log(transmittance_10mm), 2) + (1/2)*(-inner_radius + outer_radius)*Math.log(transmittance_10mm) + 1) : (-(1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/((-inner_radius + outer_radius)*Math.log(transmittance_10mm))));
  const x3 = 60*uvc_power*x0;
  const x4 = x1*x3;
  const x5 = uvc_power*x2;
  return [x0*x2, -x3*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*Math.pow(-inner_radius + outer_radius, 2)*Math.pow(Math.log(transmittance_10mm), 2) + (1/2)*(-inner_radius + outer_radius)*Math.log(transmittance_10mm) + 1) : (-(1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/((-inner_radius + outer_radius)*Math.log(transmittance_10mm))))/Math.pow(flow, 2), x4*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/3)*Math.pow(-inner_radius + outer_radius, 2)*Math.log(transmittance_10mm)/transmittance_10mm + (1/2)*(-inner_radius + outer_radius)/transmittance_10mm) : ((1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/(transmittance_10mm*(-inner_radius + outer_radius)*Math.pow(Math.log(transmittance_10mm), 2)) + Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm))/(transmittance_10mm*Math.log(transmittance_10mm)))), 60*uvc_power*x0*x1*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*(2*inner_radius - 2*outer_radius)*Math.pow(Math.log(transmittance_10mm), 2) - 1/2*Math.log(transmittance_10mm)) : (-(1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/(Math.pow(-inner_radius + outer_radius, 2)*Math.log(transmittance_10mm)) - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm))/(-inner_radius + outer_radius))) - x5, x4*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*(-2*inner_radius + 2*outer_radius)*Math.pow(Math.log(transmittance_10mm), 2) + (1/2)*Math.log(transmittance_10mm)) : ((1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/(Math.pow(-inner_radius + outer_radius, 2)*Math.log(transmittance_10mm)) + Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm))/(-inner_radius + outer_radius))) + x5, 0];
}

/** Fluence at another flow and another reading of the sensor than those of the certificate. */
export function scaled_uv_fluence(certified_fluence, certified_flow, flow, sensor_ratio) {
  return certified_fluence*sensor_ratio*smaller(1, certified_flow/flow);
}

function scaled_uv_fluence_slopes(certified_fluence, certified_flow, flow, sensor_ratio) {
  const x0 = 1/flow;
  const x1 = smaller(1, certified_flow*x0);
  const x2 = certified_fluence*sensor_ratio*(1 - ((certified_flow/flow >= 1) ? (1) : (0)));
  return [sensor_ratio*x1, x0*x2, -certified_flow*x2/Math.pow(flow, 2), certified_fluence*x1];
}

/** Mean irradiance in a stirred dish under a parallel beam. */
export function bench_uv_irradiance(surface_irradiance, petri_factor, reflection, absorbance, depth, distance) {
  return distance*petri_factor*surface_irradiance*(1 - reflection)*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10))))/(depth + distance);
}

function bench_uv_irradiance_slopes(surface_irradiance, petri_factor, reflection, absorbance, depth, distance) {
  const x0 = depth + distance;
  const x1 = 1/x0;
  const x2 = 1 - reflection;
  const x3 = distance*x1*x2*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10))));
  const x4 = distance*petri_factor*surface_irradiance*x2;
  const x5 = x4*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10))))/Math.pow(x0, 2);
  return [petri_factor*x3, surface_irradiance*x3, -distance*petri_factor*surface_irradiance*x1*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10)))), x1*x4*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/3)*absorbance*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*depth*Math.log(10)) : (Math.exp(-absorbance*depth*Math.log(10))/absorbance - (1 - Math.exp(-absorbance*depth*Math.log(10)))/(Math.pow(absorbance, 2)*depth*Math.log(10)))), distance*petri_factor*surface_irradiance*x1*x2*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/3)*Math.pow(absorbance, 2)*depth*Math.pow(Math.log(10), 2) - 1/2*absorbance*Math.log(10)) : (Math.exp(-absorbance*depth*Math.log(10))/depth - (1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*Math.pow(depth, 2)*Math.log(10)))) - x5, petri_factor*surface_irradiance*x1*x2*((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10)))) - x5];
}

/** Highest conductivity at 25 °C that a grade of water allows ("not more than"). */
export function grade_conductivity_maximum(grade) {
  return exact(tables.grade_conductivity_maximum, grade);
}

/** Lowest resistivity at 25 °C that a grade of water allows ("not less than"). */
export function grade_resistivity_minimum(grade) {
  return exact(tables.grade_resistivity_minimum, grade);
}

/** Highest total organic carbon that a grade of water allows. */
export function grade_toc_maximum(grade) {
  return exact(tables.grade_toc_maximum, grade);
}

/** Highest colony count that a grade of water allows. */
export function grade_colony_count_maximum(grade) {
  return exact(tables.grade_colony_count_maximum, grade);
}

/** Highest uncompensated conductivity of stage 1 ("not more than"). */
export function usp_645_stage_1_limit(temperature) {
  return stepDown(tables.usp_645_2011_stage_1, temperature);
}

function usp_645_stage_1_limit_slopes(temperature) {
  return [0];
}

/** Highest conductivity of the stirred sample for its pH ("not more than"). */
export function usp_645_stage_3_limit(ph) {
  return stepDown(tables.usp_645_2011_stage_3, (1/10)*completed(10*ph + 0.5));
}

function usp_645_stage_3_limit_slopes(ph) {
  return [0];
}

/** Highest uncompensated conductivity of Purified Water ("not greater than"). */
export function ph_eur_purified_water_limit(temperature) {
  return linear(tables.ph_eur_0008_conductivity, temperature);
}

function ph_eur_purified_water_limit_slopes(temperature) {
  return [linearSlope(tables.ph_eur_0008_conductivity, temperature)];
}

export const formulas = catalogue({
  difference: {unit: "any", inputs: {"value": {"unit": "any"}, "subtract": {"unit": "any"}}, compute: difference, measured: ["value", "subtract"], slopes: difference_slopes},
  ratio: {unit: "1", inputs: {"value": {"unit": "any"}, "reference": {"unit": "any"}}, compute: ratio, measured: ["value", "reference"], slopes: ratio_slopes},
  relative_difference: {unit: "1", inputs: {"value": {"unit": "any"}, "reference": {"unit": "any"}}, compute: relative_difference, measured: ["value", "reference"], slopes: relative_difference_slopes},
  smaller_of: {unit: "any", inputs: {"first": {"unit": "any"}, "second": {"unit": "any"}}, compute: smaller_of, measured: ["first", "second"], slopes: smaller_of_slopes},
  larger_of: {unit: "any", inputs: {"first": {"unit": "any"}, "second": {"unit": "any"}}, compute: larger_of, measured: ["first", "second"], slopes: larger_of_slopes},
  sum_of: {unit: "any", inputs: {"first": {"unit": "any", "optional": true}, "second": {"unit": "any", "optional": true}, "third": {"unit": "any", "optional": true}, "fourth": {"unit": "any", "optional": true}, "fifth": {"unit": "any", "optional": true}, "sixth": {"unit": "any", "optional": true}}, compute: sum_of, measured: ["first", "second", "third", "fourth", "fifth", "sixth"], slopes: sum_of_slopes, refusals: [["nothing_given", false, (first, second, third, fourth, fifth, sixth, first_given, second_given, third_given, fourth_given, fifth_given, sixth_given) => fifth_given == 0 && first_given == 0 && fourth_given == 0 && second_given == 0 && sixth_given == 0 && third_given == 0]]},
  change_per_time: {unit: "any", inputs: {"start": {"unit": "any"}, "end": {"unit": "any"}, "minutes": {"unit": "min", "above": 0}, "per": {"unit": "min", "above": 0, "default": 60}}, compute: change_per_time, measured: ["start", "end", "minutes"], slopes: change_per_time_slopes},
  band_lower: {unit: "any", inputs: {"value": {"unit": "any"}, "share": {"unit": "1", "minimum": 0, "maximum": 1}}, compute: band_lower, measured: ["value", "share"], slopes: band_lower_slopes},
  band_upper: {unit: "any", inputs: {"value": {"unit": "any"}, "share": {"unit": "1", "minimum": 0, "maximum": 100}}, compute: band_upper, measured: ["value", "share"], slopes: band_upper_slopes},
  flow_balance_band: {unit: "1", inputs: {"feed_flow": {"unit": "any", "above": 0}, "permeate_flow": {"unit": "any", "minimum": 0}, "concentrate_flow": {"unit": "any", "minimum": 0}, "feed_uncertainty": {"unit": "any", "minimum": 0}, "permeate_uncertainty": {"unit": "any", "minimum": 0}, "concentrate_uncertainty": {"unit": "any", "minimum": 0}, "least": {"unit": "1", "minimum": 0, "maximum": 1, "default": 0.1}}, compute: flow_balance_band, measured: ["feed_flow", "permeate_flow", "concentrate_flow", "feed_uncertainty", "permeate_uncertainty", "concentrate_uncertainty", "least"], slopes: flow_balance_band_slopes},
  free_carbon_dioxide: {unit: "mg/L", inputs: {"alkalinity": {"unit": "mg/L", "minimum": 0, "maximum": 5000}, "ph": {"unit": "pH", "minimum": 4.5, "maximum": 10}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 50}, "conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 10000, "default": 0}}, compute: free_carbon_dioxide, measured: ["alkalinity", "ph", "temperature", "conductivity"], slopes: free_carbon_dioxide_slopes, steps: (alkalinity, ph, temperature, conductivity) => ({"I": 1.6e-05*conductivity, "A": 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5), "p_f": 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.004*Math.sqrt(conductivity)/(0.004*Math.sqrt(conductivity) + 1) - 4.8e-06*conductivity), "a": 0.019984012789768187*alkalinity, "pK_1": 0.06091964*temperature - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2)})},
  carbon_dioxide_in_air_equilibrium: {unit: "mg/L", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 50}, "partial_pressure": {"unit": "ppm", "minimum": 0, "maximum": 100000.0}}, compute: carbon_dioxide_in_air_equilibrium, measured: ["temperature", "partial_pressure"], slopes: carbon_dioxide_in_air_equilibrium_slopes, steps: (temperature, partial_pressure) => ({"K_H": Math.pow(10, 0.01985076*temperature - 40.45154*Math.log(temperature + 273.15)/Math.log(10) + 113.808735094 - 6919.53/(temperature + 273.15) + 669365/Math.pow(temperature + 273.15, 2))})},
  permeate_ph: {unit: "pH", inputs: {"bicarbonate": {"unit": "mg/L", "maximum": 1000, "above": 0}, "carbon_dioxide": {"unit": "mg/L", "maximum": 1000, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 50}}, compute: permeate_ph, measured: ["bicarbonate", "carbon_dioxide", "temperature"], slopes: permeate_ph_slopes, steps: (bicarbonate, carbon_dioxide, temperature) => ({"pK_1": 0.06091964*temperature - 126.8339*Math.log(temperature + 273.15)/Math.log(10) + 372.949599666 - 21834.37/(temperature + 273.15) + 1684915/Math.pow(temperature + 273.15, 2)})},
  langelier_index: {unit: "1", inputs: {"ph": {"unit": "pH", "minimum": 5, "maximum": 10}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 50}, "calcium": {"unit": "mg/L", "maximum": 5000, "above": 0}, "alkalinity": {"unit": "mg/L", "maximum": 5000, "above": 0}, "dissolved_solids": {"unit": "mg/L", "maximum": 10000, "above": 0}}, compute: langelier_index, measured: ["ph", "temperature", "calcium", "alkalinity", "dissolved_solids"], slopes: langelier_index_slopes, steps: (ph, temperature, calcium, alkalinity, dissolved_solids) => ({"A": 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5), "I": 2.5e-05*dissolved_solids, "pK_2": 0.03252849*temperature - 38.92561*Math.log(temperature + 273.15)/Math.log(10) + 116.7722570435 - 5151.79/(temperature + 273.15) + 563713.9/Math.pow(temperature + 273.15, 2), "pK_s": 0.077993*temperature - 71.595*Math.log(temperature + 273.15)/Math.log(10) + 193.21028795 - 2839.319/(temperature + 273.15), "L_0": ph + 0.04546451000000001*temperature + Math.log((1/50040)*alkalinity)/Math.log(10) + Math.log((1/40078)*calcium)/Math.log(10) - 32.66939*Math.log(temperature + 273.15)/Math.log(10) + 76.4380309065 + 2312.471/(temperature + 273.15) - 563713.9/Math.pow(temperature + 273.15, 2)})},
  concentrate_langelier_index: {unit: "1", inputs: {"ph": {"unit": "pH", "minimum": 5, "maximum": 10}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 50}, "calcium": {"unit": "mg/L", "maximum": 5000, "above": 0}, "alkalinity": {"unit": "mg/L", "maximum": 5000, "above": 0}, "dissolved_solids": {"unit": "mg/L", "maximum": 10000, "above": 0}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}}, compute: concentrate_langelier_index, measured: ["ph", "temperature", "calcium", "alkalinity", "dissolved_solids", "recovery"], slopes: concentrate_langelier_index_slopes, steps: (ph, temperature, calcium, alkalinity, dissolved_solids, recovery) => ({"CF": 1/(1 - recovery), "A": 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5), "I": 2.5e-05*dissolved_solids/(1 - recovery), "pK_2": 0.03252849*temperature - 38.92561*Math.log(temperature + 273.15)/Math.log(10) + 116.7722570435 - 5151.79/(temperature + 273.15) + 563713.9/Math.pow(temperature + 273.15, 2), "pK_s": 0.077993*temperature - 71.595*Math.log(temperature + 273.15)/Math.log(10) + 193.21028795 - 2839.319/(temperature + 273.15), "L_0": ph + 0.04546451000000001*temperature + Math.log((1/50040)*alkalinity)/Math.log(10) + Math.log((1/40078)*calcium)/Math.log(10) - 32.66939*Math.log(temperature + 273.15)/Math.log(10) + 76.4380309065 + 2312.471/(temperature + 273.15) - 563713.9/Math.pow(temperature + 273.15, 2)})},
  maximum_recovery: {unit: "1", inputs: {"ph": {"unit": "pH", "minimum": 5, "maximum": 10}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 50}, "calcium": {"unit": "mg/L", "maximum": 5000, "above": 0}, "alkalinity": {"unit": "mg/L", "maximum": 5000, "above": 0}, "dissolved_solids": {"unit": "mg/L", "maximum": 10000, "above": 0}, "index_limit": {"unit": "1", "minimum": -3, "maximum": 3}}, compute: maximum_recovery, measured: ["ph", "temperature", "calcium", "alkalinity", "dissolved_solids"], slopes: maximum_recovery_slopes, refusals: [["no_recovery_allowed", false, (ph, temperature, calcium, alkalinity, dissolved_solids, index_limit) => ph + 0.04546451000000001*temperature - 9100000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)*(0.005*Math.sqrt(dissolved_solids)/(0.005*Math.sqrt(dissolved_solids) + 1) - 7.5e-06*dissolved_solids) + Math.log((1/50040)*alkalinity)/Math.log(10) + Math.log((1/40078)*calcium)/Math.log(10) - 32.66939*Math.log(temperature + 273.15)/Math.log(10) + 76.4380309065 + 2312.471/(temperature + 273.15) - 563713.9/Math.pow(temperature + 273.15, 2) > index_limit]], steps: (ph, temperature, calcium, alkalinity, dissolved_solids, index_limit) => ({"pK_2": 0.03252849*temperature - 38.92561*Math.log(temperature + 273.15)/Math.log(10) + 116.7722570435 - 5151.79/(temperature + 273.15) + 563713.9/Math.pow(temperature + 273.15, 2), "pK_s": 0.077993*temperature - 71.595*Math.log(temperature + 273.15)/Math.log(10) + 193.21028795 - 2839.319/(temperature + 273.15), "L_0": ph + 0.04546451000000001*temperature + Math.log((1/50040)*alkalinity)/Math.log(10) + Math.log((1/40078)*calcium)/Math.log(10) - 32.66939*Math.log(temperature + 273.15)/Math.log(10) + 76.4380309065 + 2312.471/(temperature + 273.15) - 563713.9/Math.pow(temperature + 273.15, 2), "A": 1820000.0*Math.pow((-68.937 + 60954/(temperature + 389.15))*(temperature + 273.15), -1.5)})},
  water_density: {unit: "kg/m**3", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_density, measured: ["temperature"], slopes: water_density_slopes},
  water_viscosity: {unit: "mPa s", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_viscosity, measured: ["temperature"], slopes: water_viscosity_slopes},
  flow_velocity: {unit: "m/s", inputs: {"flow": {"unit": "L/min", "above": 0}, "bore": {"unit": "mm", "above": 0}}, compute: flow_velocity, measured: ["flow", "bore"], slopes: flow_velocity_slopes},
  reynolds_number: {unit: "1", inputs: {"flow": {"unit": "L/min", "above": 0}, "bore": {"unit": "mm", "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: reynolds_number, measured: ["flow", "bore", "temperature"], slopes: reynolds_number_slopes, steps: (flow, bore, temperature) => ({"v": flow_velocity(flow, bore), "rho": water_density(temperature), "mu": water_viscosity(temperature)})},
  washout_volumes: {unit: "1", inputs: {"start": {"unit": "any", "minimum": 0}, "limit": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_volumes, measured: ["start", "limit", "inflow"], slopes: washout_volumes_slopes, refusals: [["never_reached", false, (start, limit, inflow) => limit <= inflow && start > limit]]},
  washout_time: {unit: "min", inputs: {"volume": {"unit": "L", "above": 0}, "flow": {"unit": "L/min", "above": 0}, "start": {"unit": "any", "minimum": 0}, "limit": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_time, measured: ["volume", "flow", "start", "limit", "inflow"], slopes: washout_time_slopes, refusals: [["never_reached", false, (volume, flow, start, limit, inflow) => limit <= inflow && start > limit]], steps: (volume, flow, start, limit, inflow) => ({"N": washout_volumes(start, limit, inflow)})},
  washout_concentration: {unit: "any", inputs: {"volume": {"unit": "L", "above": 0}, "flow": {"unit": "L/min", "above": 0}, "time": {"unit": "min", "minimum": 0}, "start": {"unit": "any", "minimum": 0}, "inflow": {"unit": "any", "minimum": 0}}, compute: washout_concentration, measured: ["volume", "flow", "time", "start", "inflow"], slopes: washout_concentration_slopes},
  water_hammer_pressure: {unit: "bar", inputs: {"velocity_change": {"unit": "m/s", "minimum": 0, "maximum": 100}, "outer_diameter": {"unit": "mm", "maximum": 10000, "above": 0}, "wall": {"unit": "mm", "maximum": 1000, "above": 0}, "youngs_modulus": {"unit": "GPa", "maximum": 1000, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_hammer_pressure, measured: ["velocity_change", "outer_diameter", "wall", "youngs_modulus", "temperature"], slopes: water_hammer_pressure_slopes, refusals: [["wall_leaves_no_bore", false, (velocity_change, outer_diameter, wall, youngs_modulus, temperature) => outer_diameter <= 2*wall]], steps: (velocity_change, outer_diameter, wall, youngs_modulus, temperature) => ({"rho": water_density(temperature), "kappa": (4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1), "s": (1/10000)*(outer_diameter - 2*wall)/(wall*youngs_modulus), "a": 100*Math.sqrt(10)*Math.sqrt(1/(((4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1) + (1/10000)*(outer_diameter - 2*wall)/(wall*youngs_modulus))*water_density(temperature)))})},
  thermal_pressure_drift: {unit: "bar/K", inputs: {"outer_diameter": {"unit": "mm", "maximum": 10000, "above": 0}, "wall": {"unit": "mm", "maximum": 1000, "above": 0}, "youngs_modulus": {"unit": "GPa", "maximum": 1000, "above": 0}, "poisson_ratio": {"unit": "1", "minimum": 0, "maximum": 0.5}, "expansion_coefficient": {"unit": "1/K", "minimum": 0, "maximum": 0.001}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: thermal_pressure_drift, measured: ["outer_diameter", "wall", "youngs_modulus", "poisson_ratio", "expansion_coefficient", "temperature"], slopes: thermal_pressure_drift_slopes, refusals: [["wall_leaves_no_bore", false, (outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) => outer_diameter <= 2*wall]], steps: (outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) => ({"beta": -(-1.40271265e-09*Math.pow(temperature, 4) + 4.2225208e-07*Math.pow(temperature, 3) - 0.000138511383*Math.pow(temperature, 2) - 0.0159740802*temperature + 16.945176)/(-2.8054253e-10*Math.pow(temperature, 5) + 1.0556302e-07*Math.pow(temperature, 4) - 4.6170461e-05*Math.pow(temperature, 3) - 0.0079870401*Math.pow(temperature, 2) + 16.945176*temperature + 999.83952) + 0.01687985/(0.01687985*temperature + 1), "s": (1/10000)*(1.25 - poisson_ratio)*(outer_diameter - 2*wall)/(wall*youngs_modulus), "kappa": (4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1)})},
  leak_rate: {unit: "mL/min", inputs: {"volume": {"unit": "L", "maximum": 1000000.0, "above": 0}, "pressure_drop": {"unit": "bar", "minimum": -1000, "maximum": 1000}, "duration": {"unit": "min", "maximum": 100000.0, "above": 0}, "temperature_change": {"unit": "K", "minimum": -50, "maximum": 50}, "air_volume": {"unit": "mL", "minimum": 0, "maximum": 1000000000.0, "default": 0}, "absolute_pressure": {"unit": "bar", "maximum": 1000, "above": 0}, "outer_diameter": {"unit": "mm", "maximum": 10000, "above": 0}, "wall": {"unit": "mm", "maximum": 1000, "above": 0}, "youngs_modulus": {"unit": "GPa", "maximum": 1000, "above": 0}, "poisson_ratio": {"unit": "1", "minimum": 0, "maximum": 0.5}, "expansion_coefficient": {"unit": "1/K", "minimum": 0, "maximum": 0.001}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: leak_rate, measured: ["volume", "pressure_drop", "duration", "temperature_change", "air_volume", "absolute_pressure", "outer_diameter", "wall", "youngs_modulus", "poisson_ratio", "expansion_coefficient", "temperature"], slopes: leak_rate_slopes, refusals: [["wall_leaves_no_bore", false, (volume, pressure_drop, duration, temperature_change, air_volume, absolute_pressure, outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) => outer_diameter <= 2*wall]], steps: (volume, pressure_drop, duration, temperature_change, air_volume, absolute_pressure, outer_diameter, wall, youngs_modulus, poisson_ratio, expansion_coefficient, temperature) => ({"s": (1/10000)*(1.25 - poisson_ratio)*(outer_diameter - 2*wall)/(wall*youngs_modulus), "kappa": (4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1), "C": 1000*volume*((4.1041099999999996e-16*Math.pow(temperature, 5) - 5.847726999999999e-14*Math.pow(temperature, 4) + 2.008438e-11*Math.pow(temperature, 3) + 1.4591869999999999e-09*Math.pow(temperature, 2) + 6.163813e-07*temperature + 5.0884959999999995e-05)/(0.01967348*temperature + 1) + (1/10000)*(1.25 - poisson_ratio)*(outer_diameter - 2*wall)/(wall*youngs_modulus)) + air_volume/absolute_pressure, "beta": -(-1.40271265e-09*Math.pow(temperature, 4) + 4.2225208e-07*Math.pow(temperature, 3) - 0.000138511383*Math.pow(temperature, 2) - 0.0159740802*temperature + 16.945176)/(-2.8054253e-10*Math.pow(temperature, 5) + 1.0556302e-07*Math.pow(temperature, 4) - 4.6170461e-05*Math.pow(temperature, 3) - 0.0079870401*Math.pow(temperature, 2) + 16.945176*temperature + 999.83952) + 0.01687985/(0.01687985*temperature + 1), "V_T": 1000*temperature_change*volume*(-3*expansion_coefficient - (-1.40271265e-09*Math.pow(temperature, 4) + 4.2225208e-07*Math.pow(temperature, 3) - 0.000138511383*Math.pow(temperature, 2) - 0.0159740802*temperature + 16.945176)/(-2.8054253e-10*Math.pow(temperature, 5) + 1.0556302e-07*Math.pow(temperature, 4) - 4.6170461e-05*Math.pow(temperature, 3) - 0.0079870401*Math.pow(temperature, 2) + 16.945176*temperature + 999.83952) + 0.01687985/(0.01687985*temperature + 1))})},
  water_ion_product: {unit: "1", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: water_ion_product, measured: ["temperature"], slopes: water_ion_product_slopes, steps: (temperature) => ({"rho": water_density(temperature), "Q": 0.0004955277117174774*water_density(temperature)*Math.exp(8681.05/(temperature + 273.15) - 241.451*Math.pow(water_density(temperature), 2/3)/Math.pow(temperature + 273.15, 2))})},
  pure_water_conductivity: {unit: "uS/cm", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: pure_water_conductivity, measured: ["temperature"], slopes: pure_water_conductivity_slopes},
  pure_water_resistivity: {unit: "Mohm cm", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: pure_water_resistivity, measured: ["temperature"], slopes: pure_water_resistivity_slopes, steps: (temperature) => ({"kappa_p": pure_water_conductivity(temperature)})},
  conductivity_at_25: {unit: "uS/cm", inputs: {"conductivity": {"unit": "uS/cm", "maximum": 10000.0, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}}, compute: conductivity_at_25, measured: ["conductivity", "temperature"], slopes: conductivity_at_25_slopes, refusals: [["above_pure_water", true, (conductivity, temperature, result) => result < 0.0546448087431694]], steps: (conductivity, temperature) => ({"s": 0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49, "kappa_p": pure_water_conductivity(temperature)})},
  resistivity_at_25: {unit: "Mohm cm", inputs: {"resistivity": {"unit": "Mohm cm", "maximum": 10000.0, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}}, compute: resistivity_at_25, measured: ["resistivity", "temperature"], slopes: resistivity_at_25_slopes, refusals: [["above_pure_water", true, (resistivity, temperature, result) => result <= 0 || result > 18.3]], steps: (resistivity, temperature) => ({"s": 0.0204*temperature + 4.7e-05*Math.pow(temperature - 25, 2) + 0.49, "kappa_p": pure_water_conductivity(temperature)})},
  uncompensated_conductivity: {unit: "uS/cm", inputs: {"conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}, "meter_mode": {"options": ["linear", "uncompensated"], "default": "linear"}, "coefficient": {"unit": "1/K", "minimum": 0, "below": 0.04, "default": 0.02}}, compute: uncompensated_conductivity, measured: ["conductivity", "temperature", "coefficient"], slopes: uncompensated_conductivity_slopes},
  natural_conductivity_at_25: {unit: "uS/cm", inputs: {"conductivity": {"unit": "uS/cm", "minimum": 60, "maximum": 1000}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 35}}, compute: natural_conductivity_at_25, measured: ["conductivity", "temperature"], slopes: natural_conductivity_at_25_slopes, steps: (conductivity, temperature) => ({"f_25": linear(tables.iso_7888_1985_factor, temperature)})},
  carbon_dioxide_conductivity: {unit: "uS/cm", inputs: {"carbon_dioxide": {"unit": "mg/L", "minimum": 0, "maximum": 100}}, compute: carbon_dioxide_conductivity, measured: ["carbon_dioxide"], slopes: carbon_dioxide_conductivity_slopes, steps: (carbon_dioxide) => ({"K_w": 1.0071274960682433e-14, "K_1": 4.4463126746910836e-07, "C": (1/44010)*carbon_dioxide, "h": root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(1.0102959951581649e-11*carbon_dioxide + 1.0071274960682433e-14))})},
  carbon_dioxide_ph: {unit: "pH", inputs: {"carbon_dioxide": {"unit": "mg/L", "minimum": 0, "maximum": 100}}, compute: carbon_dioxide_ph, measured: ["carbon_dioxide"], slopes: carbon_dioxide_ph_slopes, steps: (carbon_dioxide) => ({"K_w": 1.0071274960682433e-14, "K_1": 4.4463126746910836e-07, "C": (1/44010)*carbon_dioxide, "h": root(x => charge_balance(x, 1.0071274960682433e-14, 4.4463126746910836e-07, (1/44010)*carbon_dioxide), 5.0177871020706015e-08, 2*Math.sqrt(1.0102959951581649e-11*carbon_dioxide + 1.0071274960682433e-14))})},
  date_after: {unit: "date", inputs: {"start": {"unit": "date", "minimum": -25567, "maximum": 84005, "counted": true}, "days": {"unit": "d", "minimum": 0, "maximum": 36525}}, compute: date_after},
  date_after_months: {unit: "date", inputs: {"start": {"unit": "date", "minimum": -25567, "maximum": 84005, "counted": true}, "months": {"unit": "month", "minimum": 0, "maximum": 1200, "counted": true}}, compute: date_after_months, steps: (start, months) => ({"d": start - 365*completed(400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51)) - completed(146880*completed((1/146097)*start + 719468/146097) - 1836/5*completed(400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51)) + (1836/5)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (153/5)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 2/5) - completed((1/400)*completed(400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) + completed((1/100)*completed(400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) - completed((1/4)*completed(400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) + 719468, "B": 365*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51)) + completed((153/5)*months + 146880*completed((1/146097)*start + 719468/146097) - 1836/5*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51)) + (1836/5)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (153/5)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 2/5) + completed((1/400)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) - completed((1/100)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) + completed((1/4)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51))) - 719468, "E": 365*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 1/12) + completed((153/5)*months + 146880*completed((1/146097)*start + 719468/146097) - 1836/5*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 1/12) + (1836/5)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (153/5)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 31) + completed((1/400)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 1/12)) - completed((1/100)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 1/12)) + completed((1/4)*completed((1/12)*months + 400*completed((1/146097)*start + 719468/146097) + completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (1/12)*completed((5/153)*start - 81165/17*completed((1/146097)*start + 719468/146097) - 1825/153*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365) + (5/153)*completed((1/100)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) - 5/153*completed((1/4)*completed((1/365)*start - 146097/365*completed((1/146097)*start + 719468/146097) - 1/365*completed((1/146096)*start - 146097/146096*completed((1/146097)*start + 719468/146097) + 179867/36524) + (1/365)*completed((1/36524)*start - 146097/36524*completed((1/146097)*start + 719468/146097) + 179867/9131) - 1/365*completed((1/1460)*start - 146097/1460*completed((1/146097)*start + 719468/146097) + 179867/365) + 719468/365)) + 1199114/51) + 1/12)) - 719469})},
  earliest_date: {unit: "date", inputs: {"first": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "second": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "third": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "fourth": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "fifth": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "sixth": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "seventh": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}, "eighth": {"unit": "date", "minimum": -25567, "maximum": 84005, "optional": true, "counted": true}}, compute: earliest_date, refusals: [["nothing_given", false, (first, second, third, fourth, fifth, sixth, seventh, eighth, first_given, second_given, third_given, fourth_given, fifth_given, sixth_given, seventh_given, eighth_given) => eighth_given == 0 && fifth_given == 0 && first_given == 0 && fourth_given == 0 && second_given == 0 && seventh_given == 0 && sixth_given == 0 && third_given == 0]]},
  standard_uncertainty: {unit: "any", inputs: {"reading": {"unit": "any"}, "accuracy_of_reading": {"unit": "1", "minimum": 0, "maximum": 10, "default": 0}, "accuracy_of_range": {"unit": "1", "minimum": 0, "maximum": 10, "default": 0}, "range": {"unit": "any", "minimum": 0, "default": 0}, "digits": {"unit": "1", "minimum": 0, "maximum": 1000000.0, "default": 0}, "resolution": {"unit": "any", "minimum": 0, "default": 0}, "calibration_uncertainty": {"unit": "any", "minimum": 0, "default": 0}}, compute: standard_uncertainty, measured: ["reading"], slopes: standard_uncertainty_slopes, steps: (reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) => ({"a": accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution})},
  instrument_uncertainty: {unit: "any", inputs: {"reading": {"unit": "any"}, "accuracy_of_reading": {"unit": "1", "minimum": 0, "maximum": 10, "default": 0}, "accuracy_of_range": {"unit": "1", "minimum": 0, "maximum": 10, "default": 0}, "range": {"unit": "any", "minimum": 0, "default": 0}, "digits": {"unit": "1", "minimum": 0, "maximum": 1000000.0, "default": 0}, "resolution": {"unit": "any", "minimum": 0, "default": 0}, "calibration_uncertainty": {"unit": "any", "minimum": 0, "default": 0}}, compute: instrument_uncertainty, measured: ["reading"], slopes: instrument_uncertainty_slopes, steps: (reading, accuracy_of_reading, accuracy_of_range, range, digits, resolution, calibration_uncertainty) => ({"a": accuracy_of_range*range + accuracy_of_reading*Math.abs(reading) + digits*resolution})},
  resolution_uncertainty: {unit: "any", inputs: {"resolution": {"unit": "any", "minimum": 0, "default": 0}}, compute: resolution_uncertainty},
  coverage_factor: {unit: "1", inputs: {"degrees_of_freedom": {"unit": "1", "minimum": 1, "infinite": true}}, compute: coverage_factor, measured: ["degrees_of_freedom"], slopes: coverage_factor_slopes},
  effective_degrees_of_freedom: {unit: "1", inputs: {"uncertainties": {"unit": "any", "minimum": 0, "at_least": 1}, "degrees": {"unit": "1", "above": 0, "infinite": true, "at_least": 1}}, compute: effective_degrees_of_freedom, measured: ["uncertainties", "degrees"], slopes: effective_degrees_of_freedom_slopes, refusals: [["lengths_differ", false, (uncertainties, degrees) => count(uncertainties) != count(degrees)], ["unlimited_degrees", false, (uncertainties, degrees) => total(fourth_power_sum, uncertainties, degrees) <= 0]], steps: (uncertainties, degrees) => ({"q": total(square_sum, uncertainties)})},
  acceptance_limit: {unit: "any", inputs: {"limit": {"unit": "any", "minimum": 0}, "side": {"options": ["upper", "lower"]}, "accuracy_of_reading": {"unit": "1", "minimum": 0, "below": 0.5, "default": 0}, "accuracy_absolute": {"unit": "any", "minimum": 0, "default": 0}}, compute: acceptance_limit, measured: ["limit"], slopes: acceptance_limit_slopes, refusals: [["no_acceptable_reading", true, (limit, side, accuracy_of_reading, accuracy_absolute, result) => result < 0]]},
  conformance_probability: {unit: "1", inputs: {"reading": {"unit": "any"}, "standard_uncertainty": {"unit": "any", "above": 0}, "lower": {"unit": "any", "optional": true}, "upper": {"unit": "any", "optional": true}, "degrees_of_freedom": {"unit": "1", "minimum": 1, "optional": true, "counted": true}}, compute: conformance_probability, measured: ["reading", "standard_uncertainty", "lower", "upper"], slopes: conformance_probability_slopes, refusals: [["no_limit_given", false, (reading, standard_uncertainty, lower, upper, degrees_of_freedom, lower_given, upper_given, degrees_of_freedom_given) => lower_given == 0 && upper_given == 0]]},
  guarded_verdict: {unit: "1", inputs: {"reading": {"unit": "any"}, "expanded_uncertainty": {"unit": "any", "minimum": 0}, "lower": {"unit": "any", "optional": true}, "upper": {"unit": "any", "optional": true}, "guard": {"unit": "1", "minimum": 0, "maximum": 10, "default": 1}, "rule": {"options": ["non_binary", "binary", "simple"], "default": "non_binary"}}, compute: guarded_verdict, words: ["pass", "conditional_pass", "conditional_fail", "fail", "instrument_not_good_enough", "no_valid_setting"], refusals: [["no_limit_given", false, (reading, expanded_uncertainty, lower, upper, guard, rule, lower_given, upper_given) => lower_given == 0 && upper_given == 0]], steps: (reading, expanded_uncertainty, lower, upper, guard, rule, lower_given, upper_given) => ({"w": ((rule == 0 || rule == 1) ? (expanded_uncertainty*guard) : (0)), "s": 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), "e": larger(((upper_given != 0) ? (-upper + reading) : (-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))))), ((lower_given != 0) ? (lower - reading) : (-larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))))) - 1e-09*larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper))), "o": ((lower_given != 0 && upper_given != 0) ? (-lower + upper) : (larger(Math.abs(reading), larger(Math.abs(lower), Math.abs(upper)))))})},
  conductor_resistance: {unit: "ohm", inputs: {"cross_section": {"unit": "mm**2", "among": [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0]}, "length": {"unit": "m", "maximum": 10000, "above": 0}, "conductor_class": {"options": ["1", "2", "5"]}, "temperature": {"unit": "degC", "minimum": -50, "maximum": 150, "default": 20}, "temperature_form": {"options": ["linear", "230"], "default": "linear"}}, compute: conductor_resistance, measured: ["length", "temperature"], slopes: conductor_resistance_slopes, steps: (cross_section, length, conductor_class, temperature, temperature_form) => ({"r_20": ((conductor_class == 0 || conductor_class == 1) ? (exact(tables.iec_60228_2004_fixed, cross_section)) : (exact(tables.iec_60228_2004_flexible, cross_section))), "k": ((temperature_form == 0) ? (0.00393*temperature + 0.9214) : ((1/250)*temperature + 23/25))})},
  resistance_at_temperature: {unit: "ohm", inputs: {"resistance": {"unit": "ohm", "minimum": 0}, "temperature": {"unit": "degC", "minimum": -50, "maximum": 150}, "target_temperature": {"unit": "degC", "minimum": -50, "maximum": 150}, "temperature_form": {"options": ["linear", "230"], "default": "linear"}}, compute: resistance_at_temperature, measured: ["resistance", "temperature", "target_temperature"], slopes: resistance_at_temperature_slopes},
  continuity_limit: {unit: "ohm", inputs: {"cross_section": {"unit": "mm**2", "among": [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0]}, "length": {"unit": "m", "maximum": 10000, "above": 0}, "conductor_class": {"options": ["1", "2", "5"]}, "temperature": {"unit": "degC", "minimum": -50, "maximum": 150, "default": 20}, "temperature_form": {"options": ["linear", "230"], "default": "linear"}, "allowance": {"unit": "ohm", "minimum": 0, "default": 0.1}}, compute: continuity_limit, measured: ["length", "temperature"], slopes: continuity_limit_slopes, steps: (cross_section, length, conductor_class, temperature, temperature_form, allowance) => ({"R_c": conductor_resistance(cross_section, length, conductor_class, temperature, temperature_form)})},
  permanent_bonding_limit: {unit: "ohm", inputs: {"breaker_rating": {"unit": "A", "above": 0}}, compute: permanent_bonding_limit, measured: ["breaker_rating"], slopes: permanent_bonding_limit_slopes},
  cord_bonding_limit: {unit: "ohm", inputs: {"length": {"unit": "m", "maximum": 1000, "above": 0}, "step_rule": {"options": ["started", "completed"], "default": "started"}}, compute: cord_bonding_limit, measured: ["length"], slopes: cord_bonding_limit_slopes, steps: (length, step_rule) => ({"n": 0.13333333333333333*larger(0, length - 5)})},
  parallel_resistance: {unit: "any", inputs: {"resistances": {"unit": "any", "above": 0, "at_least": 1}}, compute: parallel_resistance, measured: ["resistances"], slopes: parallel_resistance_slopes},
  insulation_resistance_minimum: {unit: "Mohm", inputs: {"nominal_voltage": {"unit": "V", "maximum": 1000, "above": 0}, "circuit": {"options": ["general", "selv_pelv"]}}, compute: insulation_resistance_minimum, refusals: [["not_extra_low_voltage", false, (nominal_voltage, circuit) => circuit == 1 && nominal_voltage > 120]]},
  breaker_trip_current: {unit: "A", inputs: {"breaker_type": {"options": ["B", "C", "D"]}, "rating": {"unit": "A", "maximum": 125, "above": 0}}, compute: breaker_trip_current},
  loop_impedance_maximum: {unit: "ohm", inputs: {"voltage": {"unit": "V", "maximum": 1000, "above": 50}, "trip_current": {"unit": "A", "above": 0}, "rule": {"options": ["uk_hot", "uk", "iec", "vde", "plain"]}}, compute: loop_impedance_maximum, measured: ["voltage", "trip_current"], slopes: loop_impedance_maximum_slopes, steps: (voltage, trip_current, rule) => ({"f": ((rule == 0) ? (0.95) : (rule == 1) ? (0.76) : (rule == 2) ? (2/3) : (rule == 3) ? (0.6203473945409429) : (1))})},
  loop_impedance_hot: {unit: "ohm", inputs: {"external": {"unit": "ohm", "minimum": 0}, "line": {"unit": "ohm", "minimum": 0}, "protective": {"unit": "ohm", "minimum": 0}, "temperature": {"unit": "degC", "minimum": -50, "maximum": 150}, "target_temperature": {"unit": "degC", "minimum": -50, "maximum": 150, "default": 70}, "temperature_form": {"options": ["linear", "230"], "default": "linear"}}, compute: loop_impedance_hot, measured: ["external", "line", "protective", "temperature"], slopes: loop_impedance_hot_slopes, steps: (external, line, protective, temperature, target_temperature, temperature_form) => ({"k": ((temperature_form == 0) ? (0.00393*target_temperature + 0.9214) : ((1/250)*target_temperature + 23/25))*((temperature_form == 0) ? (1/(0.00393*temperature + 0.9214)) : (1/((1/250)*temperature + 23/25)))})},
  prospective_fault_current: {unit: "A", inputs: {"voltage": {"unit": "V", "maximum": 1000, "above": 0}, "loop_impedance": {"unit": "ohm", "above": 0}, "error": {"unit": "1", "minimum": 0, "below": 1, "default": 0}}, compute: prospective_fault_current, measured: ["voltage", "loop_impedance"], slopes: prospective_fault_current_slopes},
  disconnection_time_maximum: {unit: "s", inputs: {"system": {"options": ["tn", "tt"]}, "voltage": {"unit": "V", "maximum": 1000, "above": 50}, "rating": {"unit": "A", "maximum": 10000, "above": 0}, "circuit": {"options": ["socket", "fixed"]}}, compute: disconnection_time_maximum, measured: ["voltage"], slopes: disconnection_time_maximum_slopes, steps: (system, voltage, rating, circuit) => ({"U_k": ((voltage <= 120) ? (120) : (((voltage <= 230) ? (230) : (((voltage <= 400) ? (400) : (1000))))))})},
  touch_voltage: {unit: "V", inputs: {"earth_resistance": {"unit": "ohm", "minimum": 0}, "residual_current": {"unit": "mA", "maximum": 30000, "above": 0}}, compute: touch_voltage, measured: ["earth_resistance"], slopes: touch_voltage_slopes},
  rcd_trip_time_maximum: {unit: "ms", inputs: {"multiple": {"unit": "1", "among": [0.5, 1, 2, 5]}, "kind": {"options": ["general", "selective"]}}, compute: rcd_trip_time_maximum, refusals: [["must_not_trip", false, (multiple, kind) => multiple < 0.75]]},
  rcd_trip_time_minimum: {unit: "ms", inputs: {"multiple": {"unit": "1", "among": [0.5, 1, 2, 5]}, "kind": {"options": ["general", "selective"]}}, compute: rcd_trip_time_minimum, refusals: [["must_not_trip", false, (multiple, kind) => multiple < 0.75]]},
  fault_withstand_cross_section: {unit: "mm**2", inputs: {"current": {"unit": "A", "minimum": 0}, "time": {"unit": "s", "minimum": 0, "maximum": 5}, "k": {"unit": "1", "maximum": 400, "above": 0}}, compute: fault_withstand_cross_section, measured: ["current", "time"], slopes: fault_withstand_cross_section_slopes},
  earth_leakage_limit: {unit: "mA", inputs: {"rated_current": {"unit": "A", "maximum": 10000, "above": 0}, "connection": {"options": ["plug", "permanent"]}}, compute: earth_leakage_limit, refusals: [["plug_above_32_amperes", false, (rated_current, connection) => connection == 0 && rated_current > 32]]},
  dissolved_solids: {unit: "mg/L", inputs: {"conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 20000.0}, "factor": {"unit": "1", "minimum": 0.4, "maximum": 1, "default": 0.64}}, compute: dissolved_solids, measured: ["conductivity"], slopes: dissolved_solids_slopes},
  silica_solubility: {unit: "mg/L", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 60}}, compute: silica_solubility, measured: ["temperature"], slopes: silica_solubility_slopes},
  permeate_conductivity_expected: {unit: "uS/cm", inputs: {"feed_conductivity": {"unit": "uS/cm", "maximum": 20000.0, "above": 0}, "salt_passage": {"unit": "1", "minimum": 0, "maximum": 1}, "alkalinity": {"unit": "mg/L", "minimum": 0, "maximum": 5000}, "carbon_dioxide": {"unit": "mg/L", "minimum": 0, "maximum": 500}}, compute: permeate_conductivity_expected, measured: ["feed_conductivity", "salt_passage", "alkalinity", "carbon_dioxide"], slopes: permeate_conductivity_expected_slopes, steps: (feed_conductivity, salt_passage, alkalinity, carbon_dioxide) => ({"k_S": feed_conductivity*salt_passage, "b": (1/50040)*alkalinity*salt_passage, "a": 1.0102959951581649e-11*carbon_dioxide, "h": ((carbon_dioxide > 0) ? (2.0205919903163298e-11*carbon_dioxide/((1/50040)*alkalinity*salt_passage + Math.sqrt((1/2504001600)*Math.pow(alkalinity, 2)*Math.pow(salt_passage, 2) + 4.0411839806326595e-11*carbon_dioxide))) : (0))})},
  surface_tension: {unit: "mN/m", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: surface_tension, measured: ["temperature"], slopes: surface_tension_slopes, steps: (temperature) => ({"tau": 0.577883343429723 - 0.0015453657571674064*temperature})},
  bubble_point_at_temperature: {unit: "any", inputs: {"bubble_point": {"unit": "any", "minimum": 0}, "reference_temperature": {"unit": "degC", "minimum": 0, "maximum": 100}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: bubble_point_at_temperature, measured: ["bubble_point", "reference_temperature", "temperature"], slopes: bubble_point_at_temperature_slopes, steps: (bubble_point, reference_temperature, temperature) => ({"sigma": surface_tension(reference_temperature), "sigma_r": surface_tension(reference_temperature)})},
  smallest_defect: {unit: "um", inputs: {"pressure": {"unit": "bar", "maximum": 100, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: smallest_defect, measured: ["pressure", "temperature"], slopes: smallest_defect_slopes, steps: (pressure, temperature) => ({"sigma": surface_tension(temperature)})},
  filter_pressure_drop: {unit: "any", inputs: {"pressure_drop": {"unit": "any", "minimum": 0}, "flow": {"unit": "L/min", "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}, "reference_flow": {"unit": "L/min", "above": 0}, "reference_temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: filter_pressure_drop, measured: ["pressure_drop", "flow", "temperature", "reference_flow", "reference_temperature"], slopes: filter_pressure_drop_slopes, steps: (pressure_drop, flow, temperature, reference_flow, reference_temperature) => ({"mu": water_viscosity(temperature), "mu_r": water_viscosity(reference_temperature)})},
  static_head: {unit: "bar", inputs: {"height": {"unit": "m", "minimum": -1000, "maximum": 1000}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100, "default": 15}}, compute: static_head, measured: ["height", "temperature"], slopes: static_head_slopes, steps: (height, temperature) => ({"rho": water_density(temperature)})},
  relief_set_pressure_maximum: {unit: "bar", inputs: {"maximum_pressure": {"unit": "bar", "maximum": 1000, "above": 0}, "basis": {"options": ["hard", "ps"]}, "valve_family": {"options": ["iso_4126", "en_1491"]}, "valve_height": {"unit": "m", "minimum": -100, "maximum": 100, "default": 0}, "back_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000, "default": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100, "default": 15}}, compute: relief_set_pressure_maximum, measured: ["maximum_pressure", "valve_height", "back_pressure", "temperature"], slopes: relief_set_pressure_maximum_slopes, refusals: [["no_set_pressure", true, (maximum_pressure, basis, valve_family, valve_height, back_pressure, temperature, result) => result <= 0]], steps: (maximum_pressure, basis, valve_family, valve_height, back_pressure, temperature) => ({"p_h": static_head(valve_height, temperature), "A": -back_pressure + maximum_pressure - static_head(valve_height, temperature), "R": smaller(-0.9090909090909091*back_pressure + 0.9090909090909091*maximum_pressure - 0.9090909090909091*static_head(valve_height, temperature), -back_pressure + maximum_pressure - static_head(valve_height, temperature) - 0.1), "B": -back_pressure + 1.1*maximum_pressure - static_head(valve_height, temperature)})},
  relief_set_pressure_minimum: {unit: "bar", inputs: {"rest_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "valve_family": {"options": ["iso_4126", "en_1491"]}, "margin": {"unit": "bar", "minimum": 0, "maximum": 100, "default": 0.1}, "rest_ratio": {"unit": "1", "maximum": 1, "above": 0, "default": 0.75}, "surge": {"unit": "bar", "minimum": 0, "maximum": 100, "default": 0}}, compute: relief_set_pressure_minimum, measured: ["rest_pressure", "surge"], slopes: relief_set_pressure_minimum_slopes, steps: (rest_pressure, valve_family, margin, rest_ratio, surge) => ({"c": margin + rest_pressure})},
  relief_discharge_capacity: {unit: "L/min", inputs: {"flow_area": {"unit": "mm**2", "maximum": 1000000.0, "above": 0}, "discharge_coefficient": {"unit": "1", "maximum": 1, "above": 0}, "pressure_difference": {"unit": "bar", "minimum": 0, "maximum": 1000}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100, "default": 15}}, compute: relief_discharge_capacity, measured: ["flow_area", "discharge_coefficient", "pressure_difference", "temperature"], slopes: relief_discharge_capacity_slopes, steps: (flow_area, discharge_coefficient, pressure_difference, temperature) => ({"rho": water_density(temperature)})},
  regulator_failed_open_flow: {unit: "L/min", inputs: {"flow_coefficient_kv": {"unit": "m**3/h", "maximum": 100000.0, "above": 0}, "supply_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "relieving_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}}, compute: regulator_failed_open_flow, measured: ["flow_coefficient_kv", "supply_pressure", "relieving_pressure"], slopes: regulator_failed_open_flow_slopes},
  full_mass: {unit: "kg", inputs: {"empty_mass": {"unit": "kg", "maximum": 100000, "above": 0}, "water_volume": {"unit": "L", "minimum": 0, "maximum": 100000}}, compute: full_mass, measured: ["empty_mass", "water_volume"], slopes: full_mass_slopes},
  floor_load: {unit: "kN/m**2", inputs: {"mass": {"unit": "kg", "maximum": 100000, "above": 0}, "footprint": {"unit": "m**2", "maximum": 100, "above": 0}}, compute: floor_load, measured: ["mass", "footprint"], slopes: floor_load_slopes},
  insulation_test_voltage: {unit: "V", inputs: {"nominal_voltage": {"unit": "V", "maximum": 1000, "above": 0}, "circuit": {"options": ["general", "selv_pelv"]}, "electronics": {"options": ["disconnected", "connected"]}}, compute: insulation_test_voltage},
  corrected_pressure_drop: {unit: "bar", inputs: {"start_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "end_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "start_temperature": {"unit": "degC", "minimum": 0, "maximum": 100}, "end_temperature": {"unit": "degC", "minimum": 0, "maximum": 100}, "drift": {"unit": "bar/K"}}, compute: corrected_pressure_drop, measured: ["start_pressure", "end_pressure", "start_temperature", "end_temperature", "drift"], slopes: corrected_pressure_drop_slopes},
  temperature_change: {unit: "K", inputs: {"start": {"unit": "degC"}, "end": {"unit": "degC"}}, compute: temperature_change, measured: ["start", "end"], slopes: temperature_change_slopes},
  recovery: {unit: "1", inputs: {"permeate_flow": {"unit": "any", "minimum": 0}, "concentrate_flow": {"unit": "any", "minimum": 0}}, compute: recovery, measured: ["permeate_flow", "concentrate_flow"], slopes: recovery_slopes, refusals: [["no_flow", false, (permeate_flow, concentrate_flow) => concentrate_flow + permeate_flow == 0]]},
  recovery_from_conductivity: {unit: "1", inputs: {"feed_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "concentrate_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "permeate_conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000000.0}}, compute: recovery_from_conductivity, measured: ["feed_conductivity", "concentrate_conductivity", "permeate_conductivity"], slopes: recovery_from_conductivity_slopes, refusals: [["concentrate_not_above_feed", false, (feed_conductivity, concentrate_conductivity, permeate_conductivity) => concentrate_conductivity <= feed_conductivity], ["permeate_not_below_feed", false, (feed_conductivity, concentrate_conductivity, permeate_conductivity) => permeate_conductivity >= feed_conductivity]]},
  concentration_factor: {unit: "1", inputs: {"recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}, "salt_passage": {"unit": "1", "minimum": 0, "maximum": 1, "default": 0}}, compute: concentration_factor, measured: ["recovery", "salt_passage"], slopes: concentration_factor_slopes},
  mean_feed_concentration_factor: {unit: "1", inputs: {"recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}, "mean": {"options": ["log", "arithmetic", "log_difference"], "default": "log"}}, compute: mean_feed_concentration_factor, measured: ["recovery"], slopes: mean_feed_concentration_factor_slopes},
  salt_passage: {unit: "1", inputs: {"feed_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "permeate_conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000000.0}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.99, "default": 0}, "mean": {"options": ["log", "arithmetic", "log_difference"], "default": "log"}}, compute: salt_passage, measured: ["feed_conductivity", "permeate_conductivity", "recovery"], slopes: salt_passage_slopes, steps: (feed_conductivity, permeate_conductivity, recovery, mean) => ({"c_fb": mean_feed_concentration_factor(recovery, mean)})},
  salt_rejection: {unit: "1", inputs: {"feed_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "permeate_conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000000.0}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.99, "default": 0}, "mean": {"options": ["log", "arithmetic", "log_difference"], "default": "log"}}, compute: salt_rejection, measured: ["feed_conductivity", "permeate_conductivity", "recovery"], slopes: salt_rejection_slopes, steps: (feed_conductivity, permeate_conductivity, recovery, mean) => ({"SP": salt_passage(feed_conductivity, permeate_conductivity, recovery, mean)})},
  concentrate_conductivity: {unit: "uS/cm", inputs: {"feed_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "permeate_conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000000.0}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}}, compute: concentrate_conductivity, measured: ["feed_conductivity", "permeate_conductivity", "recovery"], slopes: concentrate_conductivity_slopes, refusals: [["permeate_not_below_feed", false, (feed_conductivity, permeate_conductivity, recovery) => permeate_conductivity >= feed_conductivity]]},
  flow_balance_error: {unit: "1", inputs: {"feed_flow": {"unit": "any", "above": 0}, "permeate_flow": {"unit": "any", "minimum": 0}, "concentrate_flow": {"unit": "any", "minimum": 0}}, compute: flow_balance_error, measured: ["feed_flow", "permeate_flow", "concentrate_flow"], slopes: flow_balance_error_slopes},
  salt_balance_error: {unit: "1", inputs: {"feed_flow": {"unit": "any", "above": 0}, "permeate_flow": {"unit": "any", "minimum": 0}, "concentrate_flow": {"unit": "any", "minimum": 0}, "feed_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}, "permeate_conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000000.0}, "concentrate_conductivity": {"unit": "uS/cm", "maximum": 1000000.0, "above": 0}}, compute: salt_balance_error, measured: ["feed_flow", "permeate_flow", "concentrate_flow", "feed_conductivity", "permeate_conductivity", "concentrate_conductivity"], slopes: salt_balance_error_slopes, steps: (feed_flow, permeate_flow, concentrate_flow, feed_conductivity, permeate_conductivity, concentrate_conductivity) => ({"s": feed_conductivity*feed_flow})},
  membrane_temperature_factor: {unit: "1", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "form": {"options": ["two_range", "single", "power"], "default": "two_range"}, "constant": {"unit": "K", "minimum": 1000, "maximum": 5000, "default": 2700}}, compute: membrane_temperature_factor, measured: ["temperature"], slopes: membrane_temperature_factor_slopes},
  osmotic_pressure: {unit: "bar", inputs: {"dissolved_solids": {"unit": "mg/L", "minimum": 0, "maximum": 20000}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "form": {"options": ["d4516", "natural_water"], "default": "d4516"}}, compute: osmotic_pressure, measured: ["dissolved_solids", "temperature"], slopes: osmotic_pressure_slopes},
  net_driving_pressure: {unit: "bar", inputs: {"feed_pressure": {"unit": "bar", "minimum": 0, "maximum": 200}, "pressure_drop": {"unit": "bar", "minimum": 0, "maximum": 50}, "permeate_pressure": {"unit": "bar", "minimum": 0, "maximum": 50}, "feed_dissolved_solids": {"unit": "mg/L", "minimum": 0, "maximum": 10000}, "permeate_dissolved_solids": {"unit": "mg/L", "minimum": 0, "maximum": 10000, "default": 0}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.9}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "mean": {"options": ["log", "arithmetic", "log_difference"], "default": "log"}}, compute: net_driving_pressure, measured: ["feed_pressure", "pressure_drop", "permeate_pressure", "feed_dissolved_solids", "permeate_dissolved_solids", "recovery", "temperature"], slopes: net_driving_pressure_slopes, refusals: [["no_driving_pressure", true, (feed_pressure, pressure_drop, permeate_pressure, feed_dissolved_solids, permeate_dissolved_solids, recovery, temperature, mean, result) => result <= 0]], steps: (feed_pressure, pressure_drop, permeate_pressure, feed_dissolved_solids, permeate_dissolved_solids, recovery, temperature, mean) => ({"c_fb": mean_feed_concentration_factor(recovery, mean), "pi_fb": 0.002654*feed_dissolved_solids*(temperature + 273.15)*mean_feed_concentration_factor(recovery, mean)/(-1/1000*feed_dissolved_solids*mean_feed_concentration_factor(recovery, mean) + 1000), "pi_p": 0.002654*permeate_dissolved_solids*(temperature + 273.15)/(1000 - 1/1000*permeate_dissolved_solids)})},
  expected_permeate_flow: {unit: "any", inputs: {"rated_flow": {"unit": "any", "minimum": 0}, "rated_driving_pressure": {"unit": "bar", "maximum": 200, "above": 0}, "driving_pressure": {"unit": "bar", "maximum": 200, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "form": {"options": ["two_range", "single", "power"], "default": "two_range"}, "constant": {"unit": "K", "minimum": 1000, "maximum": 5000, "default": 2700}}, compute: expected_permeate_flow, measured: ["rated_flow", "rated_driving_pressure", "driving_pressure", "temperature"], slopes: expected_permeate_flow_slopes, steps: (rated_flow, rated_driving_pressure, driving_pressure, temperature, form, constant) => ({"TCF": membrane_temperature_factor(temperature, form, constant)})},
  normalised_permeate_flow: {unit: "any", inputs: {"flow": {"unit": "any", "minimum": 0}, "driving_pressure": {"unit": "bar", "maximum": 200, "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "reference_driving_pressure": {"unit": "bar", "maximum": 200, "above": 0}, "reference_temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "form": {"options": ["two_range", "single", "power"], "default": "two_range"}, "constant": {"unit": "K", "minimum": 1000, "maximum": 5000, "default": 2700}}, compute: normalised_permeate_flow, measured: ["flow", "driving_pressure", "temperature", "reference_driving_pressure", "reference_temperature"], slopes: normalised_permeate_flow_slopes, steps: (flow, driving_pressure, temperature, reference_driving_pressure, reference_temperature, form, constant) => ({"TCF": ((form == 0) ? (((temperature < 25) ? (Math.exp(1510/149 - 3020/(temperature + 273))) : (Math.exp(1320/149 - 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, temperature - 25))), "TCF_r": ((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))})},
  normalised_salt_passage: {unit: "1", inputs: {"salt_passage": {"unit": "1", "minimum": 0, "maximum": 1}, "flow": {"unit": "any", "above": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}, "reference_flow": {"unit": "any", "above": 0}, "reference_temperature": {"unit": "degC", "minimum": 0, "maximum": 60}, "reference_recovery": {"unit": "1", "minimum": 0, "maximum": 0.99}, "mean": {"options": ["log", "arithmetic", "log_difference"], "default": "log"}, "form": {"options": ["two_range", "single", "power"], "default": "two_range"}, "constant": {"unit": "K", "minimum": 1000, "maximum": 5000, "default": 2700}}, compute: normalised_salt_passage, measured: ["salt_passage", "flow", "temperature", "recovery", "reference_flow", "reference_temperature", "reference_recovery"], slopes: normalised_salt_passage_slopes, steps: (salt_passage, flow, temperature, recovery, reference_flow, reference_temperature, reference_recovery, mean, form, constant) => ({"c_fb": ((mean == 0) ? (((recovery < 0.0001) ? ((1/3)*Math.pow(recovery, 2) + (1/2)*recovery + 1) : (-Math.log(1 - recovery)/recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - recovery)) : (((recovery < 0.0001) ? ((5/12)*Math.pow(recovery, 2) + (1/2)*recovery + 1) : (-(-1 + 1/(1 - recovery))/Math.log(1 - recovery))))), "c_r": ((mean == 0) ? (((reference_recovery < 0.0001) ? ((1/3)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-Math.log(1 - reference_recovery)/reference_recovery))) : (mean == 1) ? (1/2 + (1/2)/(1 - reference_recovery)) : (((reference_recovery < 0.0001) ? ((5/12)*Math.pow(reference_recovery, 2) + (1/2)*reference_recovery + 1) : (-(-1 + 1/(1 - reference_recovery))/Math.log(1 - reference_recovery))))), "TCF": ((form == 0) ? (((temperature < 25) ? (Math.exp(1510/149 - 3020/(temperature + 273))) : (Math.exp(1320/149 - 2640/(temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(temperature + 273)))) : (Math.pow(1.03, temperature - 25))), "TCF_r": ((form == 0) ? (((reference_temperature < 25) ? (Math.exp(1510/149 - 3020/(reference_temperature + 273))) : (Math.exp(1320/149 - 2640/(reference_temperature + 273))))) : (form == 1) ? (Math.exp(constant*(1/298 - 1/(reference_temperature + 273)))) : (Math.pow(1.03, reference_temperature - 25)))})},
  normalised_pressure_drop: {unit: "bar", inputs: {"pressure_drop": {"unit": "bar", "minimum": 0, "maximum": 50}, "mean_flow": {"unit": "any", "above": 0}, "reference_mean_flow": {"unit": "any", "above": 0}, "exponent": {"unit": "1", "minimum": 1, "maximum": 2, "default": 1.5}}, compute: normalised_pressure_drop, measured: ["pressure_drop", "mean_flow", "reference_mean_flow"], slopes: normalised_pressure_drop_slopes},
  colony_count: {unit: "CFU/mL", inputs: {"count": {"unit": "1", "minimum": 0, "maximum": 1000, "counted": true}, "volume": {"unit": "mL", "maximum": 1000000.0, "above": 0}}, compute: colony_count, measured: ["volume"], slopes: colony_count_slopes},
  colony_count_lower: {unit: "CFU/mL", inputs: {"count": {"unit": "1", "minimum": 0, "maximum": 1000, "counted": true}, "volume": {"unit": "mL", "maximum": 1000000.0, "above": 0}, "confidence": {"unit": "1", "maximum": 0.9999, "above": 0, "default": 0.95}}, compute: colony_count_lower, measured: ["volume"], slopes: colony_count_lower_slopes, steps: (count, volume, confidence) => ({"m": ((count < 1) ? (0) : (root(x => many_enough(x, count, (1/2)*confidence + 1/2), 0, count)))})},
  colony_count_upper: {unit: "CFU/mL", inputs: {"count": {"unit": "1", "minimum": 0, "maximum": 1000, "counted": true}, "volume": {"unit": "mL", "maximum": 1000000.0, "above": 0}, "confidence": {"unit": "1", "maximum": 0.9999, "above": 0, "default": 0.95}}, compute: colony_count_upper, measured: ["volume"], slopes: colony_count_upper_slopes, steps: (count, volume, confidence) => ({"m": root(x => few_enough(x, count, 1/2 - 1/2*confidence), count, count + 12*Math.sqrt(count + 1) + 12)})},
  volume_to_demonstrate: {unit: "mL", inputs: {"limit": {"unit": "CFU/mL", "maximum": 1000000.0, "above": 0}, "count": {"unit": "1", "minimum": 0, "maximum": 1000, "default": 0, "counted": true}, "confidence": {"unit": "1", "maximum": 0.9999, "above": 0, "default": 0.95}}, compute: volume_to_demonstrate, measured: ["limit"], slopes: volume_to_demonstrate_slopes, steps: (limit, count, confidence) => ({"m": root(x => few_enough(x, count, 1 - confidence), count, count + 12*Math.sqrt(count + 1) + 12)})},
  friction_factor: {unit: "1", inputs: {"reynolds_number": {"unit": "1", "maximum": 100000000.0, "above": 0}, "relative_roughness": {"unit": "1", "minimum": 0, "maximum": 0.05}}, compute: friction_factor, measured: ["reynolds_number", "relative_roughness"], slopes: friction_factor_slopes, steps: (reynolds_number, relative_roughness) => ({"A": -2*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/Math.log(10), "B": -2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/Math.log(10), "C": -2*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness - 5.02*Math.log(0.27027027027027023*relative_roughness + 12/reynolds_number)/(reynolds_number*Math.log(10)))/(reynolds_number*Math.log(10)))/Math.log(10)})},
  pipe_pressure_loss: {unit: "bar", inputs: {"flow": {"unit": "L/min", "above": 0}, "bore": {"unit": "mm", "above": 0}, "length": {"unit": "m", "minimum": 0}, "roughness": {"unit": "mm", "minimum": 0}, "loss_coefficients": {"unit": "1", "minimum": 0, "default": 0}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: pipe_pressure_loss, measured: ["flow", "bore", "length", "roughness", "loss_coefficients", "temperature"], slopes: pipe_pressure_loss_slopes, refusals: [["wall_too_rough", false, (flow, bore, length, roughness, loss_coefficients, temperature) => roughness > 0.05*bore]], steps: (flow, bore, length, roughness, loss_coefficients, temperature) => ({"Re": reynolds_number(flow, bore, temperature), "f": friction_factor(reynolds_number(flow, bore, temperature), roughness/bore), "rho": water_density(temperature), "v": flow_velocity(flow, bore), "q": (1/200000)*Math.pow(flow_velocity(flow, bore), 2)*water_density(temperature)})},
  dead_leg_ratio: {unit: "1", inputs: {"length": {"unit": "mm", "minimum": 0}, "bore": {"unit": "mm", "above": 0}}, compute: dead_leg_ratio, measured: ["length", "bore"], slopes: dead_leg_ratio_slopes},
  air_gap_minimum: {unit: "mm", inputs: {"inlet_bore": {"unit": "mm", "maximum": 1000, "above": 0}, "minimum": {"unit": "mm", "minimum": 0, "maximum": 1000, "default": 20}}, compute: air_gap_minimum, measured: ["inlet_bore"], slopes: air_gap_minimum_slopes},
  gravity_drain_capacity: {unit: "L/min", inputs: {"diameter": {"unit": "mm", "maximum": 10000, "above": 0}, "slope": {"unit": "1", "maximum": 1, "above": 0}, "depth_ratio": {"unit": "1", "minimum": 0.05, "maximum": 1}, "roughness": {"unit": "1", "minimum": 0.005, "maximum": 0.1, "default": 0.01}}, compute: gravity_drain_capacity, measured: ["diameter", "slope", "depth_ratio"], slopes: gravity_drain_capacity_slopes, steps: (diameter, slope, depth_ratio, roughness) => ({"theta": 2*Math.acos(1 - 2*depth_ratio), "A": (1/8000000)*Math.pow(diameter, 2)*(-Math.sin(2*Math.acos(1 - 2*depth_ratio)) + 2*Math.acos(1 - 2*depth_ratio)), "R": (1/8000)*diameter*(-Math.sin(2*Math.acos(1 - 2*depth_ratio)) + 2*Math.acos(1 - 2*depth_ratio))/Math.acos(1 - 2*depth_ratio)})},
  supply_pressure_at_flow: {unit: "bar", inputs: {"static_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "dynamic_pressure": {"unit": "bar", "minimum": 0, "maximum": 1000}, "test_flow": {"unit": "L/min", "above": 0}, "flow": {"unit": "L/min", "minimum": 0}}, compute: supply_pressure_at_flow, measured: ["static_pressure", "dynamic_pressure", "test_flow", "flow"], slopes: supply_pressure_at_flow_slopes, refusals: [["dynamic_above_static", false, (static_pressure, dynamic_pressure, test_flow, flow) => dynamic_pressure > static_pressure], ["supply_exhausted", true, (static_pressure, dynamic_pressure, test_flow, flow, result) => result < 0]]},
  silt_density_index: {unit: "%/min", inputs: {"first_time": {"unit": "s", "maximum": 100000.0, "above": 0}, "last_time": {"unit": "s", "maximum": 100000.0, "above": 0}, "interval": {"unit": "min", "maximum": 60, "above": 0, "default": 15}, "plugging_limit": {"unit": "1", "maximum": 1, "above": 0, "default": 0.75}}, compute: silt_density_index, measured: ["first_time", "last_time", "interval"], slopes: silt_density_index_slopes, refusals: [["sdi_times_swapped", false, (first_time, last_time, interval, plugging_limit) => last_time < first_time], ["filter_plugged", false, (first_time, last_time, interval, plugging_limit) => -first_time/last_time + 1 > plugging_limit]], steps: (first_time, last_time, interval, plugging_limit) => ({"P": -100*first_time/last_time + 100})},
  empty_bed_contact_time: {unit: "min", inputs: {"bed_volume": {"unit": "L", "minimum": 0, "maximum": 1000000.0}, "flow": {"unit": "L/min", "maximum": 1000000.0, "above": 0}}, compute: empty_bed_contact_time, measured: ["bed_volume", "flow"], slopes: empty_bed_contact_time_slopes},
  deioniser_load: {unit: "meq/L", inputs: {"conductivity": {"unit": "uS/cm", "minimum": 0, "maximum": 1000}, "carbon_dioxide": {"unit": "mg/L", "minimum": 0, "maximum": 1000}, "silica": {"unit": "mg/L", "minimum": 0, "maximum": 1000, "default": 0}, "equivalent_conductance": {"unit": "S cm**2/eq", "minimum": 80, "maximum": 430, "default": 105}, "ph": {"unit": "pH", "minimum": 4, "maximum": 10, "optional": true}}, compute: deioniser_load, measured: ["conductivity", "carbon_dioxide", "silica", "equivalent_conductance", "ph"], slopes: deioniser_load_slopes, refusals: [["more_acid_than_conductivity", false, (conductivity, carbon_dioxide, silica, equivalent_conductance, ph, ph_given) => 349700.0*Math.pow(10, -ph) > conductivity && ph_given != 0]], steps: (conductivity, carbon_dioxide, silica, equivalent_conductance, ph, ph_given) => ({"k_H": ((ph_given != 0) ? (349700.0*Math.pow(10, -ph)) : (0)), "c_S": (conductivity - ((ph_given != 0) ? (349700.0*Math.pow(10, -ph)) : (0)))/equivalent_conductance})},
  deioniser_run_volume: {unit: "L", inputs: {"resin_volume": {"unit": "L", "minimum": 0, "maximum": 100000.0}, "capacity": {"unit": "eq/L", "minimum": 0, "maximum": 5}, "utilisation": {"unit": "1", "maximum": 1, "above": 0, "default": 0.85}, "load": {"unit": "meq/L", "maximum": 1000, "above": 0}}, compute: deioniser_run_volume, measured: ["resin_volume", "capacity", "utilisation", "load"], slopes: deioniser_run_volume_slopes},
  series_mean: {unit: "any", inputs: {"readings": {"unit": "any", "at_least": 1, "repeats": true}}, compute: series_mean, measured: ["readings"], slopes: series_mean_slopes},
  series_standard_deviation: {unit: "any", inputs: {"readings": {"unit": "any", "at_least": 2}}, compute: series_standard_deviation, measured: ["readings"], slopes: series_standard_deviation_slopes},
  series_mean_uncertainty: {unit: "any", inputs: {"readings": {"unit": "any", "at_least": 2}}, compute: series_mean_uncertainty, measured: ["readings"], slopes: series_mean_uncertainty_slopes},
  last_reading: {unit: "any", inputs: {"readings": {"unit": "any", "at_least": 1}}, compute: last_reading, measured: ["readings"], slopes: last_reading_slopes},
  series_count: {unit: "1", inputs: {"readings": {"unit": "any", "at_least": 1}}, compute: series_count, measured: ["readings"], slopes: series_count_slopes},
  series_largest_ratio: {unit: "1", inputs: {"readings": {"unit": "any", "above": 0, "at_least": 1}}, compute: series_largest_ratio, measured: ["readings"], slopes: series_largest_ratio_slopes, steps: (readings) => ({"x_mean": series_mean(readings)})},
  reading_stability: {unit: "1", inputs: {"readings": {"unit": "any", "at_least": 2}, "resolution": {"unit": "any", "minimum": 0, "default": 0}}, compute: reading_stability, measured: ["readings"], slopes: reading_stability_slopes, steps: (readings, resolution) => ({"x_mean": series_mean(readings)})},
  reading_stability_maximum: {unit: "1", inputs: {"readings": {"unit": "any", "at_least": 1}, "resolution": {"unit": "any", "above": 0}, "share": {"unit": "1", "above": 0, "below": 1, "default": 0.03}}, compute: reading_stability_maximum, measured: ["readings"], slopes: reading_stability_maximum_slopes, steps: (readings, resolution, share) => ({"x_mean": series_mean(readings)})},
  reading_trend: {unit: "any", inputs: {"readings": {"unit": "any", "at_least": 2}}, compute: reading_trend, measured: ["readings"], slopes: reading_trend_slopes},
  elapsed_minutes: {unit: "min", inputs: {"start": {"unit": "ms"}, "end": {"unit": "ms"}}, compute: elapsed_minutes, measured: ["start", "end"], slopes: elapsed_minutes_slopes},
  scaled: {unit: "any", inputs: {"value": {"unit": "any"}, "factor": {"unit": "1"}}, compute: scaled, measured: ["value", "factor"], slopes: scaled_slopes},
  hypochlorous_acid_fraction: {unit: "1", inputs: {"ph": {"unit": "pH", "minimum": 4, "maximum": 11}, "temperature": {"unit": "degC", "minimum": 0, "maximum": 35}}, compute: hypochlorous_acid_fraction, measured: ["ph", "temperature"], slopes: hypochlorous_acid_fraction_slopes, steps: (ph, temperature) => ({"pK": 0.0253*temperature - 3.1579050000000004 + 3000/(temperature + 273.15)})},
  chlorine_dose: {unit: "mg/L", inputs: {"tablets": {"unit": "1", "minimum": 0, "maximum": 100000.0}, "chlorine_per_tablet": {"unit": "mg", "maximum": 1000000.0, "above": 0}, "volume": {"unit": "L", "maximum": 1000000.0, "above": 0}}, compute: chlorine_dose, measured: ["chlorine_per_tablet", "volume"], slopes: chlorine_dose_slopes},
  chlorine_tablets: {unit: "1", inputs: {"minimum_dose": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "maximum_dose": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "chlorine_per_tablet": {"unit": "mg", "maximum": 1000000.0, "above": 0}, "volume": {"unit": "L", "maximum": 1000000.0, "above": 0}, "volume_uncertainty": {"unit": "1", "minimum": 0, "below": 1, "default": 0}}, compute: chlorine_tablets, refusals: [["no_tablet_count", false, (minimum_dose, maximum_dose, chlorine_per_tablet, volume, volume_uncertainty) => started(minimum_dose*volume*(volume_uncertainty + 1)/chlorine_per_tablet) > completed(maximum_dose*volume*(1 - volume_uncertainty)/chlorine_per_tablet)]]},
  isocyanurate_hypochlorous_acid: {unit: "mg/L", inputs: {"dose": {"unit": "mg/L", "maximum": 1000, "above": 0}, "ph": {"unit": "pH", "minimum": 5, "maximum": 10}}, compute: isocyanurate_hypochlorous_acid, measured: ["dose", "ph"], slopes: isocyanurate_hypochlorous_acid_slopes, steps: (dose, ph) => ({"h": Math.pow(10, -ph), "C_T": (1/70906)*dose, "x": root(x => chlorine_balance(x, Math.pow(10, -ph), (1/70906)*dose), 0, (1/70906)*dose)})},
  isocyanurate_free_chlorine: {unit: "mg/L", inputs: {"dose": {"unit": "mg/L", "maximum": 1000, "above": 0}, "ph": {"unit": "pH", "minimum": 5, "maximum": 10}}, compute: isocyanurate_free_chlorine, measured: ["dose", "ph"], slopes: isocyanurate_free_chlorine_slopes, steps: (dose, ph) => ({"C_HOCl": isocyanurate_hypochlorous_acid(dose, ph)})},
  chlorine_decay_rate: {unit: "1/min", inputs: {"start": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "end": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "time": {"unit": "min", "maximum": 100000.0, "above": 0}}, compute: chlorine_decay_rate, measured: ["start", "end", "time"], slopes: chlorine_decay_rate_slopes, refusals: [["chlorine_has_risen", false, (start, end, time) => end > start]]},
  contact_value: {unit: "mg min/L", inputs: {"start": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "end": {"unit": "mg/L", "maximum": 100000.0, "above": 0}, "time": {"unit": "min", "maximum": 100000.0, "above": 0}, "method": {"options": ["conservative", "exponential"], "default": "conservative"}}, compute: contact_value, measured: ["start", "end", "time"], slopes: contact_value_slopes, refusals: [["chlorine_has_risen", false, (start, end, time, method) => end > start]]},
  giardia_contact_value: {unit: "mg min/L", inputs: {"inactivation_log": {"unit": "1", "maximum": 3, "above": 0}, "ph": {"unit": "pH", "minimum": 6, "maximum": 9}, "temperature": {"unit": "degC", "minimum": 0.5, "maximum": 25}, "chlorine": {"unit": "mg/L", "maximum": 3, "above": 0}}, compute: giardia_contact_value, measured: ["ph", "temperature", "chlorine"], slopes: giardia_contact_value_slopes},
  thiosulfate_needed: {unit: "g", inputs: {"volume": {"unit": "L", "minimum": 0, "maximum": 1000000.0}, "chlorine": {"unit": "mg/L", "minimum": 0, "maximum": 100000.0}, "basis": {"options": ["theoretical", "field"]}}, compute: thiosulfate_needed, measured: ["volume", "chlorine"], slopes: thiosulfate_needed_slopes, steps: (volume, chlorine, basis) => ({"r": ((basis == 0) ? (0.8750317321524271) : (1.9))})},
  heat_a0: {unit: "s", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 150}, "time": {"unit": "s", "minimum": 0, "maximum": 10000000.0}, "z": {"unit": "K", "minimum": 5, "maximum": 20, "default": 10}}, compute: heat_a0, measured: ["temperature", "time"], slopes: heat_a0_slopes},
  overflow_capacity: {unit: "L/min", inputs: {"bore": {"unit": "mm", "maximum": 1000, "above": 0}, "head": {"unit": "mm", "minimum": 0, "maximum": 10000}}, compute: overflow_capacity, measured: ["bore", "head"], slopes: overflow_capacity_slopes},
  timed_flow: {unit: "L/min", inputs: {"volume": {"unit": "L", "minimum": 0}, "time": {"unit": "s", "above": 0}}, compute: timed_flow, measured: ["volume", "time"], slopes: timed_flow_slopes},
  solution_volume: {unit: "mL", inputs: {"dose": {"unit": "mg/L", "minimum": 0, "maximum": 100000.0}, "volume": {"unit": "L", "maximum": 1000000.0, "above": 0}, "strength": {"unit": "g/L", "maximum": 2000, "above": 0}}, compute: solution_volume, measured: ["dose", "volume", "strength"], slopes: solution_volume_slopes},
  solution_dose: {unit: "mg/L", inputs: {"added": {"unit": "mL", "minimum": 0, "maximum": 1000000.0}, "strength": {"unit": "g/L", "maximum": 2000, "above": 0}, "volume": {"unit": "L", "maximum": 1000000.0, "above": 0}}, compute: solution_dose, measured: ["added", "strength", "volume"], slopes: solution_dose_slopes},
  date_after_use: {unit: "date", inputs: {"start": {"unit": "date", "minimum": -25567, "maximum": 84005, "counted": true}, "life": {"unit": "any", "minimum": 0}, "used": {"unit": "any", "minimum": 0}, "per_day": {"unit": "any", "above": 0}}, compute: date_after_use, measured: ["life", "used", "per_day"], slopes: date_after_use_slopes, refusals: [["life_used_up", false, (start, life, used, per_day) => used > life]]},
  annular_uv_fluence: {unit: "mJ/cm**2", inputs: {"uvc_power": {"unit": "W", "minimum": 0, "maximum": 100000.0}, "flow": {"unit": "L/min", "maximum": 1000000.0, "above": 0}, "transmittance_10mm": {"unit": "1", "minimum": 0.01, "maximum": 1}, "inner_radius": {"unit": "cm", "maximum": 100, "above": 0}, "outer_radius": {"unit": "cm", "maximum": 100, "above": 0}, "length": {"unit": "cm", "maximum": 1000, "above": 0}}, compute: annular_uv_fluence, measured: ["uvc_power", "flow", "transmittance_10mm", "inner_radius", "outer_radius", "length"], slopes: annular_uv_fluence_slopes, refusals: [["radii_swapped", false, (uvc_power, flow, transmittance_10mm, inner_radius, outer_radius, length) => outer_radius <= inner_radius]], steps: (uvc_power, flow, transmittance_10mm, inner_radius, outer_radius, length) => ({"V": Math.PI*length*(-Math.pow(inner_radius, 2) + Math.pow(outer_radius, 2)), "x": -(-inner_radius + outer_radius)*Math.log(transmittance_10mm), "E": 1000*uvc_power*(-inner_radius + outer_radius)*(((-inner_radius + outer_radius)*Math.log(transmittance_10mm) > -0.0001) ? ((1/6)*Math.pow(-inner_radius + outer_radius, 2)*Math.pow(Math.log(transmittance_10mm), 2) + (1/2)*(-inner_radius + outer_radius)*Math.log(transmittance_10mm) + 1) : (-(1 - Math.exp((-inner_radius + outer_radius)*Math.log(transmittance_10mm)))/((-inner_radius + outer_radius)*Math.log(transmittance_10mm))))/(Math.PI*length*(-Math.pow(inner_radius, 2) + Math.pow(outer_radius, 2))), "t": (3/50)*Math.PI*length*(-Math.pow(inner_radius, 2) + Math.pow(outer_radius, 2))/flow})},
  scaled_uv_fluence: {unit: "mJ/cm**2", inputs: {"certified_fluence": {"unit": "mJ/cm**2", "minimum": 0, "maximum": 10000.0}, "certified_flow": {"unit": "any", "above": 0}, "flow": {"unit": "any", "above": 0}, "sensor_ratio": {"unit": "1", "minimum": 0, "maximum": 2}}, compute: scaled_uv_fluence, measured: ["certified_fluence", "certified_flow", "flow", "sensor_ratio"], slopes: scaled_uv_fluence_slopes},
  bench_uv_irradiance: {unit: "mW/cm**2", inputs: {"surface_irradiance": {"unit": "mW/cm**2", "minimum": 0, "maximum": 1000}, "petri_factor": {"unit": "1", "maximum": 1.5, "above": 0}, "reflection": {"unit": "1", "minimum": 0, "below": 1}, "absorbance": {"unit": "1/cm", "minimum": 0, "maximum": 10}, "depth": {"unit": "cm", "maximum": 100, "above": 0}, "distance": {"unit": "cm", "maximum": 1000, "above": 0}}, compute: bench_uv_irradiance, measured: ["surface_irradiance", "petri_factor", "reflection", "absorbance", "depth", "distance"], slopes: bench_uv_irradiance_slopes, steps: (surface_irradiance, petri_factor, reflection, absorbance, depth, distance) => ({"x": absorbance*depth*Math.log(10), "W": ((absorbance*depth*Math.log(10) < 0.0001) ? ((1/6)*Math.pow(absorbance, 2)*Math.pow(depth, 2)*Math.pow(Math.log(10), 2) - 1/2*absorbance*depth*Math.log(10) + 1) : ((1 - Math.exp(-absorbance*depth*Math.log(10)))/(absorbance*depth*Math.log(10)))), "D": distance/(depth + distance)})},
  grade_conductivity_maximum: {unit: "uS/cm", inputs: {"grade": {"options": ["iso_3696_1", "iso_3696_2", "iso_3696_3", "astm_d1193_1", "astm_d1193_2", "astm_d1193_3", "astm_d1193_4", "clsi_clrw", "usp_purified", "ph_eur_purified"]}}, compute: grade_conductivity_maximum, refusals: [["no_limit_in_grade", false, (grade) => grade == 8 || grade == 9]]},
  grade_resistivity_minimum: {unit: "Mohm cm", inputs: {"grade": {"options": ["iso_3696_1", "iso_3696_2", "iso_3696_3", "astm_d1193_1", "astm_d1193_2", "astm_d1193_3", "astm_d1193_4", "clsi_clrw", "usp_purified", "ph_eur_purified"]}}, compute: grade_resistivity_minimum, refusals: [["no_limit_in_grade", false, (grade) => grade == 0 || grade == 1 || grade == 2 || grade == 8 || grade == 9]]},
  grade_toc_maximum: {unit: "ug/L", inputs: {"grade": {"options": ["iso_3696_1", "iso_3696_2", "iso_3696_3", "astm_d1193_1", "astm_d1193_2", "astm_d1193_3", "astm_d1193_4", "clsi_clrw", "usp_purified", "ph_eur_purified"]}}, compute: grade_toc_maximum, refusals: [["no_limit_in_grade", false, (grade) => grade == 0 || grade == 1 || grade == 2 || grade == 6]]},
  grade_colony_count_maximum: {unit: "CFU/mL", inputs: {"grade": {"options": ["iso_3696_1", "iso_3696_2", "iso_3696_3", "astm_d1193_1", "astm_d1193_2", "astm_d1193_3", "astm_d1193_4", "clsi_clrw", "usp_purified", "ph_eur_purified"]}}, compute: grade_colony_count_maximum, refusals: [["no_limit_in_grade", false, (grade) => grade == 0 || grade == 1 || grade == 2 || grade == 3 || grade == 4 || grade == 5 || grade == 6]]},
  usp_645_stage_1_limit: {unit: "uS/cm", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: usp_645_stage_1_limit, measured: ["temperature"], slopes: usp_645_stage_1_limit_slopes},
  usp_645_stage_3_limit: {unit: "uS/cm", inputs: {"ph": {"unit": "pH", "minimum": 4.95, "below": 7.05}}, compute: usp_645_stage_3_limit, measured: ["ph"], slopes: usp_645_stage_3_limit_slopes},
  ph_eur_purified_water_limit: {unit: "uS/cm", inputs: {"temperature": {"unit": "degC", "minimum": 0, "maximum": 100}}, compute: ph_eur_purified_water_limit, measured: ["temperature"], slopes: ph_eur_purified_water_limit_slopes},
});

/** What a record cites as its `formulas`. */
export const FORMULAS_HASH = "46c392df0fd6c7bf9f4adf3eea614c34a21138f91e2a0a0c5460356e26624a4f";

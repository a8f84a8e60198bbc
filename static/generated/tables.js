// @ts-nocheck
// Generated from checks/tables by checks.generate: change that, then run `python -m checks.generate`.

export const tables = {
  // CLSI GP40-A4-AMD, Preparation and Testing of Reagent Water in the Clinical Laboratory, 2012, clinical laboratory reagent water, total heterotrophic plate count (from memory)
  grade_colony_count_maximum: {keys: [7.0, 8.0, 9.0], values: [10.0, 100.0, 100.0]},
  // ISO 3696, Water for analytical laboratory use, 1987, table, grade 1 (seen)
  grade_conductivity_maximum: {keys: [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0], values: [0.1, 1.0, 5.0, 0.056, 1.0, 0.25, 5.0, 0.1]},
  // ASTM D1193, Standard Specification for Reagent Water, 99e1, table 1, Type I (seen)
  grade_resistivity_minimum: {keys: [3.0, 4.0, 5.0, 6.0, 7.0], values: [18.0, 1.0, 4.0, 0.2, 10.0]},
  // ASTM D1193, Standard Specification for Reagent Water, 99e1, table 1, Type I (seen)
  grade_toc_maximum: {keys: [3.0, 4.0, 5.0, 7.0, 8.0, 9.0], values: [50.0, 50.0, 200.0, 500.0, 500.0, 500.0]},
  // IEC 60228, Conductors of insulated cables, 2004, tables 1 and 2, classes 1 and 2, plain copper (seen)
  iec_60228_2004_fixed: {keys: [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0], values: [36.0, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524]},
  // IEC 60228, Conductors of insulated cables, 2004, table 3, class 5, plain copper (seen)
  iec_60228_2004_flexible: {keys: [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0], values: [39.0, 26.0, 19.5, 13.3, 7.98, 4.95, 3.3, 1.91, 1.21, 0.78, 0.554]},
  // IEC 60364-4-41, Protection against electric shock, 2017, table 41.1, a.c., TN (seen)
  iec_60364_4_41_2017_tn: {keys: [120, 230, 400, 1000], values: [0.8, 0.4, 0.2, 0.1]},
  // IEC 60364-4-41, Protection against electric shock, 2017, table 41.1, a.c., TT (seen)
  iec_60364_4_41_2017_tt: {keys: [120, 230, 400, 1000], values: [0.3, 0.2, 0.07, 0.04]},
  // IEC 61008-1, Residual current operated circuit-breakers, 2010, limit values of the break time, general type (seen)
  iec_61008_1_2010_general: {keys: [1, 2, 5], values: [300, 150, 40]},
  // IEC 61008-1, Residual current operated circuit-breakers, 2010, limit values of the break time, type S (seen)
  iec_61008_1_2010_selective: {keys: [1, 2, 5], values: [500, 200, 150]},
  // IEC 61008-1, Residual current operated circuit-breakers, 2010, limit values of the non-actuating time, type S (seen)
  iec_61008_1_2010_selective_shortest: {keys: [1, 2, 5], values: [130, 60, 50]},
  // ISO 7888, Water quality - Determination of electrical conductivity, 1985, table of f25; 0 to 12 °C seen, the other rows from memory (from memory)
  iso_7888_1985_factor: {keys: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35], values: [1.918, 1.857, 1.8, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467, 1.428, 1.39, 1.354, 1.32, 1.287, 1.256, 1.225, 1.196, 1.168, 1.141, 1.116, 1.091, 1.067, 1.044, 1.021, 1.0, 0.979, 0.959, 0.94, 0.921, 0.903, 0.886, 0.869, 0.853, 0.837, 0.822]},
  // JCGM 100, Guide to the expression of uncertainty in measurement, 2008, table G.2, column 95.45 %, as open programs have it (seen)
  jcgm_100_2008_coverage_factor: {keys: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 25, 30, 35, 40, 45, 50, 100, Infinity], values: [13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32, 2.28, 2.25, 2.23, 2.21, 2.2, 2.18, 2.17, 2.16, 2.15, 2.14, 2.13, 2.11, 2.09, 2.07, 2.06, 2.06, 2.05, 2.025, 2.0]},
  // European Pharmacopoeia, monograph 0008 Purified water, 01/2009, table 0008.-1; rows 10, 20 and 25 °C seen, the others from memory (from memory)
  ph_eur_0008_conductivity: {keys: [0, 10, 20, 25, 30, 40, 50, 60, 70, 75, 80, 90, 100], values: [2.4, 3.6, 4.3, 5.1, 5.4, 6.5, 7.1, 8.1, 9.1, 9.7, 9.7, 9.7, 10.2]},
  // USP General Chapter <645> Water Conductivity, as reproduced in meter manuals of about 2011, stage 1, temperature and conductivity requirements, uncompensated (seen)
  usp_645_2011_stage_1: {keys: [0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100], values: [0.6, 0.8, 0.9, 1.0, 1.1, 1.3, 1.4, 1.5, 1.7, 1.8, 1.9, 2.1, 2.2, 2.4, 2.5, 2.7, 2.7, 2.7, 2.7, 2.9, 3.1]},
  // USP General Chapter <645> Water Conductivity, as reproduced in meter manuals of about 2011, stage 3, pH and conductivity requirements (seen)
  usp_645_2011_stage_3: {keys: [5.0, 5.1, 5.2, 5.3, 5.4, 5.5, 5.6, 5.7, 5.8, 5.9, 6.0, 6.1, 6.2, 6.3, 6.4, 6.5, 6.6, 6.7, 6.8, 6.9, 7.0], values: [4.7, 4.1, 3.6, 3.3, 3.0, 2.8, 2.6, 2.5, 2.4, 2.4, 2.4, 2.4, 2.5, 2.4, 2.3, 2.2, 2.1, 2.6, 3.1, 3.8, 4.6]},
};

// Run inside a page: makes this browser the phone of Tamsin Orrel, with one unit, and starts a visit to it.
async () => {
  const work = await import("/static/record/work.js");
  const { writeSettings } = await import("/static/record/database.js");
  const { createVisit } = await import("/static/record/visits.js");
  const procedure = await (await fetch("/field/commissioning-2/procedure.json")).json();
  const cell = (value, unit) => ({ value, unit, typed: String(value) });
  const instrument = (id, kind, name, unit, more) => ({
    id, kind, name, serial: id.toUpperCase(), unit, calibration_due: "2099-03-01", range_minimum: 0, range_maximum: 1000,
    accuracy_of_reading: 0.02, accuracy_of_range: 0, digits: 2, resolution: 0.01, calibration_uncertainty: 0, ...more,
  });
  const person = { id: "p-1", name: "Tamsin Orrel", role: "installer" };
  const plate = {
    water_grade: { value: "iso_3696_2" }, maximum_pressure: cell(6, "bar"), product_flow: cell(2, "L/min"),
    wetted_volume: cell(18, "L"), flush_target: cell(25, "uS/cm"), connection: { value: "plug" },
    rated_voltage: cell(230, "V"), rated_current: cell(3.2, "A"), access_levels: { value: "yes" },
  };
  for (const part of ["break_tank", "pretreatment", "reverse_osmosis", "degasser", "reservoir", "loop", "deioniser", "ultraviolet", "ultrafilter"]) {
    plate[`${part}_fitted`] = { value: "no" };
  }
  const values = { supply_system: { value: "tn_s" }, breaker_rating: cell(16, "A"), supply_pressure_maximum: cell(6, "bar") };
  const unit = { id: "u-1", name: "Analyser feed, line 1", serial: "VCL-0107", site: "s-1", short_code: "N5YW3969", previous: null, plate };
  await work.saveWork({
    server_time: "2026-11-25T09:00:00.000Z",
    people: [person, { id: "p-2", name: "Bram Ostley" }],
    sites: [{ id: "s-1", name: "Harrowmere Infirmary, pathology", address: "", values }],
    units: [unit, { ...unit, id: "u-2", name: "Trace analysis unit", serial: "VCL-0118", short_code: "P3KN473J" }],
    instruments: [
      instrument("ct-04", "continuity_tester", "Continuity tester 4", "ohm"),
      instrument("tp-31", "voltage_tester", "Two-pole tester 1", "V"),
      instrument("pg-12", "pressure_gauge", "Test gauge 0 to 6 bar", "bar"),
      instrument("pg-03", "pressure_gauge", "Line gauge 0 to 10 bar", "bar", { calibration_due: "2026-01-31" }),
      instrument("cm-02", "conductivity_meter", "Conductivity meter 2", "uS/cm"),
    ],
    visits: [],
    procedures: [procedure],
  });
  const device = { thumbprint: "oKIywvGUpTVTyxMQ3bwIIeQUudfr_CkLMjCE19ECD-U", jwk: {}, name: "Phone", enrolled_at: "" };
  await writeSettings({ person, device });
  const name = { id: procedure.id, version: procedure.version, hash: procedure.hash };
  return (await createVisit({ unit: "u-1", kind: "commissioning", procedure: name })).id;
}

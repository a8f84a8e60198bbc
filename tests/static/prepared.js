// A phone that is prepared for a person, for suites that need one.

import { writeSettings } from "/static/record/database.js";
import { keepPerson, makeKey, makeVerifier } from "/static/signing/device-key.js";
import { saveVisits } from "/static/record/visits.js";
import { saveWork } from "/static/record/work.js";

export const PERSON = { id: "p-1", name: "Mara Lind", role: "installer" };
export const PASSWORD = "correct horse battery";
export const PROCEDURE = {
  id: "commissioning",
  version: 1,
  title: "Commissioning",
  hash: "ab".repeat(32),
  plate: [],
  site: [],
  cautions: {},
  stages: [{ id: "safe", title: "Make safe", steps: ["earthing"] }],
  steps: [
    {
      id: "earthing",
      title: "Earthing",
      why: "",
      cautions: [],
      needs: [],
      entries: [
        {
          id: "continuity",
          kind: "reading",
          label: "Measured resistance",
          hint: "",
          unit: "ohm",
          units: ["ohm"],
          instrument: "continuity_tester",
          minimum: 0,
          maximum: 1000,
          required: true,
          when: null,
        },
        { id: "looks", kind: "yes_no", label: "Undamaged", hint: "", unit: null, units: [], instrument: null, minimum: null, maximum: null, required: true, when: null },
      ],
      derived: [],
      rules: [],
    },
  ],
};
export const PROCEDURE_NAME = { id: PROCEDURE.id, version: PROCEDURE.version, hash: PROCEDURE.hash };
export const INSTRUMENT = {
  id: "i-1",
  kind: "continuity_tester",
  name: "Low-resistance meter",
  serial: "LR-7",
  calibration_due: "2027-03-01",
  unit: "ohm",
  range_minimum: 0,
  range_maximum: 20,
  accuracy_of_reading: 0.02,
  accuracy_of_range: 0,
  digits: 2,
  resolution: 0.01,
  calibration_uncertainty: 0,
};

/** Somebody's name on the phone, without the second that a real key and verifier take. */
export async function person() {
  const device = { thumbprint: "oKIywvGUpTVTyxMQ3bwIIeQUudfr_CkLMjCE19ECD-U", jwk: {}, name: "Phone", enrolled_at: "" };
  await writeSettings({ person: PERSON, device });
}

/** A phone that can sign. */
export async function signer() {
  const [key, verifier] = await Promise.all([makeKey(), makeVerifier(PASSWORD)]);
  const device = { thumbprint: key.thumbprint, jwk: key.jwk, name: "Phone", enrolled_at: "2026-11-25T09:00:00.000Z" };
  await keepPerson({ person: PERSON, device, verifier });
  return key;
}

/** Reference data of one unit. @param {any[]} visits */
export async function work(visits = []) {
  const unit = { id: "u-1", name: "Unit 1", serial: "S-1", site: "s-1", plate: { maximum_pressure: { value: 6 } }, previous: null };
  const site = { id: "s-1", name: "Laboratory", values: {} };
  await saveWork({
    server_time: "2026-11-25T09:00:00.000Z",
    people: [PERSON],
    sites: [site],
    units: [unit],
    instruments: [INSTRUMENT, { ...INSTRUMENT, id: "i-2" }],
    visits,
    procedures: [PROCEDURE],
  });
  await saveVisits(visits);
}

// Shapes that more than one module uses, for the type checker only; no page loads this file.
// What crosses the border to the server is described in docs/api.md and named the same here.

interface Reason {
  code: string;
  text: string;
}

/** The value of an entry as the judging sees it. All but `value` may be missing. */
interface Cell {
  value: any;
  typed?: string;
  unit?: string;
  instrument?: string | null;
  at?: string;
  id?: string;
}

interface Conflict {
  conflict: Cell[];
}

/** One thing that a person did on a record. Nothing is overwritten: it names the events it replaces. */
interface EntryEvent {
  id: string;
  visit: string;
  field: string;
  item: string | null;
  content: any;
  replaces: string[];
  reason: Reason | null;
  by: string;
  device: string;
  at: string;
  offset: number;
  hlc: string;
  app: string;
}

/** What a page says about an event; the rest is filled in when it is stored. */
interface NewEvent {
  visit: string;
  field: string;
  /** `"new"` begins a reading of a series: the item then gets the id of this event. */
  item?: string | "new" | null;
  content: any;
  /** The ids of the events whose values the person saw and replaces. */
  replaces?: string[];
  reason?: Reason | null;
}

interface ProcedureName {
  id: string;
  version: number;
  hash: string;
}

interface Procedure {
  id: string;
  version: number;
  title: string;
  hash: string;
  plate: any[];
  site: any[];
  baseline?: any[];
  compares?: boolean;
  steps: any[];
  stages: any[];
  [other: string]: any;
}

interface Instrument {
  id: string;
  kind: string;
  name: string;
  serial: string;
  calibration_due: string;
  unit: string;
  [numbers: string]: any;
}

interface Unit {
  id: string;
  name: string;
  serial: string;
  site: string;
  plate: Record<string, Cell>;
  previous: string | null;
  baseline?: { record: string | null; values: Record<string, Cell>; last?: { at: string; values: Record<string, Cell> } | null } | null;
  short_code?: string;
  /** SHA-256 of the secret in the address that its label holds. */
  label?: string;
}

interface Site {
  id: string;
  name: string;
  address?: string;
  values: Record<string, Cell>;
}

interface Person {
  id: string;
  name: string;
  role?: string;
}

type VisitState = "draft" | "signed" | "accepted" | "returned" | "quarantined";

interface Visit {
  id: string;
  unit: string;
  kind: string;
  procedure: ProcedureName;
  state: VisitState;
  started_at: string;
  started_by: string;
  record: string | null;
  returned: { reasons: string; by: string; at: string } | null;
}

/** Answer of `GET /api/work`: everything that a phone needs to work without signal. */
interface Work {
  server_time: string;
  people: Person[];
  sites: Site[];
  units: Unit[];
  instruments: Instrument[];
  visits: Visit[];
  procedures: (Procedure | ProcedureName)[];
}

interface Session {
  person: Person;
  csrf: string;
  server_time: string;
  build: string;
}

/** What the engine judges. */
interface Case {
  plate: Record<string, Cell>;
  site: Record<string, Cell>;
  baseline?: Record<string, Cell>;
  instruments: Record<string, Instrument>;
  entries: Record<string, Cell | Conflict | Array<Cell | Conflict>>;
  steps: Record<string, any>;
  notes?: any;
  defects?: Record<string, Array<Cell | Conflict>>;
}

interface Judgement {
  quantities: Record<string, any>;
  rules: Record<string, any>;
  steps: Record<string, any>;
  record: { verdict: string; state: string; blocking: any[]; conditions: any[] };
}

/** The payload of a signed record. */
interface CommissioningRecord {
  type: "firstwater-record";
  schema: 1;
  visit: string;
  kind: string;
  unit: { id: string; name: string; serial: string; plate: Record<string, Cell> };
  site: { id: string; name: string; values: Record<string, Cell> };
  procedure: ProcedureName;
  /** The identity of the formulas, tables and engine that the judgement was made with. */
  formulas: string;
  instruments: Record<string, Instrument>;
  events: EntryEvent[];
  judgement: Judgement;
  previous: string | null;
  corrects: string | null;
  signer: Person;
  meaning: string;
  signed_at: string;
  offset: number;
  /** By how many milliseconds the server's clock was ahead of this phone's when they last met; null: never. */
  clock_offset: number | null;
  device: string;
  app: string;
}

/** `waiting`: only on this phone. `received`: the server returned our hash of it. `problem`: refused, kept here.
 * `apart`: the server set it apart, and it was entered again. */
type Sent = "waiting" | "received" | "problem" | "apart";

interface Problem {
  code: string;
  detail: string;
}

interface StoredVisit extends Visit {
  sent: Sent;
  problem: Problem | null;
  /** The server's number of the last event that was fetched. */
  last: number;
}

/** How far an open visit is: what a list of visits shows of its judgement. */
interface Outline {
  /** Names what it was judged from; see `basisOf`. */
  basis: string;
  total: number;
  settled: number;
  /** The step to do next, null when none is left. */
  next: { id: string; title: string } | null;
  /** The steps whose result came later and can be entered. */
  results: { id: string; title: string }[];
  /** How many things keep the record from being complete. */
  blocking: number;
  /** How many values two phones entered differently. */
  conflicts: number;
  /** How many steps fail, have to be looked at again, and wait for another; an outline kept earlier has none. */
  stops?: { failed: number; again: number; held: number; beyond?: number };
}

interface StoredEvent {
  id: string;
  visit: string;
  sent: Sent;
  problem: Problem | null;
  event: EntryEvent;
}

interface StoredPhoto {
  sha256: string;
  visit: string;
  by: string;
  type: string;
  size: number;
  bytes: ArrayBuffer;
  sent: Sent;
  problem: Problem | null;
}

/** A new passkey as the browser gives it, bytes in base64url; the names are those of Web Authentication. */
interface NewCredential {
  id: string;
  clientDataJSON: string;
  attestationObject: string;
}

/** A passkey's confirmation of a challenge, likewise. */
interface Assertion {
  id: string;
  clientDataJSON: string;
  authenticatorData: string;
  signature: string;
  userHandle: string | null;
}

/** Answer of `GET /api/passkeys`, as the phone keeps it. */
interface KnownPasskeys {
  rp_id: string;
  passkeys: { id: string; name: string }[];
}

interface StoredRecord {
  sha256: string;
  visit: string;
  by: string;
  jws: string;
  /** How a passkey confirmed the signature; missing when the password did. */
  assertion?: Assertion;
  signed_at: string;
  sent: Sent;
  problem: Problem | null;
  /** The server's state and reasons once it has received the record. */
  answer: { state: string; reasons: any[] } | null;
}

interface Device {
  thumbprint: string;
  jwk: JsonWebKey;
  name: string;
  enrolled_at: string;
}

interface Verifier {
  salt: Uint8Array;
  iterations: number;
  bits: Uint8Array;
}

/** Hybrid logical time: milliseconds, and a counter for events within one. */
interface ClockState {
  time: number;
  count: number;
}

interface OutboxSummary {
  visits: number;
  events: number;
  photos: number;
  records: number;
  /** How many of all of these the server refused. */
  problems: number;
  /** When the newest entry was stored here, and when the server last had everything; null: never. */
  savedAt: string | null;
  receivedAt: string | null;
}

type SendState = "idle" | "sending" | "elsewhere" | "done" | "offline" | "signed_out" | "other_person" | "stopped";

interface SendProgress {
  state: SendState;
  code: string | null;
  /** A sentence for the person. */
  message: string;
}

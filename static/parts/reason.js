import { phrase } from "../language/phrase.js";
import { make } from "./element.js";

const FRESH = 60_000;

/** Why a measured value was changed; the codes are part of the record. */
export const REASONS = {
  typing_error: phrase("Typing error"),
  re_measured: phrase("Measured again"),
  wrong_instrument: phrase("Wrong instrument"),
  wrong_unit: phrase("Wrong unit"),
  wrong_point: phrase("Measured at the wrong point"),
  other: phrase("Another reason"),
};

/** Why the value that the office has is replaced. */
const AT_UNIT = { read_at_unit: phrase("It says otherwise at the unit"), typing_error: phrase("Typing error in the office"), other: REASONS.other };

const UNSAID = { code: "not_given", text: "" };

/**
 * The reason that goes with a change of a measured value. Within a minute it is taken as a typing error and nobody is
 * asked; later, or once the step was marked done, a small choice appears. The value is stored in either case.
 */
export class ChangeReason {
  /**
   * @param {HTMLElement} place
   * @param {import("./session.js").VisitSession} session
   * @param {{field: string, item?: string | null, id: string, standing?: any}} about
   */
  constructor(place, session, { field, item = null, id, standing = null }) {
    this.standing = standing;
    this.place = place;
    this.session = session;
    this.field = field;
    this.item = item;
    this.id = id;
    /** @type {Reason | null} */
    this.given = null;
    this.asking = false;
  }

  /** The reason to store with the content that is being typed now; asks for one where it is due. @returns {Reason | null} */
  get() {
    const stored = this.session.current(this.field, this.item).filter((event) => event.content !== null);
    if (stored.length === 0 && this.standing === null && !this.asking) return null;
    if (!this.asking && (this.standing !== null || this.isDue(stored))) this.ask();
    if (!this.asking) return { code: "typing_error", text: "" };
    return this.given ?? UNSAID;
  }

  /** Ask again for a reason that was left open, for example before the page was left. */
  resume() {
    if (this.asking || !this.session.open) return;
    if (this.session.current(this.field, this.item).at(-1)?.reason?.code === UNSAID.code) this.ask();
  }

  /** @param {EntryEvent[]} stored */
  isDue(stored) {
    const step = this.field.split(".")[0];
    const old = stored.some((event) => Date.now() - Date.parse(event.at) > FRESH);
    return old || Boolean(this.session.case.steps[step]?.done);
  }

  ask() {
    this.asking = true;
    const id = `${this.id}_reason`;
    const select = make(
      "select",
      { id },
      make("option", { value: "" }, phrase("Choose a reason")),
      ...Object.entries(this.standing === null ? REASONS : AT_UNIT).map(([code, words]) => make("option", { value: code }, words)),
    );
    const text = make("input", { type: "text", "aria-label": phrase("The other reason"), autocomplete: "off", hidden: true });
    select.addEventListener("change", () => {
      text.hidden = select.value !== "other";
      if (text.hidden) this.give(select.value, "");
      else text.focus();
    });
    text.addEventListener("change", () => this.give(select.value, text.value));
    this.place.replaceChildren(make("div", { class: "asked" }, make("label", { for: id }, phrase("Why did this value change?")), select, text));
  }

  /** @param {string} code @param {string} text */
  async give(code, text) {
    this.given = code ? { code, text: text.trim() } : null;
    await this.session.flush(this.field, this.item);
    const last = this.session.current(this.field, this.item).at(-1);
    // The value was stored before the reason was known: state it again, with the reason.
    if (last && this.given && last.reason?.code !== "typing_error") {
      await this.session.write(this.field, last.content, { item: this.item, reason: this.given });
    }
  }
}

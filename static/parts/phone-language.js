// The language whose pages this phone keeps: the one that was chosen on it, else that of the page which asks first.

import { ENGLISH, language } from "../language/phrase.js";
import { recall, remember } from "./habits.js";

const HABIT = "language";

export const phoneLanguage = () => recall(HABIT) || language || ENGLISH;

/** @param {string} chosen */
export const choosePhoneLanguage = (chosen) => remember(HABIT, chosen);

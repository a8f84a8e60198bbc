/**
 * Moves the focus to the list of problems, so that it is read out and seen first.
 * @param {HTMLElement} summary
 */
export default function errorSummary(summary) {
  summary.focus();
}

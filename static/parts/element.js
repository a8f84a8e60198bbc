const SVG = "http://www.w3.org/2000/svg";

/**
 * A new element. `on...` attributes are listeners, true and false switch an attribute, null leaves it out.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node | string | null | undefined)} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, attributes = {}, ...children) {
  return /** @type {HTMLElementTagNameMap[T]} */ (furnish(document.createElement(tag), attributes, children));
}

/**
 * The same for drawings.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node | string | null | undefined)} children
 */
export function draw(tag, attributes = {}, ...children) {
  return /** @type {SVGElement} */ (furnish(document.createElementNS(SVG, tag), attributes, children));
}

/**
 * @param {HTMLElement | SVGElement} element
 * @param {Record<string, any>} attributes
 * @param {Array<Node | string | null | undefined>} children
 */
function furnish(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== null && value !== undefined && value !== false) element.setAttribute(name, String(value));
  }
  for (const child of children) if (child !== null && child !== undefined) element.append(child);
  return element;
}

/**
 * The place that a template has set aside under `data-part`.
 * @param {ParentNode} root
 * @param {string} name
 * @returns {any}
 */
export function part(root, name) {
  return root.querySelector(`[data-part="${name}"]`);
}

/**
 * What needs this page's script waits disabled, with a line that says so, until the script is there.
 * @param {ParentNode} root
 */
export function ready(root) {
  for (const one of root.querySelectorAll("[data-until-started]")) {
    if (one instanceof HTMLButtonElement) one.disabled = false;
    else one.remove();
  }
}

/**
 * Set a text only when it differs, so that a live region does not say the same thing twice.
 * @param {Element | null} element
 * @param {string} text
 */
export function say(element, text) {
  if (element && element.textContent !== text) element.textContent = text;
}

/**
 * Make a drawing show what a new one does: what has the same shape stays and changes in its place, which spares the
 * browser new nodes, their style and most of the layout.
 * @param {ChildNode} before on the page
 * @param {ChildNode} after
 */
export function redraw(before, after) {
  if (before instanceof Text && after instanceof Text) {
    if (before.data !== after.data) before.data = after.data;
  } else if (before instanceof Element && after instanceof Element && isSameShape(before, after)) {
    for (const { name, value } of after.attributes) if (before.getAttribute(name) !== value) before.setAttribute(name, value);
    for (const [index, child] of [...after.childNodes].entries()) redraw(before.childNodes[index], child);
  } else before.replaceWith(after);
}

/** @param {Element} one @param {Element} other */
function isSameShape(one, other) {
  const hasSameNames = one.attributes.length === other.attributes.length && other.getAttributeNames().every((name) => one.hasAttribute(name));
  return one.nodeName === other.nodeName && hasSameNames && one.childNodes.length === other.childNodes.length;
}

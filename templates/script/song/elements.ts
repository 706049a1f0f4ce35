/**
 * An element of the page that the script was written for.
 *
 * @throws Error where it is not there
 */
export function the<T extends HTMLElement>(id: string, kind: new () => T): T {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`the page has no ${id}`);
  return found;
}

/** A new element with a text in it. */
export function made<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  text = "",
  more: Readonly<Record<string, string>> = {},
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  element.textContent = text;
  for (const [name, value] of Object.entries(more)) element.setAttribute(name, value);
  return element;
}

/** Puts other things into an element; who was on one of them by the keys is on the one that has taken its place, or on another. */
export function refill(element: HTMLElement, parts: readonly (Node | string)[], otherwise: HTMLElement): void {
  const { activeElement } = document;
  const key = element.contains(activeElement) ? (activeElement as HTMLElement).dataset.key : undefined;
  element.replaceChildren(...parts);
  if (key === undefined) return;
  const same = [...element.querySelectorAll<HTMLElement>("[data-key]")].find((one) => one.dataset.key === key);
  (same ?? otherwise).focus();
}

/** What is to be typed stands in backticks: it is set apart. */
export function inCode(message: string): readonly Node[] {
  return message
    .split("`")
    .map((part, index) => (index % 2 === 1 ? made("code", part) : document.createTextNode(part)));
}

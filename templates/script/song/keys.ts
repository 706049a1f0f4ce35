/** What a key does, by its name. */
type Keys = Readonly<Record<string, (event: KeyboardEvent) => void>>;

/**
 * Single keys, heard only while whoever presses them is in one part of the page, and on nothing that has use for the key itself.
 */
export function onKeys(part: HTMLElement, keys: Keys): void {
  part.addEventListener("keydown", (event) => {
    const { key, target, altKey, ctrlKey, metaKey, repeat } = event;
    if (altKey || ctrlKey || metaKey) return;
    const does = keys[key.length === 1 ? key.toLowerCase() : key];
    const isField =
      target instanceof HTMLSelectElement || (target instanceof HTMLInputElement && target.dataset.own === undefined);
    // Arrows move a slider and a choice, but for one that they are to move as they do elsewhere here; letters look for an entry in a list.
    if (!does || (isField && key.length > 1) || target instanceof HTMLSelectElement) return;
    event.preventDefault();
    if (!repeat || key.length > 1) does(event);
  });
  // Not every browser goes to a button that is clicked.
  part.addEventListener("click", () => {
    if (!part.contains(document.activeElement)) part.focus({ preventScroll: true });
  });
}

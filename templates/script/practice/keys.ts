/** Controls that make something of single keys themselves: letters find an option, digits and signs make a number. */
const typing = "select, input[type=number], textarea";

/**
 * Single keys, heard only while the focus is inside `root`, so that none of them is taken from a screen reader or from the
 * rest of the page. Each presses the visible button named in its `data-key`.
 */
export function listenToKeys(root: HTMLElement): void {
  root.addEventListener("keydown", (event) => {
    const { target, key } = event;
    if (event.ctrlKey || event.altKey || event.metaKey || event.defaultPrevented) return;
    if (!(target instanceof Element) || target.matches(typing)) return;
    // A sign that needs the shift key on one keyboard stands alone on another: both name the same button.
    const pressed = [...root.querySelectorAll<HTMLElement>("[data-key]")].find(({ dataset }) =>
      dataset.key?.split(" ").includes(key.toLowerCase()),
    );
    if (!pressed || pressed.matches(":disabled, [hidden] *")) return;
    event.preventDefault();
    // A key that is held down goes on changing what goes in steps, and is one press of anything else.
    if (!event.repeat || pressed.matches("[data-step]")) pressed.click();
  });
}

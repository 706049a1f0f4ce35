/**
 * The view for a phone on the floor, two or three metres away. A modal dialog gives it the whole window and keeps the rest
 * out of reach; full screen comes on top where the browser has it. A tap anywhere pauses and goes on.
 */
export function farView(dialog: HTMLDialogElement, opener: HTMLElement, shown: () => void, toggle: () => void): void {
  const leave = () => dialog.close();
  /** Until the page has left full screen; who comes back sooner would be shown out again by its end. */
  let leaving: Promise<unknown> = Promise.resolve();
  opener.addEventListener("click", async () => {
    if (dialog.open) return leave();
    await leaving;
    // A dialog can't itself go full screen, so the page does, and the dialog opens above it.
    await document.documentElement.requestFullscreen?.().catch(() => {});
    dialog.showModal();
    shown();
  });
  dialog.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("button") === null) toggle();
  });
  dialog.querySelector("[data-leave]")?.addEventListener("click", leave);
  dialog.addEventListener("close", () => {
    // It is told of a moment later, and may be open again by then.
    if (document.fullscreenElement && !dialog.open) leaving = document.exitFullscreen().catch(() => {});
  });
  document.addEventListener("fullscreenchange", () => {
    if (!document.fullscreenElement && dialog.open) leave();
  });
}

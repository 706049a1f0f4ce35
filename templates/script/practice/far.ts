/**
 * The view for a phone on the floor, two or three metres away. A modal dialog gives it the whole window and keeps the rest
 * out of reach; full screen comes on top where the browser has it.
 */
export function farView(dialog: HTMLDialogElement, opener: HTMLElement, shown: () => void): void {
  const leave = () => dialog.close();
  opener.addEventListener("click", async () => {
    if (dialog.open) return leave();
    // A dialog can't itself go full screen, so the page does, and the dialog opens above it.
    await document.documentElement.requestFullscreen?.().catch(() => {});
    dialog.showModal();
    shown();
  });
  dialog.querySelector("[data-leave]")?.addEventListener("click", leave);
  dialog.addEventListener("close", () => {
    if (document.fullscreenElement) void document.exitFullscreen().catch(() => {});
  });
  document.addEventListener("fullscreenchange", () => {
    if (!document.fullscreenElement && dialog.open) leave();
  });
}

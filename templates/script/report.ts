/* The page that says how a draft was heard: every time on it plays the film that its reader has chosen, from there. */

const film = document.querySelector("video");
const choice = document.querySelector<HTMLInputElement>("#film");
let address: string | undefined;

choice?.addEventListener("change", () => {
  const file = choice.files?.[0];
  if (!film || !file) return;
  if (address !== undefined) URL.revokeObjectURL(address);
  address = URL.createObjectURL(file);
  film.src = address;
  film.hidden = false;
});

document.addEventListener("click", ({ target }) => {
  const button = target instanceof Element ? target.closest<HTMLElement>("button[data-at]") : null;
  if (!film || !button) return;
  if (address === undefined) {
    choice?.scrollIntoView({ block: "center" });
    choice?.focus();
    return;
  }
  film.currentTime = Number(button.dataset.at);
  // A film that this browser can't play says so itself.
  film.play().catch(() => undefined);
});

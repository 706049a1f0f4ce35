/** Where the page has no side: what is folded there stands open elsewhere. */
const narrow = matchMedia("screen and (max-width: 63.99rem)");

/** Folds the parts of a page to their lines on a narrow window, but for the one that its address names. */
export function foldOnPhones(): void {
  const folds = [...document.querySelectorAll<HTMLDetailsElement>("details[data-fold]")];
  const named = () =>
    location.hash === "" ? null : document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const follow = () => {
    const target = named();
    for (const fold of folds) fold.open = !narrow.matches || fold.contains(target);
  };
  follow();
  narrow.addEventListener("change", follow);
  addEventListener("hashchange", () => {
    const fold = named()?.closest<HTMLDetailsElement>("details[data-fold]");
    if (!fold) return;
    fold.open = true;
    fold.scrollIntoView();
  });
  addEventListener("beforeprint", () => {
    for (const fold of folds) fold.open = true;
  });
  addEventListener("afterprint", follow);
}

/** Opens what there is to choose below its line, and closes it once something else is tapped or the Escape key pressed. */
export function openByTap(choice: HTMLElement): void {
  const bar = choice.querySelector<HTMLButtonElement>("[data-choose]");
  if (!bar) return;
  const open = (wanted: boolean) => bar.setAttribute("aria-expanded", String(wanted));
  bar.addEventListener("click", () => open(bar.getAttribute("aria-expanded") !== "true"));
  document.addEventListener("click", ({ target }) => {
    if (target instanceof Node && !choice.contains(target)) open(false);
  });
  choice.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || bar.getAttribute("aria-expanded") !== "true") return;
    open(false);
    bar.focus();
  });
}

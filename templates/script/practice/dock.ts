/**
 * The player at the foot of the window, while something is danced, or paused, and the one in the page is out of sight. What lies under it can be
 * scrolled above it: the page gets as much room at its end.
 */
export function dock(bar: HTMLElement, stage: HTMLElement, root: HTMLElement, shown: () => void): void {
  let inSight = true;
  const follow = () => {
    const { running, paused } = root.dataset;
    const wanted = !inSight && (running !== undefined || paused !== undefined);
    if (bar.hidden === !wanted) return;
    bar.hidden = !wanted;
    document.documentElement.toggleAttribute("data-docked", wanted);
    if (wanted) shown();
  };
  // Seen in part is not seen: a low window can't hold it with the buttons below.
  const enough = 0.6;
  const sight = new IntersectionObserver(
    (entries) => {
      inSight = (entries.at(-1)?.intersectionRatio ?? 1) >= enough;
      follow();
    },
    { threshold: [0, enough] },
  );
  sight.observe(stage);
  new MutationObserver(follow).observe(root, { attributeFilter: ["data-running", "data-paused"] });
}

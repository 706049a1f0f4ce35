import type { PlayerWording } from "../../../src/wording/player.js";
import type { Player } from "./player.js";

const key = "countleaf-song-clicks";

/** Whether clicks sound over the learner's song, and how loud beside it: remembered on the device, whichever the song. */
export function songClicks(
  root: HTMLElement,
  { track }: Player,
  percent: () => number,
  wording: PlayerWording,
): { readonly begin: () => void } {
  const { clicks } = track;
  const tick = root.querySelector<HTMLInputElement>("input[name=over]");
  const level = root.querySelector<HTMLInputElement>("input[name=level]");
  if (!tick || !level) return { begin: () => {} };
  const show = () => {
    level.disabled = !tick.checked;
    level.setAttribute("aria-valuetext", wording.percent(Number(level.value)));
    clicks.setLevel(Number(level.value) / 100);
  };
  const begin = () => {
    if (!tick.checked || !track.isOpen()) return;
    // Where there is nothing to sound on, the player says so once the song plays.
    clicks.begin().then(
      () => clicks.prepare(percent() / 100),
      () => {},
    );
  };
  const [on, loud] = recall();
  tick.checked = on;
  level.value = String(loud);
  show();
  for (const input of [tick, level])
    input.addEventListener("input", (event) => {
      // It chooses nothing of the practice.
      event.stopPropagation();
      show();
      remember(tick.checked, Number(level.value));
    });
  tick.addEventListener("input", () => (tick.checked ? begin() : clicks.end()));
  // A browser that had no touch before may be waiting for this one.
  root.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("[data-start], [data-song-play]")) begin();
  });
  return { begin };
}

function recall(): readonly [boolean, number] {
  try {
    const [on, level] = (localStorage.getItem(key) ?? "").split(" ");
    return [on === "on", level ? Number(level) : 100];
  } catch {
    return [false, 100];
  }
}

function remember(on: boolean, level: number): void {
  try {
    localStorage.setItem(key, `${on ? "on" : "off"} ${level}`);
  } catch {
    // Nothing to do: it holds until the page is left.
  }
}

import type { PlayerWording } from "../../../src/wording/player.js";
import { type Score, sectionTitle } from "./score.js";
import type { Sight } from "./sight.js";

export interface Shown extends Omit<Sight, "state"> {
  readonly state: Sight["state"] | "rest";
  /** Whose counts they are; empty where all dance the same. */
  readonly group: string;
}

const smallestSize = 7;

/** Writes what there is to see on every face of the player: the one in the page and the one for afar. */
export function display(
  root: HTMLElement,
  score: Score,
  wording: PlayerWording,
): { show: (shown: Shown) => void; refit: () => void } {
  const faces = [...root.querySelectorAll<HTMLElement>("[data-face]")];
  const refit = () => {
    for (const face of faces) for (const box of face.querySelectorAll<HTMLElement>("[data-fit]")) fitText(box);
  };
  addEventListener("resize", refit);
  return {
    refit,
    show: (shown) => {
      const texts = textsOf(shown, score, wording);
      for (const face of faces) for (const box of write(face, shown, texts)) fitText(box);
    },
  };
}

function textsOf(shown: Shown, score: Score, wording: PlayerWording): Readonly<Record<string, string>> {
  // What stands above the cue makes clear that it isn't danced yet.
  const kicker = { rest: "", count: "", "count-in": wording.countInThen, wait: wording.waitThen }[shown.state];
  const early = kicker !== "";
  const cue = early ? shown.next : shown.cue;
  const next = early ? undefined : shown.next;
  return {
    section: [sectionTitle(score, shown.section, wording), shown.group].filter(Boolean).join(", "),
    count: shown.count,
    part: shown.part,
    kicker,
    call: cue?.call ?? "",
    cue: cue?.text ?? (early || score.sections[shown.section]?.uncounted ? "" : wording.hold),
    words: cue?.words ?? "",
    "next-on": next?.on ?? "",
    next: next ? (next.call === undefined ? next.text : wording.called(next.call)) : "",
  };
}

/** @returns the boxes whose text changed */
function write(face: HTMLElement, { state, accent }: Shown, texts: Readonly<Record<string, string>>): Set<HTMLElement> {
  if (face.dataset.state !== state) face.dataset.state = state;
  face.toggleAttribute("data-accent", accent);
  const changed = new Set<HTMLElement>();
  for (const spot of face.querySelectorAll<HTMLElement>("[data-show]")) {
    const text = texts[spot.dataset.show ?? ""] ?? "";
    if (spot.textContent === text) continue;
    spot.textContent = text;
    const box = spot.closest<HTMLElement>("[data-fit]");
    if (box) changed.add(box);
  }
  return changed;
}

/** Sets a box's text as large as it goes: sizes are numbered from the largest, and the style sheet says what they are. */
function fitText(box: HTMLElement): void {
  for (let size = 1; size <= smallestSize; size++) {
    box.dataset.size = String(size);
    // Lines are measured, not letters: those reach beyond lines as tight as these.
    const reach = box.lastElementChild?.getBoundingClientRect().bottom ?? 0;
    if (box.scrollWidth <= box.clientWidth && reach <= box.getBoundingClientRect().bottom + 1) return;
  }
}

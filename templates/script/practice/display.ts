import { rowOf } from "../../../src/routine/row-of.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import type { Cue } from "./score.js";
import { type Score, sectionTitle } from "./score.js";
import type { Row, Sight } from "./sight.js";

/** What one group of dancers does. */
export interface GroupLine {
  readonly group: string;
  readonly cue: Cue | undefined;
}

export interface Shown extends Omit<Sight, "state"> {
  readonly state: Sight["state"] | "rest";
  /** Whose counts they are; empty where all dance the same, or all are shown. */
  readonly group: string;
  /** A line for each group where all are shown. */
  readonly groups: readonly GroupLine[];
  /** Per cent of the tempo. */
  readonly percent: number;
}

/** Writes what there is to see on every face of the player: in the page, at its foot, and from afar. */
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
      const lines = linesOf(shown, wording);
      for (const face of faces) for (const box of write(face, shown, texts, lines)) fitText(box);
    },
  };
}

function textsOf(shown: Shown, score: Score, wording: PlayerWording): Readonly<Record<string, string>> {
  // What stands above the cue makes clear that it isn't danced yet.
  const early = shown.state === "count-in" || shown.state === "wait";
  const cue = early ? shown.next : shown.cue;
  const next = early ? undefined : shown.next;
  const lead = { rest: "", count: "", "count-in": wording.countInThen, wait: wording.waitThen }[shown.state];
  const marks = marked(cue, shown.percent);
  const all = shown.groups.length > 0;
  return {
    section: [sectionTitle(score, shown.section, wording), shown.group].filter(Boolean).join(", "),
    count: shown.count,
    part: shown.part,
    kicker: [lead, marks && wording.careFor(cue?.care ?? "")].filter(Boolean).join(" "),
    call: all ? "" : marks ? wording.markIt : (cue?.call ?? ""),
    cue: all ? "" : (cue?.text ?? (early || score.sections[shown.section]?.uncounted ? "" : wording.hold)),
    words: all ? "" : (cue?.words ?? ""),
    "next-on": next && !all ? next.on : "",
    next: next && !all ? (next.call === undefined ? next.text.replaceAll("\n", " · ") : wording.called(next.call)) : "",
  };
}

/** What is never danced slowly is marked below full tempo. */
function marked(cue: Cue | undefined, percent: number): boolean {
  return cue?.care !== undefined && percent < 100;
}

function linesOf({ groups, percent }: Shown, wording: PlayerWording): readonly (readonly [string, string])[] {
  const said = (cue: Cue | undefined) => {
    if (cue === undefined) return wording.hold;
    return marked(cue, percent) ? `${wording.markIt}: ${cue.text}` : (cue.call ?? cue.text.replaceAll("\n", " · "));
  };
  return groups.map(({ group, cue }) => [group, said(cue)]);
}

/** @returns the boxes whose text changed */
function write(
  face: HTMLElement,
  { state, accent, hit, row }: Shown,
  texts: Readonly<Record<string, string>>,
  lines: readonly (readonly [string, string])[],
): Set<HTMLElement> {
  if (face.dataset.state !== state) face.dataset.state = state;
  face.toggleAttribute("data-accent", accent);
  face.toggleAttribute("data-hit", hit);
  const changed = new Set<HTMLElement>();
  for (const spot of face.querySelectorAll<HTMLElement>("[data-show]")) {
    const text = texts[spot.dataset.show ?? ""] ?? "";
    if (spot.textContent === text) continue;
    spot.textContent = text;
    const box = spot.closest<HTMLElement>("[data-fit]");
    if (box) changed.add(box);
  }
  const counts = face.querySelector<HTMLElement>("[data-row]");
  if (counts) writeRow(counts, row);
  const list = face.querySelector<HTMLElement>("[data-groups]");
  if (list && writeLines(list, lines)) {
    const box = list.closest<HTMLElement>("[data-fit]");
    if (box) changed.add(box);
  }
  return changed;
}

/** The counts of the phrase, the one that is danced lit. */
function writeRow(list: HTMLElement, { counts, now }: Row): void {
  const text = counts.map(({ number, accent }) => `${number}${accent ? "!" : ""}`).join(" ");
  if (list.dataset.row !== text) {
    list.dataset.row = text;
    list.dataset.columns = String(rowOf(counts.length));
    const numeral = ({ number, accent }: Row["counts"][number]) => {
      const span = document.createElement("span");
      span.textContent = String(number);
      span.toggleAttribute("data-accent", accent);
      return span;
    };
    list.replaceChildren(...counts.map(numeral));
  }
  for (const [index, span] of [...list.children].entries()) span.toggleAttribute("data-now", index === now);
}

function writeLines(list: HTMLElement, lines: readonly (readonly [string, string])[]): boolean {
  const text = lines.map((line) => line.join("\t")).join("\n");
  if ((list.dataset.groups ?? "") === text) return false;
  list.dataset.groups = text;
  const line = ([group, said]: readonly [string, string]) => {
    const [item, name] = [document.createElement("li"), document.createElement("b")];
    name.textContent = group;
    item.append(name, " ", said);
    return item;
  };
  list.replaceChildren(...lines.map(line));
  return true;
}

/** Sets a box's text as large as it goes: `--fit` is its share of the size that the style sheet says. */
function fitText(box: HTMLElement): void {
  let [small, large] = [0, 1];
  const fits = (share: number) => {
    box.style.setProperty("--fit", String(share));
    // Lines are measured, not letters: those reach beyond lines as tight as these.
    const reach = Math.max(...[...box.children].map((part) => part.getBoundingClientRect().bottom));
    return box.scrollWidth <= box.clientWidth && reach <= box.getBoundingClientRect().bottom + 1;
  };
  box.toggleAttribute("data-over", false);
  if (fits(1)) return;
  for (let step = 0; step < 7; step++) {
    const middle = (small + large) / 2;
    if (fits(middle)) small = middle;
    else large = middle;
  }
  // What fits at no size that can be read makes room for itself, where the style sheet lets it.
  box.toggleAttribute("data-over", !fits(small));
}

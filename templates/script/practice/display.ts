import { rowOf } from "../../../src/routine/row-of.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import type { Cue } from "./score.js";
import { type Score, sectionTitle } from "./score.js";
import type { Row, Sight } from "./sight.js";

/** A line of several: what one group of dancers does, or one of the quick moves that stand together. */
export interface FaceLine {
  /** The group's name, or the counts. */
  readonly head: string;
  readonly group?: boolean;
  readonly cue: Cue | undefined;
  readonly next?: Cue | undefined;
  /** It is danced now. */
  readonly now: boolean;
}

export interface Shown extends Omit<Sight, "state"> {
  readonly state: Sight["state"] | "rest";
  /** Whose counts they are; empty where all dance the same, or all are shown. */
  readonly group: string;
  readonly lines: readonly FaceLine[];
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
      const lines = shown.lines.map((line) => ({ ...line, said: saidOf(line.cue, shown.percent, wording) }));
      for (const face of faces) for (const box of write(face, shown, texts, lines)) fitText(box);
    },
  };
}

function textsOf(shown: Shown, score: Score, wording: PlayerWording): Readonly<Record<string, string>> {
  // What stands above the cue makes clear that it isn't danced yet.
  const early = shown.state === "count-in" || shown.state === "wait";
  const cue = early ? shown.next : shown.cue;
  const next = early ? undefined : shown.next;
  const several = shown.lines.length > 0;
  const lead =
    cue === undefined && !several
      ? ""
      : { rest: "", count: "", "count-in": wording.countInThen, wait: wording.waitThen }[shown.state];
  const marks = marked(cue, shown.percent);
  // Of whoever is shown: another group's move may be the one that asks for care.
  const asking = [cue, ...shown.lines.map((line) => line.cue)].filter((one) => marked(one, shown.percent));
  const cares = [...new Set(asking.map((one) => one?.care ?? ""))];
  return {
    section: [sectionTitle(score, shown.section, wording), shown.group].filter(Boolean).join(", "),
    count: shown.count,
    part: shown.part,
    kicker: [lead, cares.length > 0 && wording.careFor(cares.join(", "))].filter(Boolean).join(" "),
    call: several ? "" : marks ? wording.markIt : (cue?.call ?? ""),
    cue: several ? "" : (cue?.text ?? (early || score.sections[shown.section]?.uncounted ? "" : wording.hold)),
    words: several ? "" : (cue?.words ?? ""),
    ...nextOf(shown, next, wording),
  };
}

/** What comes next: by its counts, or for each group by its name. */
function nextOf({ lines, percent }: Shown, next: Cue | undefined, wording: PlayerWording) {
  const ofGroups = lines.filter(({ group, next }) => group && next !== undefined);
  if (ofGroups.length > 0) {
    const on = ofGroups[0]?.next?.on ?? "";
    const said = ofGroups.map(
      ({ head, next }) => `${head}: ${next?.on === on ? "" : `${next?.on} `}${saidOf(next, percent, wording)}`,
    );
    return { "next-on": on, next: said.join("; ") };
  }
  if (next === undefined) return { "next-on": "", next: "" };
  const said = next.run?.map((cue, index) => `${index === 0 ? "" : `${cue.on} `}${cue.call ?? cue.text}`).join(" · ");
  return { "next-on": next.on, next: said ?? (next.call === undefined ? next.text : wording.called(next.call)) };
}

/** What is never danced slowly is marked below full tempo. */
function marked(cue: Cue | undefined, percent: number): boolean {
  return cue?.care !== undefined && percent < 100;
}

function saidOf(cue: Cue | undefined, percent: number, wording: PlayerWording): string {
  if (cue === undefined) return wording.hold;
  if (marked(cue, percent)) return `${wording.markIt}: ${cue.text}`;
  return cue.run?.map(({ call, text }) => call ?? text).join(" · ") ?? cue.call ?? cue.text;
}

type WrittenLine = FaceLine & { readonly said: string };

/** @returns the boxes whose text changed */
function write(
  face: HTMLElement,
  { state, accent, hit, row }: Shown,
  texts: Readonly<Record<string, string>>,
  lines: readonly WrittenLine[],
): Set<HTMLElement> {
  const changed = new Set<HTMLElement>();
  if (face.dataset.state !== state) {
    face.dataset.state = state;
    // Another weight of the letters takes another room.
    for (const box of face.querySelectorAll<HTMLElement>("[data-fit]")) changed.add(box);
  }
  face.toggleAttribute("data-accent", accent);
  face.toggleAttribute("data-hit", hit && state === "count");
  for (const spot of face.querySelectorAll<HTMLElement>("[data-show]")) {
    const text = texts[spot.dataset.show ?? ""] ?? "";
    if (spot.textContent === text) continue;
    spot.textContent = text;
    const box = spot.closest<HTMLElement>("[data-fit]");
    if (box) changed.add(box);
  }
  const counts = face.querySelector<HTMLElement>("[data-row]");
  if (counts) writeRow(counts, row);
  const list = face.querySelector<HTMLElement>("[data-lines]");
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

function writeLines(list: HTMLElement, lines: readonly WrittenLine[]): boolean {
  const text = lines.map(({ head, said }) => `${head}\t${said}`).join("\n");
  const same = (list.dataset.lines ?? "") === text;
  if (!same) {
    list.dataset.lines = text;
    list.dataset.kind = lines[0]?.group ? "groups" : "moves";
    const line = ({ head, said }: WrittenLine) => {
      const [item, name, what] = [
        document.createElement("li"),
        document.createElement("b"),
        document.createElement("span"),
      ];
      name.textContent = head;
      what.textContent = said;
      item.append(name, " ", what);
      return item;
    };
    list.replaceChildren(...lines.map(line));
  }
  for (const [index, item] of [...list.children].entries())
    item.toggleAttribute("data-now", lines[index]?.now === true);
  return !same;
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

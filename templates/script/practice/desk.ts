import type { Played } from "../../../src/publishing/site/player-data.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import type { Wish } from "./schedule.js";
import { exact, type Score, sectionTitle } from "./score.js";

/** The controls of the player, read as what the learner asks for. */
export interface Desk {
  readonly wish: () => Wish;
  readonly percent: () => number;
  readonly showPercent: (percent: number) => void;
  /** Chooses a run of sections. */
  readonly choose: (from: number, to: number) => void;
}

export const slowest = 50;
export const fastest = 110;

export function desk(form: HTMLFormElement, file: Played, score: Score, wording: PlayerWording): Desk {
  const field = (name: string) => form.elements.namedItem(name) as HTMLInputElement | HTMLSelectElement;
  const number = (name: string) => Number(field(name).value);
  const ticked = (name: string) => (field(name) as HTMLInputElement).checked;
  const output = form.querySelector("[data-speed]");
  const one = form.querySelector("[data-one-of]");
  const tempo = exact(file.music.countsPerMinute);

  const last = score.sections.length - 1;
  for (const name of ["from", "to"])
    field(name).append(
      ...score.sections.map((_, index) => new Option(sectionTitle(score, index, wording), String(index))),
    );
  const choose = (from: number, to: number) => {
    field("from").value = String(from);
    field("to").value = String(Math.max(from, to));
    if (one) one.textContent = sectionTitle(score, from, wording);
  };
  choose(0, last);
  form.querySelector("[data-speeds]")?.append(...file.practice.map(({ percent }) => speedButton(percent, wording)));

  const showPercent = (percent: number) => {
    field("speed").value = String(percent);
    const text = wording.speed(percent, Math.round((tempo * percent) / 10) / 10, file.music.tempoIsEstimate);
    if (output) output.textContent = text;
    field("speed").setAttribute("aria-valuetext", text);
  };
  showPercent(number("speed"));

  return {
    wish: () => ({
      from: number("from"),
      to: number("to"),
      loops: ticked("loops"),
      countInAgain: ticked("again"),
      ...(ticked("climbs") ? { climb: climbOf(number("by"), number("every"), number("until")) } : {}),
    }),
    percent: () => number("speed"),
    showPercent,
    choose,
  };
}

/** Whatever is typed, a step up is at least one per cent after one round, and ends within the range of speeds. */
function climbOf(by: number, every: number, until: number): NonNullable<Wish["climb"]> {
  return {
    by: Math.max(1, by),
    every: Math.max(1, Math.round(every)),
    until: Math.min(Math.max(until, slowest), fastest),
  };
}

function speedButton(percent: number, wording: PlayerWording): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.dataset.percent = String(percent);
  button.textContent = wording.percent(percent);
  return button;
}

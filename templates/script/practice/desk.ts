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

/** How a practice is worked up to full tempo, by what it is called on the page. */
const climbs: Readonly<Record<string, NonNullable<Wish["climb"]>>> = {
  gently: { by: 5, every: 2, until: 100 },
  steeply: { by: 10, every: 1, until: 100 },
};

export function desk(form: HTMLFormElement, file: Played, score: Score, wording: PlayerWording): Desk {
  const field = (name: string) => form.elements.namedItem(name) as HTMLInputElement | HTMLSelectElement;
  const ticked = (name: string) => (field(name) as HTMLInputElement).checked;
  const output = form.querySelector("[data-speed]");
  const ones = form.querySelectorAll("[data-one-of]");
  const tempo = exact(file.music.countsPerMinute);

  const last = score.sections.length - 1;
  for (const name of ["from", "to"])
    field(name).append(
      ...score.sections.map((_, index) => new Option(sectionTitle(score, index, wording), String(index))),
    );
  const from = () => (field("from").value === "all" ? 0 : Number(field("from").value));
  const choose = (first: number, end: number) => {
    const to = Math.max(first, end);
    field("from").value = first === 0 && to === last && last > 0 ? "all" : String(first);
    field("to").value = String(to);
    for (const one of ones) one.textContent = sectionTitle(score, first, wording);
  };
  choose(0, last);
  form.querySelector("[data-speeds]")?.append(...file.practice.map(({ percent }) => speedButton(percent, wording)));

  const showPercent = (percent: number) => {
    field("speed").value = String(percent);
    const text = wording.speed(percent, Math.round((tempo * percent) / 10) / 10, file.music.tempoIsEstimate);
    if (output) output.textContent = wording.percent(percent);
    field("speed").setAttribute("aria-valuetext", text);
  };
  showPercent(Number(field("speed").value));

  return {
    wish: () => {
      const climb = climbs[field("climb").value];
      return {
        from: from(),
        to: Number(field("to").value),
        loops: ticked("loops"),
        countInAgain: ticked("again"),
        ...(climb === undefined ? {} : { climb }),
      };
    },
    percent: () => Number(field("speed").value),
    showPercent,
    choose,
  };
}

function speedButton(percent: number, wording: PlayerWording): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.dataset.percent = String(percent);
  button.textContent = wording.percent(percent);
  return button;
}

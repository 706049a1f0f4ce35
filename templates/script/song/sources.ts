import { fallsBetween } from "../../../src/hearing/song/between.js";
import type { NoGuess, SongGuess } from "../../../src/hearing/song/types.js";
import type { SongWording } from "../../../src/wording/song.js";
import { made, refill } from "./elements.js";
import { type Basis, type Desk, fitFor } from "./state.js";

interface Choice {
  readonly key: string;
  readonly basis: Basis;
  readonly figure: string;
  readonly why: string;
}

/**
 * What the counts may be taken from, to choose among: the file, taps, guesses with their first counts.
 *
 * @param choose called with what was chosen
 */
export function showSources(
  into: HTMLElement,
  desk: Desk,
  none: NoGuess | undefined,
  words: SongWording,
  choose: (basis: Basis) => void,
): void {
  const { basis, guess } = desk;
  const chosen = basis.from === "guess" ? `guess-${basis.tempo}` : basis.from;
  const parts: Node[] = [];
  const choices = choicesOf(desk, words);
  if (choices.length > 0) parts.push(group("from", words.from, choices, chosen, choose));
  if (guess) parts.push(made("p", `${words.guesses}. ${words.guessesWhy}`, { class: "quiet" }));
  if (none) parts.push(made("p", words.noGuess(none.why)));
  if (guess?.unsteady) parts.push(made("p", words.unsteady(guess.unsteady), { class: "unsteady" }));
  if (guess && basis.from === "guess")
    parts.push(group("at", words.first, firstChoices(guess, basis.tempo, words), `at-${basis.first}`, choose));
  refill(into, parts, into);
}

/** Where the counts that are heard come from. */
export function whenceOf(desk: Desk, words: SongWording): string {
  const { basis, guess, nudge, anchor } = desk;
  const from = {
    file: () => words.fromFile,
    given: () => words.fromGiven,
    taps: () => words.fromTaps,
    guess: () => words.aGuess((basis.from === "guess" && guess?.tempos[basis.tempo]?.relation) || "first"),
  }[basis.from]();
  return words.whence(from, anchor !== undefined || Object.values(nudge).some((by) => by !== 0 && by !== 1));
}

function choicesOf(desk: Desk, words: SongWording): readonly Choice[] {
  const { file, given, guess } = desk;
  const fit = fitFor(desk, "song");
  return [
    ...(given
      ? [
          {
            key: "given",
            basis: { from: "given" } as const,
            figure: words.tempo(given.countsPerMinute),
            why: words.fromGiven,
          },
        ]
      : []),
    ...(file
      ? [
          {
            key: "file",
            basis: { from: "file" } as const,
            figure: words.tempo(file.countsPerMinute),
            why: words.fromFile,
          },
        ]
      : []),
    ...(fit && !("why" in fit)
      ? [
          {
            key: "taps",
            basis: { from: "taps" } as const,
            figure: words.tempo(fit.countsPerMinute),
            why: words.fromTaps,
          },
        ]
      : []),
    ...(guess?.tempos ?? []).map(({ countsPerMinute, relation }, tempo) => ({
      key: `guess-${tempo}`,
      basis: { from: "guess", tempo, first: 0 } as const,
      figure: words.tempo(countsPerMinute),
      why: words.aGuess(relation),
    })),
  ];
}

function firstChoices({ tempos }: SongGuess, tempo: number, words: SongWording): readonly Choice[] {
  const candidate = tempos[tempo];
  if (candidate === undefined) return [];
  return candidate.firstCounts
    .map((guess, first) => ({ ...guess, first, between: fallsBetween(guess, candidate) }))
    .sort((a, b) => a.at - b.at)
    .map(({ at, why, first, between }) => ({
      key: `at-${first}`,
      basis: { from: "guess", tempo, first },
      figure: words.place(at),
      why: words.reason(why, between),
    }));
}

function group(
  name: string,
  legend: string,
  choices: readonly Choice[],
  chosen: string,
  choose: (basis: Basis) => void,
): HTMLElement {
  const fields = made("fieldset", "", { class: "pills" });
  fields.append(made("legend", legend));
  for (const { key, basis, figure, why } of choices) {
    const input = made("input", "", { type: "radio", name, "data-key": key });
    input.checked = key === chosen;
    input.addEventListener("change", () => choose(basis));
    const text = made("span");
    text.append(made("b", figure), ` ${why}`);
    const label = made("label");
    label.append(input, text);
    fields.append(label);
  }
  return fields;
}

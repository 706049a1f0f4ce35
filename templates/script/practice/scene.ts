import type { Played } from "../../../src/publishing/site/player-data.js";
import type { PlayerWording } from "../../../src/wording/player.js";
import { readableCues } from "./dense.js";
import type { FaceLine } from "./display.js";
import { lastOf } from "./last-of.js";
import { type Cue, cues, type Score } from "./score.js";
import { type Round, type Sight, sightAt } from "./sight.js";

/** What is to be seen at a moment, of the version, side and groups that the page shows. */
export interface Seen extends Sight {
  readonly group: string;
  /** A line for each group where all are shown, or for each of the quick moves that stand together. */
  readonly lines: readonly FaceLine[];
}

export interface Scene {
  /**
   * @param position seconds at full tempo from the routine's first count
   * @param percent of the tempo: at a quick one, moves too short to be read stand together
   * @param last index of the last section that is danced
   */
  readonly at: (round: Round, position: number, percent: number, last?: number) => Seen;
  /** The cues of whoever is shown first, each on its own. */
  readonly cues: () => readonly Cue[];
}

/** The scene of the view that the page has chosen now. */
export function sceneOfPage(file: Played, score: Score, wording: PlayerWording): Scene {
  const { version = file.taught, side, group = "" } = document.documentElement.dataset;
  const of = (name: string) => cues(file, score, { version, otherSide: side === "mirrored", group: name }, wording);
  const names = group === "" ? (file.groups ?? []) : [group];
  const dancers = names.length === 0 ? [{ name: "", cues: of("") }] : names.map((name) => ({ name, cues: of(name) }));
  let [paced, at]: [readonly (typeof dancers)[number][], number] = [dancers, Number.NaN];
  const readableAt = (percent: number) => {
    if (at === percent) return paced;
    const read = (all: (typeof dancers)[number]) => ({ ...all, cues: readableCues(score, all.cues, percent) });
    [paced, at] = [dancers.map(read), percent];
    return paced;
  };
  return {
    cues: () => dancers[0]?.cues ?? [],
    at: (round, position, percent, last) => {
      const within = (all: readonly Cue[]) => (last === undefined ? all : all.filter(({ section }) => section <= last));
      const seen = readableAt(percent).map(({ name, cues }) => ({
        name,
        sight: sightAt(score, within(cues), round, position),
      }));
      const sight = seen[0]?.sight ?? sightAt(score, [], round, position);
      if (seen.length > 1) return { ...sight, group: "", lines: seen.map(groupLine) };
      const early = sight.state !== "count";
      const run = (early ? sight.next : sight.cue)?.run ?? [];
      const now = early ? undefined : lastOf(run, ({ start }) => start <= position + 1e-4);
      const lines = run.map((cue): FaceLine => ({ head: cue.on, cue, now: cue === now }));
      return { ...sight, group: names.length === 1 ? group : "", lines };
    },
  };
}

function groupLine({ name, sight }: { readonly name: string; readonly sight: Sight }): FaceLine {
  const early = sight.state !== "count";
  return {
    head: name,
    group: true,
    cue: early ? sight.next : sight.cue,
    next: early ? undefined : sight.next,
    now: true,
  };
}

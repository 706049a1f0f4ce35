import { neededGear } from "../../routine/gear.js";
import type { Library, Routine, Version } from "../../routine/routine.js";
import { timesThrough } from "../../routine/times-through.js";
import { alike } from "../../routine/whose.js";
import type { Mention, Take } from "../../teaching/take.js";
import type { Wording } from "../../wording/wording.js";
import { metCautions } from "../met-cautions.js";

/** What is said in so many words in a take, a sentence or two a line: what it mentions, and the name of what it begins to teach. */
export function aloud(
  { say, opens, before, pickUp }: Pick<Take, "say" | "opens" | "before" | "pickUp">,
  routine: Routine,
  library: Library,
  wording: Wording,
): readonly string[] {
  return [
    ...say.flatMap((mention) => mentions[mention](routine, library, wording)),
    ...(opens === undefined ? [] : [openingOf(routine, opens, before, pickUp, wording)]),
  ];
}

type Said = (routine: Routine, library: Library, wording: Wording) => readonly string[];

const mentions: Readonly<Record<Mention, Said>> = {
  title: ({ title, choreographer, music }, _, { takes }) => [takes.aloud.title(title, choreographer, music)],
  music: ({ music, video }, _, { takes }) => [
    takes.aloud.music(music.title !== undefined, music.link !== undefined, video.performance !== undefined),
  ],
  bring: ({ versions }, _, { takes }) =>
    neededGear(versions).map(({ item, need, why, by }) =>
      takes.aloud.bring(item, need === "optional", by.length === versions.length ? [] : by.map(named), why),
    ),
  versions: ({ versions, taught }, _, { takes }) => [
    takes.aloud.versions(versions.map(named), versions.filter(({ id }) => id === taught).map(named)),
  ],
  start: (routine, _, { takes, stance }) =>
    taughtOf(routine).flatMap((version) =>
      alike(routine, version, ({ start }) => JSON.stringify(start)).map(({ dancers, names }) =>
        takes.aloud.start(stance.whole(dancers.start), names),
      ),
    ),
  hits: ({ music }, _, { takes }) => [takes.aloud.hits(music.accents)],
  pauses: ({ music }, _, { takes }) => [takes.aloud.pauses(music.pauses)],
  cautions: (routine, library, { takes, risks }) => [
    takes.aloud.cautions(metCautions(routine, library), risks.generalCaution),
  ],
  times: (routine, _, { run }) => {
    const form = timesThrough(routine);
    return form === undefined ? [] : [run.timesThrough(form).join(" ")];
  },
  where: (_, __, { takes }) => [takes.aloud.where],
  credit: (routine, library) => [routine.credit ?? library.credit ?? ""],
};

const named = ({ id, kind }: Version) => ({ id, level: kind === "level" });

function taughtOf({ versions, taught }: Routine): readonly Version[] {
  return versions.filter(({ id }) => id === taught);
}

/** Names a section before it is taught: whether it is known, and how it differs from what is around it. */
function openingOf(
  { sections, music }: Routine,
  index: number,
  before: Take["before"],
  pickUp: Take["pickUp"],
  { takes, time }: Wording,
): string {
  const section = sections[index];
  if (section === undefined) return "";
  const { name, improvised, seconds } = section;
  const tempo = section.countsPerMinute;
  return takes.aloud.part(name, {
    first: index === 0 || (pickUp !== undefined && sections[0]?.name === pickUp),
    ...(pickUp !== undefined && { pickUp }),
    improvised,
    ...(seconds !== undefined && { seconds: seconds.valueOf() }),
    ...(before && { again: before, phrase: music.phrase }),
    ...(seconds === undefined &&
      !tempo.equals(music.countsPerMinute) && {
        tempo: time.tempo(section),
        half: tempo.mul(2).equals(music.countsPerMinute),
        double: tempo.div(2).equals(music.countsPerMinute),
      }),
  });
}

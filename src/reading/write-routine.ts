import type { Prose, WrittenRoutine, WrittenStart } from "../routine/written.js";
import { given } from "./given.js";
import { placeOf, rest } from "./place.js";
import type { RoutineKeys } from "./schema/routine.js";
import type { UnsafeLink } from "./write-move.js";
import { writeSection } from "./write-section.js";

/** A routine as the model reads it, from front matter that fits the schema. */
export function writeRoutine(slug: string, keys: RoutineKeys, prose: Prose, unsafe: UnsafeLink): WrittenRoutine {
  const { levels = ["1"], walls = 1 } = keys;
  const indexed = <T>(list: readonly T[] | undefined, name: string) =>
    (list ?? []).map((entry, index) => ({ entry, place: placeOf([name, index]) }));
  return {
    slug,
    place: placeOf([]),
    title: keys.title,
    choreographer: keys.choreographer,
    ...given({ date: keys.date, summary: keys.summary, credit: keys.credit }),
    styles: keys.style ?? [],
    audience: keys.audience ?? "all",
    music: writeMusic(keys.music),
    video: writeVideo(keys.video),
    start: writeStart(keys.start),
    levels,
    taught: keys.taught ?? levels[0] ?? "1",
    adaptations: indexed(keys.adaptations, "adaptations").map(({ entry: { name, from }, place }) => ({
      place,
      name,
      ...given({ from }),
    })),
    gear: indexed(keys.gear, "gear").map(({ entry: { item, need = "required", why, for: versions }, place }) => ({
      place,
      item,
      need,
      ...given({ why, for: versions }),
    })),
    groups: indexed(keys.groups, "groups").map(({ entry: { name, mirrored = false, ...stance }, place }) => ({
      place,
      name,
      mirrored,
      ...given(stance),
    })),
    walls,
    times: keys.times ?? walls,
    restarts: indexed(keys.restarts, "restarts").map(({ entry, place }) => ({ place, ...entry })),
    sections: keys.sections.map((section, index) => writeSection(section, ["sections", index], unsafe)),
    prose,
  };
}

function writeMusic(music: RoutineKeys["music"]): WrittenRoutine["music"] {
  return {
    place: placeOf(["music"]),
    ...given({ title: music.title, artist: music.artist, link: music.link }),
    ...given({ firstCount: music["first-count"], countIn: music["count-in"] }),
    tempo: music.tempo,
    phrase: music.phrase ?? 8,
    accents: music.accents ?? [],
    feel: music.feel ?? "straight",
  };
}

function writeVideo(video: RoutineKeys["video"] = {}): WrittenRoutine["video"] {
  const { performance, breakdown, length } = video;
  return {
    ...given({ performance, breakdown, breakdownMirrored: video["breakdown-mirrored"], length }),
    chapters: (video.chapters ?? []).map((chapter, index) => ({
      place: placeOf(["video", "chapters", index]),
      ...chapter,
    })),
  };
}

function writeStart(start: RoutineKeys["start"]): WrittenStart {
  const { [rest]: versions = {}, ...stance } = start ?? { [rest]: {} };
  return {
    place: placeOf(["start"]),
    ...given(stance),
    versions: Object.entries(versions).map(([version, own]) => ({
      version,
      place: placeOf(["start", version]),
      ...given(own),
    })),
  };
}

import { definedOnly } from "../routine/defined-only.js";
import type {
  PartialStance,
  Prose,
  Video,
  WrittenAdaptation,
  WrittenGear,
  WrittenGroup,
  WrittenMusic,
  WrittenRestart,
  WrittenRoutine,
  WrittenStart,
} from "../routine/written.js";
import type { NothingLeft } from "./nothing-left.js";
import { type Path, placeOf, rest } from "./place.js";
import type { StanceKeys } from "./schema/move.js";
import type { EntryOf, MusicKeys, RoutineKeys, StartKeys, VideoKeys } from "./schema/routine.js";
import type { UnsafeLink } from "./write-move.js";
import { writeSection } from "./write-section.js";

/** A routine as the model reads it, from front matter that fits the schema. */
export function writeRoutine(slug: string, keys: RoutineKeys, prose: Prose, unsafe: UnsafeLink): WrittenRoutine {
  const { title, choreographer, date, style, audience, summary, credit, music, video, start, ...more } = keys;
  const { levels, taught, adaptations, gear, groups, walls, times, restarts, sections, ...others } = more;
  const { draft, doubt, formerly, ...left } = others;
  left satisfies NothingLeft;
  return {
    slug,
    place: placeOf([]),
    title,
    choreographer,
    ...definedOnly<WrittenRoutine>({ date, summary, credit, doubt }),
    draft,
    formerly,
    styles: style,
    audience,
    music: writeMusic(music),
    video: writeVideo(video),
    start: writeStart(start),
    levels,
    taught: taught ?? levels[0] ?? "1",
    adaptations: adaptations.map((entry, index) => writeAdaptation(entry, ["adaptations", index])),
    gear: gear.map((entry, index) => writeGear(entry, ["gear", index])),
    groups: groups.map((entry, index) => writeGroup(entry, ["groups", index])),
    walls,
    times: times ?? walls,
    restarts: restarts.map((entry, index) => writeRestart(entry, ["restarts", index])),
    sections: sections.map((section, index) => writeSection(section, ["sections", index], unsafe)),
    prose,
  };
}

function writeMusic(music: MusicKeys): WrittenMusic {
  const { title, artist, tempo, phrase, accents, pauses, feel, link, ...more } = music;
  const { "first-count": firstCount, "count-in": countIn, ...left } = more;
  left satisfies NothingLeft;
  const given = definedOnly<WrittenMusic>({ title, artist, link, firstCount, countIn });
  const { countsPerMinute, isEstimate } = tempo;
  return {
    place: placeOf(["music"]),
    ...given,
    tempo: countsPerMinute,
    tempoIsEstimate: isEstimate,
    ...{ phrase, accents, pauses, feel },
  };
}

function writeVideo(video: VideoKeys): Video {
  const { performance, breakdown, "breakdown-mirrored": address, length, chapters, ...more } = video;
  const { "mirrored-by": by = "flipped", ...left } = more;
  left satisfies NothingLeft;
  return {
    ...definedOnly<Video>({
      performance,
      breakdown,
      length,
      mirrored: address === undefined ? undefined : { address, by },
    }),
    chapters: chapters.map(({ at, title, ...other }, index) => {
      other satisfies NothingLeft;
      return { place: placeOf(["video", "chapters", index]), at, title };
    }),
  };
}

function writeStart({ [rest]: versions, facing, weight, height, ...left }: StartKeys): WrittenStart {
  left satisfies NothingLeft;
  const stance = { facing, weight, height };
  return {
    place: placeOf(["start"]),
    ...writeStance(stance),
    versions: Object.entries(versions).map(([version, own]) => ({
      version,
      place: placeOf(["start", version]),
      ...writeStance(own),
    })),
  };
}

function writeStance({ facing, weight, height, ...left }: StanceKeys): PartialStance {
  left satisfies NothingLeft;
  return definedOnly<PartialStance>({ facing, weight, height });
}

function writeAdaptation({ name, from, ...left }: EntryOf<"adaptations">, path: Path): WrittenAdaptation {
  left satisfies NothingLeft;
  return { place: placeOf(path), name, ...definedOnly<WrittenAdaptation>({ from }) };
}

function writeGear({ item, need, why, for: versions, ...left }: EntryOf<"gear">, path: Path): WrittenGear {
  left satisfies NothingLeft;
  return { place: placeOf(path), item, need, ...definedOnly<WrittenGear>({ why, for: versions }) };
}

function writeGroup(group: EntryOf<"groups">, path: Path): WrittenGroup {
  const { name, mirrored, facing, weight, height, ...left } = group;
  left satisfies NothingLeft;
  const stance = { facing, weight, height };
  return { place: placeOf(path), name, mirrored, ...writeStance(stance) };
}

function writeRestart({ wall, after, ...left }: EntryOf<"restarts">, path: Path): WrittenRestart {
  left satisfies NothingLeft;
  return { place: placeOf(path), wall, after };
}

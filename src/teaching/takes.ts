import Fraction from "fraction.js";
import { dancersOf } from "../routine/chart.js";
import type { Library, Move, Routine } from "../routine/routine.js";
import type { DancedName } from "../routine/sheet.js";
import { type Risk, risks } from "../routine/vocabulary.js";
import { heaviest, type Load, loadOf } from "./load.js";
import {
  type Chunk,
  countsTake,
  isUncounted,
  joined,
  type Material,
  nameOf,
  type Passage,
  type RoutinePart,
} from "./material.js";
import type { ClassSettings } from "./settings.js";
import { explaining } from "./steps.js";

/** Where the teacher stands: facing the camera, with her back to it, or so that feet and floor fill the picture. */
export type CameraPlace = "front" | "behind" | "close";

export type TakeKind =
  | "welcome"
  | "show"
  | "explain"
  | "options"
  | "follow"
  | "link"
  | "from-the-top"
  | "mirrored"
  | "goodbye";

/** What a teacher says into the camera. */
export type Mention = "title" | "gear" | "options" | "cautions" | "where" | "credit";

export interface Take {
  /** From 1. */
  readonly number: number;
  readonly kind: TakeKind;
  /** What it dances, in order; nothing where it is the whole routine, or talk. */
  readonly names: readonly DancedName[];
  /** The versions whose options are shown, where they are. */
  readonly options: readonly ShownOption[];
  /** What is said, where it is talk. */
  readonly say: readonly Mention[];
  readonly camera: CameraPlace;
  readonly sections: readonly string[];
  /** Per cent of the tempo; absent of talk. */
  readonly speed?: number;
  /** In the finished video. */
  readonly start: number;
  readonly seconds: number;
  readonly load: Load;
  readonly cautions: readonly Risk[];
}

/** The options of a version, and the groups that dance them, where not all do. */
export interface ShownOption {
  readonly version: string;
  readonly groups: readonly string[];
}

/** A take whose place in the video is still open. */
export type Draft = Omit<Take, "number" | "start" | "seconds"> & {
  /** Seconds in the video. */
  readonly exact: Fraction;
};

/** Hello, and the whole of it once. */
export function openingTakes(routine: Routine, material: Material, settings: ClassSettings): readonly Draft[] {
  const taught = routine.versions.find(({ id }) => id === routine.taught);
  const gear = taught?.gear ?? [];
  const cautions = taught?.cautions ?? [];
  const say: readonly Mention[] = [
    "title",
    ...(gear.length > 0 ? (["gear"] as const) : []),
    ...(routine.versions.length > 1 ? (["options"] as const) : []),
    ...(cautions.length > 0 ? (["cautions"] as const) : []),
  ];
  return [
    talk("welcome", say, say.length + gear.length + cautions.length, settings),
    ...whole(material, { kind: "show", camera: "front", speed: 100 }),
  ];
}

/** Explains a section chunk by chunk, and dances it for the viewer to follow. */
export function partTakes(part: RoutinePart, material: Material, settings: ClassSettings): readonly Draft[] {
  const speeds = [...new Set([settings.drillSpeeds[0] ?? 100, 100])];
  const camera = "behind";
  return part.chunks.flatMap((index, order): Draft[] => {
    const chunk = material.chunks[index];
    if (!chunk || isUncounted(chunk)) return [];
    const before = material.chunks[(order === 0 ? part.after : index - 1) ?? -1];
    const explained = run({ kind: "explain", camera, speed: settings.markSpeed }, chunk, [chunk]);
    return [
      { ...explained, exact: explained.exact.add(explaining(chunk.points, settings)) },
      ...optionsTake(part.routine, chunk, settings),
      ...speeds.map((speed) => run({ kind: "follow", camera, speed }, chunk, [chunk])),
      ...(before && !isUncounted(before) ? [before] : []).map((other) =>
        run({ kind: "link", camera, speed: settings.linkSpeed }, joined(other, chunk), [other, chunk]),
      ),
    ];
  });
}

/** The whole of it to follow, as seen from behind and as in a mirror, and goodbye. */
export function endingTakes(
  routine: Routine,
  material: Material,
  library: Library,
  settings: ClassSettings,
): readonly Draft[] {
  const say: readonly Mention[] = ["where", ...((routine.credit ?? library.credit) ? (["credit"] as const) : [])];
  const speeds = [settings.linkSpeed, 100];
  return [
    ...speeds.flatMap((speed) => whole(material, { kind: "from-the-top", camera: "behind", speed })),
    ...speeds.flatMap((speed) => whole(material, { kind: "mirrored", camera: "front", speed })),
    talk("goodbye", say, say.length, settings),
  ];
}

/** The other versions' ways to fill the chunk's counts, one after the other, each once however many versions dance it. */
function optionsTake(routine: Routine, chunk: Chunk, settings: ClassSettings): readonly Draft[] {
  const [from, to] = chunk.phrases;
  const moves = new Map<string, Move>();
  const whose = new Map<string, Set<string | undefined>>();
  for (const version of routine.versions)
    for (const { group, moves: danced } of dancersOf(routine, version))
      for (const move of danced) {
        const { option, section, phrase, at, place } = move;
        if (option === undefined || section !== chunk.sectionIndex || phrase < from || phrase > to) continue;
        moves.set(`${option} ${at.toFraction()} ${place}`, move);
        whose.set(option, (whose.get(option) ?? new Set()).add(group));
      }
  if (moves.size === 0) return [];
  const options = [...moves.values()];
  const counts = options.reduce((sum, { length }) => sum.add(length), new Fraction(0));
  const danced = countsTake(counts, chunk.section).mul(100).div(settings.markSpeed);
  return [
    {
      kind: "options",
      names: [nameOf(chunk)],
      options: [...whose].map(([version, groups]) => ({
        version,
        groups: groups.size < routine.groups.length ? [...groups].flatMap((group) => group ?? []) : [],
      })),
      say: [],
      camera: "close",
      sections: [chunk.section.name],
      speed: settings.markSpeed,
      exact: danced.add(explaining(options.length, settings)),
      load: loadOf(options),
      cautions: risks.filter((risk) => options.some((move) => move.risks.includes(risk))),
    },
  ];
}

type Sketch = Pick<Draft, "kind" | "camera"> & { readonly speed: number };

function whole(material: Material, sketch: Sketch): readonly Draft[] {
  const last = material.parts.at(-1);
  return last ? [{ ...run(sketch, last.fromTheTop, material.chunks), names: [] }] : [];
}

function run(sketch: Sketch, passage: Passage, chunks: readonly Chunk[]): Draft {
  return {
    ...sketch,
    names: chunks.map(nameOf),
    options: [],
    say: [],
    sections: [...new Set(chunks.map(({ section }) => section.name))],
    exact: passage.countIn.add(passage.seconds).mul(100).div(sketch.speed),
    load: heaviest(passage.loads.map(({ taught }) => taught)),
    cautions: cautionsOf(chunks),
  };
}

function cautionsOf(chunks: readonly Chunk[]): readonly Risk[] {
  const moves = chunks.flatMap(({ dancers }) => dancers.flatMap(({ taught }) => taught));
  return risks.filter((risk) => moves.some((move) => move.risks.includes(risk)));
}

function talk(kind: "welcome" | "goodbye", say: readonly Mention[], things: number, settings: ClassSettings): Draft {
  const exact = new Fraction(settings.recording.talk).mul(things);
  return { kind, camera: "front", names: [], options: [], say, sections: [], exact, load: {}, cautions: [] };
}

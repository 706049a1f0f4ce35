import { neededGear } from "../routine/gear.js";
import type { Library, Routine } from "../routine/routine.js";
import { timesThrough } from "../routine/times-through.js";
import { heaviest } from "./load.js";
import type { Material, Passage } from "./material.js";
import { withoutIn } from "./running-order.js";
import type { ClassSettings } from "./settings.js";
import { runSeconds } from "./steps.js";
import { type CameraPlace, type Draft, type Mention, plainTake, type TakeKind } from "./take.js";

/** Hello, and the whole of it once. */
export function openingTakes(routine: Routine, material: Material, settings: ClassSettings): readonly Draft[] {
  const gear = neededGear(routine.versions);
  const say: readonly Mention[] = [
    ...(["title", "music"] as const),
    ...(gear.length > 0 ? (["bring"] as const) : []),
    ...(routine.versions.length > 1 ? (["versions"] as const) : []),
    "start",
    ...(routine.music.accents.length > 0 ? (["hits"] as const) : []),
    ...(routine.music.pauses.length > 0 ? (["pauses"] as const) : []),
    ...(routine.versions.some(({ cautions }) => cautions.length > 0) ? (["cautions"] as const) : []),
  ];
  return [
    talk("welcome", say, say.length + Math.max(0, gear.length - 1), settings),
    ...whole(material, "withSong", { kind: "show", camera: "front", speed: 100 }, settings),
  ];
}

/** The whole of it to follow, slowly and all times through at full tempo; on the other side where there is a film of that; goodbye. */
export function endingTakes(
  routine: Routine,
  material: Material,
  library: Library,
  settings: ClassSettings,
): readonly Draft[] {
  const say: readonly Mention[] = [
    ...(library.url === undefined ? [] : (["where"] as const)),
    ...((routine.credit ?? library.credit) ? (["credit"] as const) : []),
  ];
  const slowly = (kind: TakeKind, camera: CameraPlace) =>
    whole(material, "fromTheTop", { kind, camera, speed: settings.linkSpeed }, settings);
  const full = (kind: TakeKind, camera: CameraPlace) =>
    whole(material, "withSong", { kind, camera, speed: 100 }, settings);
  const form = timesThrough(routine);
  const things = form === undefined ? 0 : 1 + form.restarts.length + form.tags.length;
  return [
    ...(form === undefined ? [] : [talk("times", ["times"], things, settings)]),
    ...slowly("from-the-top", "behind"),
    ...full("from-the-top", "behind"),
    ...(routine.video.mirrored?.by === "danced" ? [...slowly("mirrored", "front"), ...full("mirrored", "front")] : []),
    ...(say.length > 0 ? [talk("goodbye", say, say.length, settings)] : []),
  ];
}

type Sketch = Pick<Draft, "kind" | "camera"> & { readonly speed: number };

/** The routine from the top: one time through, or all of it. */
function whole(
  material: Material,
  which: "fromTheTop" | "withSong",
  { kind, camera, speed }: Sketch,
  settings: ClassSettings,
): readonly Draft[] {
  const part = material.parts.at(-1);
  if (part === undefined) return [];
  const passage: Passage & { readonly times: readonly number[] } = part[which];
  const around = settings.overhead["from-the-top"] + settings.again;
  return [
    {
      ...plainTake(kind, material.chunks),
      ...{ camera, speed, names: [], runs: 1, around },
      ...(part.routine.times > 1 && { times: passage.times.length }),
      ...withoutIn({ speed, moves: [] }, material.chunks),
      exact: settings.overhead["from-the-top"] + runSeconds(passage, speed, settings).valueOf(),
      load: heaviest((speed < 100 ? passage.slowLoads : passage.loads).map((one) => one.taught)),
    },
  ];
}

function talk(
  kind: "welcome" | "times" | "goodbye",
  say: readonly Mention[],
  things: number,
  settings: ClassSettings,
): Draft {
  return { ...plainTake(kind, []), camera: "front", say, exact: settings.recording.talk * things };
}

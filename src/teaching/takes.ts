import Fraction from "fraction.js";
import type { Library, Move, Routine } from "../routine/routine.js";
import { risks } from "../routine/words.js";
import { loadOf } from "./load.js";
import { type Chunk, joined, type Material, type Part, type Stretch } from "./material.js";
import type { Take } from "./recording.js";
import type { ClassSettings } from "./settings.js";
import { explaining } from "./steps.js";
import { chunkName, list } from "./wording.js";

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
  const say = [
    "the title and who made it",
    ...(gear.length > 0 ? ["what you need"] : []),
    ...(routine.versions.length > 1 ? ["the levels and options"] : []),
    ...(cautions.length > 0 ? ["the cautions"] : []),
  ];
  const instruction = "Dance the whole of it, counting aloud.";
  return [
    talk("welcome", "Welcome", `Say ${list(say)}.`, say.length + gear.length + cautions.length, settings),
    ...whole(material, { kind: "show", label: `Show: ${routine.title}`, instruction, camera: "front", speed: 100 }),
  ];
}

/** Explains a section chunk by chunk, and dances it for the viewer to follow. */
export function partTakes(part: Part, material: Material, settings: ClassSettings): readonly Draft[] {
  const speeds = [...new Set([settings.drillSpeeds[0] ?? 100, 100])];
  const camera = "behind";
  return part.chunks.flatMap((index, order): Draft[] => {
    const chunk = material.chunks[index];
    if (!chunk) return [];
    const before = material.chunks[(order === 0 ? part.after : index - 1) ?? -1];
    const name = chunkName(chunk);
    const explain = "Say and walk it move by move, then once in one go.";
    const follow = "Dance it once on the counts for the viewer to follow.";
    const link = "Dance both without a stop, counting aloud.";
    const explained = run(
      { kind: "explain", label: `Explain: ${name}`, instruction: explain, camera, speed: settings.markSpeed },
      chunk,
      [chunk],
    );
    return [
      { ...explained, exact: explained.exact.add(explaining(chunk.points, settings)) },
      ...optionsTake(part.routine, chunk, settings),
      ...speeds.map((speed) =>
        run({ kind: "follow", label: `Follow: ${name}`, instruction: follow, camera, speed }, chunk, [chunk]),
      ),
      ...(before ? [before] : []).map((other) =>
        run(
          {
            kind: "link",
            label: `Link: ${chunkName(other)} into ${name}`,
            instruction: link,
            camera,
            speed: settings.linkSpeed,
          },
          joined(other, chunk),
          [other, chunk],
        ),
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
  const say = [
    "where to find the handouts and the song",
    ...((routine.credit ?? library.credit) ? ["how to credit it"] : []),
  ];
  const speeds = [settings.linkSpeed, 100];
  const behind = "Dance the whole of it on the counts for the viewer to follow.";
  const facing = "Face the camera and dance it on the other side, so that the viewer follows as in a mirror.";
  return [
    ...speeds.flatMap((speed) =>
      whole(material, {
        ...{
          kind: "from-the-top",
          label: `From the top: ${routine.title}`,
          instruction: behind,
          camera: "behind",
          speed,
        },
      }),
    ),
    ...speeds.flatMap((speed) =>
      whole(material, {
        ...{ kind: "mirrored", label: `As in a mirror: ${routine.title}`, instruction: facing, camera: "front", speed },
      }),
    ),
    talk("goodbye", "Goodbye", `Say ${list(say)}.`, say.length, settings),
  ];
}

/** The other versions' ways to fill the chunk's counts, one after the other, each once however many versions dance it. */
function optionsTake(routine: Routine, chunk: Chunk, settings: ClassSettings): readonly Draft[] {
  const [from, to] = chunk.phrases;
  const moves = new Map<string, Move>();
  for (const version of routine.versions)
    for (const move of version.moves)
      if (move.option !== undefined && move.section === chunk.sectionIndex && move.phrase >= from && move.phrase <= to)
        moves.set(`${move.option} ${move.at.toFraction()}`, move);
  if (moves.size === 0) return [];
  const options = [...moves.values()];
  const names = [...new Set(options.map(({ option }) => option ?? ""))].map((name) =>
    routine.levels.includes(name) ? `level ${name}` : name,
  );
  const counts = options.reduce((sum, { length }) => sum.add(length), new Fraction(0));
  const danced = counts.mul(60).div(chunk.section.countsPerMinute).mul(100).div(settings.markSpeed);
  return [
    {
      kind: "options",
      label: `Options: ${chunkName(chunk)}`,
      instruction: `Show each option on its own: ${list(names)}.`,
      camera: "close",
      sections: [chunk.section.name],
      speed: settings.markSpeed,
      exact: danced.add(explaining(options.length, settings)),
      load: loadOf(options),
      cautions: risks.filter((risk) => options.some((move) => move.risks.includes(risk))),
    },
  ];
}

type Sketch = Pick<Draft, "kind" | "label" | "instruction" | "camera"> & { readonly speed: number };

function whole(material: Material, sketch: Sketch): readonly Draft[] {
  const last = material.parts.at(-1);
  return last ? [run(sketch, last.fromTheTop, material.chunks)] : [];
}

function run(sketch: Sketch, stretch: Stretch, chunks: readonly Chunk[]): Draft {
  return {
    ...sketch,
    sections: [...new Set(chunks.map(({ section }) => section.name))],
    exact: stretch.countIn.add(stretch.seconds).mul(100).div(sketch.speed),
    load: stretch.loads.taught,
    cautions: risks.filter((risk) => chunks.some(({ moves }) => moves.some(({ move }) => move.risks.includes(risk)))),
  };
}

function talk(
  kind: "welcome" | "goodbye",
  label: string,
  instruction: string,
  things: number,
  settings: ClassSettings,
): Draft {
  const exact = new Fraction(settings.recording.talk).mul(things);
  return { kind, label, instruction, camera: "front", sections: [], exact, load: {}, cautions: [] };
}

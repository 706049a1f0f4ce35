import type { RatedMove } from "./difficulty.js";
import { hardMoves, isRisky, momentMoves, takenAlone } from "./hard-moves.js";
import { type GroupLoads, loadOf } from "./load.js";
import { type Chunk, isUncounted, joined, type Material } from "./material.js";
import { isNeverSlowed } from "./never-slowed.js";
import { optionsSeconds } from "./options.js";
import type { ClassSettings } from "./settings.js";
import { explaining, maker, type PlaceInClass, type Step, unloaded } from "./steps.js";

/** Teaches one chunk, as it asks for: what is new move by move, what is known as such, what is the dancers' own with room for it. */
export function chunkSteps(
  material: Material,
  index: number,
  link: number | undefined,
  place: PlaceInClass,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove> = new Set(),
): readonly Step[] {
  const chunk = material.chunks[index];
  if (!chunk) return [];
  const make = maker(settings, place);
  const before = link === undefined ? undefined : material.chunks[link];
  const steps = isFree(chunk)
    ? [make("explain", chunk, [index], { once: explaining(chunk.points, settings) })]
    : chunk.before === undefined
      ? newSteps(chunk, index, place, settings, replaced)
      : [make("again", chunk, [index]), make("drill", chunk, [index], { least: 0, kept: 1 })];
  // The way into what is the dancers' own and out of it is danced as any other; time without counts has none.
  if (!before || link === undefined || isUncounted(before) || isUncounted(chunk)) return steps;
  return [...steps, make("link", joined(before, chunk), [link, index], { speed: settings.linkSpeed })];
}

/** Those who take an option that is never slowed try it as it is shown to them. */
function tried({ dancers, options }: Chunk, loads: GroupLoads): GroupLoads {
  const shown = new Set(options.flatMap(({ moves }) => moves.filter(isNeverSlowed)).map(({ place }) => place));
  return loads.map((load, group) => {
    const { offered } = dancers[group] ?? {};
    return offered ? { ...load, offered: loadOf(offered.filter(({ place }) => shown.has(place))) } : load;
  });
}

/** The dancers' own, or time without counts: nothing in it is drilled. */
function isFree(chunk: Chunk): boolean {
  return chunk.improvised || isUncounted(chunk);
}

/**
 * Show, mark, the others' options, the hard moves alone, drill at rising speeds; what is never slowed comes alone before the first
 * drill at full tempo.
 *
 * @param replaced hard moves that are not taken on their own
 */
function newSteps(
  chunk: Chunk,
  index: number,
  place: PlaceInClass,
  settings: ClassSettings,
  replaced: ReadonlySet<RatedMove>,
): readonly Step[] {
  const make = maker(settings, place);
  const fresh = chunk.moves.some((move) => move.known !== "yes");
  const loads = unloaded(chunk.loads);
  const { options } = chunk;
  const alone = (
    moves: readonly RatedMove[],
    speed: number,
    more: { least?: number; most?: number; kept?: number },
  ) => {
    const once = explaining(
      moves.reduce((sum, { points }) => sum + points, 0),
      settings,
    );
    return moves.length === 0
      ? []
      : [make("detail", takenAlone(chunk, moves), [index], { speed, once, moves, ...more })];
  };
  const hard = hardMoves(chunk, settings).filter((move) => !replaced.has(move));
  const shown =
    options.length > 0
      ? [
          make("options", chunk, [index], {
            loads: tried(chunk, loads),
            kept: 1,
            options,
            each: optionsSeconds(options, chunk, settings),
          }),
        ]
      : [];
  // Where marking dances an option in place of what is never slowed, that has been shown by then.
  const early = chunk.unslowed.some(({ version, instead }) => version === undefined && instead.length > 0);
  return [
    make("show", chunk, [index], { loads }),
    ...(early ? shown : []),
    make("mark", chunk, [index], {
      speed: settings.markSpeed,
      once: explaining(chunk.points, settings),
      kept: 1,
      ...(!fresh && { least: 0 }),
    }),
    ...(early ? [] : shown),
    ...alone(hard, settings.markSpeed, hard.some(isRisky) ? { least: 1 } : {}),
    ...settings.drillSpeeds.flatMap((speed, order) => {
      const full = order === settings.drillSpeeds.length - 1;
      const needed = full || (order === 0 && fresh && chunk.counts >= chunk.routine.music.phrase);
      const drill = make("drill", chunk, [index], { speed, ...(!needed && { least: 0 }), kept: full ? 1 : 0 });
      return full ? [...alone(momentMoves(chunk), 100, { least: 1, most: 1, kept: 1 }), drill] : [drill];
    }),
  ];
}

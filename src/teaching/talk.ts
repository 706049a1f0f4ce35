import type { Block } from "./blocks.js";
import type { ClassSettings } from "./settings.js";

/* Time for talk goes by whole minutes. */
const minute = 60;

/**
 * Seconds for questions: they grow with what is new, are three minutes in an hour at the least, and as many as it takes for
 * bodies to rest from floor work (common practice, no source).
 *
 * @param fresh moves that the class has not met before
 * @param slot seconds of the whole class
 */
export function talkSeconds(
  fresh: number,
  slot: number,
  blocks: readonly Pick<Block, "seconds" | "floor">[],
  settings: ClassSettings,
): number {
  if (blocks.every((block) => block.seconds === 0)) return 0;
  const asked = Math.round((settings.questions * fresh) / minute);
  return minute * Math.max(asked, Math.floor(slot / (20 * minute)), breathsIn(blocks, settings).size);
}

/**
 * Before which activities there has to be a minute to breathe, since otherwise floor work would go on for too long.
 *
 * @param rested whether there is a rest before an activity anyway, by its place in the list
 */
export function breathsIn(
  blocks: readonly Pick<Block, "seconds" | "floor">[],
  { breatheEvery }: ClassSettings,
  rested: (index: number) => boolean = () => false,
): ReadonlySet<number> {
  const breaths = new Set<number>();
  let since = 0;
  blocks.forEach(({ seconds, floor }, index) => {
    if (rested(index)) since = 0;
    if (!floor) return;
    if (since > 0 && since + seconds > breatheEvery * minute) {
      breaths.add(index);
      since = 0;
    }
    since += seconds;
  });
  return breaths;
}

import type { Routine } from "../routine/routine.js";
import { countsTake, type Passage, type Recap, type RoutinePart } from "./material.js";
import type { ClassSettings } from "./settings.js";
import { maker, type PlaceInClass, type Step, unloaded } from "./steps.js";

/** The whole dance with the song, before anything of it is taught; the class watches. */
export function wholeShowStep(part: RoutinePart, place: PlaceInClass, settings: ClassSettings): Step {
  const { routine, withSong } = part;
  const [first] = routine.sections;
  const countIn = first ? countsTake(routine.music.countIn, first) : withSong.countIn;
  return maker(settings, place)("show-all", withSong, [], {
    each: songWith(routine, { countIn, seconds: routine.seconds }, settings),
    loads: unloaded(withSong.loads),
  });
}

/** What is known of a routine, before anything new of it: slowly, and at full tempo. */
export function recapSteps(recap: Recap, place: PlaceInClass, settings: ClassSettings): readonly Step[] {
  const make = maker(settings, place);
  return [
    make("recap", recap, recap.chunks, { speed: settings.linkSpeed }),
    make("recap", recap, recap.chunks, { once: -settings.overhead.recap }),
  ];
}

/** After a part: from the top up to its end; asked for where the class goes no further in this routine. */
export function topSteps(
  part: RoutinePart,
  ending: boolean,
  place: PlaceInClass,
  settings: ClassSettings,
): readonly Step[] {
  const { fromTheTop } = part;
  if (fromTheTop.chunks.length < 2) return [];
  const make = maker(settings, place);
  return [
    make("from-the-top", fromTheTop, fromTheTop.chunks, { speed: settings.linkSpeed, least: 0 }),
    make("from-the-top", fromTheTop, fromTheTop.chunks, { ...(!ending && { least: 0 }) }),
  ];
}

/** The end of a routine in this class: from the top and with the song; without the mirror and on the other side; in groups. */
export function finishSteps(part: RoutinePart, next: () => PlaceInClass, settings: ClassSettings): readonly Step[] {
  const { withSong, fromTheTop, routine } = part;
  const song = songSeconds(part, settings);
  const { pieces } = withSong;
  const place = next();
  const otherWays = maker(settings, next());
  return [
    ...topSteps(part, true, place, settings),
    maker(settings, place)("run-through", withSong, withSong.chunks, { each: song, kept: 1, pieces }),
    otherWays("away-from-mirror", fromTheTop, fromTheTop.chunks),
    // A routine that starts in several directions has its other sides already.
    ...(routine.walls === 1
      ? [otherWays("mirrored", fromTheTop, fromTheTop.chunks, { speed: settings.linkSpeed })]
      : []),
    maker(settings, next())("groups", withSong, withSong.chunks, { each: song * settings.groups, pieces }),
  ];
}

/** Each routine once more at the end of a class that has taught several. */
export function onceMoreStep(part: RoutinePart, place: PlaceInClass, settings: ClassSettings): Step {
  const { withSong } = part;
  const { pieces } = withSong;
  return maker(settings, place)("run-through", withSong, withSong.chunks, {
    ...{ pieces, each: songSeconds(part, settings), least: 0, most: Math.min(1, settings.most["run-through"]) },
  });
}

/** The song from shortly before the first count, to the end of what is taught. */
function songSeconds({ routine, withSong }: RoutinePart, settings: ClassSettings): number {
  return songWith(routine, withSong, settings) + settings.again;
}

/** What is listened to before the first count, or the count-in where that is longer, and a passage on the track's clock. */
function songWith(
  routine: Routine,
  { countIn, seconds }: Pick<Passage, "countIn" | "seconds">,
  settings: ClassSettings,
): number {
  const [opening] = routine.sections;
  // Time without counts before the first one is danced through already.
  const before = routine.music.firstCount?.add(opening?.seconds === undefined ? 0 : opening.start) ?? countIn;
  return Math.max(Math.min(before.valueOf(), settings.leadIn), countIn.valueOf()) + seconds.valueOf();
}

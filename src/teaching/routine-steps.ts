import type { Routine } from "../routine/routine.js";
import { timesThrough } from "../routine/times-through.js";
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
  const { entries } = recap;
  return [
    make("recap", recap, recap.chunks, { entries, speed: settings.linkSpeed }),
    make("recap", recap, recap.chunks, { entries, once: -settings.overhead.recap }),
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
  // With one chunk alone, or nothing but time without counts before it, that has been drilled already.
  if (fromTheTop.counted < 2) return [];
  const make = maker(settings, place);
  const { times } = fromTheTop;
  return [
    make("from-the-top", fromTheTop, fromTheTop.chunks, { times, speed: settings.linkSpeed, least: 0 }),
    make("from-the-top", fromTheTop, fromTheTop.chunks, { times, ...(!ending && { least: 0 }) }),
  ];
}

/** The end of a routine in this class: from the top and with the song; without the mirror and on the other side; in groups. */
export function finishSteps(part: RoutinePart, next: () => PlaceInClass, settings: ClassSettings): readonly Step[] {
  const { withSong, fromTheTop, routine } = part;
  const song = songSeconds(part, settings);
  const { pieces, times, cues } = withSong;
  const once = { times: fromTheTop.times };
  const place = next();
  const make = maker(settings, place);
  return [
    // What is only known has been gone through already, or is to be run and no more.
    ...topSteps(part, part.chunks.length > 0, place, settings),
    make("away-from-mirror", fromTheTop, fromTheTop.chunks, once),
    // A routine that starts in several directions has its other sides already.
    ...(routine.walls === 1
      ? [make("mirrored", fromTheTop, fromTheTop.chunks, { ...once, speed: settings.linkSpeed })]
      : []),
    // The song comes last: that is how a class goes home.
    ...formSteps(part, place, settings),
    make("run-through", withSong, withSong.chunks, { each: song, kept: 1, pieces, times, cues }),
    maker(settings, next())("groups", withSong, withSong.chunks, { each: song * settings.groups, pieces, times, cues }),
  ];
}

/** Before a song that goes through the dance several times: how the walls, the restarts and the tags come, where that is new. */
function formSteps(part: RoutinePart, place: PlaceInClass, settings: ClassSettings): readonly Step[] {
  const { withSong, routine, chunks } = part;
  const form = timesThrough(routine);
  if (form === undefined || chunks.length === 0 || withSong.times.length < 2) return [];
  const loads = unloaded(withSong.loads);
  const once = settings.recording.talk * (1 + form.restarts.length + form.tags.length);
  return [maker(settings, place)("explain", withSong, [], { form, loads, once, each: 0, least: 1, most: 1 })];
}

/** Each routine once more at the end of a class that has taught several. */
export function onceMoreStep(part: RoutinePart, place: PlaceInClass, settings: ClassSettings, least = 0): Step {
  const { withSong } = part;
  const { pieces, times, cues } = withSong;
  return maker(settings, place)("run-through", withSong, withSong.chunks, {
    ...{
      pieces,
      times,
      cues,
      each: songSeconds(part, settings),
      least,
      most: Math.min(1, settings.most["run-through"]),
    },
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

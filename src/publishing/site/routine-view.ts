import { shownFirstCount, wholeRun } from "../../routine/clock.js";
import { mirror } from "../../routine/mirror.js";
import type { Library, Routine, Stance, Version } from "../../routine/routine.js";
import { rowOf } from "../../routine/row-of.js";
import { reflectedStance } from "../../routine/stance.js";
import { timesThrough } from "../../routine/times-through.js";
import { risks } from "../../routine/vocabulary.js";
import { groupsMeeting, oppositeGroups } from "../../routine/whose.js";
import type { Wording } from "../../wording/wording.js";
import { countsMarks } from "../counts-mark.js";
import { momentLink } from "../format.js";
import type { DeclaredFile } from "../publisher.js";
import { safeAddress } from "./address.js";
import { countsView, type SectionView } from "./counts-view.js";
import { bothSides } from "./cue-html.js";
import { type Html, html, raw } from "./html.js";
import { markdownHtml } from "./markdown.js";
import type { Download, PackFiles } from "./pack.js";
import { type RoutineFacts, routineFacts } from "./routine-facts.js";
import { classesFor } from "./version-choice.js";

/** Everything that a routine's page shows, ready to be set: texts are plain, what is `Html` is safe markup. */
export interface RoutineView {
  readonly facts: RoutineFacts;
  readonly title: string;
  readonly choreographer: string;
  readonly song?: Html;
  readonly run: string;
  readonly tempo: string;
  /** Its place in the track, where it is known. */
  readonly firstCount: string | undefined;
  /** The number of the first count: 7 for a pick-up. */
  readonly firstNumber: number;
  /** How a dance that goes several times through is built, in sentences. */
  readonly timesThrough: readonly Html[];
  readonly accents: readonly number[];
  /** How many counts of a phrase stand in one row. */
  readonly inRow: number;
  readonly pauses: readonly number[];
  readonly countIn: number;
  /** How its counts are divided, where that is worth a word. */
  readonly feel: string | undefined;
  readonly times: number;
  readonly versions: readonly VersionView[];
  /** GroupFigures who dance different counts at once; empty where all dance the same. */
  readonly groups: readonly string[];
  readonly introduction: Html;
  readonly gear: readonly GearView[];
  readonly starts: readonly ForVersions<Html>[];
  readonly cautions: readonly ForVersions<{ readonly label: string; readonly text: string }>[];
  /** What each version asks care for, in short. */
  readonly careFor: readonly ForVersions<readonly string[]>[];
  readonly generalCaution: string;
  readonly houseRules: Html;
  readonly sections: readonly SectionView[];
  /** Pictures that lie in the pack, one a version. */
  readonly maps: readonly PictureView[];
  readonly floors: readonly PictureView[];
  readonly practice: readonly { readonly percent: number; readonly tempo: string; readonly run: string }[];
  readonly after: Html;
  /** Each with which counts go with it, where there are two films of the breakdown. */
  readonly videos: readonly { readonly link: Html; readonly goesWith: string }[];
  readonly chapters: readonly { readonly clock: string; readonly title: string; readonly link: Html }[];
  readonly downloads: readonly Download[];
  /** The marks of their counts, version by version. */
  readonly marks: readonly ForVersions<string>[];
  readonly videoText?: string;
  readonly credit?: string;
  /** What the author is not sure of yet, of the routine as a whole or of what nobody dances. */
  readonly doubts: readonly string[];
  /** For the author to look at, and not published. */
  readonly draft: boolean;
}

export interface VersionView {
  readonly id: string;
  /** "Level 2" */
  readonly name: string;
  readonly taught: boolean;
  /** Of an adaptation: the level it falls back to. */
  readonly from?: string;
  readonly classes: string;
  /** Contacts in one run, "knees 6, hands 2", of each group where there are some: "Early knees 6". */
  readonly load: string;
  /** Across the room and front to back: "0 m × 2.4 m", of each group where there are some. */
  readonly space: string;
}

/** Something with the classes of the versions that it holds for. */
export interface ForVersions<Value> {
  readonly classes: string;
  readonly value: Value;
}

export interface PictureView {
  readonly classes: string;
  /** Of the version. */
  readonly name: string;
  readonly asTaught: PictureFiles;
  readonly mirrored: PictureFiles;
}

/** A picture, and the same folded for narrow windows where there is one. */
interface PictureFiles {
  readonly whole: PictureFile;
  readonly folded?: PictureFile;
}

interface PictureFile {
  readonly file: string;
  readonly size: DeclaredFile["size"];
}

export interface GearView {
  readonly classes: string;
  readonly item: string;
  readonly required: boolean;
  readonly why?: string;
}

/** The whole page of a routine as data. */
export function routineView(routine: Routine, library: Library, pack: PackFiles, wording: Wording): RoutineView {
  const { music, prose } = routine;
  const firstCount = shownFirstCount(routine);
  return {
    facts: routineFacts(routine),
    title: routine.title,
    choreographer: routine.choreographer,
    ...songOf(routine, wording),
    run: wording.time.run(wholeRun(routine)),
    tempo: wording.time.tempo(music),
    firstCount: firstCount && wording.time.track(firstCount),
    firstNumber: routine.sections.flatMap(({ phrases }) => phrases)[0]?.numbers[0] ?? 1,
    timesThrough: timesThroughOf(routine, wording),
    accents: music.accents,
    inRow: rowOf(music.phrase),
    pauses: music.pauses,
    countIn: music.countIn,
    feel: music.feel === "straight" ? undefined : wording.routine.feel.value(music.feel),
    times: routine.times,
    groups: routine.groups,
    versions: routine.versions.map((version) => versionView(routine, version, wording)),
    introduction: markdownHtml(prose.introduction),
    gear: gearOf(routine),
    starts: startsOf(routine, wording),
    cautions: cautionsOf(routine, wording),
    careFor: shared(
      routine,
      (version) =>
        version.cautions.length === 0
          ? []
          : [version.cautions.map((risk) => wording.risks.of(risk, groupsMeeting(routine, version, risk)))],
      (labels) => labels.join("\n"),
    ),
    generalCaution: wording.risks.generalCaution,
    houseRules: markdownHtml(library.cautions ?? ""),
    sections: countsView(routine, wording),
    maps: picturesOf(routine, pack, "map", wording),
    floors: picturesOf(routine, pack, "floor", wording),
    practice: routine.practice.map((speed) => ({
      percent: speed.percent,
      tempo: wording.time.tempo(speed),
      run: wording.time.run(wholeRun(routine, speed)),
    })),
    after: markdownHtml(prose.after),
    videos: videosOf(routine, wording),
    chapters: chaptersOf(routine, wording),
    downloads: pack.downloads,
    marks: marksOf(routine),
    ...(pack.videoText === undefined ? {} : { videoText: pack.videoText }),
    ...(routine.credit === undefined ? {} : { credit: routine.credit }),
    doubts: doubtsAside(routine),
    draft: routine.draft,
  };
}

/** Those that stand at no section and no move of the counts. */
function doubtsAside({ doubts, sections, versions }: Routine): readonly string[] {
  const moves = versions.flatMap((version) => [version, ...version.groups].flatMap((one) => one.moves));
  const shown = new Set([...sections, ...moves].map(({ place }) => place));
  return doubts.flatMap(({ place, text }) => (shown.has(place) ? [] : [text]));
}

/** How it is built where it is danced several times through, on both sides. */
function timesThroughOf(routine: Routine, { run }: Wording): readonly Html[] {
  const [one, other] = [timesThrough(routine), timesThrough(mirror(routine))];
  if (one === undefined || other === undefined) return [];
  const mirrored = run.timesThrough(other);
  return run.timesThrough(one).map((text, index) => bothSides(html`${text}`, html`${mirrored[index]}`));
}

function marksOf(routine: Routine): RoutineView["marks"] {
  const marks = countsMarks(routine);
  return shared(
    routine,
    ({ id }) => [marks.get(id) ?? ""],
    (mark) => mark,
  );
}

function versionView(routine: Routine, version: Version, wording: Wording): VersionView {
  const { id, kind, from, load, space, groups } = version;
  const dancers: readonly GroupFigures[] = [{ name: routine.groups[0], load, space }, ...groups];
  return {
    id,
    name: wording.versions.name(id),
    taught: id === routine.taught,
    ...(kind === "adaptation" ? { from: wording.versions.name(from ?? routine.taught) } : {}),
    classes: classesFor(routine, new Set([id])),
    load: ofEach(dancers, (one) => wording.routine.contacts(one.load)),
    space: ofEach(dancers, ({ space }) => (space ? wording.routine.space(space) : "")),
  };
}

function picturesOf(routine: Routine, { pictures }: PackFiles, kind: string, wording: Wording): readonly PictureView[] {
  const fileOf = (file: string): PictureFile | undefined =>
    pictures.has(file) ? { file, size: pictures.get(file) } : undefined;
  return routine.versions.flatMap(({ id }): readonly PictureView[] => {
    const [asTaught, mirrored] = ["", "-mirrored"].map((side): PictureFiles | undefined => {
      const [whole, folded] = [fileOf(`${kind}-${id}${side}.svg`), fileOf(`folded-${kind}-${id}${side}.svg`)];
      return whole && { whole, ...(folded && { folded }) };
    });
    if (asTaught === undefined || mirrored === undefined) return [];
    const classes = classesFor(routine, new Set([id]));
    return [{ classes, name: wording.versions.name(id), asTaught, mirrored }];
  });
}

type GroupFigures = Pick<Version, "load" | "space"> & { readonly name: string | undefined };

/** One text where it is the same for all groups, else each with its name: "Early knees 6; Late knees 4". */
function ofEach(dancers: readonly GroupFigures[], textOf: (one: GroupFigures) => string): string {
  const texts = dancers.map(textOf);
  if (new Set(texts).size === 1) return texts[0] ?? "";
  return dancers.flatMap((one, index) => (texts[index] === "" ? [] : [`${one.name} ${texts[index]}`])).join("; ");
}

function songOf({ music: { title, artist, link } }: Routine, wording: Wording): { readonly song?: Html } {
  if (title === undefined && artist === undefined) return {};
  const cited = title === undefined ? undefined : html`<cite>${title}</cite>`;
  const name = html`${cited && artist !== undefined ? wording.routine.song(cited, artist) : (cited ?? artist)}`;
  const address = link === undefined ? undefined : safeAddress(link);
  return { song: address === undefined ? name : html`<a href="${address}">${name}</a>` };
}

/** Values by version, each different one once with the versions that share it. */
function shared<Value>(
  routine: Routine,
  valuesOf: (version: Version) => readonly Value[],
  keyOf: (value: Value) => string,
): readonly ForVersions<Value>[] {
  const found = new Map<string, { readonly value: Value; readonly versions: Set<string> }>();
  for (const version of routine.versions)
    for (const value of valuesOf(version)) {
      const entry = found.get(keyOf(value)) ?? { value, versions: new Set<string>() };
      entry.versions.add(version.id);
      found.set(keyOf(value), entry);
    }
  return [...found.values()].map(({ value, versions }) => ({ classes: classesFor(routine, versions), value }));
}

function gearOf(routine: Routine): readonly GearView[] {
  const items = shared(
    routine,
    ({ gear }) => gear,
    ({ item, need, why }) => `${need} ${item} ${why}`,
  );
  return items
    .map(({ classes, value: { item, need, why } }) => ({
      classes,
      item,
      required: need === "required",
      ...(why === undefined ? {} : { why }),
    }))
    .sort((a, b) => Number(b.required) - Number(a.required));
}

function startsOf(routine: Routine, wording: Wording): readonly ForVersions<Html>[] {
  const across = oppositeGroups(routine);
  const side = (name: string | undefined, stance: Stance) => {
    const start = wording.stance.whole(stance);
    return html`${name ? wording.routine.groupStart(html`<b>${name}</b>`, start, across.has(name)) : start}`;
  };
  const starts = (version: Version) =>
    [{ name: routine.groups[0], start: version.start }, ...version.groups].map(({ name, start }) =>
      bothSides(side(name, start), side(name, reflectedStance(start))),
    );
  return shared(routine, starts, (start) => start.html);
}

function cautionsOf(routine: Routine, wording: Wording): RoutineView["cautions"] {
  const { of, caution } = wording.risks;
  return risks.flatMap((risk) => {
    const met = shared<string>(
      routine,
      (version) => (version.cautions.includes(risk) ? [of(risk, groupsMeeting(routine, version, risk))] : []),
      (label) => label,
    );
    return met.map(({ classes, value }) => ({ classes, value: { label: value, text: caution(risk) } }));
  });
}

function videosOf({ video }: Routine, { videos }: Wording): RoutineView["videos"] {
  const link = (address: string | undefined, text: string, goesWith = ""): RoutineView["videos"] => {
    const safe = address === undefined ? undefined : safeAddress(address);
    return safe === undefined ? [] : [{ link: html`<a href="${safe}">${text}</a>`, goesWith }];
  };
  const { performance, breakdown, mirrored } = video;
  return [
    ...link(performance, videos.performance),
    ...link(breakdown, videos.breakdown, mirrored && videos.goesWith.plain),
    ...(mirrored ? link(mirrored.address, videos.breakdownMirrored[mirrored.by], videos.goesWith[mirrored.by]) : []),
  ];
}

function chaptersOf({ video }: Routine, { time, videos }: Wording): RoutineView["chapters"] {
  const taught = video.breakdown === undefined ? undefined : safeAddress(video.breakdown);
  // A film that was danced anew has times of its own.
  const flipped = video.mirrored?.by === "flipped" ? safeAddress(video.mirrored.address) : undefined;
  return video.chapters.map(({ at, title }) => {
    const link = (address: string | undefined, text: string) =>
      address === undefined ? html`${text}` : html`<a href="${momentLink(address, at)}">${text}</a>`;
    const other = flipped === undefined ? raw("") : html` (${link(flipped, videos.chapterFlipped)})`;
    return { clock: time.clock(at), title, link: html`${link(taught, title)}${other}` };
  });
}

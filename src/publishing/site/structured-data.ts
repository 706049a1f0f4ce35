import Fraction from "fraction.js";
import type { Library, Routine, Workshop } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";
import { isoDuration, momentLink } from "../format.js";
import { safeAddress } from "./address.js";
import type { LibraryView } from "./library-view.js";
import type { RoutineView } from "./routine-view.js";

/** Linked data in the words of schema.org; what is not known is left out. Durations are ISO 8601. */
export type LinkedData = Readonly<Record<string, unknown>>;

const context = { "@context": "https://schema.org" };

/** A routine is something that one learns to do step by step: a HowTo, with what it takes and how long it takes to perform. */
export function routineData(routine: Routine, view: RoutineView, library: Library, wording: Wording): LinkedData {
  return {
    ...context,
    "@type": "HowTo",
    name: routine.title,
    ...addressed(library, `routines/${routine.slug}/`),
    description: routine.summary,
    inLanguage: library.language,
    datePublished: routine.date,
    author: { "@type": "Person", name: routine.choreographer },
    publisher: publisherOf(library),
    creditText: routine.credit,
    keywords: routine.styles.length > 0 ? routine.styles.join(", ") : undefined,
    learningResourceType: wording.routine.kind,
    educationalLevel: view.versions.map(({ name }) => name),
    ...(routine.audience === "adult" ? { typicalAgeRange: "18-" } : {}),
    performTime: isoDuration(routine.seconds),
    tool: view.gear.filter(({ required }) => required).map(({ item }) => ({ "@type": "HowToTool", name: item })),
    step: view.sections.map(({ id, name }, index) => ({
      "@type": "HowToStep",
      position: index + 1,
      name,
      url: `#${id}`,
    })),
    mentions: songData(routine),
    video: videoData(routine, wording),
  };
}

function songData({ music: { title, artist, link } }: Routine): LinkedData | undefined {
  if (title === undefined && artist === undefined) return undefined;
  return {
    "@type": "MusicRecording",
    name: title,
    byArtist: artist && { "@type": "MusicGroup", name: artist },
    url: link && safeAddress(link),
  };
}

/** The breakdown with its chapters as clips: each ends where the next begins. */
function videoData({ title, summary, video }: Routine, { videos }: Wording): LinkedData | undefined {
  const url = video.breakdown === undefined ? undefined : safeAddress(video.breakdown);
  if (url === undefined) return undefined;
  return {
    "@type": "VideoObject",
    name: videos.stepByStep(title),
    description: summary,
    url,
    duration: video.length && isoDuration(video.length),
    hasPart: video.chapters.map(({ at, title: name }, index) => ({
      "@type": "Clip",
      name,
      startOffset: at.valueOf(),
      endOffset: (video.chapters[index + 1]?.at ?? video.length)?.valueOf(),
      url: momentLink(url, at),
    })),
  };
}

/** A workshop is something that people go to in order to learn. */
export function workshopData(workshop: Workshop, library: Library): LinkedData {
  return {
    ...context,
    "@type": "EducationEvent",
    name: workshop.title,
    ...addressed(library, `workshops/${workshop.slug}/`),
    inLanguage: library.language,
    startDate: workshop.date,
    ...(workshop.dates && { endDate: workshop.dates.at(-1), subEvent: lessonsData(workshop, workshop.dates) }),
    ...(workshop.lessons === undefined && { duration: lasting(workshop) }),
    location: workshop.venue && { "@type": "Place", name: workshop.venue },
    organizer: publisherOf(library),
    workFeatured: workshop.routines.map(({ slug, title }) => ({
      "@type": "HowTo",
      name: title,
      ...addressed(library, `routines/${slug}/`),
    })),
  };
}

/** Of a course each lesson as an event of its own; nobody finds an event without a place (from memory of search engines' rules). */
function lessonsData(workshop: Workshop, dates: readonly string[]): readonly LinkedData[] | undefined {
  const { title, venue } = workshop;
  if (venue === undefined) return undefined;
  return dates.map((day) => ({
    "@type": "EducationEvent",
    name: title,
    startDate: day,
    duration: lasting(workshop),
    location: { "@type": "Place", name: venue, address: venue },
  }));
}

function lasting({ minutes }: Workshop): string {
  return isoDuration(new Fraction(minutes).mul(60));
}

/** The library page is a collection, newest first. */
export function libraryData({ cards }: LibraryView, library: Library): LinkedData {
  return {
    ...context,
    "@type": "CollectionPage",
    name: library.name,
    ...addressed(library, ""),
    inLanguage: library.language,
    publisher: publisherOf(library),
    mainEntity: {
      "@type": "ItemList",
      numberOfItems: cards.length,
      itemListElement: cards.map(({ facts: { slug, title } }, index) => ({
        "@type": "ListItem",
        position: index + 1,
        name: title,
        ...addressed(library, `routines/${slug}/`),
      })),
    },
  };
}

/** Only a published library knows its addresses. */
function addressed({ url }: Library, path: string): LinkedData {
  return url === undefined ? {} : { url: `${url}/${path}` };
}

function publisherOf({ name, url }: Library): LinkedData {
  return { "@type": "Organization", name, url };
}

import Fraction from "fraction.js";
import { wholeRun } from "../../routine/clock.js";
import type { Library, Routine, Workshop } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";
import { isoDuration } from "../format.js";
import { safeAddress } from "./address.js";
import type { LibraryView } from "./library-view.js";
import type { RoutineView } from "./routine-view.js";

/**
 * Linked data in the words of schema.org; what is not known is left out. Durations are ISO 8601. An item that search engines read only
 * with a certain property is left out where that is not known (their rules from memory): a video needs a picture and its day, an event
 * its day and place, a step its text, and an entry of a list its address.
 */
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
    performTime: isoDuration(wholeRun(routine).seconds),
    tool: view.gear.filter(({ required }) => required).map(({ item }) => ({ "@type": "HowToTool", name: item })),
    step: view.sections.map(({ id, name, counts, seconds, improvised }, index) => ({
      "@type": "HowToStep",
      position: index + 1,
      name,
      text: [
        seconds === undefined ? wording.sections.counts(counts) : wording.sections.uncounted(seconds),
        ...(improvised ? [wording.sections.own] : []),
      ].join(", "),
      url: `#${id}`,
    })),
    mentions: songData(routine),
  };
}

function songData({ music: { title, artist, link } }: Routine): LinkedData | undefined {
  if (title === undefined) return undefined;
  return {
    "@type": "MusicRecording",
    name: title,
    byArtist: artist && { "@type": "MusicGroup", name: artist },
    url: link && safeAddress(link),
  };
}

/** A workshop is something that people go to in order to learn; where nobody knows yet when and where to, it is a page about it. */
export function workshopData(workshop: Workshop, library: Library): LinkedData {
  const about = {
    ...context,
    name: workshop.title,
    ...addressed(library, `workshops/${workshop.slug}/`),
    inLanguage: library.language,
  };
  const { date, dates, lessons, venue } = workshop;
  if (date === undefined || venue === undefined)
    return { ...about, "@type": "WebPage", publisher: publisherOf(library) };
  return {
    ...about,
    "@type": "EducationEvent",
    startDate: date,
    ...(dates && { endDate: dates.at(-1), subEvent: lessonsData(workshop, dates) }),
    ...(lessons === undefined && { duration: lasting(workshop) }),
    // The venue as it is written is all that is known of where to go.
    location: { "@type": "Place", name: venue, address: venue },
    organizer: publisherOf(library),
    workFeatured: workshop.routines.map(({ slug, title }) => ({
      "@type": "CreativeWork",
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
    mainEntity: library.url && {
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

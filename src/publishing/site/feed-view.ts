import { createHash } from "node:crypto";
import type { Library } from "../../routine/routine.js";
import type { Wording } from "../../wording/wording.js";
import { type LibraryFacts, newestFirst } from "./library-view.js";

/**
 * The feed of new routines, by Atom (RFC 4287): the newest thirty, each of the day when it was published. What has no date cannot be new
 * and is left out. Classes are no news of their own, and stand on the library page.
 */
export interface FeedView {
  readonly id: string;
  /** RFC 3339 time of the newest entry; the epoch where there is none, since a clock would make every build differ. */
  readonly updated: string;
  readonly home: string;
  readonly self: string;
  readonly entries: readonly FeedEntry[];
}

export interface FeedEntry {
  readonly id: string;
  readonly title: string;
  readonly updated: string;
  readonly address: string;
  readonly author: string;
  readonly summary: string;
  readonly styles: readonly string[];
}

/** A page for search engines, by the Sitemaps protocol 0.9. */
export interface SitemapEntry {
  readonly address: string;
  readonly date?: string;
}

/** A page of the site, by its path in the pack. */
export interface SitePage {
  readonly path: string;
  readonly date?: string;
}

/** Where a page of the site is: its full address where the library has one; otherwise its way from the feed, which Atom allows. */
function addressOf(library: Library, place: string): string {
  if (library.url !== undefined) return `${library.url}/${place}`;
  return place === "" || place.endsWith("/") ? `./${place}index.html` : `./${place}`;
}

/** Entries; older ones are found in the library. */
const most = 30;

/** The feed as data. */
export function feedView(library: Library, { routines }: LibraryFacts, { feed }: Wording): FeedView {
  const dated = routines.filter(({ date }) => date !== undefined).sort(newestFirst);
  const entries = dated.slice(0, most).map(({ slug, title, date = "", choreographer, summary, counts, styles }) => {
    const folder = `routines/${slug}/`;
    const address = addressOf(library, folder);
    return {
      id: library.url === undefined ? madeId(`${library.name}/${folder}`) : address,
      title,
      updated: midnight(date),
      address,
      author: choreographer,
      summary: summary ?? feed.routine(counts),
      styles,
    };
  });
  return {
    id: library.url === undefined ? madeId(library.name) : `${library.url}/`,
    updated: entries[0]?.updated ?? "1970-01-01T00:00:00Z",
    home: addressOf(library, ""),
    self: library.url === undefined ? "feed.xml" : `${library.url}/feed.xml`,
    entries,
  };
}

/** Every page of the site, the library first. */
export function sitemapView(library: Library, pages: readonly SitePage[]): readonly SitemapEntry[] {
  const entries = pages.map(({ path, date }) => ({
    address: addressOf(library, path.replace(/(?<=^|\/)index\.html$/, "")),
    ...(date === undefined ? {} : { date }),
  }));
  const home = addressOf(library, "");
  const others = entries.filter(({ address }) => address !== home);
  return [{ address: home }, ...others.sort((a, b) => (a.address < b.address ? -1 : 1))];
}

function midnight(date: string): string {
  return `${date}T00:00:00Z`;
}

/** A name for something without an address that stays the same from build to build: a name-based UUID (RFC 9562, version 5). */
function madeId(name: string): string {
  const bytes = createHash("sha1").update("countleaf/").update(name).digest().subarray(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  return `urn:uuid:${bytes.toString("hex").replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5")}`;
}

import type { BrokenEntry } from "../../publishing/site/library-view.js";
import { type ContentFiles, type TextFile, unreadFolder } from "../../reading/files.js";
import type { Finding } from "../../reading/finding.js";
import { routinesNamed } from "../../reading/read-workshop.js";

type ByPlace = ReadonlyMap<string, readonly Finding[]>;

/** What of a content folder can't be made yet, and why. */
export interface Broken {
  readonly entries: readonly BrokenEntry[];
  /** A class without a mistake of its own that dances a broken routine can't be made for the routine's. */
  readonly errorsAt: ByPlace;
}

/**
 * The routines and classes that have no page as they are.
 *
 * @param own errors by the place that their file is about: "routines/low-tide"
 */
export function brokenIn(files: ContentFiles, { routines, workshops }: Whole, own: ByPlace): Broken {
  const errorsAt = new Map(own);
  const whole = new Set([...placesOf("routines", routines), ...placesOf("workshops", workshops)]);
  const entry = (kind: BrokenEntry["kind"], file: TextFile): BrokenEntry[] => {
    const place = `${kind}/${file.slug}`;
    if (file.slug === unreadFolder || whole.has(place)) return [];
    const danced = kind === "workshops" && file.text !== undefined ? routinesNamed(file.text) : [];
    const broken = files.routines.filter(({ slug }) => danced.includes(slug) && own.has(`routines/${slug}`));
    const mistakes = own.get(place) ?? [];
    const causes = broken.flatMap(({ slug }) => own.get(`routines/${slug}`) ?? []);
    const told = [...causes, ...mistakes];
    // Where nobody can say what it waits for, it is one of all.
    const reasons = told.length > 0 ? told : [...own.values()].flat();
    errorsAt.set(place, reasons);
    const waitsFor = broken.map((routine) => firstLook(routine).title);
    return [{ kind, slug: file.slug, ...firstLook(file), mistakes: reasons.length - causes.length, waitsFor }];
  };
  const entries = [
    ...files.routines.flatMap((file) => entry("routines", file)),
    ...files.workshops.flatMap((file) => entry("workshops", file)),
  ];
  return { entries, errorsAt };
}

type Named = readonly { readonly slug: string }[];

interface Whole {
  readonly routines: Named;
  readonly workshops: Named;
}

function placesOf(kind: BrokenEntry["kind"], all: Named): readonly string[] {
  return all.map(({ slug }) => `${kind}/${slug}`);
}

/** What a file that can't be read seems to be called, and its day: as much as puts it where its author looks for it. */
function firstLook({ slug, text = "" }: TextFile): {
  readonly title: string;
  readonly date?: string;
} {
  const [, quoted, other, plain] =
    /^title:[ \t]*(?:"([^"\n]+)"|'([^'\n]+)'|["']?(.*?)["']?)(?:[ \t]+#.*)?[ \t]*$/m.exec(text) ?? [];
  const title = quoted ?? other ?? plain;
  const [, date] = /^date:[ \t]*(\d{4}-\d{2}-\d{2})\b/m.exec(text) ?? [];
  return { title: title || slug, ...(date === undefined ? {} : { date }) };
}

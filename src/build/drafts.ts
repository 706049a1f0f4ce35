import type { Routine } from "../routine/routine.js";

interface Draft {
  readonly draft?: boolean;
}

/** What of a content folder is published: no draft, and no workshop that dances one. */
export function withoutDrafts<
  R extends Draft,
  W extends { readonly routines: readonly Draft[] },
  C extends { readonly routines: readonly R[]; readonly workshops: readonly W[] },
>(content: C): C {
  const isReady = ({ draft }: Draft) => draft !== true;
  return {
    ...content,
    routines: content.routines.filter(isReady),
    workshops: content.workshops.filter(({ routines }) => routines.every(isReady)),
  };
}

/** A routine as it is published: what its author is not sure of yet is nobody else's business. */
export function withoutDoubts(routine: Routine): Routine {
  return { ...routine, doubts: [] };
}

/** What is not ready in a content folder. */
export interface Unready {
  /** Routines that are drafts. */
  readonly drafts: readonly string[];
  /** Workshops that dance one of them. */
  readonly workshops: readonly string[];
  /** Places of what is published that its author is not sure of. */
  readonly doubts: number;
}

interface Slugs {
  readonly routines: readonly { readonly slug: string }[];
  readonly workshops: readonly { readonly slug: string }[];
}

type Reads = Readonly<Record<string, { readonly read: { readonly findings: readonly { readonly rule: string }[] } }>>;

/** @param published what `withoutDrafts` left of it */
export function unreadyOf({ content, reads }: { content: Slugs; reads: Reads }, published: Slugs): Unready {
  const slugs = new Set(published.routines.map(({ slug }) => slug));
  const workshops = new Set(published.workshops.map(({ slug }) => slug));
  const found = [...slugs].flatMap((slug) => reads[slug]?.read.findings ?? []);
  return {
    drafts: content.routines.map(({ slug }) => slug).filter((slug) => !slugs.has(slug)),
    workshops: content.workshops.map(({ slug }) => slug).filter((slug) => !workshops.has(slug)),
    doubts: found.filter(({ rule }) => rule === "doubt").length,
  };
}

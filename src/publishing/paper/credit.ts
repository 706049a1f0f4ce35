import type { Library, Routine } from "../../routine/routine.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import type { Dance } from "./dance.js";
import { linkTo } from "./link.js";
import { theirs } from "./theirs.js";

/** Where the routine's own page stands, if the library has a site. */
export function routineAddress(routine: Routine, library: Library): string | undefined {
  return library.url === undefined ? undefined : `${library.url}/routines/${routine.slug}/`;
}

/**
 * Where the page shows what a sheet has: its version, its side and its group. The version is named even where it is the taught one, since another
 * may be taught by the day on which an old sheet is scanned.
 */
export function viewAddress({ routine, version, group }: Dance, library: Library): string | undefined {
  const page = routineAddress(routine, library);
  if (page === undefined) return undefined;
  const view = new URLSearchParams({
    ...(routine.versions.length > 1 ? { version: version.id } : {}),
    ...(group === undefined ? {} : { group }),
    ...(routine.mirrored ? { side: "mirrored" } : {}),
  });
  return view.size === 0 ? page : `${page}?${view}`;
}

/** The credit that a dancer who posts the routine should give. */
export function creditSpans(routine: Routine, library: Library, wording: Wording): readonly Span[] {
  const credit = routine.credit ?? library.credit;
  const address = routineAddress(routine, library);
  return [
    ...(credit === undefined ? [] : [theirs(`${credit} `, wording)]),
    ...(address === undefined ? [] : [{ text: address.replace(/^https?:\/\//, ""), ...linkTo(address) }]),
  ];
}

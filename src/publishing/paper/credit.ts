import type { Library, Routine } from "../../routine/routine.js";
import type { Span } from "../../typesetting/text.js";
import type { Wording } from "../../wording/wording.js";
import { linkTo } from "./link.js";
import { theirs } from "./theirs.js";

/** Where the routine's own page stands, if the library has a site. */
export function routineAddress(routine: Routine, library: Library): string | undefined {
  return library.url === undefined ? undefined : `${library.url}/routines/${routine.slug}/`;
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

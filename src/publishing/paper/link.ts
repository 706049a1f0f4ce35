import { isSafeLink } from "../../routine/link.js";
import type { Span } from "../../typesetting/text.js";

/**
 * The way that a link leads, for paper: a whole address with a harmless scheme; otherwise the text stands alone.
 *
 * @param base what a relative link is relative to; absent: such a link is text alone
 */
export function linkTo(href: string, base?: string): Pick<Span, "href"> {
  return isSafeLink(href) && URL.canParse(href, base) ? { href: new URL(href, base).href } : {};
}

/** What follows on a link, since paper can't be clicked: where it leads, unless its text says so. */
export function addressAfter(said: string, { href }: Pick<Span, "href">): readonly Span[] {
  if (href === undefined || plain(href) === plain(said)) return [];
  return [{ text: ` (${href})`, href }];
}

function plain(address: string): string {
  return address.replace(/^mailto:/, "").replace(/\/$/, "");
}

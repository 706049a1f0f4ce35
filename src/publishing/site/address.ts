import { isSafeLink } from "../../routine/link.js";

/** The address if it may stand in a link: http, https, mailto, or a page or file given relative to this one. */
export function safeAddress(address: string): string | undefined {
  const trimmed = address.trim();
  return isSafeLink(trimmed) ? trimmed : undefined;
}

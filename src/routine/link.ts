const control = /[\s\p{Cc}]/u;

/** True of an address on the web, of a mail address, and of a page or file given relative to this site. */
export function isSafeLink(href: string): boolean {
  if (href === "" || control.test(href) || href.includes("\\")) return false;
  const scheme = /^([^/?#]*?):/.exec(href)?.[1];
  if (scheme === undefined) return !href.startsWith("//");
  return /^(https?|mailto)$/i.test(scheme) && (/^mailto$/i.test(scheme) || URL.canParse(href));
}

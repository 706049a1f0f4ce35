/**
 * A title as a file name: lower case, marks off letters that have them, everything else a hyphen. Empty where the title has no
 * letter or digit that can stand in an address.
 *
 * @example slugOf("Tango für zwei!") // "tango-fur-zwei"
 */
export function slugOf(title: string): string {
  return title
    .normalize("NFKD")
    .replace(/\p{M}+/gu, "")
    .toLowerCase()
    .replace(/ß/g, "ss")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 80);
}

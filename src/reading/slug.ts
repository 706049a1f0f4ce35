/** A file's name may have 255 bytes, and a letter takes up to three a UTF-16 unit. */
const longest = 80;

/**
 * A title as a file name: lower case, letters and marks of every script as they are, everything else a hyphen. Empty where the
 * title has no letter or digit that can stand in an address. The slug of a slug is the same again.
 *
 * @example slugOf("Tango für zwei!") // "tango-für-zwei"
 */
export function slugOf(title: string): string {
  const slug = title
    .normalize("NFKC")
    .toLowerCase()
    // Joiners, selectors and the like: nobody sees them, and nobody could type the name again.
    .replace(/[\p{Default_Ignorable_Code_Point}\p{Me}]+/gu, "")
    .replace(/(?<![\p{L}\p{M}\p{N}])\p{M}+/gu, "")
    .normalize("NFKC")
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, "-");
  return cut(slug.replace(/^-+/, "")).replace(/-+$/, "");
}

/** No longer than a name may be, and cut between two letters, each with its marks. */
function cut(slug: string): string {
  if (slug.length <= longest) return slug;
  let short = "";
  for (const [letter] of slug.matchAll(/\P{M}\p{M}*/gu)) {
    if (short.length + letter.length > longest) break;
    short += letter;
  }
  return short;
}

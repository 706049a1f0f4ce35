/** A name as a part of an address or a file's name: "harbour-wall"; empty where it has no letter and no number. */
export function slug(name: string): string {
  const letters = name.normalize("NFKC").toLowerCase();
  return letters.replace(/[^\p{L}\p{M}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
}

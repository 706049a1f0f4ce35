/**
 * What a list of catalogues has in a language: by the first part of a BCP 47 tag; the other one where there is none for it.
 *
 * @example inLanguage({ en }, "en-GB", en) // en
 */
export function inLanguage<Catalogue>(
  catalogues: Readonly<Record<string, Catalogue>>,
  language: string,
  otherwise: Catalogue,
): Catalogue {
  return catalogues[language.toLowerCase().split("-")[0] ?? ""] ?? otherwise;
}

import { en } from "./en.js";
import { inLanguage } from "./in-language.js";

type Catalogue = typeof en;

/** Everything that a page, a paper, a caption, a plan or the player says, in one language. */
export interface Wording extends Catalogue {
  /** BCP 47 tag of the author's own words, where it is another one. */
  readonly authors?: string;
}

/** The catalogues, by the first part of a BCP 47 language tag. A further language is a file of the same type (`Catalogue`) and a line here. */
const catalogues: Readonly<Record<string, Catalogue>> = { en };

/**
 * What is said in a language; in English where there is no catalogue for it.
 *
 * @param language a BCP 47 tag, such as `en` or `en-GB`
 * @example wordingOf("en-GB").versions.name("2") // "Level 2"
 */
export function wordingOf(language: string): Wording {
  const catalogue = inLanguage<Catalogue | undefined>(catalogues, language, undefined);
  return catalogue === undefined ? { ...en, authors: language } : { ...catalogue, language };
}

import { notices } from "./en/notices.js";
import { inLanguage } from "./in-language.js";

/** What pages say back while they are used. The browser's script takes this group alone, as the player does with its own. */
export type NoticesWording = typeof notices;

const catalogues: Readonly<Record<string, NoticesWording>> = { en: notices };

/** @param language a BCP 47 tag; English where there is no catalogue for it */
export function noticesWording(language: string): NoticesWording {
  return inLanguage(catalogues, language, notices);
}

import { song } from "./en/song.js";
import { inLanguage } from "./in-language.js";

/** What the song desk says. The browser's script takes this group alone, as the player does with its own. */
export type SongWording = typeof song;

const catalogues: Readonly<Record<string, SongWording>> = { en: song };

/** @param language a BCP 47 tag; English where there is no catalogue for it */
export function songWording(language: string): SongWording {
  return inLanguage(catalogues, language, song);
}

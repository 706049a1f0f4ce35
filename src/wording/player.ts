import { player } from "./en/player.js";
import { inLanguage } from "./in-language.js";

/** What the player says. The browser's script takes this group alone, so that it need not carry the whole catalogue. */
export type PlayerWording = typeof player;

const catalogues: Readonly<Record<string, PlayerWording>> = { en: player };

/** @param language a BCP 47 tag; English where there is no catalogue for it */
export function playerWording(language: string): PlayerWording {
  return inLanguage(catalogues, language, player);
}

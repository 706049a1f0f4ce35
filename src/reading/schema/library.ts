import * as z from "zod";
import { handoutKinds } from "../../routine/vocabulary.js";
import { teachingSchema } from "./teaching.js";
import { key, language, line, link, listOf, name, number, paragraphs, whole, word } from "./values.js";

/** What an address has behind the folder that the site lies in. */
function pastFolder(url: string): string | undefined {
  if (/[?#]/.test(url)) return "the `?` or `#` and what follows it";
  const page = /[^/:]\/([^/]+\.(?:html?|php))\/?$/i.exec(url)?.[1];
  return page && `\`${page}\``;
}

/** What `library.yaml` may say. */
export const librarySchema = z.strictObject({
  name: key(line, "the name of your studio or series", "Saltmarsh Dance Room"),
  teacher: key(line, "who teaches", "Ines Varga").optional(),
  url: key(
    link.meta({ wants: "an address that begins with https:// or http://" }).superRefine((url, context) => {
      if (!/^https?:/i.test(url)) context.addIssue({ code: "custom", params: {} });
      else if (pastFolder(url) !== undefined)
        context.addIssue({
          code: "custom",
          params: { hint: `Leave out ${pastFolder(url)}: the addresses of pages are added to its end.` },
        });
    }),
    "where the site is published",
    "https://saltmarsh.example",
  ).optional(),
  language: key(language, "the language of the site", "en").default("en"),
  paper: key(word(["A4", "Letter"]), "the size of the handouts", "A4").default("A4"),
  handouts: key(listOf(word(handoutKinds)), "which handouts to print", "[versions, mirrored, large, card]").default([
    "versions",
    "mirrored",
    "large",
  ]),
  credit: key(paragraphs, "how a dancer who posts a routine should credit it", "Choreography by Ines Varga").optional(),
  "practice-speeds": key(listOf(whole(10, 200)), "per cent of the tempo", "[60, 75, 90, 100]").default([
    60, 75, 90, 100,
  ]),
  "words-limit": key(whole(1, 100), "the longest landing words, in words", "8").default(8),
  "step-length": key(
    number(0, 3).transform((metres) => metres.valueOf()),
    "metres a travelled step, for the floor plan",
    "0.6",
  ).default(0.6),
  "outline-limit": key(whole(200, 100_000), "characters in a video description", "5000").default(5000),
  "mirror-words": key(
    z.array(z.tuple([name, name]).meta({ wants: "two words that change places", example: "[links, rechts]" })),
    "pairs of words that change places in the mirror, for another language",
    "[[links, rechts]]",
  ).default([]),
  cautions: key(paragraphs, "house rules, printed with the built-in ones", "No shoes on the sprung floor.").optional(),
  teaching: key(teachingSchema, "settings of the class planner", "{ groups: 3 }").prefault({}),
});

export type LibraryKeys = z.output<typeof librarySchema>;

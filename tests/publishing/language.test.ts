import { expect, it } from "vitest";
import { drawHandout, handoutPrint } from "../../src/publishing/handout/handout.js";
import { packPrint } from "../../src/publishing/pack/pack.js";
import { publishSite } from "../../src/publishing/site/publish-site.js";
import type { Library } from "../../src/routine/routine.js";
import type { Print, StructureElement } from "../../src/typesetting/print.js";
import { wordingOf } from "../../src/wording/wording.js";
import { contextOf } from "../fixtures/context.js";
import { openPdf } from "../fixtures/read-pdf.js";
import { danced, library, move, phrase, section } from "../fixtures/written.js";

/* A library in German, for which there is no catalogue: the author's words are German, all that we say is English. */

const german: Library = { ...library, language: "de", cautions: "Straßenschuhe bleiben draußen." };
const routine = danced({
  title: "Heimweg",
  credit: "Von Ines.",
  date: "2026-10-02",
  sections: [
    section("Strophe", [phrase([move("1-4", "Schritt und Drehung", { words: "am Hafen" }), move("5-8", "hold")])]),
  ],
  prose: { introduction: "Bitte langsam.", notes: [], after: "" },
});
const said = {
  de: ["Heimweg", "Strophe", "Schritt und Drehung", "am Hafen", "Bitte langsam.", "Straßenschuhe", "Von Ines."],
  en: ["Choreography", "Facing front", "Practice speeds", "Take care", "hold"],
};

/** What is read out in each language. */
function spokenIn({ language, elements }: Print): Readonly<Record<string, string>> {
  const spoken: Record<string, string> = {};
  const walk = ({ content, lang }: StructureElement, around: string) => {
    const own = lang ?? around;
    for (const inner of content)
      if ("tag" in inner) walk(inner, own);
      else if ("line" in inner)
        spoken[own] = `${spoken[own] ?? ""}${inner.line
          .pieces()
          .map(({ text }) => text)
          .join("")} `;
  };
  for (const element of elements) walk(element, language);
  return spoken;
}

it("paper says what is English in English, and the author's words in the library's language", () => {
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has at least one version.");
  for (const variant of ["sheet", "large"] as const) {
    const print = handoutPrint(routine, version, german, variant);
    expect(print.language).toBe("en");
    const spoken = spokenIn(print);
    for (const text of said.de) {
      expect(spoken.de, `${variant}: ${text}`).toContain(text);
      expect(spoken.en, `${variant}: ${text}`).not.toContain(text);
    }
    for (const text of said.en.filter((one) => variant === "sheet" || one !== "Facing front"))
      expect(spoken.en, `${variant}: ${text}`).toContain(text);
    expect(Object.keys(spoken).sort()).toEqual(["de", "en"]);
  }
});

it("says dates in the language of the rest", () => {
  const workshop = { slug: "a", title: "Winter", minutes: 90, level: "1", date: "2027-01-16", routines: [routine] };
  const plan = { ...workshop, prose: "", warmUp: 5, coolDown: 5, breaks: 3 } as Parameters<typeof packPrint>[0];
  const spoken = spokenIn(packPrint(plan, german)).en;
  for (const ours of ["Saturday 16 January 2027", "Warm-up"]) expect(spoken).toContain(ours);
});

it("the file says so in its structure, as pdf.js reads it", async () => {
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has at least one version.");
  await openPdf(await drawHandout(routine, version, german, "sheet"), async (document) => {
    expect(((await document.getMetadata()).info as { Language?: string }).Language).toBe("en");
    const tree = JSON.stringify(await (await document.getPage(1)).getStructTree());
    expect(tree).toContain('"lang":"de"');
  });
});

it("a page is in the language of what we say, and marks the author's words", async () => {
  const wording = wordingOf("de");
  expect([wording.language, wording.authors]).toEqual(["en", "de"]);
  const work = { subject: routine, context: contextOf(german) };
  const files = await publishSite({ library: german, routines: [work], workshops: [] });
  const page = files.find(({ path }) => path === "routines/low-tide/index.html")?.content;
  expect(page).toMatch(/<html lang="en">/);
  for (const text of ["Heimweg", "Strophe", "Schritt und Drehung", "am Hafen", "<p>Bitte langsam.", "<p>Straßenschuhe"])
    expect(page).toMatch(new RegExp(`lang="de"[^>]*>(<span[^>]*>)?${text}`));
});

it("where there is a catalogue nothing is marked, and the tag is the library's own", () => {
  const wording = wordingOf("en-AU");
  expect([wording.language, wording.authors]).toEqual(["en-AU", undefined]);
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has at least one version.");
  expect(Object.keys(spokenIn(handoutPrint(routine, version, { ...german, language: "en-AU" }, "sheet")))).toEqual([
    "en-AU",
  ]);
});

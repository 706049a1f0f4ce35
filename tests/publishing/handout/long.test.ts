import { describe, expect, it } from "vitest";
import { drawHandout, handoutPrint } from "../../../src/publishing/handout/handout.js";
import { drawPack } from "../../../src/publishing/pack/pack.js";
import { margin } from "../../../src/publishing/paper/page.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Library, Routine } from "../../../src/routine/routine.js";
import { type ReadPage, readPages, spaced } from "../../fixtures/read-pdf.js";
import { muPdfText } from "../../fixtures/read-structure.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

/* Long texts: nothing of them vanishes without a "…", and what a reader must not miss is there whole. */

const title = "The Long Way Home Past Every Lantern On The Old Harbour Wall And Back Again In The Rain, Part Two";
const credit = `${"Choreography by Ines Varga of the Saltmarsh Dance Room, with thanks to everybody who danced it. ".repeat(5)}End.`;
const compound = "Donaudampfschifffahrtsgesellschaftskapitänskajütenschlüsselbundanhänger".repeat(3);
const name = "seated on a low and steady chair without arms, by the wall, or on the edge of the low stage beside it";
const address = "saltmarsh.example/routines/low-tide/";

const back = `The ${"very tall people of the last row ".repeat(6)}`;

const routine: Routine = danced({
  title,
  credit,
  levels: ["1", "2"],
  adaptations: [{ place: "adaptation", name, from: "1" }],
  groups: [
    { place: "group", name: "Ebb" },
    { place: "group", name: back },
  ].map((group) => ({ ...group, mirrored: false })),
  sections: [
    section("Verse", [phrase([move("1-2", compound), move("3-8", "Walk")]), phrase([move("1-8", `Stay ${compound}`)])]),
    section("Bridge", [phrase([move("1-8", "Turn")])], {
      parts: [{ place: "part", group: back, counts: [phrase([move("1-8", "Clap")])] }],
    }),
    ...Array.from({ length: 12 }, (_, index) =>
      section(`Part ${index}`, [phrase(Array.from({ length: 8 }, (__, at) => move(`${at + 1}`, "Step and turn")))]),
    ),
  ],
});

/** 6 mm, which the margins of common printers stay within (common practice, no source), in points. */
const edge = (6 / 25.4) * 72;

function outside({ width, height, boxes }: ReadPage): readonly string[] {
  return boxes
    .filter(({ left, right, top, bottom }) => {
      return left < margin.side - 1 || right > width - margin.side + 1 || top < edge || bottom > height - edge;
    })
    .map(({ text }) => text);
}

const textOf = ({ boxes }: ReadPage): string => spaced(boxes.map(({ text }) => text).join(" "));

function draw(dance: Routine, id: string, set: Library = library): Promise<Uint8Array> {
  const version = dance.versions.find((one) => one.id === id);
  if (version === undefined) throw new Error(`There is no version ${id}.`);
  return drawHandout(dance, version, set, "sheet");
}

describe("long texts on paper", () => {
  it("end in … at the head and the foot of a page, and never lose the address, the level or the side", async () => {
    for (const [id, said] of [
      ["2", "Level 2 of 2, mirrored"],
      [name, ", mirrored"],
    ] as const) {
      const pages = await readPages(await draw(mirror(routine), id));
      expect(pages.length).toBeGreaterThan(1);
      for (const [index, page] of pages.entries()) {
        expect(outside(page), `page ${index + 1}`).toEqual([]);
        const text = textOf(page);
        expect(text).toContain(address);
        expect(text).toMatch(/Choreography by Ines Varga.*…/);
        if (index > 0) expect(text).toMatch(/The Long Way Home.*…/);
        expect(text).toContain(said);
      }
    }
  });

  it("are whole at the top of the sheet, and in the contents of a pack end in …", async () => {
    const [first] = await readPages(await draw(routine, name));
    const text = first === undefined ? "" : textOf(first);
    for (const whole of [title, `S${name.slice(1)}`]) expect(text).toContain(whole);
    const workshop = { slug: "a", title, minutes: 90, level: "1", routines: [routine], prose: "", breaks: [] };
    const pack = await readPages(await drawPack(workshop as unknown as Parameters<typeof drawPack>[0], library));
    for (const page of pack) expect(outside(page)).toEqual([]);
    expect(textOf(pack[0] ?? { width: 0, height: 0, boxes: [] })).toMatch(/The Long Way Home[^…]*…/);
  });

  it("break inside a word that is too long for its cell, and are heard as that one word", async () => {
    const heard = (await muPdfText(await draw(routine, "1"))).join("");
    expect(heard.split(compound).length - 1).toBe(2);
    expect(heard).toContain(`Stay ${compound} `);
  });

  it("say the credit and the address once to who listens, however many pages there are", async () => {
    const short = { ...routine, credit: "Please name Ines Varga" };
    const pages = await muPdfText(await draw(short, "1"));
    expect(pages.length).toBeGreaterThan(1);
    for (const once of ["Please name Ines Varga", address]) expect(pages.join("").split(once).length, once).toBe(2);
    const [version] = short.versions;
    if (version === undefined) throw new Error("A routine has at least one version.");
    // The code and the address itself are links, whose annotations say where they lead.
    const alternatives = JSON.stringify(handoutPrint(short, version, library, "sheet").elements).match(
      /"alt":"[^"]*"/g,
    );
    expect(alternatives?.filter((alt) => alt.includes(address)).length).toBe(2);
  });
});

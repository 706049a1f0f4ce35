import Fraction from "fraction.js";
import decode from "jsqr";
import { PDFParse } from "pdf-parse";
import { beforeAll, describe, expect, it } from "vitest";
import { countsMarks } from "../../../src/publishing/counts-mark.js";
import { drawHandout, handoutPrint } from "../../../src/publishing/handout/handout.js";
import { handout } from "../../../src/publishing/handout/publisher.js";
import { viewAddress } from "../../../src/publishing/paper/credit.js";
import type { OutFile } from "../../../src/publishing/publisher.js";
import { type Content, readContent } from "../../../src/reading/read-content.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Library, Routine } from "../../../src/routine/routine.js";
import { movesIn, sheetSections } from "../../../src/routine/sheet.js";
import { missingGlyphs } from "../../../src/typesetting/faces.js";
import { contextOf } from "../../fixtures/context.js";
import { firstOutOfOrder, readPages, readText, spaced } from "../../fixtures/read-pdf.js";
import { muPdfText, pdfJsText } from "../../fixtures/read-structure.js";
import { called, danced, library, move, phrase, section } from "../../fixtures/written.js";
import { readPng } from "./read-png.js";

/** jsqr exports itself in two ways, of which its types tell one. */
const decodeCode = decode as unknown as (typeof decode)["default"];

const everything: Library["handouts"] = ["versions", "mirrored", "large", "card"];
let demo: Content;
const printed = new Map<string, readonly OutFile[]>();

beforeAll(async () => {
  demo = await readContent("content");
  for (const routine of demo.routines)
    printed.set(routine.slug, await handout.publish(routine, contextOf({ ...demo.library, handouts: everything })));
});

function cues(routine: Routine, id: string): readonly string[] {
  const version = routine.versions.find((one) => one.id === id);
  if (version === undefined) throw new Error(`There is no version ${id}.`);
  return sheetSections(routine).flatMap(({ section: index }) => movesIn(version, index).map(({ cue }) => cue.text));
}

const bytesOf = (file: OutFile | undefined): Uint8Array => {
  if (file === undefined || typeof file.content === "string") throw new Error("That is no handout.");
  return file.content;
};

/** The order in which pages offer them. */
const taughtFirst = ({ taught, versions }: Routine) => [
  taught,
  ...versions.map(({ id }) => id).filter((id) => id !== taught),
];

describe("the demo library's handouts", () => {
  it("are one a version, one a group of each, one a version in large print, and the taught one mirrored and as a card", () => {
    for (const routine of demo.routines)
      expect((printed.get(routine.slug) ?? []).map(({ path }) => path)).toEqual([
        ...taughtFirst(routine).map((id) => `routines/${routine.slug}/handout-${id}.pdf`),
        ...taughtFirst(routine).flatMap((id) =>
          routine.groups.map((group) => `routines/${routine.slug}/handout-${id}-${group.toLowerCase()}.pdf`),
        ),
        `routines/${routine.slug}/handout-${routine.taught}-mirrored.pdf`,
        ...taughtFirst(routine).map((id) => `routines/${routine.slug}/handout-${id}-large.pdf`),
        `routines/${routine.slug}/handout-${routine.taught}-card.pdf`,
      ]);
  });

  it("hold every cue of their version, in order, as pdf-parse reads it", async () => {
    for (const routine of demo.routines) {
      const files = printed.get(routine.slug) ?? [];
      const marks = countsMarks(routine);
      for (const { id } of routine.versions) {
        const file = files.find(({ path }) => path.endsWith(`handout-${id}.pdf`));
        const text = spaced(await readText(bytesOf(file)));
        expect(firstOutOfOrder(text, cues(routine, id)), `${routine.slug} ${id}`).toBeUndefined();
        const feet = text.match(/(?:mark \w{4} · )?page \d of \d/g) ?? [];
        expect(feet, `the mark of ${id} on every page`).toEqual(
          feet.map((_, page) => `mark ${marks.get(id)} · page ${page + 1} of ${feet.length}`),
        );
      }
      const [mirrored, large] = ["mirrored", "large"].map((kind) =>
        files.find(({ path }) => path.endsWith(`-${kind}.pdf`)),
      );
      expect(
        firstOutOfOrder(spaced(await readText(bytesOf(mirrored))), cues(mirror(routine), routine.taught)),
      ).toBeUndefined();
      expect(firstOutOfOrder(spaced(await readText(bytesOf(large))), cues(routine, routine.taught))).toBeUndefined();
      for (const file of files.filter(({ path }) => path.includes(`handout-${routine.taught}`)))
        expect(await readText(bytesOf(file)), file.path).toContain(`mark ${marks.get(routine.taught)}`);
    }
  });

  it("are under 60 KB, fonts and all", () => {
    for (const { path, content } of [...printed.values()].flat()) expect(content.length, path).toBeLessThan(60_000);
  });

  // That two builds of a library are the same to the byte is held where libraries are built.
  it("are the same bytes again", async () => {
    const [routine] = demo.routines;
    if (routine === undefined) throw new Error("The demo library has no routine.");
    const again = await handout.publish(routine, contextOf({ ...demo.library, handouts: everything }));
    const files = printed.get(routine.slug) ?? [];
    const differ = again.filter((file, index) => Buffer.compare(bytesOf(file), bytesOf(files[index])) !== 0);
    expect([again.length, differ.map(({ path }) => path)]).toEqual([files.length, []]);
  });

  it.each([
    ["breakwater-letters/handout-2", "?version=2"],
    ["breakwater-letters/handout-seated", "?version=seated"],
    ["breakwater-letters/handout-2-mirrored", "?version=2&side=mirrored"],
    ["breakwater-letters/handout-2-large", "?version=2"],
  ])("%s carries a code that an independent reader follows to what it shows", async (name, view) => {
    const [slug = ""] = name.split("/");
    const file = printed.get(slug)?.find(({ path }) => path === `routines/${name}.pdf`);
    const parser = new PDFParse({ data: new Uint8Array(bytesOf(file)), verbosity: 0 });
    const { pages } = await parser.getScreenshot({ scale: 1.5, partial: [1], imageDataUrl: false });
    await parser.destroy();
    const { data, width, height } = readPng(pages[0]?.data ?? new Uint8Array());
    // The head of the page, where one holds a phone: among a page of signs this reader may take others for the code's corners.
    const head = Math.round(height / 4);
    expect(decodeCode(data.slice(0, width * head * 4), width, head)?.data).toBe(
      `https://saltmarsh.example/routines/${slug}/${view}`,
    );
  });
});

const eight = (text: string) => phrase(Array.from({ length: 8 }, (_, index) => move(`${index + 1}`, text)));
const sixtyFour = [1, 2, 3, 4].map((number) => section(`Part ${number}`, [eight("Step and turn"), eight("Walk back")]));

it("the code of a routine of one version names none", () => {
  const routine = danced({ slug: "tide", sections: sixtyFour });
  const site = { ...library, url: "https://saltmarsh.example" };
  const addresses = [routine, mirror(routine)].flatMap((one) =>
    one.versions.map((version) => viewAddress({ routine: one, version }, site)),
  );
  const page = "https://saltmarsh.example/routines/tide/";
  expect(addresses).toEqual([page, `${page}?side=mirrored`]);
});

describe("a sheet", () => {
  const versionOf = (routine: Routine) => {
    const [version] = routine.versions;
    if (version === undefined) throw new Error("A routine has at least one version.");
    return version;
  };
  const draw = (routine: Routine, set: Library = library) => drawHandout(routine, versionOf(routine), set, "sheet");

  it.each(["A4", "Letter"] as const)("of 64 plain counts is one page of %s", async (paper) => {
    const pages = await readPages(await draw(danced({ sections: sixtyFour }), { ...library, paper }));
    expect(pages.map(({ width, height }) => [width, height])).toEqual([paper === "A4" ? [595.28, 841.89] : [612, 792]]);
  });

  it("sets Polish, Turkish, Vietnamese, Greek and Cyrillic with glyphs of their own", async () => {
    const lines = [
      "Zażółć gęślą jaźń",
      "Şimdi sağ ayağını öne çıkar, İğne",
      "Bước chân phải lên phía trước, nghiêng đầu",
      "Βήμα δεξιά, γύρισε αργά",
      "Шаг вправо, руки вверх; їжак і ґанок",
    ];
    for (const text of lines) expect(missingGlyphs(text)).toEqual([]);
    const file = await draw(
      danced({
        sections: [
          section(
            "Alphabets",
            lines.map((text) => phrase([move("1-8", text)])),
          ),
        ],
      }),
    );
    expect(firstOutOfOrder(spaced(await readText(file)), lines)).toBeUndefined();
  });

  it("keeps the meaning of a character that no bundled face has, to the eye and to who listens or copies", async () => {
    expect(missingGlyphs("Drag → left 💃, again 💃\u200d")).toEqual(["💃"]);
    const text = "Drag → left ⑩, Ｈalf ↻, 💃🕺 and ❤";
    const file = await draw(danced({ sections: [section("A", [phrase([move("1-8", text)])])] }));
    // MuPDF puts what a sign stands for in its place (ISO 32000-1, 14.9.4); pdf.js says what is shown: under an arrow lies a space.
    expect((await muPdfText(file)).join("")).toContain(text);
    expect((await pdfJsText(file)).join("")).toContain("Drag   left 10, Half  , [?] and [?] ");
  });

  it("shows raw HTML of the prose as text, and keeps a harmful link out", async () => {
    const introduction =
      "<b>bold</b> and <script>alert(1)</script> and [here](javascript:alert(2)) and [there](../x/).";
    const routine = danced({ sections: sixtyFour, prose: { introduction, notes: [], after: "" } });
    const file = await draw(routine);
    expect(spaced(await readText(file))).toContain(
      "<b>bold</b> and <script>alert(1)</script> and here and there (https://saltmarsh.example/routines/x/).",
    );
    const targets = JSON.stringify(handoutPrint(routine, versionOf(routine), library, "sheet").elements);
    expect(targets).not.toContain("javascript:");
    expect(targets).toContain('"href":"https://saltmarsh.example/routines/x/"');
  });

  it("keeps a title with signs of XML whole, in the text and in the metadata", async () => {
    const routine = danced({ title: "Salt & <Pepper>", sections: sixtyFour });
    const parser = new PDFParse({ data: new Uint8Array(await draw(routine)), verbosity: 0 });
    const { info, metadata } = await parser.getInfo();
    await parser.destroy();
    expect(info.Title).toBe("Salt & <Pepper>: Level 1");
    expect(metadata?.get("dc:title")).toBe("Salt & <Pepper>: Level 1");
  });

  it("says where a move goes on, what is called, and when a section comes again", async () => {
    const routine = danced({
      sections: [
        section("Melt down", [
          phrase([move("1-6", "Reach"), move("7-2", "Melt")], { say: ["8", "7", "6", "5", "4", "3", "2", "1"] }),
          phrase([move("3-8", "Rise")]),
        ]),
        section("Between", [eight("Walk")]),
        section("Melt down again", undefined, { sameAs: "Melt down", mirrored: "always" }),
      ],
    });
    const text = spaced(await readText(await draw(routine)));
    expect(text).toContain("…–2 goes on");
    expect(text).toContain("“8”");
    expect(text).toContain("on the other side");
  });

  it("names walls, tags, restarts and waits", async () => {
    const routine = danced({
      walls: 4,
      times: 4,
      restarts: [{ place: "restart", wall: 3, after: 8 }],
      music: { tempo: new Fraction(120), firstCount: new Fraction(0) },
      sections: [
        section("Verse", [phrase([move("1-8", "Quarter turn", { turn: 2 })])]),
        section("Chorus", [eight("Clap")], { at: [{ place: "at", time: 4, seconds: new Fraction(40) }] }),
        section("Tag", [phrase([move("1-4", "Stamp")], { length: 4 })], { onWalls: [2] }),
      ],
    });
    const text = spaced(await readText(await draw(routine)));
    for (const words of [
      "every wall",
      "wall 2 only",
      "walls 1, 2, 4",
      "from the top",
      "then wait",
      "16 counts, 4 walls, 4 times through.",
    ])
      expect(text, words).toContain(words);
  });
});

it("prints a move's own calls in its cell, and its phrase's over the counts of the others alone", async () => {
  const say = ["4", "3", "2", "1"];
  const moves = [move("1-2", "Walk", { say: called("step", "close") }), move("3-4", "Freeze")];
  const routine = danced({ sections: [section("Tag", [phrase(moves, { say, length: 4 })])] });
  const [version] = routine.versions;
  if (version === undefined) throw new Error("There is no version.");
  const text = await readText(await drawHandout(routine, version, library, "sheet"));
  for (const call of ["step · close", "“2”", "“1”"]) expect(text).toContain(call);
  for (const call of ["“4”", "“3”"]) expect(text).not.toContain(call);
});

import { expect, test } from "vitest";
import { descriptionText } from "../../../src/publishing/description/description.js";
import { description } from "../../../src/publishing/description/publisher.js";
import type { OutFile } from "../../../src/publishing/publisher.js";
import { routineJson } from "../../../src/publishing/routine-json.js";
import { routineView } from "../../../src/publishing/site/routine-view.js";
import { readRoutine } from "../../../src/reading/read-routine.js";
import type { Routine } from "../../../src/routine/routine.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { contextOf } from "../../fixtures/context.js";
import { library } from "../../fixtures/written.js";
import { told } from "../../reading/sample.js";

const [plain, other] = ["https://e.example/slowly", "https://e.example/slowly-mirrored"];
const head = (by: string) =>
  `video:\n  breakdown: ${plain}\n  breakdown-mirrored: ${other}\n${by}  length: 9:00\n  chapters: [0:00 Welcome, 1:00 Verse, 8:00 Goodbye]\n`;
const file = (video: string) =>
  `---\ntitle: Sill\nchoreographer: B\nmusic: { tempo: 60 }\n${video}sections:\n  - { name: Verse, counts: [{ 1-8: Step left }] }\n---\n`;

function read(video: string): Routine {
  const { routine, findings } = readRoutine(file(video), "sill", library);
  if (routine === undefined) throw new Error(findings.map(({ message }) => message).join("\n"));
  return routine;
}

const [flipped, danced] = [read(head("")), read(head("  mirrored-by: danced\n"))];
const pack = { pictures: new Map(), downloads: [] };
const viewOf = (routine: Routine) => routineView(routine, library, pack, wordingOf("en"));

test("a mirrored film is the same one flipped, unless its author says that it was danced", () => {
  const by = (routine: Routine) => routineJson(routine, library, []).video.mirroredBy;
  expect([by(flipped), by(danced), by(read(""))]).toEqual(["flipped", "danced", undefined]);
});

test.each([
  ["mirrored-by: filmed", "`mirrored-by` must be flipped or danced"],
  ["mirrored-by: danced", "`mirrored-by` says how the film at `breakdown-mirrored` was made, and there is none"],
  [`breakdown: ${plain}\n  breakdown-mirrored: ${plain}`, "This is the link of `breakdown` again"],
])("%s is an error", (line, message) => {
  expect(told(file(`video:\n  ${line}\n`)).join("\n")).toContain(message);
});

test("both views of the page link both films, each with the counts that go with it", () => {
  for (const [routine, goesWith] of [
    [flipped, /keeps its sides, so the counts as taught go with it, not the mirrored ones\.$/],
    [danced, /^Danced and taught on the other side: the mirrored counts go with it\.$/],
  ] as const) {
    const { videos } = viewOf(routine);
    expect(videos.map(({ link }) => /href="([^"]*)"/.exec(link.html)?.[1])).toEqual([plain, other]);
    expect(videos[0]?.goesWith).toBe("The counts as taught go with it.");
    expect(videos[1]?.goesWith).toMatch(goesWith);
    for (const { link } of videos) expect(link.html).not.toContain("class=");
  }
});

test("chapters lead into a flipped film too, and never into one that was danced anew", () => {
  const links = (routine: Routine) => {
    const { sections, chapters } = viewOf(routine);
    const all = [...(sections[0]?.videos ?? []), ...chapters.map(({ link }) => link)];
    return all.map(({ html }) => html).join(" ");
  };
  expect(links(flipped).match(/slowly-mirrored[^"]*60/g)).toHaveLength(2);
  expect(links(danced)).toContain("slowly");
  expect(links(danced)).not.toContain("slowly-mirrored");
});

test("the text under each film leads to the other one first, and under the mirrored one says what goes with it", () => {
  const files = (routine: Routine) => {
    const made = description.publish(routine, contextOf(library)) as readonly OutFile[];
    return new Map(made.map(({ path, content }) => [path, String(content)]));
  };
  const text = files(flipped).get("routines/sill/description-mirrored.txt") ?? "";
  expect(text.indexOf(`${plain}\n`)).toBeLessThan(text.indexOf(`${other}\n`));
  expect(text).toContain("THIS FILM IS FLIPPED");
  expect(text).toContain("1:00 Verse");
  const own = descriptionText(flipped, library);
  expect(own.indexOf(`${other}\n`)).toBeLessThan(own.indexOf(`${plain}\n`));
  expect(own).not.toContain("THIS FILM");
  // It has times of its own, which nobody gave.
  const anew = files(danced).get("routines/sill/description-mirrored.txt") ?? "";
  expect(anew).toContain("THIS FILM IS DANCED ON THE OTHER SIDE: the mirrored counts go with it.");
  expect(anew).not.toContain("1:00");
  expect([...files(read("")).keys()]).toEqual(["routines/sill/description.txt"]);
});

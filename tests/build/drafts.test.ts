import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { openLive } from "../../src/build/live/live.js";
import { readContent } from "../../src/reading/read-content.js";
import { countleaf, routineText, treeOf, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-drafts-"));
const [content, out] = [join(work, "content"), join(work, "pack")];
afterAll(() => rmSync(work, { recursive: true, force: true }));

const doubtful = routineText("Kerb")
  .replace("hit: true }", 'hit: true, doubt: "3 or 4?" }')
  .replace("date:", 'doubt: "Which recording?"\ndate:')
  .replace("  - name: Kerb\n", '  - name: Kerb\n    doubt: "Once or twice?"\n');
const draft = routineText("Lamp").replace("date:", "draft: yes\ndate:");
const workshop = (routines: string) => `---\ntitle: Eve\nminutes: 60\nroutines: [${routines}]\n---\n`;
const words = /3 or 4\?|Which recording\?|Once or twice\?/;

writeContent(content, {
  "routines/kerb.md": doubtful,
  "routines/lamp.md": draft,
  "workshops/eve.md": workshop("kerb, lamp"),
  "workshops/noon.md": workshop("kerb"),
});

it("what is not sure yet is listed by `check`, and a workshop that dances a draft is told so", async () => {
  const { findings, routines, workshops } = await readContent(content);
  const notes = findings.filter(({ rule }) => rule === "doubt");
  expect(notes.map(({ line, severity }) => [line, severity])).toEqual([
    [4, "note"],
    [10, "note"],
    [13, "note"],
  ]);
  expect(notes[2]?.message).toBe("You are not sure here: “3 or 4?”; once you know, take `doubt` out.");
  expect(findings.filter(({ rule }) => rule === "draft")).toEqual([
    expect.objectContaining({ file: expect.stringMatching(/eve\.md$/), line: 4, column: 18, severity: "warning" }),
  ]);
  expect([routines.length, workshops.length]).toEqual([2, 2]);
});

it("a build publishes no doubt and no draft, and its last line says how many there are", async () => {
  const build = (...more: readonly string[]) => countleaf(["build", "--content", content, "--out", out, ...more]);
  const first = await build();
  expect(first.status, first.err).toBe(0);
  expect(first.out).toMatch(/1 routine, 1 workshop, /);
  const last = / 3 doubtful places were published\. 1 draft and 1 workshop with a draft were left out\.\n$/;
  expect(first.out).toMatch(last);
  const paths = Object.keys(treeOf(out) ?? {});
  expect(paths).toContain("workshops/noon/index.html");
  expect(paths.filter((path) => /lamp|eve/.test(path))).toEqual([]);
  for (const path of paths.filter((path) => /\.(html|json|xml|txt|vtt|svg)$/.test(path)))
    expect(readFileSync(join(out, path), "utf8"), path).not.toMatch(
      path.endsWith(".json") || path.endsWith(".xml") ? /3 or 4|Which rec|Once or|[Ll]amp|"doubt|"draft/ : words,
    );
  // From what was kept of the last build it says the same.
  expect((await build()).out).toMatch(last);

  // Where all that is left is a draft, what is published stays.
  writeFileSync(join(content, "routines/kerb.md"), doubtful.replace("date:", "draft: yes\ndate:"));
  const refused = await build();
  expect(refused.status).toBe(1);
  expect(refused.err).toContain("would take away the only routine (kerb)");
  expect(refused.err).toContain("Left out as drafts: kerb, lamp; take `draft: yes` out of what is to stay.");
  expect(Object.keys(treeOf(out) ?? {})).toEqual(paths);
});

it("the served pages show doubts and drafts; nothing else that is served speaks of a doubt", async () => {
  writeFileSync(join(content, "routines/kerb.md"), doubtful);
  const live = await openLive(content);
  const textAt = async (path: string) => {
    const found = await live.at(path);
    return found.kind === "file" ? Buffer.from(found.body).toString("utf8") : found.kind;
  };
  try {
    const page = await textAt("routines/kerb/index.html");
    for (const text of ["3 or 4?", "Which recording?", "Once or twice?"])
      expect(page.split(`Not sure yet: ${text}`)).toHaveLength(2);
    expect(await textAt("routines/lamp/index.html")).toMatch(
      /A draft: it is seen here alone .* until <code>draft: yes<\/code> is taken/,
    );
    expect(await textAt("workshops/eve/index.html")).toContain("Lamp");
    const shelf = await textAt("index.html");
    expect(shelf).toMatch(/>Lamp<\/a><\/h3><p class="told">Draft</);
    expect(shelf).toMatch(/>Kerb<\/a><\/h3><p class="told">3 things to look at</);
    expect(await textAt("routines/kerb/routine.json")).not.toMatch(words);
  } finally {
    await live.close();
  }
});

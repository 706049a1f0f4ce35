import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { compareCommand } from "../src/cli/compare.js";
import { draftCommand } from "../src/cli/draft.js";
import { readLibrary } from "../src/reading/read-library.js";
import { readRoutine } from "../src/reading/read-routine.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-draft-"));
const at = (path: string) => join(work, path);
const content = at("content");
const library = "name: Test room\nteacher: Ines Varga\n";

/* Two runs of one eight, the second with another count for the clap. */
const lesson = `[0:05] okay five six seven eight
[0:08] one step two together three drag four five six seven clap eight
[0:20] and again five six seven eight
[0:23] one step two together three drag four five six seven clap eight
`;

beforeAll(() => {
  mkdirSync(join(content, "routines"), { recursive: true });
  writeFileSync(join(content, "library.yaml"), library);
  writeFileSync(at("lesson.txt"), lesson);
});
afterAll(() => rmSync(work, { recursive: true }));

const draft = (...args: string[]) => said(draftCommand, args);
const compare = (...args: string[]) => said(compareCommand, args);

/** Runs a command in this process; its status, and what it printed and complained of. */
async function said(command: typeof draftCommand, args: readonly string[]) {
  const spies = [vi.spyOn(process.stdout, "write"), vi.spyOn(process.stderr, "write")];
  for (const spy of spies) spy.mockReturnValue(true);
  try {
    const status = await command([...args, "--content", content]);
    const [out = "", err = ""] = spies.map((spy) => spy.mock.calls.map(([text]) => text).join(""));
    return { status, out, err };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

const written = () => readdirSync(join(content, "routines")).sort();

describe("draft", () => {
  it("writes a draft by the library's teacher and a report, and says what is left and what to do next", async () => {
    const report = at("reports/harbour.html");
    const { status, out, err } = await draft(at("lesson.txt"), "--title", "Harbour: Wall", "--report", report);
    expect([status, err]).toEqual([0, ""]);
    const path = join(content, "routines/harbour-wall.md");
    expect(out).toMatch(
      new RegExp(`^Made ${path}: 2 runs heard, 1 section, 1 phrase, \\d+ cues, \\d+ of them sure\\.\\n`),
    );
    expect(out).toContain("left;");
    expect(out).toContain(`open ${report} in a browser`);
    expect(out).toContain("`draft: yes`");
    const { routine, findings } = readRoutine(
      readFileSync(path, "utf8"),
      "harbour-wall",
      readLibrary(library).library ?? never(),
    );
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(routine).toMatchObject({ title: "Harbour: Wall", choreographer: "Ines Varga", draft: true, counts: 8 });
    expect(readFileSync(report, "utf8")).toMatch(/^<!doctype html>[\s\S]*Content-Security-Policy/);
  });

  it("names the choreographer that is given, and never writes over a file, be it a routine or a report", async () => {
    expect((await draft(at("lesson.txt"), "--title", "Mine", "--choreographer", "Odo Lamm")).status).toBe(0);
    const path = join(content, "routines/mine.md");
    const before = readFileSync(path, "utf8");
    expect(before).toContain("choreographer: Odo Lamm\n");
    const again = await draft(at("lesson.txt"), "--title", "Mine");
    expect([again.status, again.out]).toEqual([1, ""]);
    expect(again.err).toContain(`${path} is there already; write another title`);
    expect(readFileSync(path, "utf8")).toBe(before);
    writeFileSync(at("there.html"), "mine");
    const report = await draft(at("lesson.txt"), "--title", "Other", "--report", at("there.html"));
    expect([report.status, report.err]).toEqual([1, expect.stringContaining("there.html is there already")]);
    expect(readFileSync(at("there.html"), "utf8")).toBe("mine");
    expect(written()).not.toContain("other.md");
  });

  it("takes a text without times as notes", async () => {
    writeFileSync(at("notes.txt"), "Harbour wall\n1-2 step right\n3 4 touch and clap\n5 6 7 8 hold\n");
    expect((await draft(at("notes.txt"), "--title", "Typed")).status).toBe(0);
    const text = readFileSync(join(content, "routines/typed.md"), "utf8");
    expect(text).toContain("# Drafted from notes.\n");
    expect(text).toContain("- 1-2: step right\n");
  });

  it("2 where its words are off, with what to write", async () => {
    const before = written();
    for (const [args, says] of [
      [[], '--title "Low Tide"'],
      [["--title", "…"], "no letter or digit"],
      [["--title", "A\u0007b"], "this can't be a title or a name"],
      [["--title", "New", "--phrase", "1"], "from 2 to 64, not 1"],
      [["--title", "New", "--report", "new"], "`--report new.html`"],
    ] as const)
      expect(await draft(at("lesson.txt"), ...args)).toEqual({
        status: 2,
        out: "",
        err: expect.stringContaining(says),
      });
    writeFileSync(join(content, "library.yaml"), "name: Test room\n");
    const nobody = await draft(at("lesson.txt"), "--title", "New");
    writeFileSync(join(content, "library.yaml"), library);
    expect([nobody.status, nobody.err]).toEqual([2, expect.stringContaining('--choreographer "Your Name"')]);
    expect(written()).toEqual(before);
  });

  it("says in one placed sentence what can't be listened to, and writes nothing", async () => {
    const before = written();
    const late = (clock: string) => `WEBVTT\n\n00:01.000 --> 00:02.000\none two\n\n${clock}\nthree four\n`;
    for (const [name, bytes, says] of [
      ["empty.vtt", "", "1:1  Nothing is said"],
      ["blank.txt", " \n\t\n", "1:1  Nothing is said"],
      ["film.mp4", Buffer.from([0x61, 0x0a, 0x62, 0, 1, 2, 0xff]), "2:2  This is not a text"],
      ["picture.jpg", Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0x10]), "1:5  This is not a text"],
      ["large.vtt", Buffer.alloc(20 * 1024 * 1024 + 1, "a"), "1:1  This file is larger than 20 MB"],
      ["long.vtt", late("11:00:00.000 --> 11:00:01.000"), "6:1  This lies more than ten hours"],
      ["back.vtt", late("00:00:09.000 --> 00:00:03.000"), "6:1  This time lies before"],
      [
        "latin.txt",
        Buffer.from("[0:01] one two\n[0:03] caf\xe9 three\n", "latin1"),
        "2:11  From here on letters are saved",
      ],
      ["wide.txt", Buffer.from("\ufeff[0:01] one two", "utf16le"), "1:1  This file is saved as UTF-16"],
      ["talk.txt", "[0:01] hello there\n[0:05] and goodbye\n", "1:1  Nobody counts in this recording"],
      ["letter.txt", "Dear all,\nsee you on Monday.\n", "1:1  There are no times and no counts"],
    ] as const) {
      writeFileSync(at(name), bytes);
      const { status, out, err } = await draft(at(name), "--title", "New", "--report", at("new.html"));
      expect([status, out, err.split("\n")[0]], name).toEqual([1, "", expect.stringContaining(`${at(name)}:${says}`)]);
    }
    expect([written(), existsSync(at("new.html"))]).toEqual([before, false]);
  });
});

describe("compare", () => {
  it("says where a routine's sections are taught, what each run dances, and what was said otherwise", async () => {
    const counts = "- { 1: Step out, 2: Close together, 3-4: Drag, 6: Clap }";
    const file = `---\ntitle: Side\nchoreographer: Ines Varga\nmusic: { tempo: 92 }\nsections:\n  - name: Harbour wall\n    counts:\n      ${counts}\n---\n`;
    writeFileSync(join(content, "routines/side.md"), file);
    const { status, out, err } = await compare("side", at("lesson.txt"));
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain("1 of 1 phrase of Side recognised, in 2 runs.\n");
    expect(out).toMatch(/\n {2}chapters:\n(?: {4}- 0:00 Beginning\n)? {4}- 0:\d\d Harbour wall\n/);
    expect(out.match(/^ {2}0:\d\d-0:\d\d {2}Harbour wall 1\b/gm)).toHaveLength(2);
    expect(out).toMatch(/Harbour wall, phrase 1: the file has “Clap” on 6; “clap” was heard on 7 in 2 of 2 runs, at /);
  });

  it("ends as check does: 1 where there is no such routine or nothing is heard, 2 where its words are off", async () => {
    writeFileSync(at("hello.vtt"), "hello\n");
    const there = join(content, "routines/there.md");
    writeFileSync(
      there,
      "---\ntitle: There\nchoreographer: A\nmusic: { tempo: 92 }\nsections: [{ name: A, counts: [{ 1: Walk }] }]\n---\n",
    );
    expect(await compare("their", at("lesson.txt"))).toMatchObject({
      status: 1,
      err: expect.stringContaining("there is no routine `their`"),
    });
    expect(await compare("there", at("hello.vtt"))).toMatchObject({
      status: 1,
      err: expect.stringContaining(`${at("hello.vtt")}:1:1  There are no times`),
    });
    expect(await compare("there", at("lesson.txt"))).toMatchObject({
      status: 0,
      out: expect.stringContaining("none of the file's words"),
    });
    expect((await compare("there")).status).toBe(2);
  });
});

function never(): never {
  throw new Error("the library of this test can't be read");
}

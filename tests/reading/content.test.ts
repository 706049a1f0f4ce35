import { execFileSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { sample } from "./sample.js";

const made: string[] = [];
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A content folder with the files given; a small library is there unless it is given too. */
function folder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const base = mkdtempSync(join(tmpdir(), "countleaf-reading-"));
  made.push(base);
  const content = join(base, "content");
  for (const [name, text] of Object.entries({ "library.yaml": "name: A\n", ...files })) {
    mkdirSync(dirname(join(content, name)), { recursive: true });
    writeFileSync(join(content, name), text);
  }
  return content;
}

/** What is found, by the files' names within the folder, notes left out. */
async function found(content: string): Promise<string[]> {
  const { findings } = await readContent(content);
  return findings
    .filter(({ severity }) => severity !== "note")
    .map(({ file, line, column, rule }) => `${file.slice(content.length + 1)}:${line}:${column} ${rule}`);
}

const workshop = (keys: string) => `---\ntitle: W\nminutes: 60\n${keys}---\nProse\n`;

test("a whole folder", async () => {
  const content = folder({
    "routines/a.md": sample(),
    "workshops/w.md": workshop("routines: a\nlevel: 1\nwarm-up: 5\n"),
  });
  const { library, routines, workshops, findingsOf } = await readContent(content);
  expect(library.name).toBe("A");
  expect(routines.map(({ slug }) => slug)).toEqual(["a"]);
  expect(workshops).toMatchObject([
    { slug: "w", level: "1", warmUp: 5, coolDown: 0, routines: [{ slug: "a" }], prose: "Prose" },
  ]);
  expect(findingsOf("a").every(({ severity }) => severity === "note")).toBe(true);
});

describe("the library", () => {
  const routines = { "routines/a.md": sample() };

  test("what it leaves out has its default", async () => {
    const { library } = await readContent(folder(routines));
    expect(library).toMatchObject({
      language: "en",
      paper: "A4",
      practiceSpeeds: [60, 75, 90, 100],
      wordsLimit: 8,
      stepLength: 0.6,
      outlineLimit: 5000,
      mirrorWords: [],
      teaching: { unit: 60, chunkCounts: 16, markSpeed: 50, linkSpeed: 75, groups: 2, limits: {} },
    });
  });

  test("with an address, a routine without a date is told that it is not in the feed; a draft is not", async () => {
    const undated = async (url: string, head = "") => {
      const files = { "routines/a.md": sample({ head }), "library.yaml": `name: A\n${url}` };
      const { findings } = await readContent(folder(files));
      return findings.flatMap(({ severity, line, rule }) => (rule === "no-date" ? [`${severity} ${line}`] : []));
    };
    const url = "url: https://e.example\n";
    expect(await undated(url)).toEqual(["note 2"]);
    expect([await undated(""), await undated(url, "date: 2026-10-02\n"), await undated(url, "draft: yes\n")]).toEqual([
      [],
      [],
      [],
    ]);
  });

  test("what it says", async () => {
    const text =
      "name: B\nteacher: T\nurl: https://e.example//\nlanguage: de-at\npaper: Letter\npractice-speeds: 50\nstep-length: 0.75\n" +
      "mirror-words: [[links, rechts]]\nteaching: { groups: 3 }\n";
    const { library, findings } = await readContent(folder({ ...routines, "library.yaml": text }));
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
    expect(library).toMatchObject({
      teacher: "T",
      url: "https://e.example",
      language: "de-AT",
      paper: "Letter",
      practiceSpeeds: [50],
      stepLength: 0.75,
      mirrorWords: [["links", "rechts"]],
      teaching: { groups: 3, unit: 60 },
    });
  });

  test.each([
    ["", ["library.yaml:1:1 empty"]],
    ["# nothing yet\n", ["library.yaml:1:1 empty"]],
    ["nmae: A\n", ["library.yaml:1:1 unknown-key"]],
    ["name: A\nmirror-words: [links, rechts]\n", ["library.yaml:2:16 value", "library.yaml:2:23 value"]],
    ["name: A\nurl: ftp://e.example\npaper: A5\n", ["library.yaml:2:6 value", "library.yaml:3:8 value"]],
    ["- A\n", ["library.yaml:1:1 value"]],
  ])("%j", async (text, expected) => {
    expect(await found(folder({ ...routines, "library.yaml": text }))).toEqual(expected);
  });

  test("there is none, or it has another name, or there is no folder", async () => {
    const content = folder(routines);
    rmSync(join(content, "library.yaml"));
    expect(await found(content)).toEqual(["library.yaml:1:1 missing-file"]);
    writeFileSync(join(content, "library.yml"), "name: A\n");
    expect((await readContent(content)).findings[0]?.message).toContain("library.yml");
    rmSync(content, { recursive: true });
    const { findings } = await readContent(content);
    expect(findings[0]?.message).toContain("There is no folder");
  });
});

describe("workshops", () => {
  test("a routine that is not there, and one that has errors", async () => {
    const content = folder({
      "routines/low-tide.md": sample(),
      "routines/broken.md": sample({ head: "mood: x\n" }).replace("title: A", "title: B"),
      "workshops/w.md": workshop("routines: [lowtide, broken]\n"),
    });
    expect(await found(content)).toEqual(["routines/broken.md:6:1 unknown-key", "workshops/w.md:4:12 unknown-routine"]);
    expect((await readContent(content)).workshops).toEqual([]);
  });

  test("a level that a routine does not have", async () => {
    const content = folder({ "routines/a.md": sample(), "workshops/w.md": workshop("routines: [a]\nlevel: 3\n") });
    expect(await found(content)).toEqual(["workshops/w.md:5:8 unknown-version"]);
  });

  test("without a level it is the first routine's", async () => {
    const content = folder({
      "routines/a.md": sample({ head: "levels: [x, y]\ntaught: y\n" }),
      "workshops/w.md": workshop("routines: [a]\n"),
    });
    expect((await readContent(content)).workshops[0]?.level).toBe("y");
  });

  test("links of its prose", async () => {
    const text = workshop("routines: [a]\n").replace("Prose", "[a](javascript:b)");
    expect(await found(folder({ "routines/a.md": sample(), "workshops/w.md": text }))).toEqual([
      "workshops/w.md:6:1 link",
    ]);
  });
});

describe("files", () => {
  test("a folder without routines says how to start one", async () => {
    expect(await found(folder({}))).toEqual(["routines:1:1 no-routines"]);
  });

  test("names that make no address, and files and folders that are not read", async () => {
    const content = folder({
      "routines/Low Tide.md": sample(),
      "routines/ok.md": sample().replace("title: A", "title: Z"),
      "routines/notes.md.txt": "",
      "routines/old/a.md": sample(),
      "routines/.hidden.md": "",
      "routines/picture.png": "",
    });
    expect(await found(content)).toEqual([
      "routines/Low Tide.md:1:1 file-name",
      "routines/notes.md.txt:1:1 file-name",
      "routines/old:1:1 file-name",
    ]);
    expect((await readContent(content)).findings[0]?.message).toContain("`low-tide.md`");
  });

  test("two files with one title", async () => {
    const content = folder({ "routines/a.md": sample(), "routines/b.md": sample().replace("title: A", "title: a") });
    expect(await found(content)).toEqual(["routines/b.md:2:8 same-title"]);
  });

  test("a file that is too big is not opened, one that is just not is", async () => {
    const size = 2 * 1024 * 1024;
    const content = folder({ "routines/a.md": "x".repeat(size + 1), "routines/b.md": "x".repeat(size) });
    expect(await found(content)).toEqual(["routines/a.md:1:1 too-big", "routines/b.md:1:1 no-front-matter"]);
  });

  test("links that lead outside are not followed, links within are", async () => {
    const content = folder({ "routines/a.md": sample(), "kept/b.md": sample().replace("title: A", "title: B") });
    const outside = join(dirname(content), "secret.md");
    writeFileSync(outside, sample());
    symlinkSync(outside, join(content, "routines", "c.md"));
    symlinkSync("../kept/b.md", join(content, "routines", "b.md"));
    symlinkSync("nowhere.md", join(content, "routines", "d.md"));
    expect(await found(content)).toEqual(["routines/c.md:1:1 outside-folder", "routines/d.md:1:1 missing-file"]);
    expect((await readContent(content)).routines.map(({ slug }) => slug)).toEqual(["a", "b"]);
  });

  test("a folder of routines that is a link to elsewhere", async () => {
    const content = folder({ "workshops/w.md": workshop("routines: [a]\n") });
    const other = folder({ "routines/a.md": sample() });
    symlinkSync(join(other, "routines"), join(content, "routines"));
    expect(await found(content)).toEqual(["routines/a.md:1:1 outside-folder"]);
  });

  test.each(["routines", "workshops"])("a folder of %s that can't be looked into is no empty one", async (name) => {
    const rest = { "routines/a.md": sample(), "workshops/w.md": workshop("routines: [a]\n") };
    const content = folder(rest);
    const path = join(content, name);
    const isRoot = process.geteuid?.() === 0;
    chmodSync(dirname(content), 0o755);
    chmodSync(path, 0);
    try {
      // Nothing is closed to the system's own user: be nobody for a moment.
      if (isRoot) process.seteuid?.(65534);
      expect(await found(content)).toEqual([`${name}:1:1 unreadable`]);
      expect((await readContent(content)).findings[0]?.message).toContain("its permissions do not allow it");
    } finally {
      if (isRoot) process.seteuid?.(0);
      chmodSync(path, 0o755);
    }
    const inItsPlace: readonly [make: () => void, expected: string][] = [
      [() => writeFileSync(path, "x"), "unreadable"],
      [() => symlinkSync("nowhere", path), "unreadable"],
      [() => symlinkSync(name, path), "unreadable"],
      [() => symlinkSync("library.yaml", path), "unreadable"],
      [() => symlinkSync(mkdtempSync(join(dirname(content), "empty-")), path), "outside-folder"],
    ];
    for (const [make, expected] of inItsPlace) {
      rmSync(path, { recursive: true });
      make();
      expect(await found(content)).toEqual([`${name}:1:1 ${expected}`]);
      expect((await readContent(content)).findings[0]?.message).toMatch(/put the folder itself|make a folder here/);
    }
  });

  test("a content folder that is a file", async () => {
    const content = join(dirname(folder({})), "file");
    writeFileSync(content, "x");
    expect(await found(content)).toEqual(
      ["library.yaml", "routines", "workshops"].map((name) => `${name}:1:1 unreadable`),
    );
  });

  test("a name is one, however its letters are stored", async () => {
    const content = folder({
      [`routines/${"왈츠".normalize("NFD")}.md`]: sample(),
      "workshops/w.md": workshop("routines: [왈츠]\n"),
    });
    const { routines, workshops } = await readContent(content);
    expect([routines.map(({ slug }) => slug), workshops.length]).toEqual([["왈츠"], 1]);
    expect(await found(content)).toEqual([]);
    writeFileSync(join(content, "routines/왈츠.md"), sample().replace("title: A", "title: B"));
    expect(await found(content)).toEqual(["routines/왈츠.md:1:1 file-name"]);
    writeFileSync(join(content, "routines/b.markdown"), "");
    writeFileSync(join(content, "routines/b.md"), sample().replace("title: A", "title: C"));
    expect((await found(content)).filter((one) => one.includes("/b."))).toEqual(["routines/b.markdown:1:1 file-name"]);
  });

  test("the content folder itself may be a link", async () => {
    const content = folder({ "routines/a.md": sample() });
    const link = join(dirname(content), "elsewhere");
    symlinkSync(content, link);
    expect(await found(link)).toEqual([]);
  });

  test("what is no file is not waited for", async () => {
    const content = folder({ "routines/a.md": sample() });
    execFileSync("mkfifo", [join(content, "routines", "pipe.md")]);
    expect(await found(content)).toEqual(["routines/pipe.md:1:1 unreadable"]);
  });

  test("a file that may not be read, and links that go round in a circle", async () => {
    const content = folder({ "routines/a.md": sample() });
    symlinkSync("c.md", join(content, "routines", "b.md"));
    symlinkSync("b.md", join(content, "routines", "c.md"));
    chmodSync(dirname(content), 0o755);
    chmodSync(join(content, "routines/a.md"), 0);
    const isRoot = process.geteuid?.() === 0;
    try {
      // Nothing is closed to the system's own user: be nobody for a moment.
      if (isRoot) process.seteuid?.(65534);
      expect(await found(content)).toEqual(["a", "b", "c"].map((name) => `routines/${name}.md:1:1 unreadable`));
      const [closed, circle] = (await readContent(content)).findings;
      expect(closed?.message).toContain("its permissions do not allow it");
      expect(circle?.message).not.toContain("permissions");
    } finally {
      if (isRoot) process.seteuid?.(0);
    }
  });

  test("a byte order mark and the line ends of any system change nothing", async () => {
    const text = sample({ head: "mood: x\n", body: "\n## Vers\n\nNote\n" });
    const expected = ["routines/a.md:6:1 unknown-key", "routines/a.md:14:1 heading"];
    for (const same of [text, `\ufeff${text}`, text.replaceAll("\n", "\r\n"), text.replaceAll("\n", "\r")]) {
      expect(await found(folder({ "routines/a.md": same }))).toEqual(expected);
    }
  });

  test("a wrong encoding is found at its first wrong letter, and the rest is read", async () => {
    const bytes = Buffer.from(sample({ head: "summary: Caf\u00e9\nmood: x\n" }), "latin1");
    expect(await found(folder({ "routines/a.md": bytes }))).toEqual([
      "routines/a.md:6:13 encoding",
      "routines/a.md:7:1 unknown-key",
    ]);
    const wide = Buffer.from(`\ufeff${sample()}`, "utf16le");
    expect(await found(folder({ "routines/a.md": wide }))).toEqual(["routines/a.md:1:1 encoding"]);
    expect(await found(folder({ "routines/a.md": Buffer.from(wide).swap16() }))).toEqual([
      "routines/a.md:1:1 encoding",
    ]);
  });

  test("findings name the path as it was typed", async () => {
    const content = folder({ "routines/a.md": sample({ head: "mood: x\n" }) });
    const { findings } = await readContent(`${content}//`);
    expect(findings.map(({ file }) => file)).toContain(`${content}/routines/a.md`);
  });
});

import { spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it, vi } from "vitest";
import { errorText } from "../src/build/error-text.js";

const root = resolve(import.meta.dirname, "..");
const work = mkdtempSync(join(tmpdir(), "countleaf-cli-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** Runs the compiled command as a shell would. */
function countleaf(args: readonly string[], cwd = work) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, "dist/cli/main.js"), ...args], {
    cwd,
    encoding: "utf8",
  });
  return { status, stdout, stderr };
}

type Command = (args: readonly string[]) => Promise<number>;

/** Runs a command in this process, which takes less time than one of its own. */
async function within(args: readonly string[], cwd = work) {
  const [name, ...rest] = args;
  const command = ((await import(`../src/cli/${name}.ts`)) as Record<string, Command>)[`${name}Command`];
  if (command === undefined) throw new Error(`There is no command ${name}.`);
  const spies = [vi.spyOn(process.stdout, "write"), vi.spyOn(process.stderr, "write")];
  for (const spy of spies) spy.mockReturnValue(true);
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const [status, failure] = await command(rest).then(
      (status) => [status, ""] as const,
      (error: unknown) => [1, `countleaf: ${errorText(error)}\n`] as const,
    );
    const [stdout = "", stderr = ""] = spies.map((spy) => spy.mock.calls.map(([text]) => text).join(""));
    return { status, stdout, stderr: stderr + failure };
  } finally {
    process.chdir(before);
    for (const spy of spies) spy.mockRestore();
  }
}

/** A content folder of its own with these routine files. */
function contentOf(name: string, routines: Readonly<Record<string, string>>): string {
  const folder = join(work, name);
  mkdirSync(join(folder, "content/routines"), { recursive: true });
  writeFileSync(join(folder, "content/library.yaml"), "name: Test room\n");
  for (const [slug, text] of Object.entries(routines)) writeFileSync(join(folder, `content/routines/${slug}.md`), text);
  return folder;
}

const good =
  "---\ntitle: Good\nchoreographer: Nobody\nmusic: { tempo: 120 }\nsections:\n  - name: A\n    counts: [{ 1-8: Walk }]\n---\n";
const bad = good.replace("1-8: Walk", "1-9: Walk").replace("choreographer", "chorographer");

describe("exit statuses", () => {
  it("2 where the command's arguments are wrong, with what there is", async () => {
    const runs = [countleaf(["buidl"]), countleaf(["build", "--outt", "x"])];
    for (const args of [
      ["build", "extra"],
      ["new", "dance", "x"],
      ["check", "--format", "xml"],
      ["check", "--explain", "nothing"],
      ["click", "good"],
      ["draft", "lesson.vtt"],
      ["compare", "good"],
    ]) {
      runs.push(await within(args));
    }
    for (const { status, stderr, stdout } of runs) {
      expect([status, stdout], stderr).toEqual([2, ""]);
      expect(stderr).toContain("countleaf");
    }
  });

  it("0 for help and version, and for a check with warnings only", () => {
    expect(countleaf(["--help"]).stdout).toContain("countleaf new routine");
    expect(countleaf(["--version"]).stdout.trim()).toBe(
      JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version,
    );
    const folder = contentOf("warned", { good: good.replace("1-8: Walk", "1-8: Cartwheel") });
    const { status, stderr } = countleaf(["check"], folder);
    expect([status, stderr.split("\n")[0]]).toEqual([
      0,
      expect.stringMatching(/^content\/routines\/good\.md:7:\d+ {2}warning: /),
    ]);
  });

  it("1 where the content has errors: each printed with its place, nothing published, what was there kept", () => {
    const folder = contentOf("kept", { good });
    expect(countleaf(["build"], folder).status).toBe(0);
    const page = readFileSync(join(folder, "_site/index.html"), "utf8");
    writeFileSync(join(folder, "content/routines/bad.md"), bad);
    const { status, stderr } = countleaf(["build"], folder);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^content\/routines\/bad\.md:3:1 {2}.*choreographer/m);
    expect(stderr).toMatch(/^content\/routines\/bad\.md:7:\d+ {2}.*1-9/m);
    expect(stderr).not.toMatch(/\bat .*\.js:\d+/);
    expect(readFileSync(join(folder, "_site/index.html"), "utf8")).toBe(page);
    expect(existsSync(join(folder, "_site/routines/bad"))).toBe(false);
  }, 120_000);
});

describe("check", () => {
  it("prints its findings for programs with --format json", () => {
    const folder = contentOf("json", { bad });
    const { status, stdout } = countleaf(["check", "--format", "json"], folder);
    expect(status).toBe(1);
    expect(JSON.parse(stdout)).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ file: "content/routines/bad.md", severity: "error", line: 3, column: 1 }),
      ]),
    );
  });

  it("looks at the class planner's settings too", async () => {
    const folder = contentOf("settings", { good });
    writeFileSync(join(folder, "content/library.yaml"), "name: Test room\nteaching:\n  marked-speed: 50\n");
    const { status, stderr } = await within(["check"], folder);
    expect([status, stderr.split("\n")[0]]).toEqual([
      1,
      expect.stringMatching(/^content\/library\.yaml:3:3 {2}.*mark-speed/),
    ]);
    expect((await within(["build"], folder)).status).toBe(1);
  });

  it("explains a rule with a bad and a good example", async () => {
    const { status, stdout } = await within(["check", "--explain", "same-foot"]);
    expect(status).toBe(0);
    expect(stdout).toContain("Not like this:");
    expect(stdout).toContain("Like this:");
    expect(stdout).toContain("allow: [same-foot]");
  });
});

describe("new", () => {
  it("never writes over what is there, nor outside its folder", async () => {
    expect((await within(["new", "library", "room"])).status).toBe(0);
    const home = join(work, "room");
    const before = readFileSync(join(home, "content/library.yaml"), "utf8");
    expect((await within(["new", "library", "room"])).status).toBe(1);
    expect(readFileSync(join(home, "content/library.yaml"), "utf8")).toBe(before);
    expect((await within(["new", "routine", "First Steps"], home)).status).toBe(1);
    expect((await within(["new", "routine", "../../outside"], home)).status).toBe(0);
    expect(existsSync(join(home, "content/routines/outside.md"))).toBe(true);
    expect((await within(["new", "routine", "…"], home)).status).toBe(2);
    expect((await within(["new", "routine", "Elsewhere"], work)).status).toBe(1);
  });

  it("makes nothing that check has something against, and finds it however its letters are typed", async () => {
    const folder = contentOf("titles", {});
    for (const title of ["a".repeat(1001), "A\tB\u0007"]) {
      const { status, stderr } = await within(["new", "routine", title], folder);
      expect([status, stderr]).toEqual([2, expect.stringContaining("this can't be a title")]);
    }
    expect(readdirSync(join(folder, "content/routines"))).toEqual([]);
    expect((await within(["new", "routine", "Café"], folder)).status).toBe(0);
    expect(readdirSync(join(folder, "content/routines"))).toEqual(["café.md"]);
    expect((await within(["outline", "cafe\u0301"], folder)).stdout).toContain("Café");
  });

  it("takes no empty name for the folder that it is run in", () => {
    const folder = contentOf("mine", { "first-steps": good });
    for (const args of [
      ["new", "library", ""],
      ["build", "--out", ""],
    ]) {
      const { status, stdout, stderr } = countleaf(args, folder);
      expect([status, stdout, stderr]).toEqual([2, "", expect.stringContaining("an argument is empty")]);
    }
    expect(readFileSync(join(folder, "content/library.yaml"), "utf8")).toBe("name: Test room\n");
    expect(readFileSync(join(folder, "content/routines/first-steps.md"), "utf8")).toBe(good);
    expect(readdirSync(folder)).toEqual(["content"]);
  });

  it("says what lies where it would write, and what to do", async () => {
    const folder = contentOf("there", { good });
    const at = (path: string) => join(folder, path);
    /** Its status, and what it said or failed with. */
    const said = async (...args: string[]) => {
      const { status, stdout, stderr } = await within(["new", ...args], folder);
      return [status, stdout + stderr];
    };
    mkdirSync(at("full"));
    writeFileSync(at("full/mine.txt"), "mine");
    mkdirSync(at("empty"));
    for (const [name, to] of [
      ["nowhere", "no/such"],
      ["linked", "empty"],
      ["content/routines/away.md", "../../away.md"],
    ] as const)
      symlinkSync(to, at(name));
    for (const [name, says] of [
      ["", `${folder}/ holds a library already (${at("content/library.yaml")})`],
      ["full", `${at("full")} has files in it (${at("full/mine.txt")}); name a folder that does not exist yet`],
      ["full/mine.txt", `${at("full/mine.txt")} is a file, not a folder; name`],
      ["full/mine.txt/room", `${at("full/mine.txt")}: this is a file, not a folder`],
      ["nowhere", `${at("nowhere")} is a link, and nothing is written through links; name`],
      ["linked", `${at("linked")} is a link, and nothing is written through links; name`],
      ["nowhere/room", `${at("nowhere")} is a link to nowhere`],
    ] as const)
      expect(await said("library", `${folder}/${name}`)).toEqual([1, expect.stringContaining(says)]);
    for (const title of ["Good", "Away"])
      expect(await said("routine", title, "--content", at("content"))).toEqual([
        1,
        expect.stringContaining(`${at(`content/routines/${title.toLowerCase()}.md`)} is there already; write another`),
      ]);
    expect(readdirSync(folder).sort()).toEqual(["content", "empty", "full", "linked", "nowhere"]);
    expect(readdirSync(at("empty"))).toEqual([]);
    expect(await said("library", at("empty"))).toEqual([0, expect.stringContaining("Made ")]);
    rmSync(at("empty/content/routines"), { recursive: true });
    symlinkSync("../gone", at("empty/content/routines"));
    const linked = await said("routine", "New", "--content", at("empty/content"));
    expect(linked).toEqual([1, expect.stringContaining("content/routines is a link to another folder")]);
    expect(existsSync(at("empty/gone"))).toBe(false);
  });

  it("writes files that check has nothing against", () => {
    const { status, stderr } = countleaf(["check"], join(work, "room"));
    expect([status, stderr.match(/warning|error/g)]).toEqual([0, null]);
  });
});

describe("outline and click", () => {
  it("make one thing of one routine, and name the routines where it is another", async () => {
    cpSync(join(root, "content"), join(work, "demo/content"), { recursive: true });
    const demo = join(work, "demo");
    const outline = await within(["outline", "fourpenny-gate"], demo);
    expect([outline.status, outline.stdout.split("\n")[0]]).toEqual([0, expect.stringContaining("Fourpenny Gate")]);
    expect((await within(["click", "fourpenny-gate", "--speed", "75", "--out", "click.wav"], demo)).status).toBe(0);
    expect(readFileSync(join(demo, "click.wav")).subarray(0, 4).toString("latin1")).toBe("RIFF");
    const { stdout: plain } = await within(["captions", "fourpenny-gate"], demo);
    const { stdout: early } = await within(["captions", "fourpenny-gate", "--lead", "2"], demo);
    expect(plain).toMatch(/^WEBVTT Fourpenny Gate: counts and cues\n/);
    expect(early).toMatch(/^WEBVTT Fourpenny Gate: counts and cues, 2 counts ahead\n/);
    expect((await within(["captions", "fourpenny-gate", "--lead", "soon"], demo)).status).toBe(2);
    expect((await within(["takes", "fourpenny-gate"], demo)).stdout).toContain("One continuous recording of about");
    expect(outline.stderr).toBe("");
    // What finds no room is said beside the text.
    const settings = join(demo, "content/library.yaml");
    writeFileSync(settings, readFileSync(settings, "utf8").replace(/outline-limit: .*/, "outline-limit: 2000"));
    const letters = await within(["outline", "breakwater-letters", "--mirrored"], demo);
    expect(letters.stderr).toMatch(
      /the text has no room for the introduction, .+ and .+; write a shorter text, or a higher `outline-limit`/,
    );
    expect([letters.status, letters.stdout]).toEqual([0, expect.stringContaining("THIS FILM IS FLIPPED")]);
    const none = await within(["outline", "fourpenny-gate", "--mirrored"], demo);
    expect([none.status, none.stderr]).toEqual([1, expect.stringContaining("`breakdown-mirrored` under `video`")]);
    const { status, stderr } = await within(["outline", "fivepenny-gate"], demo);
    expect([status, stderr]).toEqual([1, expect.stringContaining("fourpenny-gate")]);
  });

  it("write sound over sound alone, and say how arguments are written that are wrong", async () => {
    const folder = contentOf("sound", { good });
    const click = (...args: string[]) => within(["click", "good", ...args], folder);
    for (const [args, says] of [
      [["--out", "content/routines/good.md"], "`--out content/routines/good.md.wav`"],
      [["--out", ".wav"], "ends in .wav"],
      [["--out", "a.wav", "--speed", "half"], "`--speed 75`"],
      [["--out", "a.wav", "--speed", "0x20"], "not 0x20"],
      [["--out", "a.wav", "--speed", "5"], "from 10 to 400"],
    ] as const) {
      const { status, stderr } = await click(...args);
      expect([status, stderr]).toEqual([2, expect.stringContaining(says)]);
    }
    expect(readFileSync(join(folder, "content/routines/good.md"), "utf8")).toBe(good);
    expect((await click("--out", "a.wav", "--speed", "75%")).stdout).toContain("at 75 per cent");
  });

  it("make nothing of a library that is broken or not there", async () => {
    const folder = contentOf("broken", { good });
    writeFileSync(join(folder, "content/library.yaml"), "name: [Test room\n");
    for (const args of [
      ["outline", "good"],
      ["captions", "good"],
      ["takes", "good"],
      ["draft", "lesson.vtt", "--title", "New"],
      ["compare", "good", "lesson.vtt"],
    ]) {
      const { status, stdout, stderr } = await within(args, folder);
      expect([status, stdout, stderr]).toEqual([1, "", expect.stringContaining("content/library.yaml:1:")]);
    }
    const { status, stderr } = await within(["outline", "good", "--content", "nowhere"], folder);
    expect([status, stderr]).toEqual([1, expect.stringContaining("There is no folder `nowhere` here.")]);
  });
});

it("what the machine does not allow is told in words", async () => {
  const folder = contentOf("words", { good });
  writeFileSync(join(folder, "file"), "");
  for (const [args, says] of [
    [["new", "library", "file"], "file is a file, not a folder; name a folder that does not exist yet"],
    [["click", "good", "--out", "no/such/x.wav"], "no/such/x.wav: there is no such file or folder."],
  ] as const) {
    const { status, stderr } = await within(args, folder);
    expect([status, stderr]).toEqual([1, `countleaf: ${says}\n`]);
  }
});

it("a build ends in words at a link to nowhere, and below a folder of the system", () => {
  const folder = contentOf("ends", { good });
  symlinkSync("no/such", join(folder, "nowhere"));
  const places = [["nowhere/pack", "nowhere is a link to nowhere"]];
  // Linux alone has such a folder; for a plain user it may be forbidden.
  if (existsSync("/proc/self")) places.push(["/proc/pack", "/proc"]);
  for (const [out = "", says] of places) {
    const { status, stderr } = countleaf(["build", "--out", out], folder);
    expect([status, stderr]).toEqual([1, expect.stringContaining(says ?? "")]);
    expect(stderr).not.toMatch(/^ +at /m);
  }
  expect(readdirSync(folder).sort()).toEqual(["content", "nowhere"]);
});

it("a package.json that is broken where it is run is in nobody's way; a limit on how large files get is told in words", () => {
  const folder = contentOf("limits", { good });
  writeFileSync(join(folder, "package.json"), "{ broken");
  const { status, stderr } = countleaf(["build"], folder);
  expect([status, stderr]).toEqual([0, ""]);
  if (process.platform === "win32") return;
  const main = join(root, "dist/cli/main.js");
  const limited = spawnSync(
    "sh",
    ["-c", 'ulimit -f 8; exec "$0" "$@"', process.execPath, main, "click", "good", "--out", "a.wav"],
    { cwd: folder, encoding: "utf8" },
  );
  expect([limited.status, limited.stderr]).toEqual([
    1,
    expect.stringContaining("a.wav: this file would be larger than"),
  ]);
  expect(readdirSync(folder)).not.toContain("a.wav");
});

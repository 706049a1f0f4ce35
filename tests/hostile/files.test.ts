import { execFileSync, spawnSync } from "node:child_process";
import {
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
import { afterAll, expect, test, vi } from "vitest";
import { newCommand } from "../../src/cli/new.js";
import { readContent } from "../../src/reading/read-content.js";
import { muPdfLetters } from "../fixtures/read-structure.js";
import { long } from "../runs.js";
import { routineSaying } from "./content.js";

/* Files, links and names that try to lead out of their folder, and texts that try to bring another file in. */

const root = resolve(import.meta.dirname, "../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-files-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

const good = routineSaying("Plain words");
const secret = "the-secret-that-no-page-may-say";

function countleaf(args: readonly string[], cwd: string) {
  const command = [join(root, "dist/cli/main.js"), ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { cwd, encoding: "utf8" });
  return { status, stdout, stderr };
}

/** A folder with a content folder, and beside it what nobody may reach. */
function home(name: string, files: Readonly<Record<string, string>>): string {
  const folder = join(work, name);
  for (const part of ["content/routines", "content/workshops", "outside"])
    mkdirSync(join(folder, part), { recursive: true });
  writeFileSync(join(folder, "outside/secret.md"), good.replaceAll("Plain words", secret));
  writeFileSync(join(folder, "outside/library.yaml"), `name: ${secret}\n`);
  writeFileSync(join(folder, "content/library.yaml"), "name: Test room\n");
  for (const [path, text] of Object.entries(files)) writeFileSync(join(folder, "content", path), text);
  return folder;
}

function everythingIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();
}

test("links in the content folder that lead outside are not followed, and are named", async () => {
  const folder = home("links", { "routines/good.md": good });
  const routines = join(folder, "content/routines");
  symlinkSync("../../outside/secret.md", join(routines, "relative.md"));
  symlinkSync(join(folder, "outside/secret.md"), join(routines, "absolute.md"));
  symlinkSync("relative.md", join(routines, "link-to-link.md"));
  symlinkSync("loop.md", join(routines, "loop.md"));
  symlinkSync("nowhere.md", join(routines, "dangling.md"));
  symlinkSync("/dev/zero", join(routines, "endless.md"));
  symlinkSync("../../outside", join(routines, "folder.md"));
  symlinkSync("good.md", join(routines, "inside.md"));
  symlinkSync("../../outside/secret.md", join(folder, "content/workshops/class.md"));
  rmSync(join(folder, "content/library.yaml"));
  symlinkSync("../outside/library.yaml", join(folder, "content/library.yaml"));
  const { routines: read, findings, library, workshops } = await readContent(join(folder, "content"));
  expect(read.map(({ slug }) => slug)).toEqual(["good", "inside"]);
  expect([workshops, library.name, JSON.stringify([...findings]).includes(secret)]).toEqual([[], "", false]);
  const refused = findings
    .filter(({ severity }) => severity === "error")
    .map(({ file, rule }) => `${file.split("/").at(-1)} ${rule}`);
  expect(refused.sort()).toEqual([
    "absolute.md outside-folder",
    "class.md outside-folder",
    "dangling.md missing-file",
    "endless.md outside-folder",
    "folder.md outside-folder",
    "library.yaml outside-folder",
    "link-to-link.md outside-folder",
    "loop.md unreadable",
    "relative.md outside-folder",
  ]);
});

test("a folder of the content folder that is a link outside is not followed either", async () => {
  const folder = home("linked-folder", {});
  rmSync(join(folder, "content/routines"), { recursive: true });
  symlinkSync("../outside", join(folder, "content/routines"));
  const { routines, findings } = await readContent(join(folder, "content"));
  expect(routines).toEqual([]);
  expect(findings.map(({ rule }) => rule)).toContain("outside-folder");
  expect(JSON.stringify(findings)).not.toContain(secret);
});

test("what is no file is not read, and nobody waits for it", async () => {
  const folder = home("odd", { "routines/good.md": good });
  execFileSync("mkfifo", [join(folder, "content/routines/pipe.md")]);
  mkdirSync(join(folder, "content/routines/folder.md"));
  const { routines, findings } = await readContent(join(folder, "content"));
  expect(routines.length).toBe(1);
  expect(findings.find(({ file }) => file.endsWith("pipe.md"))?.rule).toBe("unreadable");
  expect(findings.find(({ file }) => file.endsWith("folder.md"))?.rule).toBe("file-name");
});

test.each([
  "js",
  "javascript",
  "json",
  "coffee",
  "coffeescript",
  "cson",
  "toml",
  "constructor",
  "__proto__",
  "yaml js",
  "JS",
])("front matter in %s is neither run nor read", async (language) => {
  const sentinel = join(work, `ran-${language.replace(/\W/g, "")}`);
  const run = `require("node:fs").writeFileSync(${JSON.stringify(sentinel)}, "x")`;
  const folder = home(`language-${language.replace(/\W/g, "")}`, {
    "routines/code.md": `---${language}\n{ "title": ${run} }\n---\n`,
    "routines/module.md": `--- ${language}\nmodule.exports = ${run}\n---\n`,
  });
  const { findings, routines } = await readContent(join(folder, "content"));
  expect(routines).toEqual([]);
  expect(existsSync(sentinel)).toBe(false);
  expect(findings.filter(({ rule }) => rule === "front-matter-kind").length).toBe(2);
});

/** Ways in which tools bring one file into another; each is told the secret's place. */
function inclusions(path: string): readonly string[] {
  return [
    `{% include "${path}" %}`,
    `{% include ${path} %}`,
    `{% render "${path}" %} {% import "${path}" as x %} {% extends "${path}" %}`,
    `{{ "${path}" | read }} {{> ${path} }} {{{{raw}}}}`,
    `<%- include("${path}") %> <!--#include file="${path}" -->`,
    `!include ${path} @include(${path}) <<[${path}] [[${path}]] ::include{file=${path}}`,
    `![x](${path}) ![x](file://${path}) [x]: ${path}`,
    `<img src="${path}"> <iframe src="${path}"></iframe> <object data="${path}"></object>`,
    `<?php include "${path}"; ?> #include "${path}" \\input{${path}} \\includegraphics{${path}}`,
    `<!DOCTYPE x [<!ENTITY s SYSTEM "file://${path}">]> &s; <xi:include href="${path}"/>`,
    `@import url("${path}"); url(${path})`,
    `{{ page.inputPath }} {{ eleventy.env.root }} {{ collections | dump }} {{ pkg | dump }}`,
  ];
}

test("nothing in a file makes the build read another file", { timeout: 300_000 }, async () => {
  const folder = home("inclusion", { "routines/secret.txt": secret, "secret.txt": secret });
  writeFileSync(join(folder, "secret.txt"), secret);
  const all = [join(folder, "secret.txt"), "../secret.txt", "../../secret.txt", "secret.txt"];
  const places = long ? all : all.slice(0, 2);
  for (const [index, place] of places.entries()) {
    const text = routineSaying(inclusions(place).join(" ").slice(0, 950));
    writeFileSync(join(folder, `content/routines/r${index}.md`), `${text}\n${inclusions(place).join("\n\n")}\n`);
  }
  const workshop = "title: Class\nminutes: 60\nroutines: [r0]\n";
  writeFileSync(
    join(folder, "content/workshops/class.md"),
    `---\n${workshop}---\n${inclusions(places[0] ?? "").join("\n\n")}\n`,
  );
  // Large print and the other side say what the sheets say.
  writeFileSync(join(folder, "content/library.yaml"), "name: Test room\nhandouts: [versions]\n");
  const { status, stderr } = countleaf(["build"], folder);
  expect([status, stderr.match(/ at .*\.js/g)]).toEqual([0, null]);
  const files = everythingIn(join(folder, "_site")).filter((name) => /\.\w+$/.test(name));
  for (const name of files) {
    const bytes = readFileSync(join(folder, "_site", name));
    const text = name.endsWith(".pdf") ? muPdfLetters(bytes) : bytes.toString("latin1");
    expect(text.includes(secret), name).toBe(false);
  }
  expect(files.filter((name) => name.endsWith(".pdf")).length).toBeGreaterThan(8 * places.length);
});

test("YAML tags and merges bring nothing in", async () => {
  const lines = [
    "title: !!js/function 'function () { return 1 }'",
    "title: !include ../../outside/secret.md",
    "title: !!python/object/apply:os.system ['id']",
    "title: !<tag:yaml.org,2002:js/regexp> /x/",
    "<<: { title: Merged }",
    "__proto__: { title: Inherited }",
    "constructor: { prototype: { title: Inherited } }",
    "%TAG ! tag:example.org,2000:",
  ];
  const folder = home(
    "yaml",
    Object.fromEntries(lines.map((line, index) => [`routines/y${index}.md`, good.replace(/^title: .*$/m, line)])),
  );
  const { routines, findings } = await readContent(join(folder, "content"));
  expect(routines).toEqual([]);
  for (const index of lines.keys())
    expect(findings.some(({ file, severity }) => file.endsWith(`/y${index}.md`) && severity === "error")).toBe(true);
  expect(({} as { title?: string }).title).toBeUndefined();
});

const names = [
  "..md",
  "...md",
  ".md",
  "..%2f..%2fout.md",
  "a b.md",
  "con .md",
  "-rf.md",
  "a\nb.md",
  "<img src=x onerror=alert(1)>.md",
  "$(id).md",
  "a\\..\\b.md",
  "CON.md",
  "Ü.md",
  "\u202egpj.md",
];

test("file names become addresses only where they are nothing but an address", { timeout: 300_000 }, async () => {
  const folder = home("names", Object.fromEntries(names.map((name) => [`routines/${name}`, good])));
  const { routines, findings } = await readContent(join(folder, "content"));
  const refused = findings
    .filter(({ rule }) => rule === "file-name")
    .map(({ file }) => file.slice(file.indexOf("routines/") + 9));
  // A name that begins with a point is hidden and not looked at.
  const hidden = names.filter((name) => name.startsWith("."));
  expect([...refused].sort()).toEqual(names.filter((name) => !hidden.includes(name)).sort());
  for (const { slug } of routines) expect(slug).not.toMatch(/[./\\%\s]/);
  const before = everythingIn(folder);
  expect(countleaf(["build"], folder).status).toBe(1);
  expect(everythingIn(folder)).toEqual(before);
});

test("names inside a file lead nowhere: versions, routines of a class, levels", async () => {
  const folder = home("inner", {
    "routines/good.md": good,
    "routines/versions.md": good.replace("levels: [1, 2]", 'levels: ["../../../up", "2/../x", ".", "a b"]'),
    "workshops/class.md":
      "---\ntitle: X\nminutes: 60\nroutines: [../../outside/secret, good.md, /etc/passwd]\nlevel: ../up\n---\n",
  });
  const { routines, workshops, findings } = await readContent(join(folder, "content"));
  expect([routines.map(({ slug }) => slug), workshops]).toEqual([["good"], []]);
  const errors = findings.filter(({ severity }) => severity === "error");
  expect(errors.filter(({ file }) => file.endsWith("versions.md")).length).toBeGreaterThanOrEqual(4);
  expect(errors.filter(({ file }) => file.endsWith("class.md")).length).toBeGreaterThanOrEqual(4);
});

test("`new` writes into its folder and nowhere else, whatever the title", async () => {
  const folder = home("new", {});
  const outside = () => everythingIn(folder).filter((name) => !name.startsWith("content/routines/"));
  const before = outside();
  const titles = [
    "../../up",
    "/etc/passwd",
    "..",
    "../..",
    "C:\\Windows\\x",
    "a/../../b",
    "%2e%2e%2fup",
    ".hidden",
    "$(touch x)",
    'x"\n---\njs: 1',
    "ﬁ/․․/x",
    "\u202egpj",
    "{% include 'x' %}",
  ];
  const silent = [process.stdout, process.stderr].map((stream) => vi.spyOn(stream, "write").mockReturnValue(true));
  for (const title of titles) await newCommand(["routine", title, "--content", join(folder, "content")]);
  for (const stream of silent) stream.mockRestore();
  expect(outside()).toEqual(before);
  for (const name of readdirSync(join(folder, "content/routines"))) expect(name).toMatch(/^[\p{L}\p{N}-]+\.md$/u);
  // What a title holds stays the title: nothing of it becomes a key.
  const { status, stdout } = countleaf(["check", "--format", "json"], folder);
  expect([status, JSON.parse(stdout).filter(({ severity }: { severity: string }) => severity === "error")]).toEqual([
    0,
    [],
  ]);
  // A folder for routines that is a link leads out, so nothing is written there.
  rmSync(join(folder, "content/routines"), { recursive: true });
  symlinkSync("../outside", join(folder, "content/routines"));
  countleaf(["new", "routine", "Over the wall"], folder);
  expect(readdirSync(join(folder, "outside")).sort()).toEqual(["library.yaml", "secret.md"]);
});

test("`--out` takes a folder of its own, and a build writes nowhere else", { timeout: 300_000 }, () => {
  const folder = home("out", { "routines/good.md": good });
  for (const out of ["content", "content/routines/site", ".", "..", "/", "outside", "content/../content"]) {
    const { status, stderr } = countleaf(["build", "--out", out], folder);
    expect([out, status === 1 || status === 2, stderr.match(/ at .*\.js/g)]).toEqual([out, true, null]);
  }
  const before = everythingIn(folder);
  expect(countleaf(["build", "--out", "made/site"], folder).status).toBe(0);
  const added = everythingIn(folder).filter((name) => !before.includes(name));
  expect(added.filter((name) => !/^made(\/|$)/.test(name))).toEqual([]);
});

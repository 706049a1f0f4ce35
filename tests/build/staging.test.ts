import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { openStaging, type Staging } from "../../src/build/staging.js";
import { litterBeside, treeOf } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-staging-"));
const [content, home, out] = [join(work, "content"), join(work, "home"), join(work, "home/pack")];
const [beside, old] = [join(home, ".countleaf-pack"), join(home, ".countleaf-pack/old")];
const files = ["index.html", "routines/kerb/index.html", "routines/kerb/handout-1.pdf"];
afterAll(() => rmSync(work, { recursive: true, force: true }));

function stage(text: string): Staging {
  const staging = openStaging(content, out);
  for (const path of files) put(join(staging.folder, path), text);
  return staging;
}

function put(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

/** A build that comes to nothing. */
function buildInVain(): void {
  openStaging(content, out).close();
}

let before: ReturnType<typeof treeOf>;

beforeEach(() => {
  rmSync(home, { recursive: true, force: true });
  mkdirSync(home);
  const staging = stage("before");
  staging.publish(files);
  staging.close();
  before = treeOf(out);
  expect(Object.keys(before ?? {})).toEqual([".countleaf", ...files].sort());
  expect(readdirSync(home)).toEqual(["pack"]);
});

describe("what is published is whole", () => {
  const away = join(work, "elsewhere");
  const meanwhile: Readonly<Record<string, (folder: string) => void>> = {
    "a file was removed": (folder) => rmSync(join(folder, "routines/kerb/index.html")),
    "a folder was removed": (folder) => rmSync(join(folder, "routines"), { recursive: true }),
    "all was removed": (folder) => {
      rmSync(folder, { recursive: true });
      mkdirSync(folder);
    },
    "all was renamed, and the build went on": (folder) => {
      renameSync(folder, away);
      cpSync(join(away, "index.html"), join(folder, "index.html"));
    },
  };

  it.each(Object.keys(meanwhile))("or not published: %s", (what) => {
    rmSync(away, { recursive: true, force: true });
    const staging = stage("after");
    meanwhile[what]?.(staging.folder);
    expect(() => staging.publish(files)).toThrow(
      /(index\.html|handout-1\.pdf) was made and is gone again.*Build again\. Nothing was changed in/,
    );
    staging.close();
    expect(treeOf(out)).toEqual(before);
    expect(litterBeside(out)).toEqual([]);
  });

  it("nor where the folder itself is gone", () => {
    const staging = stage("after");
    rmSync(staging.folder, { recursive: true });
    expect(() => staging.publish(files)).toThrow(/ENOENT/);
    staging.close();
    expect(treeOf(out)).toEqual(before);
  });

  it("bears its mark before it takes its place", () => {
    const staging = stage("after");
    // As a kill between the two renames leaves it: nothing may be put into a published folder any more.
    mkdirSync(old);
    put(join(old, "in-the-way"), "");
    expect(() => staging.publish(files)).toThrow();
    expect(readFileSync(join(staging.folder, ".countleaf"), "utf8")).toBe(`${files.toSorted().join("\n")}\n`);
    rmSync(old, { recursive: true });
    staging.close();
    expect(treeOf(out)).toEqual(before);
  });
});

describe("after a kill in the middle of the swap, the earlier pack comes back", () => {
  beforeEach(() => {
    mkdirSync(beside);
    renameSync(out, old);
  });

  const places: Readonly<Record<string, () => void>> = {
    "to where nothing is": () => {},
    "in place of an empty folder": () => mkdirSync(out),
    "in place of a folder of empty folders": () => mkdirSync(join(out, "routines/kerb"), { recursive: true }),
    "in place of what is left of a pack": () => {
      cpSync(old, out, { recursive: true });
      rmSync(join(out, "index.html"));
    },
  };

  it.each(Object.keys(places))("%s", (place) => {
    places[place]?.();
    buildInVain();
    expect(treeOf(out)).toEqual(before);
    expect(readdirSync(home)).toEqual(["pack"]);
  });

  it("but not over files of somebody else's: both stay, and it is said what lies where", () => {
    put(join(out, "notes.txt"), "mine");
    for (let times = 0; times < 2; times++)
      expect(buildInVain).toThrow(
        `notes.txt was not made by countleaf, and a build replaces all that is in ${out}; move it away, or choose another folder with --out. The pack that was published before lies in ${old}, and comes back`,
      );
    expect(readFileSync(join(out, "notes.txt"), "utf8")).toBe("mine");
    expect(treeOf(old)).toEqual(before);
    renameSync(out, join(home, "moved"));
    buildInVain();
    expect(treeOf(out)).toEqual(before);
    expect(readdirSync(join(home, "moved"))).toEqual(["notes.txt"]);
  });

  it("and goes when a whole one is in place", () => {
    cpSync(old, out, { recursive: true });
    buildInVain();
    expect(treeOf(out)).toEqual(before);
    expect(existsSync(old)).toBe(false);
  });

  it("nor is it lost when somebody puts files there while a build is at work", () => {
    const staging = stage("after");
    renameSync(out, old);
    put(join(out, "notes.txt"), "mine");
    expect(staging.close).toThrow(
      /notes\.txt was not made by countleaf, and the pack that was published before lies in/,
    );
    expect(treeOf(old)).toEqual(before);
    expect(readdirSync(out)).toEqual(["notes.txt"]);
  });
});

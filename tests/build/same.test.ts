import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { countleaf, routineText, treeOf, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-same-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/** A class of the demo library and its groups, and beside them two files that are found to have one title: what is found is published too. */
const demo = [
  "routines/breakwater-letters",
  "routines/lock-keepers-waltz",
  "routines/one-umbrella",
  "workshops/winter-floor-day",
];

function copyLibrary(folder: string) {
  for (const name of demo) cpSync(resolve(import.meta.dirname, `../../content/${name}.md`), join(folder, `${name}.md`));
  writeContent(folder, {
    "library.yaml": libraryText,
    "routines/kerb.md": routineText("Kerb"),
    "routines/kerb-2.md": routineText("Kerb"),
  });
}

const libraryText = "name: Saltmarsh Dance Room\nurl: https://saltmarsh.example\nmirror-words: [[port, starboard]]\n";

describe("the same content", () => {
  it("gives the same bytes in another folder, time zone, locale and order of files, on another day", async () => {
    copyLibrary(join(work, "here/content"));
    copyLibrary(join(work, "there/by/another name"));
    const here = await countleaf(["build"], { cwd: join(work, "here"), env: { TZ: "UTC", LANG: "C", LC_ALL: "C" } });
    const there = await countleaf(["build", "--content", "another name", "--out", join(work, "far/away")], {
      cwd: join(work, "there/by"),
      env: { TZ: "Pacific/Kiritimati", LANG: "tr_TR.UTF-8", LC_ALL: "tr_TR.UTF-8" },
      inject: "elsewhere",
    });
    expect([here.status, there.status], here.err + there.err).toEqual([0, 0]);
    const made = treeOf(join(work, "here/_site")) ?? {};
    expect(Object.keys(made).length).toBeGreaterThan(80);
    expect(treeOf(join(work, "far/away"))).toEqual(made);
  });
});

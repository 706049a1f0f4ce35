import { mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, expect, it } from "vitest";
import { emptiedText } from "../../src/build/emptied.js";
import { markOf } from "../../src/build/folders.js";
import { readFiles } from "../../src/reading/files.js";
import { countleaf, routineText, treeOf, writeContent } from "./run.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-emptied-"));
const [content, out] = [join(work, "content"), join(work, "pack")];
afterAll(() => rmSync(work, { recursive: true, force: true }));

beforeEach(() => {
  for (const folder of [content, out]) rmSync(folder, { recursive: true, force: true });
});

/** What is said when a build finds these routines and workshops where those before are published. */
async function said(before: readonly string[], now: readonly string[]): Promise<string | undefined> {
  const file = (name: string) => `${name}/${name.startsWith("routines/") ? "routine.json" : "plan.json"}`;
  const pages = [...before.map(file), "routines/before/index.html"];
  writeContent(out, { ...Object.fromEntries(pages.map((path) => [path, ""])), ".countleaf": markOf(pages) });
  const made = (kind: string) =>
    now.filter((name) => name.startsWith(`${kind}/`)).map((name) => ({ slug: name.slice(kind.length + 1) }));
  return emptiedText(out, "pack", await readFiles(content), {
    routines: made("routines"),
    workshops: made("workshops"),
  });
}

it.each<[string, readonly string[], readonly string[], string | undefined]>([
  ["all routines", ["routines/kerb", "routines/lamp"], [], "all 2 routines (kerb, lamp)"],
  ["the only routine", ["routines/kerb"], [], "the only routine (kerb)"],
  ["all routines, for others", ["routines/kerb", "routines/lamp"], ["routines/tram"], "all 2 routines (kerb, lamp)"],
  ["the only routine, for another", ["routines/kerb"], ["routines/tram"], undefined],
  ["one routine of two", ["routines/kerb", "routines/lamp"], ["routines/lamp"], undefined],
  [
    "all workshops",
    ["routines/kerb", "workshops/eve", "workshops/noon"],
    ["routines/kerb"],
    "all 2 workshops (eve, noon)",
  ],
  ["the only workshop", ["routines/kerb", "workshops/eve"], ["routines/kerb"], undefined],
  [
    "routines and workshops",
    ["routines/a", "workshops/b", "workshops/c"],
    [],
    "the only routine (a) and all 2 workshops (b, c)",
  ],
  [
    "many",
    ["a", "b", "c", "d", "e", "f", "g"].map((slug) => `routines/${slug}`),
    [],
    "all 7 routines (a, b, c, d, e and 2 more)",
  ],
  ["nothing", [], [], undefined],
])("to take away %s", async (_, before, now, what) => {
  const text = await said(before, now);
  if (what === undefined) expect(text).toBeUndefined();
  else
    expect(text).toMatch(
      `This build would take away ${what} from pack. If that is what you mean, say \`countleaf build --allow-empty\``,
    );
});

it("it is said what lies there and was not read", async () => {
  writeContent(content, {
    "Routines/kerb.md": "",
    "routines/KERB.MD": "",
    "routines/old/lamp.md": "",
    "routines/.hidden": "",
    "workshops/eve.txt": "",
    "tram.md": "",
  });
  expect(await said(["routines/kerb"], [])).toContain(
    `was not read: \`Routines\` (a folder), \`tram.md\`, \`routines/KERB.MD\`, \`routines/old\` (a folder), \`workshops/eve.txt\`; a routine is a file in`,
  );
});

it("an emptied library does not replace a full one by itself", async () => {
  writeContent(content, { "routines/kerb.md": routineText("Kerb"), "routines/lamp.md": routineText("Lamp") });
  const build = (...more: readonly string[]) => countleaf(["build", "--content", content, "--out", out, ...more]);
  expect((await build()).status).toBe(0);
  const full = treeOf(out);

  for (const slug of ["kerb", "lamp"])
    renameSync(join(content, `routines/${slug}.md`), join(content, `routines/${slug}.MD`));
  const refused = await build();
  expect(refused.status).toBe(1);
  expect(refused.err).toContain("would take away all 2 routines (kerb, lamp)");
  expect(refused.err).toContain("`routines/kerb.MD`, `routines/lamp.MD`");
  expect(refused.err).toMatch(/Nothing was published\.\n$/);
  expect(treeOf(out)).toEqual(full);

  // Where nothing at all is left, that is an error of the content; it may be meant as well.
  for (const slug of ["kerb", "lamp"]) rmSync(join(content, `routines/${slug}.MD`));
  writeFileSync(join(content, "library.yaml"), "name: Kerbside Room\n");
  const empty = await build();
  expect([empty.status, empty.err]).toEqual([
    1,
    expect.stringMatching(/There is no routine yet.*\nThis build would take away/s),
  ]);
  expect(treeOf(out)).toEqual(full);
  const meant = await build("--allow-empty");
  expect([meant.status, meant.err]).toEqual([0, ""]);
  expect(Object.keys(treeOf(out) ?? {}).filter((path) => path.startsWith("routines/"))).toEqual([]);
});

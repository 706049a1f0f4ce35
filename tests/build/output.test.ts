import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { countleaf, routineText, writeContent } from "./run.js";
import { get, serve } from "./serving.js";

const root = resolve(import.meta.dirname, "../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-output-"));
const content = join(work, "content");
const main = join(work, "dist/cli/main.js");

/** An output that this program does not have: the names of the sections to cut out, and a page to hear them by. */
const publisher = `import type { Routine } from "../../routine/routine.js";
import type { Publisher } from "../publisher.js";
export const strips: Publisher<Routine> = {
  name: "strips",
  publish: ({ slug, sections }) => [
    { path: \`routines/\${slug}/strips.csv\`, kind: "handout", mediaType: "text/csv", label: "Strips to cut",
      content: sections.map(({ name }) => name + "\\n").join("") },
    { path: \`routines/\${slug}/strips.html\`, kind: "page", mediaType: "text/html", content: "<p>Strips</p>" },
  ],
  pages: ({ slug }) => [\`routines/\${slug}/strips.html\`],
};
`;

/* A scratch copy of the program, with one folder and one line more. */
beforeAll(() => {
  for (const name of ["src", "templates", "tests/tools/compile.mjs", "tsconfig.json", "package.json"])
    cpSync(join(root, name), join(work, name), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(work, "node_modules"));
  mkdirSync(join(work, "src/publishing/strips"));
  writeFileSync(join(work, "src/publishing/strips/publisher.ts"), publisher);
  const list = join(work, "src/publishing/list.ts");
  const text = readFileSync(list, "utf8").replace("routines: [handout,", "routines: [handout, strips,");
  expect(text).toContain("strips");
  writeFileSync(list, `import { strips } from "./strips/publisher.js";\n${text}`);
  execFileSync(process.execPath, [join(work, "tests/tools/compile.mjs"), "--unchecked"]);
  const site = "name: Kerbside Room\nurl: https://kerbside.example\n";
  writeContent(content, { "library.yaml": site, "routines/kerb.md": routineText("Kerb") });
});

afterAll(() => rmSync(work, { recursive: true, force: true }));

it("an output that is a folder and a line is made, offered, counted and listed like the others", async () => {
  const out = join(work, "pack");
  const build = () => countleaf(["build", "--content", content, "--out", out], { main });
  const first = await build();
  expect([first.status, first.err]).toEqual([0, ""]);
  // Three of them are its sheets; two pages are those of the site.
  expect(first.out).toContain("1 routine, 0 workshops, 3 pages, 4 handouts to print");
  expect((await build()).out).toContain("3 pages, 4 handouts to print");
  expect(readFileSync(join(out, "routines/kerb/strips.csv"), "utf8")).toBe("Kerb\n");
  const page = readFileSync(join(out, "routines/kerb/index.html"), "utf8");
  expect(page).toMatch(/<a href="strips\.csv"[^>]*>Strips to cut<\/a>[^\n]*CSV/);
  expect(page).not.toContain("strips.html");
  expect(readFileSync(join(out, "sitemap.xml"), "utf8")).toContain(
    "<loc>https://kerbside.example/routines/kerb/strips.html</loc>",
  );
});

it("it is served with the media type that it declares", async () => {
  const served = await serve(content, { main });
  try {
    expect(await get(served, "/routines/kerb/strips.csv")).toEqual({
      status: 200,
      type: "text/csv; charset=utf-8",
      text: "Kerb\n",
    });
    expect((await get(served, "/routines/kerb/")).text).toContain("Strips to cut");
    expect((await get(served, "/routines/kerb/strips.html")).type).toBe("text/html; charset=utf-8");
  } finally {
    await served.stop();
  }
});

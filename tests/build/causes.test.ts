import { expect, test } from "vitest";
import { brokenIn } from "../../src/build/live/broken.js";
import { byCause } from "../../src/build/live/causes.js";
import { mistakesPage } from "../../src/build/live/pages.js";
import type { Finding } from "../../src/reading/finding.js";

const error = (file: string, line: number, rule: string): Finding => ({
  ...{ file, line, rule, column: 1, severity: "error" },
  message: `${rule} in line ${line}.`,
});

test("causes come before what may follow from them: the library before a routine, a routine before its class, keys before counts", () => {
  const [class_, overlap, key, alone, library] = [
    error("content/workshops/eve.md", 3, "value"),
    error("content/routines/kerb.md", 9, "overlap"),
    error("content/routines/kerb.md", 20, "unknown-key"),
    error("content/routines/lamp.md", 12, "overlap"),
    error("content/library.yaml", 2, "value"),
  ];
  const { causes, consequences } = byCause([class_, overlap, key, alone, library] as Finding[]);
  // The counts of a file in which all else can be read are a cause of their own.
  expect(causes).toEqual([library, key, alone, class_]);
  expect(consequences).toEqual([overlap]);
  const page = mistakesPage({ findings: [overlap, key] as Finding[], sources: new Map() }, "routines/kerb/index.html");
  expect(page.indexOf("unknown-key in line 20")).toBeLessThan(page.indexOf("Look at these last"));
  expect(page.indexOf("Look at these last")).toBeLessThan(page.indexOf("overlap in line 9"));
});

test("a class that dances a broken routine waits for that one alone", () => {
  const file = (name: string, text: string) => ({
    file: `content/${name}.md`,
    slug: name.slice(-4),
    text,
    findings: [],
  });
  const files = {
    folder: "content",
    library: { ...file("library", ""), file: "content/library.yaml" },
    routines: ["kerb", "lamp"].map((slug) =>
      file(`routines/${slug}`, `---\ntitle: "The ${slug}" \ndate: 2026-10-02\n`),
    ),
    workshops: [file("workshops/noon", "---\ntitle: Noon\nminutes: 60\nroutines: [lamp]\n---\n")],
  };
  const [kerb, lamp] = [error("content/routines/kerb.md", 1, "value"), error("content/routines/lamp.md", 2, "value")];
  const own = new Map([
    ["routines/kerb", [kerb]],
    ["routines/lamp", [lamp]],
  ]);
  const { entries, errorsAt } = brokenIn(files, { routines: [], workshops: [] }, own);
  expect(errorsAt.get("workshops/noon")).toEqual([lamp]);
  expect(entries).toEqual([
    { kind: "routines", slug: "kerb", title: "The kerb", date: "2026-10-02", mistakes: 1, waitsFor: [] },
    { kind: "routines", slug: "lamp", title: "The lamp", date: "2026-10-02", mistakes: 1, waitsFor: [] },
    { kind: "workshops", slug: "noon", title: "Noon", mistakes: 0, waitsFor: ["The lamp"] },
  ]);
});

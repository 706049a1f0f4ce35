import { expect, test } from "vitest";
import type { ContentFiles, TextFile } from "../../src/reading/files.js";
import { readContentBy } from "../../src/reading/read-content.js";
import { readRoutineSource } from "../../src/reading/read-routine.js";
import { sample } from "./sample.js";

const file = (path: string, slug: string, text: string): TextFile => ({ file: path, slug, text, findings: [] });

/** Reads routines, each with the keys given, by their slugs. */
function read(routines: Readonly<Record<string, string>>) {
  const files: ContentFiles = {
    folder: "content",
    library: file("content/library.yaml", "library", "name: A\n"),
    routines: Object.entries(routines).map(([slug, head]) =>
      file(`${slug}.md`, slug, sample({ head }).replace("title: A", `title: ${slug}`)),
    ),
    workshops: [],
  };
  return readContentBy(files, async (some, library) =>
    some.map(({ text, slug }) => readRoutineSource(text, slug, library)),
  );
}

async function told(routines: Readonly<Record<string, string>>): Promise<readonly string[]> {
  const { findings } = await read(routines);
  return findings.flatMap((one) =>
    one.severity === "error" ? [`${one.file}:${one.line}:${one.column} ${one.message}`] : [],
  );
}

test("names that a routine had before are carried, one alone or several", async () => {
  const { routines } = await read({ tide: "formerly: [slack-water, ebb]\n", kerb: "formerly: kerbstone\n" });
  expect(routines.map(({ formerly }) => formerly)).toEqual([["slack-water", "ebb"], ["kerbstone"]]);
});

test.each<[string, Readonly<Record<string, string>>, string]>([
  ["no slug", { tide: "formerly: [Slack Water]\n" }, "tide.md:6:12 An entry of `formerly` must be the name of a file"],
  ["an address", { tide: "formerly: routines/ebb/\n" }, "Write `ebb`."],
  ["its own name", { tide: "formerly: [tide]\n" }, "tide.md:6:12 `tide` is what this routine is called now"],
  ["another's name", { kerb: "", tide: "formerly: [ebb, kerb]\n" }, "tide.md:6:17 `kerb` is what another routine is"],
  ["a name twice", { tide: "formerly: [ebb, ebb]\n" }, "tide.md:6:17 `ebb` stands here twice: keep one of the two."],
  [
    "a name that another had",
    { kerb: "formerly: ebb\n", tide: "formerly: [ebb]\n" },
    "tide.md:6:12 `kerb.md` was `ebb` before as well, and an old address leads to one page",
  ],
])("%s is an error", async (_, routines, message) => {
  const errors = await told(routines);
  expect(errors).toHaveLength(1);
  expect(errors[0]).toContain(message);
});

import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { formatFindings } from "../../src/reading/report.js";

/* Each file of the gallery has the mistake that its name says. What an author is told of it stands in `expected.txt`, to be
 * read by a person; here is, independent of any wording, on which lines something is said. */
const gallery = "tests/reading/gallery/content";
const content = await readContent(gallery);

const lines: Readonly<Record<string, readonly number[]>> = {
  "Name with Spaces": [1],
  "anchor-and-alias": [9, 10],
  "bold-at-the-start": [9, 10, 11, 12],
  "brace-not-closed": [9],
  "bracket-not-closed": [4],
  "code-in-front-matter": [1],
  "colon-in-braces": [9, 10],
  "colon-in-a-chapter": [9],
  "colon-in-a-cue": [9, 11],
  "comma-in-a-number": [5],
  "comma-in-braces": [9, 10],
  "count-out-of-the-phrase": [10],
  "counts-in-words": [5, 10, 11],
  "dash-without-a-space": [9],
  "entry-without-its-dash": [7],
  "first-dash-without-a-space": [9],
  "front-matter-without-an-end": [10],
  "heading-that-is-no-section": [14, 18],
  "key-missing": [1, 3],
  "key-that-does-not-exist": [4],
  "key-twice": [4],
  "key-without-a-value": [4, 11],
  "level-that-does-not-exist": [15, 16, 17],
  "line-not-far-enough-in": [10],
  "line-too-far-in": [10],
  "link-that-runs-code": [6, 10, 13],
  "list-in-braces": [9, 10],
  "list-without-dashes": [7],
  "misspelt-key": [3, 11],
  "no-colon": [3],
  "no-front-matter": [1],
  "no-space-after-a-colon": [2, 9],
  "no-space-after-the-only-colon": [5],
  notepad: [1],
  "numbers-beyond-reason": [4, 6, 12],
  "options-in-an-option": [14],
  "other-front-matter": [1],
  "overlapping-counts": [10],
  "pasted-dashes": [9, 10],
  "pasted-quotes": [9, 10, 11],
  "pasted-spaces": [6, 10],
  "phrase-below-one-without-a-dash": [9],
  "phrase-without-a-dash": [11],
  "quote-closed-too-early": [9, 10, 11],
  "same-count-twice": [10],
  "same-title": [2],
  "saved-as-utf-16": [1],
  "saved-in-an-older-way": [3],
  "sections-by-their-names": [7],
  "sections-without-dashes": [7, 11],
  "several-at-once": [3, 5, 9, 10, 12],
  "tab-before-a-key": [5],
  "tempo-forms": [5],
  "text-after-a-hash": [9, 10, 11],
  "text-where-a-number-belongs": [4, 6, 7, 8],
  "too-deep": [6],
  "two-documents": [11],
  "unclosed-quote": [9],
  "version-names": [6],
  "version-names-that-mean-something": [6],
  "wrong-clock-time": [6, 8, 11, 12],
  "wrong-date": [4],
  "words-of-the-trade": [11, 12, 13, 16, 17, 18],
  "wrong-turn": [11, 14, 17, 20],
  "wrong-word": [11, 12, 13, 14],
};

test.each(Object.entries(lines))("%s is found on its lines", (name, expected) => {
  const found = content.findings.filter(({ file }) => file.startsWith(`${gallery}/routines/${name}.`));
  const grave = found.filter(({ rule, severity }) => severity !== "note" || rule === "heading");
  expect([...new Set(grave.map(({ line }) => line))]).toEqual(expected);
});

test("every file of the gallery is in the table", () => {
  const names = readdirSync(`${gallery}/routines`).map((name) => name.replace(/\.md(\.txt)?$/, ""));
  expect(names.sort()).toEqual(Object.keys(lines).sort());
});

test("one mistake is one finding", () => {
  for (const [name, expected] of Object.entries(lines)) {
    const errors = content.findings.filter(
      ({ file, severity }) => file.endsWith(`/${name}.md`) && severity === "error",
    );
    const most = name.startsWith("version-names") || name === "tempo-forms" ? 2 : expected.length;
    expect(errors.length, name).toBeLessThanOrEqual(most);
  }
});

test("what an author is told", async () => {
  const told = formatFindings(content.findings, content.sources).replaceAll(gallery, "content");
  await expect(told).toMatchFileSnapshot("gallery/expected.txt");
});

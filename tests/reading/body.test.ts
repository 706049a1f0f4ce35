import fc from "fast-check";
import { expect, test } from "vitest";
import { readBody } from "../../src/reading/body.js";
import { runs } from "../runs.js";

const sections = ["Harbour wall", "Tag", "C# & the *sea*"];
const read = (markdown: string) => readBody(markdown, sections, 10);

test("prose before the first heading, notes by section, the rest after the counts", () => {
  const { prose, findings } = read(
    "Intro\n\n### Small\n\nx\n\n## Tag\n\nA\n\n### Inside\n\nB\n\n## History\n\nOld\n\n# Big\n\nEnd\n",
  );
  expect(prose).toEqual({
    introduction: "Intro",
    notes: [{ section: "Tag", markdown: "A\n\n### Inside\n\nB" }],
    after: "### Small\n\nx\n\n## History\n\nOld\n\n# Big\n\nEnd",
  });
  expect(findings).toEqual([]);
});

test("a heading in a code block is none; an underlined one is one", () => {
  const { prose } = read("```\n## Tag\n```\n\nHarbour wall\n---\nNote");
  expect(prose.introduction).toBe("```\n## Tag\n```");
  expect(prose.notes).toEqual([{ section: "Harbour wall", markdown: "Note" }]);
});

test("a heading is compared by what a reader sees", () => {
  expect(read("## **Harbour** wall ##\nA").prose.notes).toEqual([{ section: "Harbour wall", markdown: "A" }]);
  expect(read("## C# &amp; the \\*sea\\*\nA").prose.notes).toEqual([{ section: "C# & the *sea*", markdown: "A" }]);
});

test("two notes of one section are one", () => {
  expect(read("## Tag\nA\n\n## Harbour wall\nB\n\n## Tag\nC").prose.notes).toEqual([
    { section: "Tag", markdown: "A\n\nC" },
    { section: "Harbour wall", markdown: "B" },
  ]);
});

test("a heading in other letters is taken, one that is nearly right is warned of", () => {
  const { prose, findings } = read("## TAG\nA\n\n## Harbor wall\nB");
  expect(prose.notes).toEqual([{ section: "Tag", markdown: "A" }]);
  expect(prose.after).toBe("## Harbor wall\nB");
  expect(findings.map(({ severity, line }) => [severity, line])).toEqual([
    ["note", 10],
    ["warning", 13],
  ]);
});

test("link definitions are known in every part that uses them, and in no other", () => {
  const { prose } = read("See [a][Ref].\n\n## Tag\nSee [ref].\n\n## Harbour wall\nNone\n\n[ref]: https://e.example\n");
  expect(prose.introduction).toBe("See [a][Ref].\n\n[ref]: https://e.example");
  expect(prose.notes).toEqual([
    { section: "Tag", markdown: "See [ref].\n\n[ref]: https://e.example" },
    { section: "Harbour wall", markdown: "None" },
  ]);
});

test("unsafe links are warned of where they stand", () => {
  const { findings } = read(
    "One\n[x](https://e.example) and [y](javascript:1)\n\n## Tag\n\n> ![z](data:a)\n\n[r]: file:///x\n",
  );
  expect(findings.map(({ rule, line, column }) => [rule, line, column])).toEqual([
    ["link", 11, 28],
    ["link", 15, 3],
    ["link", 17, 1],
  ]);
});

test("nothing is lost and every finding has a line of the body", () => {
  const piece = fc.constantFrom(
    "## Tag\n",
    "## Harbour wall\n",
    "# A\n",
    "text\n",
    "\n",
    "- a\n",
    "    b\n",
    "> q\n",
    "```\n",
    "---\n",
    "[a](b:c)\n",
    "| a |\n|---|\n",
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
      const markdown = pieces.join("");
      const { prose, findings } = read(markdown);
      const all = [prose.introduction, ...prose.notes.map((note) => note.markdown), prose.after].join("\n");
      const words = (text: string) => (text.match(/text|q|\[a\]/g) ?? []).length;
      expect(words(all)).toBe(words(markdown));
      for (const { line } of findings) expect(line >= 10 && line <= 10 + markdown.split("\n").length).toBe(true);
    }),
    { numRuns: runs(300) },
  );
});

test("prose that would take too long is refused", () => {
  const rule = (markdown: string) => read(markdown).findings[0]?.rule;
  expect(rule(`${"word ".repeat(30)}\n\n`.repeat(2000))).toBe("too-much");
  expect(rule("a_b".repeat(4000))).toBe("too-much");
  expect(rule(`${"> ".repeat(500)}x`)).toBe("too-much");
  expect(rule(`${"- ".repeat(500)}x`)).toBe("too-much");
  expect(rule("* ".repeat(60))).toBeUndefined();
});

import { expect, test } from "vitest";
import type { Finding } from "../../src/reading/finding.js";
import { formatFindings, gravestFirst, limited } from "../../src/reading/report.js";

const finding = (parts: Partial<Finding>): Finding => ({
  file: "a.md",
  severity: "error",
  rule: "value",
  message: "Wrong.",
  line: 1,
  column: 1,
  ...parts,
});
const format = (parts: Partial<Finding>, text: string) => formatFindings([finding(parts)], new Map([["a.md", text]]));

test("place, message, line and caret", () => {
  expect(format({ line: 2, column: 3 }, "one\n  two\n")).toBe("a.md:2:3  Wrong.\n  2 |   two\n    |   ^\n");
});

test("what is no error says so, with the rule to silence", () => {
  expect(format({ severity: "warning", rule: "same-foot" }, "x")).toMatch(
    /^a\.md:1:1 {2}warning: Wrong\. \(same-foot\)\n/,
  );
});

test("a file without a text, a line that is not there, an empty line", () => {
  expect(formatFindings([finding({})], new Map())).toBe("a.md:1:1  Wrong.\n");
  expect(format({ line: 9 }, "one")).toBe("a.md:9:1  Wrong.\n");
  expect(format({ line: 2 }, "one\n\nthree")).toBe("a.md:2:1  Wrong.\n");
});

test("of a long line a stretch is shown, the caret under its column", () => {
  const [, shown = "", caret = ""] = format({ column: 501 }, `${"a".repeat(500)}X${"b".repeat(500)}`).split("\n");
  expect(shown.length).toBeLessThan(120);
  expect(shown[caret.indexOf("^")]).toBe("X");
});

test("the caret stands under letters of any kind", () => {
  const [, shown = "", caret = ""] = format({ column: 8 }, "e\u0301😀 \té: X").split("\n");
  expect([...shown.replace(/\p{M}/gu, "")][caret.indexOf("^")]).toBe(":");
});

test("nothing in a file or its name writes over the terminal", () => {
  const text = formatFindings(
    [finding({ file: "\u001b[2Ja.md", message: "`\u001b]0;x\u0007\u202e`" })],
    new Map([["\u001b[2Ja.md", "\u001b[31mred\r\u009b1m"]]),
  );
  expect(text.replaceAll("\n", "")).not.toMatch(/\p{Cc}|\u202e/u);
});

test("a hundred thousand findings are two hundred and one, and no error is among the missing", () => {
  const notes = Array.from({ length: 100_000 }, (_, index) => finding({ severity: "note", line: index + 1 }));
  const kept = limited([...notes, finding({ line: 100_001 })]);
  expect(kept.length).toBe(201);
  expect(kept.filter(({ severity, rule }) => severity === "error" && rule === "value").length).toBe(1);
  expect(kept.at(-1)?.message).toContain("99801 more");
});

test("what stands in the way comes before what there is to look at, each in its order", () => {
  const finding = (line: number, severity: "error" | "warning") => ({
    line,
    column: 1,
    severity,
    rule: "r",
    message: "m",
  });
  const mixed = [finding(1, "warning"), finding(2, "error"), finding(3, "warning"), finding(4, "error")];
  expect(gravestFirst(mixed).map(({ line }) => line)).toEqual([2, 4, 1, 3]);
});

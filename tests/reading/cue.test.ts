import fc from "fast-check";
import { marked } from "marked";
import { expect, test } from "vitest";
import { inlineCue, isHold } from "../../src/reading/cue.js";
import { runs } from "../runs.js";

const marked1 = (text: string) => {
  const { text: plain, marks } = inlineCue(text);
  return [plain, ...marks.map(({ kind, from, to, href }) => [kind, plain.slice(from, to), ...(href ? [href] : [])])];
};

test.each<[string, unknown[]]>([
  ["Lean into the wall", ["Lean into the wall"]],
  ["**Drop** to the floor", ["Drop to the floor", ["strong", "Drop"]]],
  [
    "Go **low and *lower* still**",
    ["Go low and lower still", ["strong", "low and lower still"], ["emphasis", "lower"]],
  ],
  ["~~Jump~~ step", ["Jump step", ["struck", "Jump"]]],
  ["Stage `left` on your right", ["Stage left on your right", ["fixed", "left"]]],
  ["[Watch](https://e.example/a)", ["Watch", ["link", "Watch", "https://e.example/a"]]],
  ["See <https://e.example/a>", ["See https://e.example/a", ["link", "https://e.example/a", "https://e.example/a"]]],
  ["Press \\*hard\\*", ["Press *hard*"]],
  ["Rock &amp; roll &frac14; &#9829; &nothing;", ["Rock & roll ¼ ♥ &nothing;"]],
  ["A <b onclick=x>bold</b> move & 1 < 2", ["A <b onclick=x>bold</b> move & 1 < 2"]],
  ["![a wall](wall.png) ahead", ["a wall ahead"]],
  ["One\n  two  \nthree", ["One two three"]],
  ["# not a heading", ["# not a heading"]],
])("%s", (markdown, expected) => {
  expect(marked1(markdown)).toEqual(expected);
});

test.each([
  "javascript:alert(1)",
  "JaVaScRiPt:alert(1)",
  "javascript&colon;alert(1)",
  "&#106;avascript:alert(1)",
  "data:text/html,x",
  "vbscript:x",
  "file:///etc/passwd",
  "//elsewhere.example/x",
  "\\\\elsewhere.example",
  "http://",
])("a link to %s is its text alone", (href) => {
  const heard: string[] = [];
  const { text, marks } = inlineCue(`[go](<${href}>) on`, (found) => heard.push(found));
  expect([text, marks, heard.length]).toEqual(["go on", [], 1]);
});

test.each(["https://e.example", "HTTP://e.example/?a=b#c", "mailto:a@e.example", "/about/", "../x.html", "x", "#top"])(
  "a link to %s stays",
  (href) => {
    expect(inlineCue(`[go](${href})`).marks).toEqual([{ kind: "link", from: 0, to: 2, href }]);
  },
);

test("hold alone is a hold, whatever its case", () => {
  expect(["hold", "Hold", " HOLD ", "**hold**"].map((text) => isHold(inlineCue(text)))).toEqual([
    true,
    true,
    true,
    true,
  ]);
  expect(["hold on", "household", "hold."].map((text) => isHold(inlineCue(text)))).toEqual([false, false, false]);
});

/* marked's own renderer is the second opinion on what a reader sees. */
test("a reader sees what marked renders", () => {
  const piece = fc.constantFrom(
    "left",
    "**",
    "*",
    "_",
    "`",
    "~~",
    " ",
    "[a](b)",
    "\\*",
    "&amp;",
    "1 < 2",
    "é",
    "–",
    "(",
    "]",
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      const text = pieces.join("").replace(/\s+/g, " ").trim();
      const html = marked.parseInline(text, { async: false });
      const seen = html
        .replace(/<[^>]+>/g, "")
        .replaceAll("&lt;", "<")
        .replaceAll("&gt;", ">")
        .replaceAll("&quot;", '"')
        .replaceAll("&#39;", "'")
        .replaceAll("&amp;", "&");
      expect(inlineCue(text).text).toBe(seen);
    }),
    { numRuns: runs(500) },
  );
});

test("marks lie within the text, and within or beside each other", () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 60 }), (markdown) => {
      const { text, marks } = inlineCue(markdown);
      for (const [index, mark] of marks.entries()) {
        expect(mark.from >= 0 && mark.from < mark.to && mark.to <= text.length).toBe(true);
        for (const other of marks.slice(index + 1)) {
          const inside = other.from >= mark.from && other.to <= mark.to;
          expect(inside || other.from >= mark.to).toBe(true);
        }
      }
    }),
  );
});

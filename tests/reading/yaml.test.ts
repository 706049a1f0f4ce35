import { describe, expect, test } from "vitest";
import { keyNames } from "../../src/reading/schema/keys.js";
import { routineSchema } from "../../src/reading/schema/routine.js";
import { readYaml } from "../../src/reading/yaml.js";

const read = (text: string) => readYaml(text, keyNames(routineSchema));

const rules = (text: string) => read(text).findings.map(({ rule, line, column }) => `${line}:${column} ${rule}`);

describe("keys and texts are read as they were written", () => {
  test("nothing is resolved", () => {
    const text = '1: yes\n"2": 3e-4\n3e-4: ~\n4: 0x10\n5: 2026-10-02\n6: null\n7: 012\n8: .inf\n';
    expect(read(text).value).toEqual({
      1: "yes",
      2: "3e-4",
      "3e-4": "~",
      4: "0x10",
      5: "2026-10-02",
      6: "null",
      7: "012",
      8: ".inf",
    });
  });

  test('`1` and `"1"` are one key', () => expect(rules('1: a\n"1": b\n')).toEqual(["2:1 key-twice"]));

  test("block texts are read", () =>
    expect(read("a: >-\n  b\n  c\nd: |\n  e\n").value).toEqual({ a: "b c", d: "e\n" }));

  test("keys of objects are keys like any other, but one", () => {
    expect(read("constructor: a\ntoString: b\n").value).toEqual({ constructor: "a", toString: "b" });
    expect(rules("__proto__: a\n")).toEqual(["1:1 unknown-key"]);
    expect(({} as Record<string, unknown>).a).toBeUndefined();
  });
});

describe("what YAML would swallow", () => {
  test.each([
    ["{ do: Walk, left foot }", "no-value"],
    ["{ left foot }", "no-value"],
    ["{ do: , step: left }", "no-value"],
  ])("a key without a value: %s", (flow, rule) =>
    expect(rules(`a: ${flow}\n`).map((each) => each.split(" ")[1])).toEqual([rule]),
  );

  test("a key with nothing after it, a list entry with nothing in it", () => {
    expect(rules("a:\nb: 1\nc:\n  - x\n  -\n  - y\n")).toEqual(["1:1 no-value", "5:4 no-value"]);
  });

  test("remarks apart from a text are remarks; close to it they may be meant", () => {
    expect(rules("title: X    # required\nsay: Y  # aloud\n# alone\ntempo: 92 # fast\n")).toEqual([]);
    expect(rules("title: Mark #2\n")).toEqual(["1:13 comment"]);
    expect(rules("do: Clap # loud\n")).toEqual(["1:10 comment"]);
    expect(rules("do: Clap   #loud\n")).toEqual(["1:12 comment"]);
    expect(rules('do: "Clap" # loud\n1-4: "Mark #2"\n')).toEqual([]);
    expect(rules("1-4: Walk #2\noptions:\n  seated: Nod #2\nchoose:\n  - Arms #2\n").length).toBe(3);
  });
});

describe("nothing beside plain YAML", () => {
  test("anchors, aliases, tags and merges are refused, and no bomb goes off", () => {
    const bomb = [
      "a: &a [x, x]",
      ...Array.from({ length: 30 }, (_, i) => `b${i}: &b${i} [*${i ? `b${i - 1}` : "a"}, *${i ? `b${i - 1}` : "a"}]`),
    ];
    const { findings } = read(bomb.join("\n"));
    expect(findings.length).toBe(31);
    expect(new Set(findings.map(({ rule }) => rule))).toEqual(new Set(["special-start"]));
    expect(rules("a: !!int 1\nb: !x 2\n<<: { c: 1 }\n")).toEqual([
      "1:10 special-start",
      "2:7 special-start",
      "3:1 unknown-key",
    ]);
  });

  test("a tag that changes nothing is let be", () => expect(read("a: !!str 1\n").value).toEqual({ a: "1" }));

  test("a second document", () => expect(rules("a: 1\n...\nb: 2\n").length).toBe(1));

  test("characters that no page can show", () => {
    expect(rules('a: "x\\u0007"\n"b\\0": y\nc: "\\uD800"\n').map((each) => each.split(" ")[1])).toEqual([
      "unprintable",
      "unknown-key",
      "unprintable",
    ]);
  });
});

test("a place that does not exist is the nearest around it", () => {
  const front = read("a: 1\nsections:\n  - name: X\n    counts:\n      - 1-3: Walk\n");
  expect(front.locate("/sections/0/counts/0/1-3/do", "value")).toEqual({ line: 5, column: 14 });
  expect(front.locate("/sections/0/counts/0/1-3", "value")).toEqual({ line: 5, column: 14 });
  expect(front.locate("/sections/0/counts/0")).toEqual({ line: 5, column: 9 });
  expect(front.locate("/sections/0/same-as")).toEqual({ line: 3, column: 5 });
  expect(front.locate("/nothing")).toEqual({ line: 1, column: 1 });
});

test("a second mistake in a line that the first one moved is placed in the line as it was written", () => {
  const verse =
    "sections:\n  - name: Verse\n    counts:\n      1-4: Walk back\n      5ack\n      5-8: hold\n      - 1-8: Turn\n";
  const found = read(verse).findings.map(({ line, column }) => [line, column]);
  expect(found).toContainEqual([5, "      5ack".length + 1]);
});

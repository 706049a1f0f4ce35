import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/reading/finding.js";
import { readContent } from "../../src/reading/read-content.js";
import { readRoutine } from "../../src/reading/read-routine.js";

const content = resolve(import.meta.dirname, "../../content");
const { library, findings } = await readContent(content);

interface Mistake {
  readonly file: string;
  readonly rule: string;
  /** Stands once in the file. */
  readonly find: string;
  readonly put: string;
  /** Which line of `put` the finding is at, from 0. */
  readonly line: number;
}

const floor = "breakwater-letters";
const line = "fourpenny-gate";

/* The mistakes that a choreographer makes, one at a time, in a copy of the demo library. */
const mistakes: readonly Mistake[] = [
  {
    file: floor,
    rule: "same-foot",
    find: "          do: Wide step right, arms trailing\n          step: right",
    put: "          do: Wide step right, arms trailing\n          step: [right, right]",
    line: -1,
  },
  {
    file: line,
    rule: "same-foot",
    find: "          do: Cross the left foot over\n          step: left\n        8:",
    put: "          do: Cross the left foot over\n        8:\n          step: right",
    line: 1,
  },
  {
    file: line,
    rule: "left-right",
    find: "          do: Step left forward\n          step: left",
    put: "          do: Step right forward\n          step: left",
    line: -1,
  },
  {
    file: line,
    rule: "left-right",
    find: "          do: Pivot a quarter right onto the right foot\n",
    put: "          do: Pivot a quarter left onto the right foot\n",
    line: -1,
  },
  {
    file: floor,
    rule: "rushed",
    find: "        7:\n          do: Quarter turn left onto the left foot\n          turn: 1/4 left",
    put: "        7:\n          do: Turns to the left onto the left foot\n          turn: 2 1/4 left",
    line: 0,
  },
  {
    file: floor,
    rule: "rushed",
    find: "        7: Forearms cross at the chest",
    put: "        7&: { do: Kneel, height: kneeling, options: { seated: Fold } }",
    line: 0,
  },
  {
    file: floor,
    rule: "elsewhere",
    find: "              turn: 1 1/4 left\n              facing: front",
    put: "              turn: 1 1/2 left",
    line: -2,
  },
  {
    file: floor,
    rule: "elsewhere",
    find: "              do: Sink over the right leg, right hand on the thigh\n              height: crouching",
    put: "              do: Bend over the right leg, right hand on the thigh",
    line: -1,
  },
  {
    file: line,
    rule: "danced-again",
    find: "start: { facing: front, weight: left, height: standing }",
    put: "start: { facing: front, weight: right, height: standing }",
    line: Number.NaN,
  },
  {
    file: floor,
    rule: "missing-key",
    find: "        7: Forearms cross at the chest",
    put: "        7: Jump and gather the forearms over the chest",
    line: 0,
  },
  {
    file: floor,
    rule: "missing-key",
    find: "          do: Wide step right, arms trailing\n",
    put: "          do: Drop to the right, arms trailing\n",
    line: -1,
  },
  {
    file: floor,
    rule: "missing-key",
    find: "              do: Roll back over the left shoulder to both knees\n              height: kneeling\n              through: inverted\n              weight: knees\n              contacts: [shoulders, hands, knees]\n              risk: [inversion, kneework]",
    put: "              do: Handstand, then both knees\n              height: kneeling\n              weight: knees\n              contacts: [hands, knees]",
    line: -1,
  },
  {
    file: floor,
    rule: "empty-counts",
    find: "        7: Forearms cross at the chest\n",
    put: "",
    line: Number.NaN,
  },
  {
    file: floor,
    rule: "accent-without-hit",
    find: '          do: "Hollow, fists to the ribs"\n          hit: true',
    put: '          do: "Hollow, fists to the ribs"',
    line: Number.NaN,
  },
  {
    file: line,
    rule: "landing-words",
    find: "    words: lean on the latch and let it swing",
    put: "    words: lean on the latch and let it swing until the whole gate sings",
    line: 0,
  },
  {
    file: floor,
    rule: "left-alone",
    find: "        7: Forearms cross at the chest",
    put: "        7: Gather at the right height",
    line: 0,
  },
  {
    file: floor,
    rule: "no-easy-option",
    find: '          do: "Close right, fists to the chest"\n          step: right\n          hit: true',
    put: '          do: "Jump to close right, fists to the chest"\n          step: right\n          risk: [jump]\n          hit: true',
    line: -1,
  },
  {
    file: floor,
    rule: "gear-not-listed",
    find: "          do: Wide step right, arms trailing\n          step: right",
    put: "          do: Wide step right, arms trailing\n          gear: [lantern]\n          step: right",
    line: -1,
  },
  {
    file: floor,
    rule: "overlap",
    find: "        7: Forearms cross at the chest",
    put: "        6-7: Forearms cross at the chest",
    line: 0,
  },
  {
    file: line,
    rule: "walls",
    find: "walls: 4",
    put: "walls: 3",
    line: 0,
  },
  {
    file: floor,
    rule: "chapter-times",
    find: "    - 1:10 Inhale and Along the wall, counts and words",
    put: "    - 0:05 Inhale and Along the wall, counts and words",
    line: -1,
  },
  {
    file: floor,
    rule: "adaptation",
    find: "          options:\n            seated: Set the left foot down\n",
    put: "",
    line: Number.NaN,
  },
  {
    file: floor,
    rule: "at",
    find: "    at: 0:46.2",
    put: "    at: 0:44",
    line: 0,
  },
];

function check(file: string, text: string): readonly Finding[] {
  return readRoutine(text, file, library).findings;
}

const key = ({ rule, line: at, message }: Finding) => `${rule} ${at} ${message}`;

describe("the demo library", () => {
  it("has no error and no warning", () => {
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
  });

  it("has at least five routines", () => {
    expect(readdirSync(join(content, "routines")).length).toBeGreaterThanOrEqual(5);
  });
});

describe("a mistake planted in a copy of the demo library", () => {
  it.each(mistakes.map((mistake) => [`${mistake.rule}: ${mistake.put.trim().split("\n")[0]}`, mistake] as const))(
    "is found at its line: %s",
    (_, mistake) => {
      const text = readFileSync(join(content, "routines", `${mistake.file}.md`), "utf8");
      expect(text.split(mistake.find).length, "stands once").toBe(2);
      const at = text.slice(0, text.indexOf(mistake.find)).split("\n").length;
      const before = new Set(check(mistake.file, text).map(key));
      const fresh = check(
        mistake.file,
        text.replace(mistake.find, () => mistake.put),
      ).filter((one) => !before.has(key(one)));
      const lines = fresh.filter(({ rule }) => rule === mistake.rule).map((one) => one.line);
      if (Number.isNaN(mistake.line)) expect(lines.length).toBeGreaterThan(0);
      else expect(lines).toContain(at + mistake.line);
    },
  );
});

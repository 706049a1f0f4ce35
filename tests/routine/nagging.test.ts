import { describe, expect, it } from "vitest";
import { remarks } from "../fixtures/from-yaml.js";

describe("accents that nothing hits on", () => {
  const yaml = (allow = "") => `music: { tempo: 100, accents: [4] }
sections:
  - name: Wall
    counts:
      - 1-8: Walk
      - 1-3: Walk
        4: { do: Stamp, hit: yes }
        5-8: Walk
      - 1-8: { do: Walk on${allow} }
  - name: Tag
    counts: [{ 1-4: Stop, length: 4 }]`;

  it("are one note of all of them", () => {
    expect(remarks(yaml(), "accent-without-hit")).toEqual([
      expect.stringMatching(
        /^note .*Accents without a hit, in 3 phrases: count 4 in phrases 1, 3 of Wall; count 4 in phrase 1 of Tag; write/,
      ),
    ]);
  });

  it("are told by their counts, where others of the phrase have a hit", () => {
    const counts = (hit: number) =>
      `      - 1-3: Walk\n        4: { do: Stamp${hit === 4 ? ", hit: yes" : ""} }\n        5-7: Walk\n        8: { do: Clap${hit === 8 ? ", hit: yes" : ""} }\n`;
    const both = `music: { tempo: 100, accents: [4, 8] }\nsections:\n  - name: Wall\n    counts:\n${counts(4)}${counts(8)}${counts(0)}`;
    expect(remarks(both, "accent-without-hit").join()).toContain(
      "in 3 phrases: count 8 in phrase 1 of Wall; count 4 in phrase 2 of Wall; counts 4, 8 in phrase 3 of Wall; write",
    );
  });

  it("leave out what its author allowed", () => {
    expect(remarks(yaml(", allow: accent-without-hit"), "accent-without-hit").join()).toContain(
      "in 2 phrases: count 4 in phrase 1",
    );
  });
});

describe("a version that ends elsewhere", () => {
  const head = "levels: [1, 2]\ntaught: 2\nadaptations: [on-the-floor]\nsections:\n  - name: A\n    counts:\n";

  it("at the last move keeps nothing from being danced", () => {
    const last = "7-8: { do: Half turn, turn: 1/2 right, options: { 1: Pose } }";
    expect(remarks(`${head}      - 1-6: Walk\n        ${last}`, "elsewhere")).toEqual([]);
    expect(remarks(`${head}      - ${last}\n      - 1-8: Walk`, "elsewhere").join()).toContain("never meet again");
  });

  it("is let be where an adaptation goes down and means to stay there", () => {
    const down = "1-4: { do: Reach up, options: { on-the-floor: { do: Sit down, height: seated, weight: seat } } }";
    expect(remarks(`${head}      - ${down}\n        5-8: Look round`, "elsewhere")).toEqual([]);
    // An easier level that goes down and never comes up has most likely forgotten to.
    expect(
      remarks(`${head}      - ${down.replace("on-the-floor", "1")}\n        5-8: Look round`, "elsewhere"),
    ).not.toEqual([]);
  });
});

describe("a step onto the foot that has the weight", () => {
  const wall = (more: string) => `sections:
  - name: Wall
    counts:
      - 1-4: { do: Step left, step: left }
        5-8: { do: Step right and left, step: [right, left] }
${more}`;

  it("is said of the repeat that causes it", () => {
    expect(remarks(wall("    repeat: 2"), "same-foot")).toEqual([
      expect.stringMatching(/^warning 10: Where Wall is danced again \(pass 2\), `1-4` steps onto the left foot/),
    ]);
    expect(remarks(wall("  - { name: Again, same-as: Wall }"), "same-foot")).toEqual([
      expect.stringMatching(/^warning 10: Where Again dances Wall, `1-4`/),
    ]);
    expect(remarks(`times: 2\n${wall("")}`, "same-foot")).toEqual([
      expect.stringMatching(/^warning 5: Where Wall is danced again \(time 2 through\)/),
    ]);
  });

  it("is silenced at the move all the same", () => {
    const allowed = wall("    repeat: 2").replace("step: left }", "step: left, allow: same-foot }");
    expect(remarks(allowed, "same-foot")).toEqual([]);
  });
});

it("a section that dances another's counts for the first time is not called danced again", () => {
  const wick = "sections:\n  - name: Wick\n    counts: [{ 1-8: { do: Sink, height: lying } }]\n";
  const said = (more: string) => remarks(`${wick}${more}`, "danced-again").join();
  expect(said("  - { name: Wick again, same-as: Wick }\n")).toMatch(
    /Wick again dances Wick, starting lying, but it was written to start standing/,
  );
  expect(said("    repeat: 2\n")).toContain("Wick is danced again (time 1, pass 2) starting lying");
});

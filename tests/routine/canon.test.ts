import { describe, expect, it } from "vitest";
import { dancersOf } from "../../src/routine/chart.js";
import { fromYaml, remarks } from "../fixtures/from-yaml.js";

const canon = (counts: string, canon = "{ Flood: 4 }") => `groups: [Ebb, Flood]
sections:
  - name: Wall
    canon: ${canon}
    counts:
${counts}
  - name: After
    counts: [{ 1-8: Walk }]`;

/** Counts of the section, and where the second group's moves begin and end in it. */
function danced(yaml: string) {
  const routine = fromYaml(yaml);
  const [version] = routine.versions;
  const moves = version === undefined ? [] : (dancersOf(routine, version)[1]?.moves ?? []);
  return {
    counts: routine.sections[0]?.counts,
    flood: moves.map(({ at, length, cue }) => `${at.valueOf()}+${length.valueOf()} ${cue.text}`),
  };
}

describe("a canon", () => {
  it("does not lengthen a section by holds at its end", () => {
    const held = canon("      - 1-4: Walk\n        5-8: hold");
    expect(danced(held)).toEqual({ counts: 8, flood: ["4+4 Walk", "8+8 Walk"] });
    expect(remarks(held, "canon-grows")).toEqual([]);
    // Nothing written is a hold too, and part of one may be cut.
    expect(danced(canon("      - 1-4: Walk")).counts).toBe(8);
    expect(danced(canon("      - 1-2: Walk\n        3-8: hold"))).toEqual({
      ...{ counts: 8, flood: ["4+2 Walk", "6+2 hold", "8+8 Walk"] },
    });
  });

  it("lengthens it by what is still danced, with a note", () => {
    const grown = canon("      - 1-6: Walk\n        7-8: hold");
    expect(danced(grown)).toEqual({ counts: 10, flood: ["4+6 Walk", "10+8 Walk"] });
    expect(remarks(grown, "canon-grows")).toEqual([
      expect.stringMatching(/^note 8: Canon makes Wall 2 counts longer: 10 in place of 8/),
    ]);
    expect(danced(canon("      - 1-8: Walk")).counts).toBe(12);
  });

  it("cuts whole phrases of holds, and none that another version dances or a move runs into", () => {
    const two = "      - 1-8: Walk\n      - 1-8: hold";
    expect(danced(canon(two, "{ Flood: 8 }")).counts).toBe(16);
    expect(danced(canon(two, "{ Flood: 12 }")).counts).toBe(20);
    expect(danced(canon("      - 1-6: Walk\n        7-2: Run\n      - 3-8: hold", "{ Flood: 8 }")).counts).toBe(18);
    const option = canon("      - 1-4: Walk\n        5-8: { do: hold, options: { seated: Nod } }");
    expect(danced(`adaptations: [seated]\n${option}`).counts).toBe(12);
  });
});

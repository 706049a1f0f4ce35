import { describe, expect, it } from "vitest";
import { routineJson } from "../../src/publishing/routine-json.js";
import { fromYaml, readYaml, remarks } from "../fixtures/from-yaml.js";
import { library } from "../fixtures/written.js";

const yaml = (pauses: string) => `music: { tempo: 100, accents: [6]${pauses} }
sections:
  - name: Wall
    counts:
      - 1-5: Walk
        7-8: Turn in`;

describe("pauses", () => {
  it("are counts on which nobody has forgotten anything", () => {
    expect(remarks(yaml(""), "empty-counts").join()).toContain("6: nothing is written");
    expect(remarks(yaml(", pauses: [6]"), "empty-counts")).toEqual([]);
    expect(remarks(yaml(", pauses: [7]"), "empty-counts")).toHaveLength(1);
  });

  it("take no note of accents", () => {
    expect(remarks(yaml(""), "accent-without-hit")).toHaveLength(1);
    expect(remarks(yaml(", pauses: 6"), "accent-without-hit")).toEqual([]);
  });

  it("stand in the record, and only where there are any", () => {
    expect(routineJson(fromYaml(yaml(", pauses: 6")), library, []).music.pauses).toEqual([6]);
    expect(routineJson(fromYaml(yaml("")), library, []).music.pauses).toBeUndefined();
  });

  it("lie on a count of a phrase", () => {
    expect(
      readYaml(yaml(", pauses: [9]"))
        .findings.map(({ message }) => message)
        .join(),
    ).toContain("write counts from 1 to 8");
  });
});

import { describe, expect, it } from "vitest";
import { readRoutine } from "../../src/reading/read-routine.js";
import { rules } from "../../src/routine/checks/check.js";
import { library as plain } from "../fixtures/arbitrary.js";

const library = { ...plain, credit: "Choreography by Ines Varga" };

function rulesFound(yaml: string): readonly string[] {
  const music = yaml.includes("music:") ? "" : "music: { tempo: 120 }\n";
  const { routine, findings } = readRoutine(
    `---\ntitle: Test\nchoreographer: Nobody\n${music}${yaml}---\n`,
    "test",
    library,
  );
  expect(routine, findings.map(({ message }) => message).join("\n")).toBeDefined();
  return findings.map(({ rule }) => rule);
}

describe("every rule", () => {
  it.each(rules.map((rule) => [rule.name, rule] as const))(
    "%s finds its bad example and passes its good one",
    (name, rule) => {
      expect(rulesFound(rule.bad)).toContain(name);
      expect(rulesFound(rule.good)).not.toContain(name);
    },
  );

  it.each(rules.map((rule) => [rule.name, rule] as const))("%s says why in whole sentences", (_, rule) => {
    expect(rule.why).toMatch(/[.)]$/);
    expect(rule.name).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
});

it("a draft is not told that its counts are not filled yet", () => {
  const yaml = "music: { tempo: 100, accents: [4] }\nsections:\n  - { name: A, counts: [{ 1-3: Walk, 5: Walk }] }\n";
  expect(rulesFound(yaml)).toEqual(expect.arrayContaining(["empty-counts", "accent-without-hit"]));
  expect(rulesFound(`draft: yes\ndoubt: all of it\n${yaml}`)).toEqual(["credit", "doubt"]);
});

describe("allow", () => {
  const yaml = (allow: string) =>
    `sections:\n  - name: A\n    counts:\n      - 1-7: { do: Step left, step: left }\n        8: { do: Step left, step: left${allow} }\n`;

  it("silences a rule for one move, and is itself checked", () => {
    expect(rulesFound(yaml(""))).toContain("same-foot");
    expect(rulesFound(yaml(", allow: [same-foot]"))).not.toContain("same-foot");
    expect(rulesFound(yaml(", allow: [same-feet]"))).toEqual(expect.arrayContaining(["same-foot", "allow"]));
  });
});

describe("cues that teachers write and that are no fault", () => {
  const harmless = [
    "Turn the head to the right",
    "Turn out both feet",
    "Drop the left shoulder",
    "Both heels drop",
    "Lift the ribs and breathe",
    "Knee lift across",
    "Hands on the knees",
    "Soften the knees",
    "Split the weight between the feet",
    "Spin the cane",
    "Step back right away",
  ];
  it.each(harmless)("%s", (cue) => {
    const found = rulesFound(`sections:\n  - name: A\n    counts:\n      - 1-8: { do: ${cue} }\n`);
    expect(found.filter((rule) => rule === "missing-key" || rule === "left-right")).toEqual([]);
  });
});

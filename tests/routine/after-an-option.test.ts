import { describe, expect, it } from "vitest";
import { remarks } from "../fixtures/from-yaml.js";

const head = "levels: [1, 2]\ntaught: 2\nadaptations: [seated]\nsections:\n  - name: A\n    counts:\n";
const said = (counts: string, rule = "after-an-option") => remarks(`${head}${counts}`, rule);
const seated = "seated: Breathe";

describe("a later move of the phrase that is written for those who did the risky one", () => {
  it("comes up from a floor that the option never reached", () => {
    expect(
      said(`      - 1-4: { do: Drop to the floor, height: lying, risk: floor-drop, options: { 1: Reach down, ${seated} } }
        5-8: { do: Press up, height: standing, options: { ${seated} } }`),
    ).toEqual([
      'warning 12: This goes from lying to standing, but level 1 dances "Reach down" in place of "Drop to the floor" and is standing here; give this move an option for level 1 too.',
    ]);
  });

  it("has contacts or words that fit nobody who stands", () => {
    const drop = `      - 1-2: { do: Drop, height: lying, risk: floor-drop, options: { 1: Bow, ${seated} } }\n`;
    expect(
      said(
        `${drop}        3-4: { do: Roll over, contacts: [shoulders], options: { ${seated} } }\n        5-8: { do: Up, height: standing, options: { 1: Wait, ${seated} } }`,
      ),
    ).toEqual([expect.stringContaining("This has weight on shoulders, and starts lying")]);
    expect(said(`${drop}        3-8: Slap the hands on the floor`)).toEqual([
      expect.stringContaining('This speaks of "on the floor"'),
    ]);
  });

  it("comes out of a spin or a handstand that was not danced, at whatever height", () => {
    expect(
      said("      - 1-4: { do: Spin, turn: 1 right, options: { 1: Sway } }\n        5-8: Stop the spin with the arms"),
    ).toEqual([expect.stringContaining('This speaks of "Stop the spin"')]);
    expect(
      said(
        `      - 1-4: { do: Handstand, through: inverted, options: { 1: Reach up, ${seated} } }\n        5-8: Feet down one by one`,
      ),
    ).toEqual([expect.stringContaining('This speaks of "Feet down"')]);
  });

  it("is let be where it has an option too, in the next phrase, or where it fits", () => {
    const drop = `      - 1-4: { do: Drop, height: lying, risk: floor-drop, options: { 1: { do: Lie down, height: lying }, ${seated} } }\n`;
    expect(said(`${drop}        5-8: { do: Press up, height: standing, options: { ${seated} } }`)).toEqual([]);
    const bow = drop.replace("{ do: Lie down, height: lying }", "Bow");
    expect(
      said(`${bow}        5-8: { do: Press up, height: standing, options: { 1: Straighten, ${seated} } }`),
    ).toEqual([]);
    expect(said(`${bow}        5-8: Look up`)).toEqual([]);
  });
});

it("a floor-drop ends lower than it begins, or passes lower", () => {
  const drop = (keys: string) =>
    said(`      - 1-8: { do: Down, risk: floor-drop${keys}, options: { 1: Bow, ${seated} } }`, "drop-no-lower");
  expect(drop("")).toEqual([expect.stringContaining("begins standing and ends standing; write the `height`")]);
  expect(drop(", height: lying")).toEqual([]);
  expect(drop(", through: seated")).toEqual([]);
});

import { describe, expect, it } from "vitest";
import { remarks } from "../../fixtures/from-yaml.js";

const escaped = (text: string) => text.replace(/[()[\]`]/g, "\\$&");

/** What the hints say of a cue, with the keys that its move has. */
const hint = (cue: string, keys = "") =>
  remarks(`sections: [{ name: A, counts: [{ 1-8: { do: "${cue}"${keys} } }] }]`, "missing-key").join();

describe("a cue that speaks of what has no key", () => {
  it.each([
    ["Back flip off the wall", "through: inverted"],
    ["Head spin", "contacts: [head]"],
    ["Spin on your head", "contacts: [head]"],
    ["Two windmills and freeze", "contacts: [shoulders, hands]"],
    ["Slow head roll", "risk: [neck]"],
    ["Roll the head round to the right", "risk: [neck]"],
    ["Stand on the chair", "risk: [climb]"],
    ["Step up onto the box", "risk: [climb]"],
    ["Throw the hat to your partner", "risk: [throw]"],
    ["Toss both canes up", "risk: [throw]"],
    ["Wind the scarf round the neck", "risk: [neck]"],
  ])("%s", (cue, key) => expect(hint(cue)).toContain(key));

  it.each([
    ["Flip the hair back", ""],
    ["Windmill the arms", ""],
    ["Arm windmills", ""],
    ["Stand behind the chair", ""],
    ["Step left, hand on the chair", ""],
    ["Throw the arms up", ""],
    ["Both arms round your partner's neck", ""],
    ["Head roll", ", risk: neck"],
    ["Stand on the chair", ", risk: climb"],
    ["Throw the hat", ", risk: throw"],
    ["Back flip", ", through: inverted"],
  ])("not %s%s", (cue, keys) => expect(hint(cue, keys)).toBe(""));
});

describe("what is named only to say that it is not done", () => {
  it.each([
    "Walk past each other, no lift",
    "Walk round, no jump or lift",
    "Rise, without a jump",
    "Don't spin here",
    "Walk instead of the cartwheel",
    "Not a turn, a look",
    "Sink rather than drop",
  ])("%s", (cue) => expect(hint(cue)).toBe(""));

  it.each(["No, lift her", "Not now: jump", "No lift, then jump"])("but %s", (cue) => expect(hint(cue)).not.toBe(""));
});

describe("what to write, where a `risk` stands already", () => {
  it.each([
    ["Jump", ", risk: neck", "write `risk: [jump, neck]`"],
    ["Jump into a backbend", "", "add `risk: [backbend, jump]`"],
    ["Spin", ", risk: neck", "write `turn: 1 right` (or how far it goes) or `risk: [spin, neck]`"],
    ["Jump", "", "add `risk: [jump]`"],
  ])("%s%s", (cue, keys, write) => expect(hint(cue, keys)).toMatch(new RegExp(`; ${escaped(write)}\\.?$`)));

  it("holds what an option keeps of the plain move", () => {
    const yaml = `levels: [1, 2]\nsections: [{ name: A, counts: [{ 1-8: { do: Walk, risk: neck, options: { 2: Jump } } }] }]`;
    expect(remarks(yaml, "missing-key").join()).toContain("write `risk: [jump, neck]`");
  });

  it("is nothing where it is `none`", () => {
    expect(hint("Jump", ", risk: none")).toBe("");
    expect(hint("Spin", ", risk: none")).toBe("");
    // A key that the facing follows from is asked for all the same.
    expect(hint("Turn", ", risk: none")).toContain("`turn: 1/4 right`");
  });
});

it("a move on the knees after one that ends on them needs no key, in no version", () => {
  const yaml = `levels: [1, 2]\ntaught: 2\nsections:\n  - name: A\n    counts:\n      - 1-4: { do: Sink, height: kneeling, options: { 1: Bow } }\n        5-8: Slide on the knees\n`;
  expect(remarks(yaml, "missing-key")).toEqual([]);
  expect(remarks(yaml, "after-an-option").join()).toMatch(/11: This is danced on the knees, but level 1 dances "Bow"/);
});

import { describe, expect, it } from "vitest";
import { remarks } from "../../fixtures/from-yaml.js";

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

import { expect, test } from "vitest";
import { readContent } from "../../src/reading/read-content.js";
import { shortCall, shortCue, shortForms } from "../../src/wording/en/short-call.js";
import { aside, worked } from "./called-short.js";

test.each(worked)("“%s” is called “%s”", (cue, call) => {
  expect(shortCue(cue, 14)).toBe(call);
});

test("half of the cues that no rule was written for are called to the letter as a teacher would", () => {
  const same = aside.filter(([cue, call]) => shortCue(cue, 14) === call);
  expect(same.length).toBeGreaterThanOrEqual(15);
});

/* Three words a count at the most: common practice, no source. Each line cut by hand. */
test.each([
  ["Fold", 1, "Fold"],
  ["Walk to the back and turn", 4, "Walk to the back and turn"],
  ["Draw the arms up, elbows last", 1, "Draw arms up"],
  ["Quarter turn left onto the left foot", 1, "Turn left ¼"],
  ["Right foot crosses behind", 1, "Right crosses behind"],
  ["Snap the fingers of the hand", 1, "Snap fingers"],
])("“%s” in %d counts is called “%s”", (cue, counts, call) => {
  expect(shortCall(cue, counts)).toBe(call);
});

/* With more room, as of a move of two counts or three, what is done second is called too. Each line cut by hand. */
test.each([
  ["Walk along the wall: right, left, right", 30, "Walk right, left, right"],
  ["Rock forward left, recover right", 32, "Rock forward left, recover right"],
  ["Tip forward, tip back", 24, "Tip forward, tip back"],
  ["Both heels up, both heels down", 24, "Heels up, heels down"],
  ["Hands in front, then gather up to both knees", 32, "Hands front, gather up to knees"],
  ["Roll to the left, onto the back, slow as wet sand", 24, "Roll left onto back"],
  // What the hands lean on is no move, and the sinking has a caution.
  ["Hands on the left thigh, sink slowly to the right shin", 24, "Sink slowly to right shin"],
  ["Hands press the left thigh, rise onto the left foot", 24, "Rise onto left"],
  ["Walk forward right, left", 24, "Walk forward right, left"],
])("“%s” in %d letters is called “%s”", (cue, letters, call) => {
  expect(shortCue(cue, letters)).toBe(call);
});

const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/[\p{L}’']+|[½¼¾]/gu) ?? [];
const sidesOf = (text: string) => wordsIn(text).filter((word) => word === "left" || word === "right");

/** Whether some things stand in others in their order. */
function within(few: readonly string[], many: readonly string[]): boolean {
  let from = 0;
  return few.every((one) => {
    from = many.indexOf(one, from) + 1;
    return from > 0;
  });
}

test("nothing that is called says another move: what is not done, the side it begins on and how far it turns stay", async () => {
  const { routines } = await readContent("content");
  const demo = routines.flatMap(({ versions }) =>
    versions.flatMap(({ moves, groups }) => [moves, ...groups.map((group) => group.moves)].flat()),
  );
  const cues = new Set([...demo.map(({ cue }) => cue.text), ...[...worked, ...aside].map(([cue]) => cue)]);
  expect(cues.size).toBeGreaterThan(250);
  const listed = /(left|right)(, (left|right))+(?! \p{L})/iu;
  for (const cue of cues)
    for (const form of shortForms(cue)) {
      const where = `“${cue}” as “${form}”`;
      for (const no of ["not", "no", "don't", "without", "never", "but"])
        expect(wordsIn(form).includes(no), where).toBe(wordsIn(cue).includes(no));
      // "To the right of the left foot" has its sides in turn; a turn's side may come before its size.
      expect(within(sidesOf(form), sidesOf(cue)), where).toBe(true);
      const opening = cue.replace(/^hands (on|press) [^,]*, /i, "").split(/[,:]/)[0] ?? "";
      const list = listed.test(cue);
      if (!list) expect(sidesOf(form)[0], where).toBe(sidesOf(opening)[0] ?? sidesOf(form)[0]);
      if (/\bhalf (turn|left|right)/i.test(opening)) expect(form, where).toMatch(/½/);
      if (/\bquarter/i.test(opening)) expect(form, where).toMatch(/[¼¾]/);
      expect(form, where).not.toMatch(/(?<!roll) (to|on|onto|into|of|at|for|with|along|through|a|the|and)$/i);
    }
});

test("each way of calling a cue is shorter than the one before it", () => {
  for (const [cue] of [...worked, ...aside]) {
    const lengths = shortForms(cue).map(({ length }) => length);
    expect(lengths).toEqual([...new Set(lengths)].sort((one, other) => other - one));
  }
});

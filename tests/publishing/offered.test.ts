import { describe, expect, test } from "vitest";
import { coursePrint, lessonPrint } from "../../src/publishing/course/course.js";
import { handoutPrint } from "../../src/publishing/handout/handout.js";
import { offeredIn, riskName } from "../../src/publishing/offered.js";
import { packPrint } from "../../src/publishing/pack/pack.js";
import { packOf } from "../../src/publishing/site/pack.js";
import { workshopView } from "../../src/publishing/site/workshop-view.js";
import { planCourse } from "../../src/teaching/course/plan.js";
import type { Print } from "../../src/typesetting/print.js";
import { en } from "../../src/wording/en.js";
import { contextOf } from "../fixtures/context.js";
import { fromYaml } from "../fixtures/from-yaml.js";
import { library, workshopOf } from "../teaching/builder.js";

/* Level 2 walks; level 3 stands on the head in the second section, and a chair is for those who sit. */
const routine = fromYaml(`levels: [1, 2, 3]
taught: 2
adaptations: [{ name: Seated, from: 1 }]
gear:
  - { item: chair, for: [Seated] }
sections:
  - name: Arrive
    counts:
      - 1-4: Walk in
        5-8: { do: Turn on the spot, turn: 1 right, options: { 1: { do: Wait }, Seated: { do: Look round } } }
  - name: Skylight
    counts:
      - 1-8:
          do: Look up
          options: { 3: { do: Stand on the head, risk: [inversion], gear: [mat] } }`);
const night = workshopOf([routine], 60);
const course = { ...night, lessons: 2 };
/** A line's text in place of what it is set from. */
const lineText = (_: string, value: unknown): unknown =>
  value instanceof Function ? (value() as readonly { text: string }[]).map(({ text }) => text).join("") : value;
/** All the text of a print, line by line. */
const textOf = ({ elements }: Pick<Print, "elements">): string =>
  [...JSON.stringify(elements, lineText).matchAll(/"pieces":"([^"]*)"/g)]
    .map(([, text]) => text)
    .join(" ")
    .replace(/\s+/g, " ");
const viewOf = (workshop: typeof night) => workshopView(workshop, library, packOf(contextOf(library)), en);

describe("what a class offers, it warns of and says what it needs", () => {
  test("the pack has the cautions and the gear of every version whose options the class is shown, and whose they are", () => {
    const text = textOf(packPrint(night, library));
    expect(text).toMatch(/Upside down \(level 3\)\. Try this only .*?\(Skylight counts 1–8\)/);
    expect(text).toContain("mat: for level 3; for Skylight counts 1–8");
    expect(text).toContain("chair: for Seated");
  });

  test("so does the page", () => {
    const { cautions, gear } = viewOf(night);
    expect(cautions.map(({ value }) => value.label)).toEqual(["upside down (level 3)", "spin (levels 2 and 3)"]);
    expect(gear.map(({ item, routines }) => [item, routines])).toEqual([
      ["mat", ["Low Tide (level 3)"]],
      ["chair", ["Low Tide (Seated)"]],
    ]);
  });

  test("a class that dances an adaptation is shown no other version, and needs what that one needs", () => {
    const { cautions, gear } = viewOf({ ...night, level: "Seated" });
    expect(cautions).toEqual([]);
    expect(gear.map(({ item, routines }) => [item, routines])).toEqual([["chair", ["Low Tide"]]]);
  });

  test("a class of some sections is warned of what is in these", () => {
    const { cautions } = viewOf({ ...night, sections: { "low-tide": ["Arrive"] } });
    expect(cautions.map(({ value }) => value.label)).toEqual(["spin (levels 2 and 3)"]);
  });

  test("a course says whose a thing is, and a lesson's sheet what to bring next time and what is dangerous by now", () => {
    const plan = planCourse(course, library);
    // The first lesson has the first section, the second the other: counted by hand, two sections over two lessons.
    expect(plan.lessons.map(({ lesson }) => lesson.fresh.map(({ section }) => section))).toEqual([
      ["Arrive"],
      ["Skylight"],
    ]);
    expect(textOf(coursePrint(plan, course, library))).toContain("mat (level 3)");
    const [first = "", second = ""] = [0, 1].map((lesson) => textOf(lessonPrint(plan, lesson, course, library)));
    expect(first).toContain("Bring next time: mat (level 3), chair (Seated)");
    expect(first).not.toContain("Upside down");
    expect(second).toContain("Upside down (level 3)");
    expect(second).not.toContain("Bring next time");
  });
});

test("over several routines the versions are named in order, each once", () => {
  const other = fromYaml(`levels: [1, 2]
sections: [{ name: Turn, counts: [{ 1-8: { do: Reach, options: { 2: { do: Spin, turn: 1 left } } } }] }]`);
  const one = fromYaml(`levels: [1, 2, 3]
sections: [{ name: Fall, counts: [{ 1-8: { do: Reach, options: { 3: { do: Spin, turn: 1 left } } } }] }]`);
  expect(riskName(offeredIn(workshopOf([one, other], 60)), "spin", en)).toBe("spin (levels 2 and 3)");
});

test("when a class begins stands where dancers look: page, cover, course and lesson sheet", () => {
  const at = { starts: "18:30", date: "2027-01-08", dates: ["2027-01-08", "2027-01-15"] };
  expect(viewOf({ ...night, ...at }).starts).toBe("18:30");
  expect(textOf(packPrint({ ...night, ...at }, library))).toContain("Starts at 18:30 · 60 minutes · Level 2");
  const plan = planCourse({ ...course, ...at }, library);
  expect(textOf(coursePrint(plan, { ...course, ...at }, library))).toContain("Starts at 18:30 · 60 minutes");
  const sheet = textOf(lessonPrint(plan, 0, { ...course, ...at }, library));
  expect(sheet).toContain("Friday 8 January 2027 · Starts at 18:30");
});

test("a handout says of what is never slowed that it is marked, or danced an easier way", () => {
  const [version] = routine.versions.filter(({ id }) => id === "3");
  if (!version) throw new Error("No level 3");
  expect(textOf(handoutPrint(routine, version, library, "sheet"))).toContain(
    "Never slowly. Below full tempo only mark these, so that nobody goes up or drops, or dance an easier way: Skylight counts 1–8 (upside down).",
  );
});

import { expect, test } from "vitest";
import { emptyLibrary } from "../../src/reading/read-library.js";
import { readRoutine } from "../../src/reading/read-routine.js";
import { readWorkshop } from "../../src/reading/read-workshop.js";
import { planClass } from "../../src/teaching/plan.js";

const library = { ...emptyLibrary, name: "Test room" };

function routine(slug: string, sections: readonly string[]) {
  const counts = sections.map(
    (name) => `  - { name: ${name}, counts: [{ 1-8: { do: Walk, options: { seated: Nod } } }] }\n`,
  );
  const text = `---\ntitle: ${slug}\nchoreographer: B\nmusic: { tempo: 60 }\nlevels: [1, 2]\nadaptations: [seated]\nsections:\n${counts.join("")}---\n`;
  const { routine, findings } = readRoutine(text, slug, library);
  if (routine === undefined) throw new Error(findings.map(({ message }) => message).join("\n"));
  return routine;
}

const tide = routine("tide", ["Wall", "Tag"]);
const kerb = routine("kerb", ["Verse"]);

function read(keys: string, routines = [tide]) {
  const slugs = routines.map(({ slug }) => slug);
  return readWorkshop(`---\ntitle: W\nminutes: 60\nroutines: [${slugs}]\n${keys}---\n`, "w", routines, slugs);
}

test("what a class asks for is carried into its value and its plan", () => {
  const { workshop } = read(
    "starts: 9:05\nlevel: seated\nsections: [Wall, Tag]\nknown: Wall\ndates: [2027-01-16, 2027-01-23]\n",
  );
  const asked = {
    starts: "09:05",
    sections: { tide: ["Wall", "Tag"] },
    known: { tide: ["Wall"] },
    lessons: 2,
    dates: ["2027-01-16", "2027-01-23"],
  };
  expect(workshop).toMatchObject({ ...asked, level: "seated", date: "2027-01-16" });
  if (workshop === undefined) throw new Error("It should be whole.");
  const plan = planClass(workshop, library);
  expect(plan.asked).toEqual(asked);
  // All of the class dances the adaptation.
  expect(plan.routines[0]?.version).toBe("seated");
  const plain = read("").workshop;
  expect(plain && planClass(plain, library)).not.toHaveProperty("asked");
  expect(read("lessons: 6\n").workshop?.lessons).toBe(6);
  expect(read("sections: { tide: [Tag], kerb: Verse }\n", [tide, kerb]).workshop?.sections).toEqual({
    tide: ["Tag"],
    kerb: ["Verse"],
  });
});

test.each<[string, string]>([
  ["level: standing", "5:8 `tide` has no level `standing`. Write `1`, `2` or `seated`"],
  ["starts: 6:30 pm", "5:9 `starts` must be a time of day from 0:00 to 23:59; here is `6:30 pm`. Write `18:30`."],
  ["starts: 24:00", "5:9 `starts` must be a time of day"],
  ["sections: [Wal]", "5:12 `tide` has no section `Wal`. Did you mean `Wall`?"],
  ["sections: [Tag, Wall, Tag]", "5:23 `Tag` stands here twice"],
  ["sections: []", "Name at least one section, or leave the key out."],
  ["sections: { kerb: [Verse] }", "5:13 `kerb` is none of this class's routines. Write `tide`"],
  ["known: [Bridge]", "5:9 `tide` has no section `Bridge`. It has `Wall` and `Tag`."],
  ["known: { tide: [Tag, Wall] }\nsections: [Tag]", "5:22 `Wall` is known, and not among this class's `sections`"],
  ["lessons: 1", "`lessons` must be a whole number from 2 to 60"],
  ["lessons: 3\ndates: [2027-01-16, 2027-01-23]", "5:10 There are 3 lessons and 2 dates: correct one of them"],
  ["dates: [2027-01-16]", "`dates` must be two dates or more; here is one. For one day, write `date`."],
  ["dates: []", "`dates` must be two dates or more; here is none. For one day, write `date`."],
  ["dates: [2027-01-23, 2027-01-16]", "5:21 `2027-01-16` comes after `2027-01-23`: write the earlier day first."],
  ["dates: [2027-01-16, 2027-01-16]", "5:21 `2027-01-16` stands here twice: one lesson a day."],
  ["date: 2027-01-23\ndates: [2027-01-16, 2027-01-23]", "5:7 The first of the `dates` is `2027-01-16`"],
])("%s is an error", (keys, message) => {
  const { workshop, findings } = read(`${keys}\n`);
  expect(workshop).toBeUndefined();
  const errors = findings.filter(({ severity }) => severity === "error");
  expect(errors).toHaveLength(1);
  expect(`${errors[0]?.line}:${errors[0]?.column} ${errors[0]?.message}`).toContain(message);
});

test("of several routines it is said whose sections are meant", () => {
  const { findings } = read("known: [Wall]\n", [tide, kerb]);
  expect(findings.map(({ line, message }) => [line, message])).toEqual([
    [5, "There are several routines here, so say whose sections these are: write `known: { tide: [Wall] }`."],
  ]);
});

test("a course is read without a word", () => {
  expect(read("lessons: 6\n")).toMatchObject({ workshop: { lessons: 6 }, findings: [] });
  const days = ["2027-01-16", "2027-01-23"];
  expect(read(`dates: [${days}]\n`)).toMatchObject({
    workshop: { lessons: 2, dates: days, date: days[0] },
    findings: [],
  });
});

import { expect, test } from "vitest";
import { readKeys } from "../../src/reading/read-keys.js";
import { librarySchema } from "../../src/reading/schema/library.js";
import { moveSchema, phrase } from "../../src/reading/schema/move.js";
import { routineSchema } from "../../src/reading/schema/routine.js";
import { unwrap } from "../../src/reading/schema/walk.js";
import { workshopSchema } from "../../src/reading/schema/workshop.js";

/* Wrong values of every kind for every key: no message may ask for what it says is there. */

const values = [
  "[]",
  "{}",
  '""',
  "x",
  "0",
  "99999999",
  "[x]",
  "[[x]]",
  "{ x: y }",
  "{ x: [] }",
  "{ x: {} }",
  "{ 1: x }",
  "[{ x: y }]",
];
const { entry: section } = unwrap(unwrap(routineSchema).keys?.sections ?? routineSchema);
const move = unwrap(moveSchema).branches?.at(-1) ?? moveSchema;

const contradictions = [
  /must be a list; here is a(n empty)? list/,
  /must be `key: value` pairs; here are/,
  /must be a text; here is/,
  /must be a text of at most/,
];

test.each([
  ["a routine", routineSchema],
  ["a section", section ?? routineSchema],
  ["a phrase", phrase],
  ["a move", move],
  ["a class", workshopSchema],
  ["a library", librarySchema],
])("nothing that is said of %s contradicts itself", (_, schema) => {
  const { keys = {} } = unwrap(schema);
  const names = Object.entries(keys).flatMap(([key, inner]) => [
    key,
    ...Object.keys(unwrap(inner).keys ?? {}).map((name) => `${key}: { ${name}`),
  ]);
  expect(names.length).toBeGreaterThan(3);
  for (const name of names)
    for (const value of values) {
      const { findings } = readKeys(`${name}: ${value}${name.includes("{") ? " }" : ""}\n`, schema);
      for (const { message } of findings)
        for (const contradiction of contradictions) expect(message, `${name}: ${value}`).not.toMatch(contradiction);
    }
});

const said = (yaml: string) => readKeys(yaml, routineSchema).findings.map(({ message }) => message);

test("what is meant is said", () => {
  expect(said("sections: []\n")).toContain(
    "`sections` must be a list with an entry or more; here is an empty list. Write for example `sections: [{ name: Verse, counts: [{ 1-8: Walk }] }]`.",
  );
  expect(said("music: { tempo: 92, accents: x }\n")).toContain(
    "`accents` must be a whole number from 1 to 64, or a list of such; here is `x`. Write for example `accents: [4, 8]`.",
  );
  expect(said(`levels: [${Array.from({ length: 65 }, (_, index) => `l${index}`)}]\n`)).toContain(
    "`levels` has more than 64 names: name at most 64.",
  );
});

test("an address that pages can't be added to says what to leave out, and no form is offered that is refused", () => {
  const ofUrl = (url: string) =>
    readKeys(`name: A\nurl: ${url}\n`, librarySchema).findings.map(({ message }) => message);
  expect(ofUrl("https://mara.example/dance/index.html").join()).toMatch(
    /; here is `https:\/\/mara.example\/dance\/index.html`. Leave out `index.html`: the addresses of pages/,
  );
  expect(ofUrl("https://mara.example/start.htm/").join()).toContain("Leave out `start.htm`");
  for (const url of ["https://mara.example", "https://mara.example/dance/", "https://index.html.example/"])
    expect(ofUrl(url), url).toEqual([]);
  for (const url of ["mailto:mara@mara.example", "dance/index.html", "ftp://mara.example"]) {
    const [message, ...more] = ofUrl(url);
    expect([message, more]).toEqual([expect.stringContaining("begins with https:// or http://; here"), []]);
    expect(message).not.toMatch(/mailto:,|path of a page/);
  }
});

test("hours where minutes belong are turned into them, and no number is offered that is refused", () => {
  const ofMinutes = (text: string) =>
    readKeys(`title: A\nminutes: ${text}\nroutines: [a]\n`, workshopSchema).findings.map(({ message }) => message);
  for (const [text, minutes] of Object.entries({
    ...{ "1h": 60, "1 hour": 60, "1.5h": 90, "1.5 hours": 90, "1:30": 90, "1h30": 90, "1 h 15 min": 75, "2 hrs": 120 },
  }))
    expect(ofMinutes(text), text).toEqual([expect.stringMatching(`here is \`${text}\`. Write \`${minutes}\`.$`)]);
  expect(ofMinutes("90 min").join()).toContain("Write the number alone: 90.");
  for (const text of ["20 h", "3 lessons", "0:03"])
    expect(ofMinutes(text).join(), text).not.toMatch(/number alone|Write `\d/);
});

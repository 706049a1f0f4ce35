import { expect, test } from "vitest";
import { handoutPrint } from "../../../src/publishing/handout/handout.js";
import { readContent } from "../../../src/reading/read-content.js";
import type { Print, StructureElement } from "../../../src/typesetting/print.js";
import { risks } from "../../../src/wording/en/risks.js";

const { routines, library } = await readContent("content");
const prints = (["A4", "Letter"] as const).flatMap((paper) =>
  routines.flatMap((routine) =>
    routine.versions.map((version) => ({
      routine,
      version,
      print: handoutPrint(routine, version, { ...library, paper }, "large"),
    })),
  ),
);

/** The text of a page, in the order of reading. */
function textOf(print: Print, page: number): string {
  const of = ({ content }: StructureElement): string =>
    content
      .map((one) => {
        if ("tag" in one) return of(one);
        return one.page === page && "line" in one
          ? `${one.line
              .pieces()
              .map(({ text }) => text)
              .join("")} `
          : "";
      })
      .join("");
  return print.elements.map(of).join("").replace(/\s+/g, " ");
}

const allIn = (element: StructureElement): readonly StructureElement[] => [
  element,
  ...element.content.flatMap((one) => ("tag" in one ? allIn(one) : [])),
];

test("every version begins with its counts on the first page, under what to take care of in its own sentence", () => {
  expect(prints.length).toBeGreaterThan(30);
  for (const { routine, version, print } of prints) {
    const text = textOf(print, 0);
    const [first] = version.moves;
    expect(text, print.title).toContain(first?.cue.text.split(" ").slice(0, 3).join(" "));
    const counts = text.indexOf(`1 ${routine.sections[0]?.name}`);
    expect(counts, print.title).toBeGreaterThan(0);
    for (const risk of version.cautions) {
      const at = text.indexOf(risks.caution(risk));
      expect(at, print.title).toBeGreaterThan(0);
      expect(at, print.title).toBeLessThan(counts);
    }
  }
});

test("no move of a phrase stands alone on its page, apart from the others", () => {
  const pageOf = (element: StructureElement) =>
    element.content
      .flatMap((one) => ("tag" in one ? allIn(one).flatMap(({ content }) => content) : [one]))
      .flatMap((one) => ("page" in one ? [one.page] : []))[0];
  for (const { print } of prints) {
    const after = print.elements.findLastIndex(({ tag }) => tag === "H2");
    const about = print.elements.findIndex(
      (one, index) => index < after && textOf({ ...print, elements: [one] }, pageOf(one) ?? 0) === "About this dance ",
    );
    expect(about, print.title).toBeGreaterThan(0);
    for (const list of print.elements.slice(0, about).filter(({ tag }) => tag === "L")) {
      const pages = list.content.flatMap((item) => ("tag" in item ? [pageOf(item)] : []));
      if (pages.length < 2) continue;
      for (const page of new Set(pages))
        expect(pages.filter((one) => one === page).length, print.title).toBeGreaterThan(1);
    }
  }
});

test("it has no map, and nothing of other versions", () => {
  for (const { version, print } of prints) {
    const figures = print.elements.flatMap(allIn).filter(({ tag }) => tag === "Figure");
    // The code that leads to the page, and the ways over the floor.
    expect(
      figures.filter(({ alt }) => alt?.includes("clock")),
      print.title,
    ).toEqual([]);
    const whole = Array.from({ length: print.pages }, (_, page) => textOf(print, page)).join(" ");
    const own = new Set(version.moves.map(({ cue }) => cue.text));
    const others = version.moves
      .flatMap(({ alternatives }) => alternatives.flatMap(({ moves }) => moves.map(({ cue }) => cue.text)))
      .filter((text) => text.length > 20 && ![...own].some((one) => one.includes(text)));
    for (const text of others) expect(whole.includes(text), `${print.title}: ${text}`).toBe(false);
  }
});

test("a bookmark leads to each section, where it begins", () => {
  const [umbrella] = prints.filter(({ routine }) => routine.slug === "one-umbrella");
  const [top] = umbrella?.print.bookmarks ?? [];
  /* The sections as the file has them, then what there is to know beside them. */
  expect(top?.under.map(({ title }) => title)).toEqual([
    ...["1 On the quay", "2 Rain round", "3 Asking and answering", "4 The ferry", "5 Rain together", "6 Gone"],
    ...[
      "About this dance",
      "What to bring",
      "Take care",
      "Teaching notes",
      "Practice speeds",
      "Floor plan",
      "My notes",
    ],
  ]);
  const places = (top?.under ?? []).map(({ page, y }) => page * 10_000 + y);
  expect(places).toEqual([...places].sort((one, other) => one - other));
});

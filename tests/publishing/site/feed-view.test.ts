import { expect, test } from "vitest";
import { feedView } from "../../../src/publishing/site/feed-view.js";
import { routineFacts } from "../../../src/publishing/site/routine-facts.js";
import { workshopData } from "../../../src/publishing/site/structured-data.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const tide = danced({ slug: "tide", sections: [section("Ebb", [phrase([move("1-8", "Walk")])])] });

test("the feed has the newest thirty routines, each of the day when it was published", () => {
  const { date: _, ...facts } = routineFacts(tide);
  const dated = Array.from({ length: 31 }, (_, index) => {
    const day = String(index + 1).padStart(2, "0");
    return { ...facts, slug: `tide-${day}`, date: `2026-10-${day}` };
  });
  const workshop = { slug: "noon", title: "Noon", date: "2027-01-01", minutes: 60, routines: ["Tide"] };
  const { entries, updated } = feedView(
    library,
    { routines: [facts, ...dated], workshops: [workshop] },
    wordingOf("en"),
  );
  expect(entries.length).toBe(30);
  expect(entries[0]?.updated).toBe("2026-10-31T00:00:00Z");
  expect(entries.at(-1)?.updated).toBe("2026-10-02T00:00:00Z");
  expect(updated).toBe("2026-10-31T00:00:00Z");
});

test("a class is an event to search engines only where its day and its place are known", () => {
  const noon = {
    ...{ slug: "noon", title: "Noon", minutes: 60, level: "1", routines: [tide] },
    ...{ warmUp: 5, coolDown: 5, breaks: 0, prose: "" },
  };
  const typeOf = (more: object) => workshopData({ ...noon, ...more }, library)["@type"];
  expect(typeOf({})).toBe("WebPage");
  expect(typeOf({ date: "2027-01-16" })).toBe("WebPage");
  expect(typeOf({ venue: "The upper studio" })).toBe("WebPage");
  expect(typeOf({ date: "2027-01-16", venue: "The upper studio" })).toBe("EducationEvent");
});

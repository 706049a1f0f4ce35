import { expect, test } from "vitest";
import { comingAndPast, dayOf, lessonsAround } from "../../templates/script/coming.js";

test("the day is the one of the clock on the wall, whatever day it is in Greenwich", () => {
  expect(dayOf(new Date(2027, 0, 6, 0, 5))).toBe("2027-01-06");
  expect(dayOf(new Date(2027, 10, 30, 23, 55))).toBe("2027-11-30");
});

test("last and next lesson: on the day itself it is still to come", () => {
  const days = ["2027-01-16", "2027-01-23", "2027-01-30"];
  expect(lessonsAround(days, "2027-01-01")).toEqual({ last: undefined, next: 0 });
  expect(lessonsAround(days, "2027-01-23")).toEqual({ last: 0, next: 1 });
  expect(lessonsAround(days, "2027-01-24")).toEqual({ last: 1, next: 2 });
  expect(lessonsAround(days, "2027-02-01")).toEqual({ last: 2, next: undefined });
});

test("next dates first, a course by its next lesson, no date after them, what is over last and latest first", () => {
  const all = [
    { name: "summer", days: ["2027-07-01"] },
    { name: "course", days: ["2027-01-16", "2027-03-01"] },
    { name: "some time", days: [] },
    { name: "open hour", days: ["2027-02-20"] },
    { name: "today", days: ["2027-02-14"] },
    { name: "autumn", days: ["2026-10-01"] },
    { name: "advent", days: ["2026-12-13", "2026-12-20"] },
  ];
  const { coming, past } = comingAndPast(all, "2027-02-14");
  expect(coming.map(({ name }) => name)).toEqual(["today", "open hour", "course", "summer", "some time"]);
  expect(past.map(({ name }) => name)).toEqual(["advent", "autumn"]);
});

import { expect, test } from "vitest";
import { settingsFor } from "../../src/teaching/settings.js";
import { library, libraryWith } from "./builder.js";

test("the drill goes by the practice speeds, rising to full tempo, unless it has speeds of its own", () => {
  expect(settingsFor(library).drillSpeeds).toEqual([60, 75, 90, 100]);
  expect(settingsFor({ ...library, practiceSpeeds: [80, 50, 120] }).drillSpeeds).toEqual([50, 80, 100]);
  expect(settingsFor(libraryWith({ "drill-speeds": ["80", "50"] })).drillSpeeds).toEqual([50, 80, 100]);
});

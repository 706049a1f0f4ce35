import { describe, expect, test } from "vitest";
import { settingsFor, teachingSettings } from "../../src/teaching/settings.js";
import { library, libraryWith } from "./builder.js";

describe("the planner's settings", () => {
  test("nothing written gives the defaults, and the drill goes by the practice speeds", () => {
    const { settings, problems } = teachingSettings({});
    expect(problems).toEqual([]);
    expect(settings).toMatchObject({ unit: 5, chunkCounts: 16, markSpeed: 50, linkSpeed: 75, groups: 2, limits: {} });
    expect(settingsFor(library).drillSpeeds).toEqual([60, 75, 90, 100]);
    expect(settingsFor({ ...library, practiceSpeeds: [80, 50, 120] }).drillSpeeds).toEqual([50, 80, 100]);
  });

  test("values are texts, as a file gives them", () => {
    const { settings, problems } = teachingSettings({
      "chunk-counts": "24",
      "drill-speeds": ["50", "80"],
      points: { turn: "1.5" },
      most: { drill: "2", "from-the-top": "6" },
      limits: { knees: "60", inversions: "4" },
    });
    expect(problems).toEqual([]);
    expect(settings.chunkCounts).toBe(24);
    expect(settings.points).toMatchObject({ move: 1, turn: 1.5, otherSide: 0.5 });
    expect(settings.most).toMatchObject({ drill: 2, "from-the-top": 6, link: 3 });
    expect(settings.limits).toEqual({ knees: 60, inversions: 4 });
    expect(settingsFor(libraryWith({ "drill-speeds": ["80", "50"] })).drillSpeeds).toEqual([50, 80, 100]);
  });

  test.each([
    [{ unit: "soon" }, "unit", "unit is not understood: write a whole number of seconds from 1 to 60"],
    [{ unit: ["5"] }, "unit", "write a whole number of seconds from 1 to 60"],
    [{ "mark-speed": "110" }, "mark-speed", "write a whole number of per cent of the tempo from 20 to 100"],
    [{ "chunk-counts": "16.5" }, "chunk-counts", "write a whole number of counts from 4 to 128"],
    [{ "drill-speeds": "75" }, "drill-speeds", "write a list of per cents, such as [60, 80, 100]"],
    [{ "drill-speeds": ["75", "fast"] }, "drill-speeds.1", "from 20 to 100"],
    [{ points: { turn: "-1" } }, "points.turn", "write a number of points from 0 to 100"],
    [{ points: { jump: "1" } }, "points.jump", "points.jump is no setting; there are move, turn, drop"],
    [{ least: { show: "0" } }, "least.show", "write a whole number of runs from 1 to 20"],
    [{ most: { cha: "1" } }, "most.cha", "there are show, mark, detail, drill"],
    [{ most: "3" }, "most", "write a mapping from activities to numbers, such as { drill: 3 }"],
    [{ limits: { knee: "60" } }, "limits.knee", "limits.knee is no setting; there are knees, hands"],
    [{ limits: { knees: "few" } }, "limits.knees", "write a whole number of times from 0"],
    [{ chunks: "3" }, "chunks", "chunks is no setting; there are unit, chunk-counts"],
  ])("%j is a problem at %s", (raw, key, message) => {
    const { settings, problems } = teachingSettings(raw);
    expect(problems.map((problem) => problem.key)).toEqual([key]);
    expect(problems[0]?.message).toContain(message);
    expect(settings).toEqual(teachingSettings({}).settings);
  });

  test("one wrong setting leaves the others as written", () => {
    const { settings, problems } = teachingSettings({ unit: "no", groups: "3", limits: { knees: "9", toes: "1" } });
    expect(problems.map(({ key }) => key)).toEqual(["unit", "limits.toes"]);
    expect(settings).toMatchObject({ unit: 5, groups: 3, limits: {} });
  });
});

import { describe, expect, it } from "vitest";
import { fromYaml } from "../fixtures/from-yaml.js";

const loadOf = (counts: string, before = "") =>
  fromYaml(`${before}sections:\n  - name: A\n    counts:\n${counts}`).versions[0]?.load;

describe("the load of a run", () => {
  it("has the knees once where they begin to bear weight, whether or not contacts name them", () => {
    expect(loadOf("      - 1-4: { do: Kneel, height: kneeling }\n        5-8: Stay there")).toEqual({ knees: 1 });
    expect(loadOf("      - 1-4: { do: Kneel, height: kneeling, contacts: [knees] }")).toEqual({ knees: 1 });
    expect(loadOf("      - 1-4: { do: Weight onto the knees, weight: knees }")).toEqual({ knees: 1 });
    expect(loadOf("      - 1-4: { do: Over the knees to lying, height: lying, through: kneeling }")).toEqual({
      knees: 1,
    });
  });

  it("has them anew when they have been off the floor, and not while they stay on it", () => {
    const counts =
      "      - 1-2: { do: Kneel, height: kneeling }\n        3-4: { do: Lift one knee and set it down, weight: knees }\n" +
      "        5-6: { do: Stand, height: standing, weight: both }\n        7-8: { do: Kneel, height: kneeling }";
    expect(loadOf(counts)).toEqual({ knees: 2 });
    expect(loadOf("      - 1-8: Rock", "start: { height: kneeling }\n")).toEqual({});
  });
});

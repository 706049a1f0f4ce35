import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import type { Routine, Version } from "../../src/routine/routine.js";
import { errors, one, whole } from "../fixtures/read-keys.js";

/** "on at length" of each move of a version. */
function places(version: Version | undefined): readonly string[] {
  return (version?.moves ?? []).map(({ on, at, length }) => `${on} at ${at.toFraction()} for ${length.toFraction()}`);
}

describe("counts", () => {
  it("last to the end of the last count that they name", () => {
    expect(places(whole(one("- 1-2: Walk\n  3: Turn\n  5-8: hold")).versions[0])).toEqual([
      "1-2 at 0 for 2",
      "3 at 2 for 1",
      "5-8 at 4 for 4",
    ]);
  });

  it("are trimmed by a move that starts after them within the same count", () => {
    expect(places(whole(one("- 3: Left\n  3&: Right\n  4-5: Walk\n  5a: Clap")).versions[0])).toEqual([
      "3 at 2 for 1/2",
      "3& at 5/2 for 1/2",
      "4-5 at 3 for 7/4",
      "5a at 19/4 for 1/4",
    ]);
  });

  it("divide in three in triplet feel, where there is no e", () => {
    expect(places(whole(one("- 1: A\n  1&: B\n  1a: C"), "music: { tempo: 120, feel: triplet }").versions[0])).toEqual([
      "1 at 0 for 1/3",
      "1& at 1/3 for 1/3",
      "1a at 2/3 for 1/3",
    ]);
    expect(errors(one("- 3e: A"), "music: { tempo: 120, feel: triplet }")).toEqual(["count 8"]);
  });

  it("are several moves where there are commas, and as long as `lasts` says", () => {
    expect(places(whole(one("- 1,3: Walk\n  5: { do: Melt, lasts: 10 }\n- 7-8: Rise")).versions[0])).toEqual([
      "1 at 0 for 1",
      "3 at 2 for 1",
      "5 at 4 for 10",
      "7-8 at 14 for 2",
    ]);
  });

  it("run on into the next phrase danced, whichever section or pass that is", () => {
    const yaml = `sections:
  - name: A
    repeat: 2
    counts:
      - 3-6: Walk
        7-2: Melt
  - name: B
    counts:
      - 3-8: Rise`;
    expect(places(whole(yaml).versions[0])).toEqual([
      "3-6 at 2 for 4",
      "7-2 at 6 for 4",
      "3-6 at 10 for 4",
      "7-2 at 14 for 4",
      "3-8 at 18 for 6",
    ]);
    expect(errors(`${yaml.slice(0, yaml.indexOf("  - name: B"))}`)).toEqual(["runs-past-end 10"]);
    expect(errors(yaml.replace("3-8: Rise", "2-8: Rise"))).toEqual(["overlap 13"]);
  });

  it("may not meet, lie outside their phrase, or end before they start within a count", () => {
    expect(errors(one("- 1-4: A\n  3: B"))).toEqual(["overlap 9"]);
    expect(errors(one("- 1-4: A\n  4: B"))).toEqual(["overlap 9"]);
    expect(errors(one("- 1-3&: A\n  3: B"))).toEqual(["overlap 9"]);
    expect(errors(one("- 9: A"))).toEqual(["outside 8"]);
    expect(errors(one("- { length: 4, 5: A }"))).toEqual(["outside 8"]);
    expect(errors(one("- 3&-3: A"))).toEqual(["count 8"]);
  });

  it("are numbered from a pick-up's first count, and go round where there is a length", () => {
    expect(whole(one("- from: 7\n  7-8: Go\n- 1-8: Walk")).sections[0]?.phrases.map(({ numbers }) => numbers)).toEqual([
      [7, 8],
      [1, 2, 3, 4, 5, 6, 7, 8],
    ]);
    expect(whole(one("- { from: 12, length: 12, 12-2: Go }")).sections[0]?.phrases[0]?.numbers).toEqual([
      12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11,
    ]);
    expect(places(whole(one("- { from: 12, length: 12, 12-2: Go, 11: Stop }")).versions[0])).toEqual([
      "12-2 at 0 for 3",
      "11 at 11 for 1",
    ]);
  });
});

describe("danced order", () => {
  it("dances tags on their walls only and breaks a time off at a restart", () => {
    const yaml = `walls: 4
restarts: [{ wall: 3, after: 4 }]
sections:
  - name: Dance
    counts:
      - 1-8: { do: Quarter turn to the right, turn: 1/4 right }
  - name: Tag
    on-walls: [2]
    counts:
      - { length: 2, 1-2: Clap }`;
    const routine = whole(yaml);
    expect(routine.sections.map(({ name, wall, counts, at }) => [name, wall, counts, at])).toEqual([
      ["Dance", 1, 8, 0],
      ["Dance", 2, 8, 8],
      ["Tag", 2, 2, 16],
      ["Dance", 3, 4, 18],
      ["Dance", 4, 8, 22],
    ]);
    expect(places(routine.versions[0]).at(3)).toBe("1-8 at 18 for 4");
    expect(errors(yaml.replace("wall: 3", "wall: 5"))).toEqual(["restart 6"]);
    expect(errors(yaml.replace("after: 4", "after: 9"))).toEqual(["restart 6"]);
    expect(errors(yaml.replace("[2]", "[5]"))).toEqual(["on-walls 12"]);
    expect(errors(yaml.replace("turn: 1/4", "turn: 1/8"))).toEqual(["walls 5"]);
  });

  it("reuses counts and words of a section before or after, with changes, but in no circle", () => {
    const yaml = `sections:
  - name: First
    same-as: Second
  - name: Second
    words: over the bar
    same-as: Third
    change: { 2: { 1-8: Turn out } }
  - name: Third
    counts:
      - 1-8: Walk
      - 1-8: Run`;
    const routine = whole(yaml);
    expect(routine.versions[0]?.moves.map(({ cue }) => cue.text)).toEqual([
      "Walk",
      "Turn out",
      "Walk",
      "Turn out",
      "Walk",
      "Run",
    ]);
    expect(routine.sections.map(({ words }) => words)).toEqual(["over the bar", "over the bar", undefined]);
    expect(errors(yaml.replace("same-as: Third", "same-as: First"))).toEqual(["same-as 10"]);
    expect(errors(yaml.replace("same-as: Third", "same-as: Fourth"))).toContain("same-as 10");
    expect(errors(yaml.replace("{ 2:", "{ 3:"))).toEqual(["change 11"]);
  });
});

describe("facing", () => {
  it("is meant as on the first time danced, turned by the difference later and reflected on the other side", () => {
    const yaml = `start: { facing: left }
sections:
  - name: A
    counts:
      - 1-4: { do: Look at the back wall, facing: back }
        5-8: { do: Turn on, turn: 1/4 right }
  - name: Again
    same-as: A
  - name: Other side
    same-as: A
    mirrored: yes`;
    // From left: back is a quarter to the left (or three to the right); then left. From there again: the same.
    // On the other side, from left: a quarter to the right of left is front; then a quarter left, left again.
    expect(whole(yaml).versions[0]?.moves.map(({ after }) => after.facing)).toEqual([
      "back",
      "left",
      "back",
      "left",
      "front",
      "left",
    ]);
  });

  it("turned by the difference on further walls", () => {
    const yaml = `walls: 4
sections:
  - name: A
    counts:
      - 1-8: { do: Go to the right wall, facing: right }`;
    expect(whole(yaml).versions[0]?.moves.map(({ after }) => after.facing)).toEqual(["right", "back", "left", "front"]);
  });

  it("must agree with a turn on the same move", () => {
    expect(errors(one("- 1: { do: Turn right, turn: 1/4 right, facing: right }"))).toEqual([]);
    expect(errors(one("- 1: { do: Turn right, turn: 1/4 right, facing: left }"))).toEqual(["turn-against-facing 8"]);
  });
});

describe("the track's clock", () => {
  const yaml = (at: string) => `sections:
  - name: A
    counts:
      - 1-6: Walk
        7-8: Stop
  - name: B
    at: ${at}
    tempo: 60
    counts:
      - 1-8: Walk`;
  const seconds = (routine: Routine) =>
    routine.sections.map(({ start, end }) => `${start.toFraction()} to ${end.toFraction()}`);

  it("waits where a section's own time is later, and cuts the last move short where it is up to half a count earlier", () => {
    const music = "music: { tempo: 120, first-count: 0:10 }";
    expect(seconds(whole(yaml("0:15"), music))).toEqual(["0 to 4", "5 to 13"]);
    const early = whole(yaml("0:13.75"), music);
    expect(seconds(early)).toEqual(["0 to 15/4", "15/4 to 47/4"]);
    expect(early.versions[0]?.moves[1]?.end.equals(new Fraction(15, 4))).toBe(true);
    expect(errors(yaml("0:13.7"), music)).toEqual(["at 11"]);
  });

  it("takes tempo from beats and from bars, and halves or doubles it for a section", () => {
    expect(
      whole(
        one("- 1-8: A"),
        "music: { tempo: { beats-per-minute: 184, beats-per-count: 2 } }",
      ).music.countsPerMinute.valueOf(),
    ).toBe(92);
    expect(
      whole(
        one("- 1-8: A"),
        "music: { tempo: { bars-per-minute: 29, beats-per-bar: 3 } }",
      ).music.countsPerMinute.valueOf(),
    ).toBe(87);
    const routine = whole(
      "sections:\n  - { name: A, time: half, counts: [{ 1-8: Walk }] }\n  - { name: B, tempo: 90, time: double, counts: [{ 1-8: Walk }] }",
    );
    expect(routine.sections.map(({ countsPerMinute }) => countsPerMinute.valueOf())).toEqual([60, 180]);
  });

  it("gives `at` for single times through", () => {
    const routine = whole(
      `times: 2
sections:
  - name: A
    at: { 2: 0:09 }
    counts:
      - 1-8: Walk`,
      "music: { tempo: 120, first-count: 0 }",
    );
    expect(routine.sections.map(({ start }) => start.valueOf())).toEqual([0, 9]);
  });
});

describe("versions", () => {
  const yaml = `levels: [1, 2, 3, 4]
taught: 2
adaptations: [{ name: seated, from: 1 }]
sections:
  - name: A
    counts:
      - 1-4:
          do: Plain
          words: over now
          options:
            1: One
            3: { 1-2: Three a, 3-4: Three b }
        5-8: Plain too
        options:
          seated: { 1-8: Breathe }`;
  const cues = (routine: Routine, id: string) =>
    routine.versions.find((version) => version.id === id)?.moves.map(({ cue }) => cue.text);

  it("hold from their level on, away from the taught one, until the next takes over", () => {
    const routine = whole(yaml);
    expect(cues(routine, "1")).toEqual(["One", "Plain too"]);
    expect(cues(routine, "2")).toEqual(["Plain", "Plain too"]);
    expect(cues(routine, "3")).toEqual(["Three a", "Three b", "Plain too"]);
    expect(cues(routine, "4")).toEqual(["Three a", "Three b", "Plain too"]);
    expect(cues(routine, "seated")).toEqual(["Breathe"]);
    expect(routine.versions.find(({ id }) => id === "4")?.moves.map(({ words }) => words)).toEqual([
      "over now",
      undefined,
      undefined,
    ]);
    expect(routine.versions.map(({ id }) => id)).toEqual(["1", "2", "3", "4", "seated"]);
  });

  it("are told in the order of their counts, though a map of counts has its plain numbers first", () => {
    const ordered = whole(
      yaml
        .replace("{ 1-2: Three a, 3-4: Three b }", "{ 1: Three a, 2-3: Three b, 4: Three c }")
        .replace("{ 1-8: Breathe }", "{ 1: In, 2-7: Hold it, 8: Out }"),
    );
    const told = ordered.versions
      .find(({ id }) => id === "2")
      ?.moves.flatMap(({ alternatives }) =>
        alternatives.map(({ version, moves }) => [version, moves.map(({ on }) => on).join(" ")]),
      );
    expect(told).toEqual([
      ["seated", "1 2-7 8"],
      ["1", "1-4"],
      ["3", "1 2-3 4"],
    ]);
  });

  it("stay within the counts that they fill", () => {
    expect(errors(yaml.replace("3-4: Three b", "4-5: Three b"))).toEqual(["outside 16"]);
  });

  it("send nobody on a chair to the floor by silence", () => {
    const chair = `adaptations: [seated]
start: { seated: { height: chair } }
sections:
  - name: A
    counts:
      - 1-4: { do: Step left, step: left, options: { seated: Tap the left foot } }
        5-8: { do: Kneel, height: kneeling }`;
    expect(errors(chair)).toEqual(["adaptation 11"]);
    expect(
      errors(chair.replace("height: kneeling }", "height: kneeling, options: { seated: Fold forward } }")),
    ).toEqual([]);
  });
});

describe("risks that follow", () => {
  const cautions = (counts: string, tempo = 120) =>
    whole(one(counts), `music: { tempo: ${tempo} }`).versions[0]?.cautions;

  it("drop where a dancer reaches the floor from standing in under one second", () => {
    expect(cautions("- 1: { do: Sit, height: seated }", 61)).toEqual(["floor-drop"]);
    expect(cautions("- 1: { do: Sit, height: seated }", 60)).toEqual([]);
  });

  it("spin where turns add up to a whole one in one direction without a count between", () => {
    expect(cautions("- 1: { do: Half, turn: 1/2 right }\n  2: { do: Half, turn: 1/2 right }")).toEqual(["spin"]);
    expect(cautions("- 1: { do: Half, turn: 1/2 right }\n  3: { do: Half, turn: 1/2 right }")).toEqual([]);
    expect(cautions("- 1: { do: Half, turn: 1/2 right }\n  2: { do: Half, turn: 1/2 left }")).toEqual([]);
    expect(cautions("- 1: { do: Whole, turn: 1 left }")).toEqual(["spin"]);
  });

  it("come in the order of the caution list", () => {
    expect(cautions("- 1-4: { do: Up, through: inverted, contacts: [knees], risk: [lift, backbend] }")).toEqual([
      "inversion",
      "backbend",
      "lift",
      "kneework",
    ]);
  });
});

describe("groups", () => {
  it("turn by the difference where a shared facing is meant from the first group's", () => {
    const routine = whole(`groups: [Ebb, { name: Flood, facing: back }, { name: Swell, facing: back, mirrored: yes }]
sections:
  - name: A
    counts:
      - 1-4: { do: Quarter turn right, turn: 1/4 right, facing: right }
        5-8: { do: Look back, facing: back }`);
    const facings = (moves: Version["moves"] = []) => moves.map(({ after }) => after.facing);
    const [version] = routine.versions;
    expect([facings(version?.moves), ...(version?.groups ?? []).map(({ moves }) => facings(moves))]).toEqual([
      ["right", "back"],
      ["left", "front"],
      ["right", "front"],
    ]);
  });

  it("are as the section that theirs is the same as, unless it says otherwise", () => {
    const yaml = (canon: string) => `groups: [Ebb, Flood]
sections:
  - name: Round
    canon: { Flood: 4 }
    counts: [{ 1-8: Walk }]
  - name: Together
    same-as: Round${canon}`;
    expect(whole(yaml("")).counts).toBe(24);
    expect(whole(yaml("\n    canon: {}")).counts).toBe(20);
    expect(whole(yaml("")).sections[0]?.phrases.map(({ numbers }) => numbers.join(""))).toEqual(["12345678", "1234"]);
  });

  it("dance the same counts later, and the section lasts until the last is done", () => {
    const routine = whole(`groups: [Ebb, { name: Flood, facing: back, mirrored: yes }]
sections:
  - name: Round
    canon: { Flood: 4 }
    counts:
      - 1-8: { do: Turn left, turn: 1/4 left }
  - name: Apart
    counts:
      - 1-8: Walk
    parts:
      Flood:
        - 1-4: hold
          5-8: { do: Step left, step: left }`);
    expect(routine.counts).toBe(20);
    const [version] = routine.versions;
    expect(places(version)).toEqual(["1-8 at 0 for 8", "1-8 at 12 for 8"]);
    const flood = version?.groups[0];
    expect(flood?.moves.map(({ at, cue, after }) => [at.valueOf(), cue.text, after.facing])).toEqual([
      [4, "Turn right", "left"],
      [12, "hold", "left"],
      [16, "Step left", "left"],
    ]);
  });

  it("have as many counts as the first, and names that are known", () => {
    const yaml = (part: string) => `groups: [Ebb, Flood]
sections:
  - name: A
    counts: [{ 1-8: Walk }]
    ${part}`;
    expect(errors(yaml("parts: { Flood: [{ length: 4, 1-4: Walk }] }"))).toEqual(["parts 9"]);
    expect(errors(yaml("canon: { Floot: 4 }"))).toEqual(["groups 9"]);
    expect(errors(yaml("canon: { Ebb: 4 }"))).toEqual([]);
    expect(errors(yaml("parts: { Ebb: [{ 1-8: Walk }] }"))).toEqual(["groups 9"]);
  });
});

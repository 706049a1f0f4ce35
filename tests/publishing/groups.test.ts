import { expect, test } from "vitest";
import { descriptionText } from "../../src/publishing/description/description.js";
import { floorPlan, floorPlans } from "../../src/publishing/drawing/floor-plan.js";
import { phraseMap } from "../../src/publishing/drawing/phrase-map.js";
import { groupNames } from "../../src/publishing/handout/group-names.js";
import { drawHandout, handoutPrint } from "../../src/publishing/handout/handout.js";
import { viewAddress } from "../../src/publishing/paper/credit.js";
import { takesText } from "../../src/publishing/plan/takes-text.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import { workshopView } from "../../src/publishing/site/workshop-view.js";
import { asDancedBy } from "../../src/routine/one-group.js";
import { planClass } from "../../src/teaching/plan.js";
import { planRecording } from "../../src/teaching/recording.js";
import { wordingOf } from "../../src/wording/wording.js";
import { fromYaml } from "../fixtures/from-yaml.js";
import { readText, spaced } from "../fixtures/read-pdf.js";
import { library } from "../fixtures/written.js";
import { libraryWith, stepsOf, workshopOf } from "../teaching/builder.js";

const wording = wordingOf("en");

/** Only the second group goes to its knees; it travels, and turns, and hits. */
const routine = fromYaml(`
groups: [Ebb, Flood]
sections:
  - name: Harbour wall
    counts:
      - 1-4: Reach up
        5-8: hold
    parts:
      Flood:
        - 1-2: { do: Sink to the knees, height: kneeling, hit: yes }
          3-4: Stay there
          5-8: { do: Come up and walk, height: standing, travel: { forward: 4 }, turn: 1/4 right }
`);
const [version] = routine.versions;
if (version === undefined) throw new Error("It has no version.");

test("a limit is kept for every group, and the plan says whose it is not", () => {
  const plan = planClass(workshopOf([routine], 30), libraryWith({ limits: { knees: "1" } }));
  // One move brings Flood to its knees: as often as the class dances it.
  const runs = stepsOf(plan).reduce((sum, { kind, runs }) => sum + (/^show/.test(kind) ? 0 : runs), 0);
  expect(runs).toBeGreaterThan(1);
  expect(plan.limits).toEqual([
    {
      ...{ part: "knees", limit: 1, before: runs, after: runs, easiest: runs, kept: false },
      groups: [{ routine: "low-tide", title: "Low Tide", group: "Flood" }],
    },
  ]);
  expect(plan.load.taught).toEqual({ knees: runs });
  expect(plan.groups?.map(({ group, taught }) => [group, taught])).toEqual([
    ["Ebb", {}],
    ["Flood", { knees: runs }],
  ]);
  const page = workshopView(workshopOf([routine], 30), library, { pictures: new Map(), downloads: [], plan }, wording);
  const [summary, activities] = [page.plan?.summary.join("\n"), page.plan?.activities ?? []];
  // The routine has one level, so that there is nothing easier to advise, and one figure to give.
  expect(summary).toContain(
    `it is not kept: the plan has ${runs} for Flood. Level 1 is the easiest: give the moves that`,
  );
  expect(summary).toContain("load the knees an easier option for Flood, or teach less.");
  expect(summary).toContain(`weight or impact: knees ${runs}.\nEbb: none.\nFlood: knees ${runs}.`);
  expect(summary).not.toMatch(/at the easiest|easier level/);
  expect(activities.find(({ label }) => /: /.test(label))?.cautions).toEqual(["weight on the knees (Flood)"]);
  expect(page.cautions.map(({ value }) => value.label)).toEqual(["weight on the knees (Flood)"]);
});

test("what only one group dances is taught and taken on its own, and says whose it is", () => {
  const plan = planClass(workshopOf([routine], 30), library);
  expect(plan.chunks[0]).toMatchObject({ newMoves: 4, cautions: ["kneework"], load: { taught: { knees: 1 } } });
  const spun = fromYaml(`
groups: [Ebb, Flood]
sections:
  - name: Wall
    counts: [{ 1-8: Walk }]
    parts: { Flood: [{ 1-4: { do: Spin low, risk: [spin] }, 5-8: Walk }] }
`);
  const detail = stepsOf(planClass(workshopOf([spun], 30), library)).find(({ kind }) => kind === "detail");
  expect(detail?.moves).toEqual([{ cue: "Spin low", phrase: 1, on: "1-4", groups: ["Flood"] }]);
  expect(planRecording(routine, library).takes.find(({ kind }) => kind === "follow")).toMatchObject({
    ...{ load: { knees: 1 }, cautions: ["kneework"] },
  });
});

test("a group in canon dances the same moves, and learns them once", () => {
  const canon = fromYaml(`
groups: [Ebb, Flood]
sections:
  - name: Wall
    canon: { Flood: 4 }
    counts:
      - 1-4: { do: Down on the knees, height: kneeling }
        5-8: { do: Up again, height: standing }
`);
  const plan = planClass(workshopOf([canon], 20), library);
  expect(plan.chunks[0]).toMatchObject({ newMoves: 2, load: { taught: { knees: 1 } } });
  expect(plan.groups).toBeUndefined();
  expect(plan.activities.every(({ groups, cautionGroups }) => groups === undefined && !cautionGroups)).toBe(true);
});

test("the record, the page and the description name the group that meets a caution", () => {
  const record = routineJson(routine, library, []);
  expect(record.versions[0]).toMatchObject({ cautions: ["kneework"], cautionGroups: { kneework: ["Flood"] } });
  const view = routineView(routine, library, { pictures: new Map(), downloads: [] }, wording);
  expect(view.cautions.map(({ value }) => value.label)).toEqual(["weight on the knees (Flood)"]);
  expect(view.facts.floorWork).toEqual(["1"]);
  expect(descriptionText(routine, library)).toContain("weight on the knees (Flood)");
});

test("the head of the handout names the group too, and the legend is of what the sheet shows, whoever dances it", async () => {
  const paper = spaced(await readText(await drawHandout(routine, version, library, "sheet")));
  expect(paper).toContain("Weight on the knees (Flood). Wear knee pads");
  expect(paper).toContain("lands hard");
  expect(paper).toMatch(/lands hard caution facing/);
  // A sheet that has no caution of its own has in its head what holds for every dance, and it says that once.
  expect(paper).toMatch(/Harbour wall.* Take care\. The venue/);
  const ebb = asDancedBy(routine, "Ebb");
  const own = spaced(await readText(await drawHandout(ebb, ebb.versions[0] ?? version, library, "sheet")));
  expect(own).toMatch(/Take care The venue's rules .* Harbour wall/);
  const large = spaced(await readText(await drawHandout(routine, version, library, "large")));
  expect(large).toContain("Take care: Weight on the knees (Flood). Wear knee pads");
  const read = spaced(await readText(await drawHandout(ebb, ebb.versions[0] ?? version, library, "large")));
  expect(read).toMatch(/Take care: The venue's rules .* 1 Harbour wall/);
  for (const once of [paper, own, read]) expect(once.match(/The venue's rules/g)).toHaveLength(1);
});

test("a group's own sheet has its moves, its start and its cautions, and a code that opens them", async () => {
  const across = fromYaml(`
groups: [Ebb, { name: Flood, facing: back }]
levels: [1, 2]
sections:
  - name: Harbour wall
    counts: [{ 1-8: Reach up }]
    parts:
      Flood:
        - 1-4: { do: Sink, height: kneeling, options: { 2: Spiral down } }
          5-8: { do: Rise, height: standing, weight: both }
`);
  const sheetOf = (group: string) => {
    const alone = asDancedBy(across, group);
    const [one] = alone.versions;
    if (one === undefined) throw new Error("It has no version.");
    return { alone, one, paper: drawHandout(alone, one, library, "sheet", { group }).then(readText).then(spaced) };
  };
  const [ebb, flood] = [sheetOf("Ebb"), sheetOf("Flood")];
  const [first, second] = [await ebb.paper, await flood.paper];
  expect(first).toContain("Level 1 of 2, the easier · group Ebb");
  expect(first).toContain("Reach up");
  for (const others of ["Sink", "Weight on the knees", "Facing back", "Flood", "Spiral"])
    expect(first).not.toContain(others);
  expect(second).toContain("Level 1 of 2, the easier · group Flood");
  for (const own of ["Sink", "Rise", "Harder (Level 2): ", "Spiral down", "Weight on the knees.", "Facing back"])
    expect(second).toContain(own);
  for (const others of ["Reach up", "Ebb"]) expect(second).not.toContain(others);
  expect(flood.one.load).toEqual({ knees: 1 });
  expect(viewAddress({ routine: flood.alone, version: flood.one, group: "Flood" }, library)).toBe(
    "https://saltmarsh.example/routines/low-tide/?version=1&group=Flood",
  );
});

test("a name that is short stands in the column of the phrase numbers, and where only some sections are apart, the others are everybody's", async () => {
  const apart = fromYaml(`
groups: [Ebb, Flood]
sections:
  - { name: A, counts: [{ 1-8: Walk }, { 1-8: Sway }], parts: { Flood: [{ 1-8: Reach }, { 1-8: Fold }] } }
  - { name: B, counts: [{ 1-4: Clap, 5: { do: Melt, lasts: 10 } }, { 7-8: Rise }] }
`);
  const sheetOf = async (of: typeof apart) =>
    spaced(await readText(await drawHandout(of, of.versions[0] ?? version, library, "sheet")));
  expect(await sheetOf(apart)).toMatch(
    /1 A Ebb 1 1–8 Walk Flood 1–8 Reach Ebb 2 1–8 Sway Flood 1–8 Fold 2 B everybody 1 1–4 Clap 5 Melt 2 … goes on 7–8 Rise/,
  );
  expect(await sheetOf(asDancedBy(apart, "Ebb"))).toMatch(
    /1 A 1 1–8 Walk 2 1–8 Sway 2 B 1 1–4 Clap 5 Melt 2 … goes on 7–8 Rise/,
  );
});

test("a group in canon reads that it is on the other side, on its own sheet that it waits, and the others what they do until it is done", async () => {
  const canon = fromYaml(`
groups: [Shore, { name: Sea, mirrored: yes }]
sections:
  - name: Round
    canon: { Sea: 4 }
    counts: [{ 1-4: Step right, 5-8: { do: Step left, risk: [jump], note: Land softly } }]
`);
  const [only = version] = canon.versions;
  const read = (of: typeof canon, kind: "sheet" | "large", group?: string) =>
    drawHandout(of, of.versions[0] ?? only, library, kind, group === undefined ? {} : { group })
      .then(readText)
      .then(spaced);
  const [all, large, shore, sea] = [
    await read(canon, "sheet"),
    await read(canon, "large"),
    await read(asDancedBy(canon, "Shore"), "sheet", "Shore"),
    await read(asDancedBy(canon, "Sea"), "sheet", "Sea"),
  ];
  for (const both of [all, large]) {
    expect(both).toContain("Sea: the same on the other side, 4 counts later");
    expect(both).toMatch(/facing front, .*; dances on the other side/);
    expect(both.match(/dances on the other side/g)).toHaveLength(1);
  }
  // Shore is done on 8; the room counts four more.
  expect(shore).toContain("hold while the others finish");
  expect(shore).not.toMatch(/Sea|wait 4|other side/);
  // Sea's own 1 is the room's 5.
  expect(sea).toContain("wait 4 counts, then begin on your own 1");
  expect(sea).toContain("the numbers are the music's, own counts in brackets");
  expect(sea).toMatch(/ 1–4 hold 5–8 \(own 1–4\) Step left 2 1–4 \(own 5–8\) Step right \(jump\)/);
  expect(large).toContain("Phrase 2, Sea, facing front 1–4 (own 5–8) Step right (jump)");
  expect([shore, sea].map((text) => /an easier way: (.*?) \(jump\)/.exec(text)?.[1])).toEqual([
    "Round phrase 1: 5–8",
    "Round phrase 2: 1–4",
  ]);
  expect(shore).toContain("5–8 Land softly");
  expect(sea).toContain("Phrase 2 1–4 Land softly");
  expect(shore).not.toMatch(/own \d|brackets/);
  expect(sea).not.toMatch(/others finish|4 counts later/);
});

test("counts that all dance, but not all the same way round, say of each group where it faces, and of no move where it leads", () => {
  const round = fromYaml(`
groups: [Ebb, { name: Flood, facing: back }]
sections:
  - { name: A, counts: [{ 1-4: { do: Turn, turn: 1/4 right }, 5-8: Reach }] }
  - { name: B, counts: [{ 1-8: Walk }] }
`);
  const [only = version] = round.versions;
  for (const kind of ["sheet", "large"] as const) {
    const text = JSON.stringify(handoutPrint(round, only, library, kind).elements);
    expect(text).not.toContain("now facing");
  }
  return drawHandout(round, only, library, "sheet")
    .then(readText)
    .then((text) => {
      expect(spaced(text)).toMatch(
        /1 A Ebb facing front · Flood facing back .* 2 B Ebb facing right · Flood facing left/,
      );
    });
});

test("each group's file goes by its name, or by its place where the name is another's", () => {
  const namesOf = (groups: readonly string[], ids: readonly string[] = ["1"]) => {
    return groupNames({ groups, versions: ids.map((id) => ({ ...version, id })) });
  };
  expect(namesOf(["Ebb", "Back row, left"])).toEqual(["ebb", "back-row-left"]);
  expect(namesOf(["Large", "mirrored", "Card"])).toEqual(["group-1", "group-2", "group-3"]);
  expect(namesOf(["Ebb!", "ebb?", "…"])).toEqual(["ebb", "group-2", "group-3"]);
  expect(namesOf(["Group 2", "Group-2"])).toEqual(["group-2", "group-2-2"]);
  // handout-1-flood.pdf is the sheet of the version 1-flood.
  expect(namesOf(["Flood"], ["1", "1-flood"])).toEqual(["group-1"]);
  expect(namesOf(["The very tall people of the last row and all who stand behind them"])[0]?.length).toBeLessThan(41);
});

test("heights, facings and hits of the map and the ways of the floor plan are each group's own", () => {
  const size = { width: 500, size: 10, wording };
  const { description } = phraseMap(routine, version, size);
  expect(description).toContain("Ebb standing throughout, facing front throughout; ");
  expect(description).toContain(
    "; Flood standing at first, kneeling from count 2, standing from count 8, facing front",
  );
  expect(description).toContain("; hits at count 1.");
  const plans = floorPlans(routine, version, library, size);
  expect(plans.map((plan) => plan.title)).toEqual(["Floor plan of Low Tide, Level 1, Flood"]);
  expect(plans[0]?.description).toMatch(/^Flood, seen from above .*2\.4 m to the front\.$/);
  expect(floorPlan(routine, version, library, size)).toEqual(plans[0]);
});

test("a description says that only one group dances a level another way", () => {
  const level = fromYaml(`
groups: [Shore, Sea]
levels: [1, 2]
sections:
  - name: Fall
    counts: [{ 1-8: Sway }]
    parts:
      Sea: [{ 1-4: { do: Reach, options: { 2: Leap } }, 5-8: Fold }]
`);
  expect(descriptionText(level, library)).toContain("Level 2: Sea dances 1 move another way");
});

test("another way has the cautions that its own version has, and says whose it is", async () => {
  const level = fromYaml(`
groups: [Shore, Sea]
levels: [1, 2]
music: { tempo: 120 }
sections:
  - name: Fall
    counts: [{ 1-8: Sway }]
    parts:
      Sea:
        - 1:
            do: Fold
            options: { 2: { do: Drop from a jump, height: kneeling, contacts: [knees], risk: [jump] } }
          2-4: hold
          5-8: { do: Up, height: standing, weight: both }
`);
  const [one, two] = level.versions;
  const other = one?.groups[0]?.moves[0]?.alternatives[0];
  // Half a second from standing to the knees: it drops, which the option alone cannot know.
  expect(other?.moves[0]?.risks).toEqual(["floor-drop", "jump", "kneework"]);
  expect(other?.moves[0]?.risks).toEqual(two?.groups[0]?.moves[0]?.cautions);
  const paper = spaced(await readText(await drawHandout(level, one ?? version, library, "sheet")));
  expect(paper).toContain("Harder (Level 2): 1 Drop from a jump (fast to the floor, jump, weight on the knees)");
  const takes = takesText(planRecording(level, library), level, library);
  expect(takes).toContain(
    "Level 2 (Sea): 1 Drop from a jump (take care: fast to the floor, jump and weight on the knees)",
  );
});

test("a handout says which way each group faces, where they face apart", async () => {
  const across = fromYaml(`
groups: [Shore, { name: Sea, facing: back }]
sections:
  - name: Round
    canon: { Sea: 4 }
    counts: [{ 1-8: Walk }]
  - name: Fall
    counts: [{ 1-8: Sway }]
    parts:
      Sea: [{ 1-8: Fold }]
`);
  const [only = version] = across.versions;
  const paper = spaced(await readText(await drawHandout(across, only, library, "sheet")));
  expect(paper).toContain("Sea: the same, 4 counts later, facing back");
  expect(paper.match(/Starts/g)).toHaveLength(1);
  const elements = JSON.stringify(handoutPrint(across, only, library, "sheet").elements);
  const signs = (facing: string) => elements.split(`"alt":"facing ${facing}"`).length - 1;
  // Back: the head, Sea's row of its echo, and its row of the second section. Front: the head, the first section, and Shore's row.
  expect([signs("front"), signs("back")]).toEqual([3, 3]);
  const large = spaced(await readText(await drawHandout(across, only, library, "large")));
  expect(large).toContain("Sea starts: facing back");
});

test("a caution that one group meets at one level has both in one bracket", () => {
  const scarf = fromYaml(`
groups: [Shore, Back]
levels: [1, 2]
sections:
  - name: Fall
    counts: [{ 1-8: Sway }]
    parts:
      Back: [{ 1-4: { do: Reach, options: { 2: { do: Scarf on, risk: [neck] } } }, 5-8: Fold }]
`);
  expect(descriptionText(scarf, library)).toContain("TAKE CARE: the neck (Back, level 2).");
});

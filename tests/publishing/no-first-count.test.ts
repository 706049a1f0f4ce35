import { expect, test } from "vitest";
import { captions } from "../../src/publishing/captions/publisher.js";
import { descriptionText } from "../../src/publishing/description/description.js";
import { phraseMap } from "../../src/publishing/drawing/phrase-map.js";
import { handoutPrint } from "../../src/publishing/handout/handout.js";
import { layoutLarge } from "../../src/publishing/handout/large.js";
import { routineJson } from "../../src/publishing/routine-json.js";
import { routineView } from "../../src/publishing/site/routine-view.js";
import type { Routine } from "../../src/routine/routine.js";
import { svgText } from "../../src/typesetting/svg.js";
import type { Piece } from "../../src/typesetting/text.js";
import { wordingOf } from "../../src/wording/wording.js";
import { contextOf } from "../fixtures/context.js";
import { whole } from "../fixtures/read-keys.js";
import { library } from "../fixtures/written.js";

/* Where nobody says where the first count falls, nothing that is published says where anything lies in the track. */

const keys = `video: { performance: "https://example.org/performance" }
times: 2
sections:
  - name: Verse
    counts:
      - 1-4: { do: Sink, height: kneeling }
        5-8: { do: Rise and turn, height: standing, turn: 1/2 right, hit: yes }
  - { name: Tag, on-walls: [2], counts: [{ length: 4, 1-4: Walk }] }
  - { name: Verse again, same-as: Verse, repeat: 2 }`;
const unplaced = whole(keys);
const placed = whole(keys, "music: { tempo: 120, first-count: 0:14.2 }");

const wording = wordingOf("en");
/** "0:14.2", or a word of the track. Only a place in a track is printed with tenths. */
const trackPlace = /\d:\d\d\.\d|\btrack\b(?!s)/;

/** All that is laid out, the text of its lines included. */
const laidOut = (elements: unknown): string =>
  JSON.stringify(elements, (key, value) =>
    key === "pieces"
      ? value()
          .map((piece: Piece) => piece.text)
          .join("")
      : value,
  );

/** What people read of it, by output. */
function texts(routine: Routine): Readonly<Record<string, string>> {
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has at least one version.");
  const map = phraseMap(routine, version, { width: 500, size: 8, wording });
  const dance = { routine, version };
  return {
    page: JSON.stringify(routineView(routine, library, { pictures: new Map(), downloads: [] }, wording)),
    paper: laidOut(handoutPrint(routine, version, library, "sheet").elements),
    large: laidOut(layoutLarge(dance, library, wording).elements),
    map: svgText(map, "map"),
    "video text": descriptionText(routine, library),
  };
}

test.each(Object.entries(texts(unplaced)))("%s names no place in the track", (_, text) =>
  expect(trackPlace.exec(text)).toBeNull(),
);

test("the same outputs do where it is said", () => {
  const { "video text": _, ...others } = texts(placed);
  for (const text of Object.values(others)) expect(text).toMatch(trackPlace);
});

test("the page has no way into the performance at a section, since nobody knows where that is", () => {
  const links = ({ sections }: ReturnType<typeof routineView>) =>
    sections.flatMap(({ videos }) => videos.map(({ html }) => html));
  const view = (routine: Routine) => routineView(routine, library, { pictures: new Map(), downloads: [] }, wording);
  expect(links(view(unplaced))).toEqual([]);
  expect(links(view(placed))[0]).toContain("#t=14.2");
});

test("the page names each time through once where no place in the track tells repeats apart", () => {
  const { sections } = routineView(unplaced, library, { pictures: new Map(), downloads: [] }, wording);
  expect(sections.find(({ name }) => name === "Verse again")?.times.map(({ through }) => through)).toEqual([
    "time 1",
    "time 2",
  ]);
});

test("the map says in words by its counts where everything is", () => {
  const [version] = unplaced.versions;
  const { description } = phraseMap(unplaced, version as NonNullable<typeof version>, { width: 500, size: 8, wording });
  expect(description).toContain("counted through from the first");
  // The first time through has 24 counts, so the tag begins on the 33rd.
  expect(description).toContain("count 33 Tag, 4 counts, time 2");
  expect(description).toContain("Standing at first, then changing 12 times between standing and kneeling, ");
});

test("no captions are made of it, and `routine.json` has null in their place", async () => {
  const files = async (routine: Routine) =>
    (await captions.publish(routine, contextOf(library))).map(({ path }) => path);
  expect(await files(unplaced)).toEqual([]);
  expect((await files(placed)).length).toBe(2);
  const { music, sections, versions, clicks } = routineJson(unplaced, library, []);
  expect(music.firstCount).toBeNull();
  const times = [...sections, ...clicks, ...versions.flatMap(({ moves }) => moves)].map(({ trackTime }) => trackTime);
  expect(new Set(times)).toEqual(new Set([null]));
});

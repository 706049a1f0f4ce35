import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { coverage } from "../../../src/publishing/preview/coverage.js";
import { preview, previewPicture } from "../../../src/publishing/preview/publisher.js";
import { type Content, readContent } from "../../../src/reading/read-content.js";
import type { Coordinates } from "../../../src/typesetting/shape.js";
import { contextOf } from "../../fixtures/context.js";

/** The area within a polygon, by the shoelace formula. */
function area(points: readonly Coordinates[]): number {
  const twice = points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length] as Coordinates;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}

const total = (values: Float32Array) => values.reduce((sum, value) => sum + value, 0);

describe("coverage", () => {
  test("of a box between the pixels is the share of each pixel", () => {
    const box: Coordinates[] = [
      [0.5, 0.25],
      [2.5, 0.25],
      [2.5, 1.25],
      [0.5, 1.25],
    ];
    expect([...coverage([box], 4, 2).values]).toEqual([0.375, 0.75, 0.375, 0, 0.125, 0.25, 0.125, 0]);
  });

  test.each<[string, readonly Coordinates[]]>([
    [
      "a flat triangle",
      [
        [0.2, 0.3],
        [9.1, 2.6],
        [3.3, 2.9],
      ],
    ],
    [
      "a steep triangle",
      [
        [4.4, 0.1],
        [5.3, 9.9],
        [4.1, 9.2],
      ],
    ],
    [
      "a kite, drawn the other way round",
      [
        [5, 0],
        [0.5, 4.5],
        [5, 9.75],
        [9.5, 4.5],
      ],
    ],
    [
      "a sliver within one row",
      [
        [0.1, 5.1],
        [9.9, 5.2],
        [9.9, 5.4],
        [0.1, 5.3],
      ],
    ],
  ])("of %s adds up to its area", (_, points) => {
    const { values } = coverage([points], 10, 10);
    expect(total(values)).toBeCloseTo(area(points), 4);
    expect(Math.max(...values)).toBeLessThanOrEqual(1);
  });

  test("of a ring leaves the hole empty", () => {
    const outer: Coordinates[] = [
      [0, 0],
      [6, 0],
      [6, 6],
      [0, 6],
    ];
    const hole: Coordinates[] = [
      [2, 2],
      [2, 4],
      [4, 4],
      [4, 2],
    ];
    expect(total(coverage([outer, hole], 6, 6).values)).toBeCloseTo(32, 5);
  });
});

describe("the picture of a routine", () => {
  let content: Content;
  beforeAll(async () => {
    content = await readContent(fileURLToPath(new URL("../../../content", import.meta.url)));
  });

  test("has the size that previews have, ink on it, and the accent's colour only where counts land hard", async () => {
    const routine = content.routines.find(({ slug }) => slug === "breakwater-letters");
    if (!routine) throw new Error("no such routine");
    const { width, height, pixels, palette } = previewPicture(routine, content.library);
    expect([width, height, pixels.length]).toEqual([1200, 630, 1200 * 630]);
    const beats = [...pixels].flatMap((index, place) => (palette[index]?.join() === "140,42,28" ? [place % 1200] : []));
    const room = (1200 - 2 * 72) / 8;
    const columns = new Set(beats.map((x) => Math.floor((x - 72) / room) + 1));
    expect([...columns].sort()).toEqual([...routine.music.accents]);
  });

  test("is made only where the library has an address", async () => {
    const [routine] = content.routines;
    if (!routine) throw new Error("no routine");
    expect(await preview.publish(routine, contextOf(content.library))).toHaveLength(1);
    const { url: _, ...unpublished } = content.library;
    expect(await preview.publish(routine, contextOf(unpublished))).toEqual([]);
  });

  test("a long title, a phrase of sixteen and letters beyond Latin still give a picture", () => {
    const [routine] = content.routines;
    if (!routine) throw new Error("no routine");
    const odd = {
      ...routine,
      title: "Über die lange Mauer am Wasser und zurück ".repeat(6),
      choreographer: "Ελένη Дарья",
    };
    const long = { ...odd, music: { ...routine.music, phrase: 16, accents: [1, 16] } };
    const plain = previewPicture(routine, content.library).pixels;
    expect(previewPicture(long, content.library).pixels).not.toEqual(plain);
  });
});

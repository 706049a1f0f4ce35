import { readFile } from "node:fs/promises";
import Fraction from "fraction.js";
import { describe, expect, it } from "vitest";
import { floorPlan, floorPlans } from "../../../src/publishing/drawing/floor-plan.js";
import { phraseMap } from "../../../src/publishing/drawing/phrase-map.js";
import { facingSign } from "../../../src/publishing/drawing/signs.js";
import { readContent } from "../../../src/reading/read-content.js";
import { mirror } from "../../../src/routine/mirror.js";
import type { Routine, Version } from "../../../src/routine/routine.js";
import { facings } from "../../../src/routine/vocabulary.js";
import { writePrint } from "../../../src/typesetting/pdf/write.js";
import { figure } from "../../../src/typesetting/print.js";
import type { Drawing, Shape } from "../../../src/typesetting/shape.js";
import { svgText } from "../../../src/typesetting/svg.js";
import { textWidth } from "../../../src/typesetting/text.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { readPages } from "../../fixtures/read-pdf.js";
import { danced, library, move, phrase, section } from "../../fixtures/written.js";

const demo = await readContent("content");
const wording = wordingOf("en");

function firstOf(routine: Routine): Version {
  const [version] = routine.versions;
  if (version === undefined) throw new Error("A routine has at least one version.");
  return version;
}

const textsOf = ({ shapes }: Drawing) => shapes.flatMap((shape) => (shape.kind === "text" ? [shape] : []));

/** Every drawing of the demo library, at the sizes of a sheet and of large print. */
const drawings: readonly Drawing[] = demo.routines.flatMap((routine) =>
  routine.versions.flatMap((version) =>
    [8, 18].flatMap((size) => {
      const plan = floorPlan(routine, version, demo.library, { width: 250, size, wording });
      return [phraseMap(routine, version, { width: 515, size, wording }), ...(plan === undefined ? [] : [plan])];
    }),
  ),
);

function pointsOf(shape: Shape): readonly (readonly [number, number])[] {
  if (shape.kind === "path") return shape.points;
  const [x, y] = shape.at;
  if (shape.kind === "box") return [shape.at, [x + shape.width, y + shape.height]];
  if (shape.kind === "disc")
    return [
      [x - shape.radius, y - shape.radius],
      [x + shape.radius, y + shape.radius],
    ];
  const width = textWidth(shape.text, shape.size, shape.bold === true ? "bold" : "regular");
  const left = x - { start: 0, middle: width / 2, end: width }[shape.anchor];
  return [
    [left, y - shape.size * 0.72],
    [left + width, y + shape.size * 0.2],
  ];
}

describe("drawings", () => {
  it("stay inside their frame", () => {
    expect(drawings.length).toBeGreaterThan(40);
    for (const drawing of drawings)
      for (const shape of drawing.shapes)
        for (const [x, y] of pointsOf(shape)) {
          expect(x, drawing.title).toBeGreaterThanOrEqual(-1);
          expect(x, drawing.title).toBeLessThanOrEqual(drawing.width + 1);
          expect(y, drawing.title).toBeGreaterThanOrEqual(-1);
          expect(y, drawing.title).toBeLessThanOrEqual(drawing.height + 1);
        }
  });

  it("have no text upon text", () => {
    for (const drawing of drawings) {
      const boxes = textsOf(drawing).map((shape) => pointsOf(shape).flat() as [number, number, number, number]);
      const meet = boxes.flatMap(([l1, t1, r1, b1], index) =>
        boxes
          .slice(index + 1)
          .filter(([l2, t2, r2, b2]) => l1 + 0.1 < r2 && l2 + 0.1 < r1 && t1 + 0.1 < b2 && t2 + 0.1 < b1),
      );
      expect(meet, drawing.title).toEqual([]);
    }
  });

  it("say in two sentences what they show", () => {
    for (const { description, title } of drawings) {
      expect(title).toMatch(/^(Phrase map|Floor plan) of /);
      expect(description.length).toBeGreaterThan(60);
      // In two sentences: a full stop before a capital ends the first.
      expect(description.match(/\.(?= [A-Z]|$)/g)?.length, description).toBe(2);
    }
  });

  it("are the same on a page and on paper: every text of the SVG, in outlines, stands in the PDF, where it should", async () => {
    for (const drawing of drawings.slice(0, 6)) {
      const spot = { page: 0, x: 40, y: 50 };
      const file = await writePrint({
        title: drawing.title,
        language: "en",
        paper: "A4",
        pages: 1,
        elements: [figure(drawing, spot)],
        decoration: [],
        bookmarks: [],
      });
      const [page] = await readPages(file);
      const svg = svgText(drawing, "one");
      const starts = [...svg.matchAll(/matrix\(\S+ 0 0 \S+ (\S+) (\S+)\)/g)].map((match) => match.slice(1).map(Number));
      expect(svg).not.toContain("<text");
      for (const shape of textsOf(drawing)) {
        const { text, at, anchor } = shape;
        const [[left = 0] = []] = pointsOf(shape);
        expect(
          starts.some(([x = 0, y = 0]) => Math.abs(x - left) < 0.1 && Math.abs(y - at[1]) < 0.1),
          text,
        ).toBe(true);
        // pdf.js joins texts that follow each other on a line.
        const box = page?.boxes.find(
          (one) => one.text.includes(text) && Math.abs(one.bottom - one.size * 0.22 - spot.y - at[1]) < 0.5,
        );
        expect(box, text).toBeDefined();
        if (anchor === "start" && box?.text.startsWith(text)) expect(box.left).toBeCloseTo(spot.x + at[0], 0);
        if (anchor === "end" && box?.text.endsWith(text)) expect(box.right).toBeCloseTo(spot.x + at[0], 0);
      }
    }
  });

  it("are escaped where they are written as SVG", () => {
    const routine = danced({ title: 'A "b" <c> & d', sections: [section("<x> & y", [phrase([move("1-8", "Walk")])])] });
    const svg = svgText(phraseMap(routine, firstOf(routine), { width: 400, size: 8, wording }), "map");
    expect(svg).toContain('<title id="map-title">Phrase map of A &quot;b&quot; &lt;c&gt; &amp; d, Level 1</title>');
    expect(svg).not.toContain("<x>");
  });
});

describe("a facing", () => {
  it("points up for the front, where the audience is, and turns clockwise from there", () => {
    const tips = facings.map((facing) => {
      const sign = facingSign(facing, [0, 0], 1);
      if (sign.kind !== "path") throw new Error("A facing is a path.");
      const [[x, y] = [0, 0]] = sign.points;
      return [Math.round(x * 10) / 10 || 0, Math.round(y * 10) / 10 || 0];
    });
    expect(tips).toEqual([
      [0, -1],
      [0.7, -0.7],
      [1, 0],
      [0.7, 0.7],
      [0, 1],
      [-0.7, 0.7],
      [-1, 0],
      [-0.7, -0.7],
    ]);
  });
});

describe("the page's facing", () => {
  it("has the outline of the paper's", async () => {
    const style = await readFile("templates/style/25-counts.css", "utf8");
    const [, outline = ""] = /\.facing::before \{[^}]*polygon\(([^)]*)\)/.exec(style) ?? [];
    const sign = facingSign("front", [50, 50], 50);
    const points = sign.kind === "path" ? sign.points : [];
    expect(outline.replace(/\s+/g, " ").trim().split(", ")).toEqual(
      points.map((point) => point.map((value) => `${Math.round(value)}%`).join(" ")),
    );
  });
});

describe("a phrase map", () => {
  const routine = danced({
    music: { accents: [1], firstCount: new Fraction(0) },
    sections: [
      section("Down", [
        phrase([move("1-4", "Sink", { height: "lying", hit: true }), move("5-8", "Turn", { turn: 2 })]),
      ]),
      section("Up", [phrase([move("1-4", "Cartwheel up", { height: "standing", through: "inverted" })])]),
    ],
  });
  const map = phraseMap(routine, firstOf(routine), { width: 500, size: 8, wording });

  it("describes sections, heights, inversions, facings and hits on the track's clock", () => {
    expect(map.description).toBe(
      "16 counts in 0:10, on the track's clock: 0:00.0 Down, 8 counts; 0:05.2 Up, 8 counts. " +
        "Standing at first, lying from 0:02.6, standing from 0:07.8, upside down at 0:05.2, " +
        "facing front at first, right from 0:05.2; hits at 0:00.0.",
    );
  });

  it("has a lane for each height that is danced, the standing one on top", () => {
    const [standing, lying] = ["standing", "lying"].map(
      (text) => textsOf(map).find((shape) => shape.text === text)?.at[1] ?? 0,
    );
    expect(standing).toBeLessThan(lying ?? 0);
    expect(textsOf(map).some(({ text }) => text === "kneeling")).toBe(false);
  });
});

describe("a floor plan", () => {
  const sections = [
    section("Square", [
      phrase([
        move("1-2", "Walk on", { travel: [{ way: "forward", steps: 5 }] }),
        move("3-4", "Quarter turn", { turn: 2 }),
        move("5-8", "Walk on", { travel: [{ way: "forward", steps: 5 }] }),
      ]),
    ]),
  ];
  const routine = danced({ sections });
  const plan = floorPlan(routine, firstOf(routine), library, { width: 250, size: 8, wording });

  it("tells the way in metres, seen from the start", () => {
    // Five steps of 0.6 m to the front, then five to the right.
    expect(plan?.description).toBe(
      "Seen from above with the audience at the top, from a start facing front, 3.0 m across and 3.0 m in depth. " +
        "The way leads to 3.0 m to the front; 3.0 m right and 3.0 m to the front.",
    );
  });

  it("goes up the paper for the front and to the right for the dancer's right", () => {
    const legs = (plan?.shapes ?? []).flatMap((shape) =>
      shape.kind === "path" && shape.stroke?.width === 1.2 ? [shape.points] : [],
    );
    const [[from, to] = [], [across, end] = []] = legs;
    expect(to?.[1]).toBeLessThan(from?.[1] ?? 0);
    expect(end?.[0]).toBeGreaterThan(across?.[0] ?? 0);
  });

  it("is mirrored with the routine", () => {
    const reflected = mirror(routine);
    expect(floorPlan(reflected, firstOf(reflected), library, { width: 250, size: 8, wording })?.description).toContain(
      "3.0 m left and 3.0 m to the front",
    );
  });

  it("is left out where nobody leaves the spot", () => {
    const still = danced({ sections: [section("Still", [phrase([move("1-8", "Stand")])])] });
    expect(floorPlan(still, firstOf(still), library, { width: 250, size: 8, wording })).toBeUndefined();
  });
});

describe("a folded phrase map", () => {
  const routine = danced({
    music: { accents: [1], firstCount: new Fraction(0) },
    sections: [
      section("Down", [phrase([move("1-8", "Sink", { height: "lying" })]), phrase([move("1-8", "Lie")])]),
      section("Up", [phrase([move("1-8", "Rise", { height: "standing" })]), phrase([move("1-8", "Stand")])]),
    ],
  });
  const lines = (map: Drawing) =>
    map.shapes.flatMap((shape) => (shape.kind === "path" && shape.stroke?.width === 1.8 ? [shape.points] : []));
  const folded = phraseMap(routine, firstOf(routine), { width: 300, size: 12, strips: 2, wording });
  const whole = phraseMap(routine, firstOf(routine), { width: 300, size: 12, wording });

  it("breaks where a section begins, and goes on below at the height where it left off", () => {
    const [above, below] = lines(folded);
    // The lowest lane is the lying one: down to it above, up from it below.
    const depth = (points: typeof above) =>
      (points ?? []).map(([, y]) => y - Math.min(...(points ?? []).map(([, one]) => one)));
    expect(depth(above).at(0)).toBe(0);
    expect(depth(above).at(-1)).toBeCloseTo(depth(below).at(0) ?? Number.NaN, 5);
    expect(depth(below).at(-1)).toBe(0);
    expect(
      textsOf(folded)
        .filter(({ bold }) => bold)
        .map(({ text }) => text),
    ).toEqual(["1 Down", "2 Up"]);
  });

  it("says the same in words, and has every accent once", () => {
    expect(folded.description).toBe(whole.description);
    const discs = (map: Drawing) => map.shapes.filter(({ kind }) => kind === "disc").length;
    expect([discs(folded), discs(whole)]).toEqual([4, 4]);
  });

  it("stays inside its frame, of every routine of the demo library", () => {
    for (const one of demo.routines)
      for (const version of one.versions) {
        const map = phraseMap(one, version, { width: 300, size: 12, strips: 4, wording });
        const xs = map.shapes.flatMap((shape) => pointsOf(shape).map(([x]) => x));
        expect(Math.min(...xs), map.title).toBeGreaterThanOrEqual(-1);
        expect(Math.max(...xs), map.title).toBeLessThanOrEqual(301);
      }
  });
});

describe("a floor plan's ends", () => {
  it("say in words which is the start and which the end, one upon the other where they are one", () => {
    const walk = (ways: readonly ("forward" | "back")[]) =>
      danced({
        sections: [
          section("Walk", [
            phrase(
              ways.map((way, index) =>
                move(`${index * 4 + 1}-${index * 4 + 4}`, "Walk", { travel: [{ way, steps: 4 }] }),
              ),
            ),
          ]),
        ],
      });
    const names = (routine: Routine) => {
      const plan = floorPlan(routine, firstOf(routine), library, { width: 250, size: 8, wording });
      return (plan ? textsOf(plan) : []).map(({ text }) => text).filter((text) => /start|end/.test(text));
    };
    expect(names(walk(["forward"]))).toEqual(["start", "end"]);
    expect(names(walk(["forward", "back"]))).toEqual(["start and end"]);
  });

  it("stand over none of the way and not across the frame, on the small floors of a sheet", () => {
    const across: string[] = [];
    const meet = (
      [l1 = 0, t1 = 0, r1 = 0, b1 = 0]: readonly number[],
      [l2 = 0, t2 = 0, r2 = 0, b2 = 0]: readonly number[],
    ) => l1 < r2 && l2 < r1 && t1 < b2 && t2 < b1;
    for (const routine of demo.routines)
      for (const version of routine.versions)
        for (const plan of floorPlans(routine, version, demo.library, { width: 114, depth: 72, size: 9, wording })) {
          const frame = plan.shapes.find(({ kind }) => kind === "box");
          const [left, right] = (frame ? pointsOf(frame) : []).map(([x]) => x);
          const legs = plan.shapes.filter((shape) => shape.kind === "path" && shape.stroke?.width === 1.2);
          for (const shape of textsOf(plan).filter(({ text }) => /start|end/.test(text))) {
            const box = pointsOf(shape).flat();
            const lines = legs.map((leg) => {
              const [xs, ys] = [pointsOf(leg).map(([x]) => x), pointsOf(leg).map(([, y]) => y)];
              return [Math.min(...xs) - 0.6, Math.min(...ys) - 0.6, Math.max(...xs) + 0.6, Math.max(...ys) + 0.6];
            });
            const edges = [left, right].map((x = 0) => [x, 0, x + 0.1, plan.height]);
            if ([...lines, ...edges].some((line) => meet(box, line))) across.push(`${plan.title}: ${shape.text}`);
          }
        }
    expect(across).toEqual([]);
  });
});

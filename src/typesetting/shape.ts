/**
 * How dark a shape is. A photocopy keeps `ink`, `soft` and `line`; `tint` may fade, so it never says anything alone.
 * `paper` is the ground. `beat` is what lands hard: as dark as ink, and red where there are colours.
 */
export type Tone = "ink" | "beat" | "soft" | "line" | "tint" | "paper";

/** A place in a plane: x to the right, y downwards, in the units of what is drawn (a drawing: points; a picture: pixels). */
export type Coordinates = readonly [x: number, y: number];

export interface Stroke {
  readonly tone: Tone;
  readonly width: number;
  /** How long each dash is and each gap, where it is no unbroken line. */
  readonly dashes?: readonly [dash: number, gap: number];
}

interface Paint {
  readonly fill?: Tone;
  readonly stroke?: Stroke;
}

/** Plain shapes: all that a page (SVG) and a sheet of paper (PDF) need to know to draw the same picture. */
export type Shape =
  | ({ readonly kind: "path"; readonly points: readonly Coordinates[]; readonly closed?: boolean } & Paint)
  | ({ readonly kind: "box"; readonly at: Coordinates; readonly width: number; readonly height: number } & Paint)
  | ({ readonly kind: "disc"; readonly at: Coordinates; readonly radius: number } & Paint)
  | {
      readonly kind: "text";
      /** On the base line: where the text starts, has its middle or ends. */
      readonly at: Coordinates;
      readonly text: string;
      readonly size: number;
      readonly anchor: "start" | "middle" | "end";
      readonly bold?: boolean;
      readonly tone: Tone;
    };

/** A picture, in points, with what it says in words. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** What kind of picture it is, in a few words. */
  readonly title: string;
  /** The text alternative: what the picture adds to the counts. */
  readonly description: string;
  readonly shapes: readonly Shape[];
}

/** A line from point to point. */
export function line(tone: Tone, width: number, ...points: readonly Coordinates[]): Shape {
  return { kind: "path", points, stroke: { tone, width } };
}

/** The shapes moved by so much. */
export function moved(shapes: readonly Shape[], dx: number, dy: number): readonly Shape[] {
  const move = ([x, y]: Coordinates): Coordinates => [x + dx, y + dy];
  return shapes.map((shape) =>
    shape.kind === "path" ? { ...shape, points: shape.points.map(move) } : { ...shape, at: move(shape.at) },
  );
}

import { describe, expect, it } from "vitest";
import { readNotes } from "../../src/hearing/notes.js";
import type { Draft } from "../../src/hearing/types.js";

function notes(text: string): Draft {
  const draft = readNotes(text);
  if ("why" in draft) throw new Error(draft.why);
  return draft;
}

const written = ({ sections }: Draft) =>
  sections.map(({ name, phrases }) => [
    name,
    phrases.map(({ moves }) => Object.fromEntries(moves.map(({ on, cue }) => [on, cue]))),
  ]);

describe("typed notes", () => {
  it("lays lines that begin with counts, phrase by phrase, under their headings", () => {
    const text =
      "## Low wall\n1-2 step right\n3: clap\n3& clap again\n5 6 7 8 hold\n\n1,3 stamp\n7&8 shuffle\n\nTag:\n1 to 4 walk away";
    expect(written(notes(text))).toEqual([
      [
        "Low wall",
        [
          { "1-2": "step right", 3: "clap", "3&": "clap again", "5-8": "hold" },
          { 1: "stamp", 3: "stamp", "7-8": "shuffle" },
        ],
      ],
      ["Tag", [{ "1-4": "walk away" }]],
    ]);
  });

  it("begins a phrase where the counts go back, and takes counts beyond the phrase into the next", () => {
    expect(written(notes("1-4 walk\n5-8 turn\n1-8 sway"))).toEqual([
      [undefined, [{ "1-4": "walk", "5-8": "turn" }, { "1-8": "sway" }]],
    ]);
    expect(written(notes("1-8 sway\n9-12 walk\n13-16 turn"))).toEqual([
      [undefined, [{ "1-8": "sway" }, { "1-4": "walk", "5-8": "turn" }]],
    ]);
  });

  it("takes six or twelve counts for the phrase where the highest count is that", () => {
    expect(notes("1 balance\n4-6 melt").phrase).toBe(6);
    expect(notes("1-6 arms\n12 stamp").phrase).toBe(12);
  });

  it("keeps what can't be laid on a count, and never two moves on one count", () => {
    const draft = notes("bring water\n\n1 step\n1 or stamp, your choice\nsmile\n2 clap");
    expect(draft.told.map(({ said }) => said.text)).toEqual(["bring water"]);
    const [phrase] = draft.sections[0]?.phrases ?? [];
    expect(phrase?.moves.map(({ on }) => on)).toEqual(["1", "2"]);
    expect(phrase?.told.map(({ said }) => said.text)).toEqual(["smile", "1 or stamp, your choice"]);
  });

  it("says why it can't read what is no notes", () => {
    expect(readNotes(" \n")).toMatchObject({ why: "empty" });
    expect(readNotes("a\n\0b")).toEqual({ why: "binary", line: 2, column: 1 });
    expect(readNotes("\n\nDear all, see you on Thursday.")).toEqual({ why: "no-counts", line: 3, column: 1 });
  });
});

import { type MidiEvent, writeMidi } from "midi-file";
import type { Library, Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import { quarters } from "./tempo-map.js";

/** Ticks a quarter note. All that sounds falls on a quarter; deltas that fit a byte keep the writer fast. */
const ticksPerBeat = 96;
const noteTicks = 24;

/** Channel 10, the drums; high and low wood block (General MIDI percussion map, from memory). */
const channel = 9;
const accent = { noteNumber: 76, velocity: 120 };
const plain = { noteNumber: 77, velocity: 80 };

type Timed = MidiEvent & { readonly tick: number };

/**
 * The click track as a Standard MIDI File 1.0, format 1: a tempo map with a marker a section, and the clicks. It begins with
 * the count-in. A quarter note is a count, its tempo in microseconds; waits are silent.
 */
export function clickMidi(routine: Routine, library: Library): Uint8Array {
  const said = wordingOf(library.language).click;
  const conductor: Timed[] = [{ tick: 0, deltaTime: 0, type: "trackName", text: bytes(routine.title) }];
  const notes: Timed[] = [{ tick: 0, deltaTime: 0, type: "trackName", text: bytes(said.track) }];
  let tick = 0;
  let tempo = 0;
  let marked: number | undefined;
  for (const { length, click } of quarters(routine)) {
    if (length !== tempo) conductor.push({ tick, deltaTime: 0, type: "setTempo", microsecondsPerBeat: length });
    tempo = length;
    if (click && click.section !== marked) {
      marked = click.section;
      const section = marked === undefined ? undefined : routine.sections[marked];
      if (section)
        conductor.push({
          tick,
          deltaTime: 0,
          type: "marker",
          text: bytes(said.marker(section.name, section.wall, section.pass)),
        });
    }
    if (click) notes.push(...note(tick, click.accent));
    tick += ticksPerBeat;
  }
  const tracks = [conductor, notes].map((track) => relative([...track, { tick, deltaTime: 0, type: "endOfTrack" }]));
  return Uint8Array.from(writeMidi({ header: { format: 1, numTracks: 2, ticksPerBeat }, tracks }));
}

function note(tick: number, accented: boolean): readonly Timed[] {
  const sound = { deltaTime: 0, channel, ...(accented ? accent : plain) };
  return [
    { ...sound, tick, type: "noteOn" },
    { ...sound, tick: tick + noteTicks, type: "noteOff" },
  ];
}

/** Events count from the one before them. */
function relative(track: readonly Timed[]): MidiEvent[] {
  return track.map(({ tick, ...event }, index) => ({ ...event, deltaTime: tick - (track[index - 1]?.tick ?? 0) }));
}

/** The writer takes one byte a character; texts are UTF-8. */
function bytes(text: string): string {
  return Buffer.from(text, "utf8").toString("latin1");
}

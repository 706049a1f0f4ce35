import type { Routine } from "../../routine/routine.js";
import type { Publisher } from "../publisher.js";
import { clickMidi } from "./midi.js";

/** The click track as a MIDI file. */
export const click: Publisher<Routine> = {
  name: "click",
  publish: (routine) => [{ path: `routines/${routine.slug}/click.mid`, content: clickMidi(routine) }],
};

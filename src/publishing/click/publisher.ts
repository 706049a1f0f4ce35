import type { Routine } from "../../routine/routine.js";
import { wordingOf } from "../../wording/wording.js";
import type { Publisher } from "../publisher.js";
import { clickMidi } from "./midi.js";

/** The click track as a MIDI file. */
export const click: Publisher<Routine> = {
  name: "click",
  publish: (routine, { library }) => [
    {
      path: `routines/${routine.slug}/click.mid`,
      kind: "click",
      mediaType: "audio/midi",
      label: wordingOf(library.language).outputs.clickTrack,
      content: clickMidi(routine, library),
    },
  ],
};

/** What stands in the click's MIDI file. */
export const click = {
  track: "Click",
  /** A marker: a section, and which time it is danced where that is not the first. */
  marker: (section: string, time: number, pass: number): string =>
    [section, time > 1 ? `time through ${time}` : "", pass > 1 ? `pass ${pass}` : ""].filter(Boolean).join(", "),
};

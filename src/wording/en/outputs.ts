/** What a page calls the files that it offers. */
export const outputs = {
  /** @param version its name: "Level 2" */
  handout: (version: string): string => `Handout, ${version}`,
  groupHandout: (version: string, group: string): string => `Handout, ${version}, ${group}`,
  mirroredHandout: "Handout, mirrored",
  largeHandout: "Handout, large print",
  cueCard: "Cue card",
  clickTrack: "Click track",
  cueCaptions: "Cues as captions",
  countCaptions: "Counts as captions",
  chapterCaptions: "Chapters of the breakdown",
  description: "Text for the video",
  mirroredDescription: "Text for the mirrored video",
  record: "All figures",
  pack: "The teacher's pack, to print",
  dancersPack: "The dancers' pack, to print",
  course: "The course, with a plan for each lesson",
  plan: "The plan as data",
  /* The headings of the lists in which a page offers them. */
  toPrint: "To print",
  others: "Other files",
  /** The format of a file, by its media type: "PDF". Of one that has no name here, the ending of its file's name says it. */
  format: (mediaType: string, ending: string): string => formats[mediaType] ?? ending.toUpperCase(),
};

const formats: Readonly<Record<string, string>> = {
  "application/json": "JSON",
  "application/pdf": "PDF",
  "audio/midi": "MIDI",
  "text/plain": "text",
  "text/vtt": "WebVTT",
};

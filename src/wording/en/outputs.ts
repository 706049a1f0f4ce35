/** What a page calls the files that it offers. */
export const outputs = {
  /** @param version its name: "Level 2" */
  handout: (version: string): string => `Handout, ${version}`,
  mirroredHandout: "Handout, mirrored",
  largeHandout: (version: string): string => `Large print, and the one to listen to: ${version}`,
  cueCard: "Cue card, two to a sheet",
  clickTrack: "Click track",
  cueCaptions: "Cues as captions",
  countCaptions: "Counts as captions",
  chapterCaptions: "Chapters of the breakdown",
  description: "Text for the video",
  mirroredDescription: "Text for the mirrored video",
  record: "All figures",
  pack: "The whole pack, to print",
  course: "The course on one page",
  plan: "The plan as data",
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

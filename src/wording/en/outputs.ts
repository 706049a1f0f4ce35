/** What a page calls the files that it offers. */
export const outputs = {
  /** @param version its name: "Level 2" */
  handout: (version: string): string => `Handout, ${version}`,
  groupHandout: (version: string, group: string): string => `Handout, ${version}, ${group}`,
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
  pack: "The teacher's pack: plan and handouts",
  dancersPack: "The dancers' pack: handouts alone",
  course: "The course: the plans alone",
  plan: "The plan as data",
  /** What a handout is saved as, without ending: "Low Tide, level 2, large print". @param version absent where there is but one */
  savedHandout: (
    title: string,
    of: {
      readonly version: string | undefined;
      readonly group: string | undefined;
      readonly mirrored: boolean;
      readonly variant: "sheet" | "large" | "card";
    },
  ): string => {
    const version = of.version === undefined ? [] : [of.version.charAt(0).toLowerCase() + of.version.slice(1)];
    const kind = { sheet: [], large: ["large print"], card: ["cue card"] }[of.variant];
    return [
      title,
      ...version,
      ...(of.group === undefined ? [] : [of.group]),
      ...(of.mirrored ? ["mirrored"] : []),
      ...kind,
    ].join(", ");
  },
  savedPack: (title: string, dancers: boolean): string => `${title}, ${dancers ? "dancers’" : "teacher’s"} pack`,
  savedCourse: (title: string): string => `${title}, the course`,
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

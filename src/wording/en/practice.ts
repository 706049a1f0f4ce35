/** The controls of the player, as the page has them. */
export const practice = {
  title: "Practise",
  section: (name: string): string => `Practise ${name}`,
  fromTheTop: "From the top",
  fromAfar: "See it from afar",
  seenFromAfar: "Seen from afar",
  backToThePage: "Back to the page",

  what: "What",
  from: "From",
  to: "to the end of",
  loops: "again and again",
  countInAgain: "a count-in before every round",

  howFast: "How fast",
  speed: "Speed, per cent of the tempo",
  slower: "Slower",
  faster: "Faster",
  climbs: "work it up, round by round",
  /* Each has a field for a number in it. */
  climbBy: <T>(field: T) => ["by ", field, " %"] as const,
  climbAfter: <T>(field: T) => ["after every ", field, " rounds"] as const,
  climbUntil: <T>(field: T) => ["up to ", field, " %"] as const,

  ownSong: "With your own copy of the song",
  ownSongHow:
    "Open the song from this device, or drop it here. It plays on this device and is sent to nobody. Slower keeps its pitch.",
  songFile: "Song file",
  alignHow: "If the counts are off, play the song and press this button right on the count:",
  firstCountOf: <T>(section: T) => ["This is the first count of ", section] as const,
  earlier: "Counts a touch earlier",
  later: "Counts a touch later",
  putAway: "Put the song away",

  keys: "Keys",
  keysWhere: "They work while the focus is on something in this part of the page, and nowhere else.",
  key: {
    start: "start or pause",
    top: "from the top: the whole routine",
    loops: "again and again, or once",
    speed: "slower, faster",
    afar: <T>(key: T) => ["see it from afar, and back; ", key, " leaves too"] as const,
    first: "with your own song: this is the first count",
  },
  noSound: "No sound? On some phones the silent switch mutes the clicks too.",
};

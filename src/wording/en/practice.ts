/** The controls of the player, as the page has them. */
export const practice = {
  title: "Practise",
  section: (name: string): string => `Practise ${name}`,
  fromTheTop: "From the top",
  fromAfar: "From afar",
  seenFromAfar: "Seen from afar",
  backToThePage: "Back to the page",

  what: "What is danced",
  whole: "The whole routine",
  to: "on to the end of",
  loops: "again and again",
  countInAgain: "a count-in before every round",
  more: "More: speeds, your own song, keys",

  howFast: "How fast",
  speed: "Speed, per cent of the tempo",
  slower: "Slower",
  faster: "Faster",
  climbs: "up to full tempo, round by round",
  climb: { off: "off", gently: "gently", steeply: "steeply" },

  ownSong: "With your own copy of the song",
  ownSongHow:
    "Open the song from this device, or drop it here. It plays on this device and is sent to nobody. Slower keeps its pitch.",
  songFile: "Choose the song",
  playSong: "Play the song alone",
  songPlace: "Place in the song",
  alignHow: "If the counts are off, play the song and press this button right on the count:",
  firstCountOf: <T>(section: T) => ["This is the first count of ", section] as const,
  earlier: "Counts a touch earlier",
  later: "Counts a touch later",
  tapHow: <T>(section: T) =>
    ["Or tap along while it plays: once on every count, from the first count of ", section, " on."] as const,
  tap: "Tap the count",
  forget: "Forget where I put the counts",
  clicksOver: "clicks over the song",
  clicksLevel: "loudness of the clicks",
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
    tap: "with your own song: tap along",
  },
  noSound: "No sound? On some phones the silent switch mutes the clicks too.",
};

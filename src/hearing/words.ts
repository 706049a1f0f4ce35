const list = (words: string): ReadonlySet<string> => new Set(words.trim().split(/\s+/));

/** Words that are no cue by themselves: they join, point and ask. Ways and sides ("up", "left", "back") are none of them. */
const joining = list(`
  a an the this that these those it its it's that's there here there's here's what which who when where why how
  i i'm i'll i've i'd me my you you're you'll you've your yours we we're we'll we've our us let's lets they they're their them he she his her
  am is are was were be been being do does did doing done don't doesn't didn't have has had having get got gets getting gonna going go goes
  want wanna need needs can can't could should would will won't might must may it'll that'll
  and or but so then than as if because just only even also still too very really quite much many some any all every both each other another same
  to of for from with without at on in into onto by about like until till before after while not no nor
  make makes made take takes put puts keep keeps come comes see know think mean say says said tell
  count counts beat beats music song phrase part section bit thing one's way time times
`);

/** What is called across the counts without being danced. */
const asides = list(`
  okay ok good great nice lovely perfect beautiful excellent cool wonderful amazing fantastic brilliant super fabulous gorgeous awesome yes yeah yep yay right? alright again ready careful
  everybody everyone guys team folks ladies dancers friends people please thanks thank sorry oops whoa wow wait stop um uh er erm hmm mm oh ah well now
  first last next once more better best almost exactly remember listen there's top
`);

/** @example isCueWord("clap") // true; isCueWord("the") // false */
export const isCueWord = (word: string): boolean =>
  /\p{L}/u.test(word) && !joining.has(word) && !asides.has(word) && !/^\p{L}{3,}ly$/u.test(word);

/** Whether a word joins two others inside a cue: "step to the left". */
export const isJoining = (word: string): boolean => joining.has(word);

/** A word as it is compared: no ending, no doubled letter before one. @example stem("stepping") // "step" */
export function stem(word: string): string {
  const plain = word.replace(/['’]s?$/, "");
  const cut = plain
    .replace(/ies$/, "y")
    .replace(/(?<=[^s]{2})(?:ing|ed|es|s)$/, "")
    .replace(/([b-df-hj-np-rtvwxz])\1$/, "$1");
  const kept = /[aeiouy]/.test(cut) && cut.length > 1 ? cut : plain;
  return kept.length > 3 ? kept.replace(/e$/, "") : kept;
}

/** Letters to change, leave out or put in, or two neighbours to exchange, up to `most`; beyond that `most + 1`. */
export function spellingDistance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      next.push(cost);
    }
    before = row;
    row = next;
  }
  return Math.min(row[b.length] ?? most + 1, most + 1);
}

/** How a word sounds, roughly: its consonants in groups that are mistaken for each other. */
export function soundOf(word: string): string {
  return word
    .replace(/ph|gh/g, "f")
    .replace(/^kn/, "n")
    .replace(/^wr/, "r")
    .replace(/[ckqgx]/g, "k")
    .replace(/[szj]/g, "s")
    .replace(/[dt]/g, "t")
    .replace(/[bp]/g, "p")
    .replace(/[fv]/g, "f")
    .replace(/[mn]/g, "n")
    .replace(/[aeiouywh]+/g, "")
    .replace(/(.)\1+/g, "$1");
}

/** Whether two stems are one word, heard or spelled another way. */
export function alike(a: string, b: string): boolean {
  if (a === b) return true;
  const short = Math.min(a.length, b.length);
  if (short < 4) return short > 2 && soundOf(a) === soundOf(b) && soundOf(a).length > 1;
  const most = short > 7 ? 2 : 1;
  return spellingDistance(a, b, most) <= most || (soundOf(a) === soundOf(b) && soundOf(a).length > 2);
}

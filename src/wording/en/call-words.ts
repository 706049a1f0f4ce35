/* Kinds of words in a cue, as far as its short form depends on them. */

const set = (words: string): ReadonlySet<string> => new Set(words.split(" "));
const of =
  (...sets: readonly ReadonlySet<string>[]) =>
  (word = ""): boolean =>
    sets.some((one) => one.has(word.toLowerCase()));

const sides = set("left right");
const ways = set(
  "forward forwards back backward backwards up down in out behind across over under around round side sideways overhead front beside between apart together home away",
);
const pure = set("to on onto into of at for with from along against past through like by toward towards until");
const mixed = set("in over under across around round behind beside between out up down off");
const amounts = set("half quarter full whole double twice once three-quarter ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ 1½ 1¼ 1¾");
const negations = set(
  "not no never without nobody nothing neither nor but except don't doesn't don’t doesn’t can't can’t won't won’t",
);
const parts = set(
  "arm arms leg legs foot feet toe toes ball heel heels sole soles palm palms hand hands knee knees shin shins ankle ankles hip hips shoulder shoulders head chin fist fists finger fingers elbow elbows chest rib ribs eyes forearm forearms wrist wrists thigh thighs",
);

/** Words that say little while one dances. */
export const isArticle = of(set("a an the your my his her their its"));
export const isSide = of(sides);
export const isWay = of(ways);
export const isAmount = of(amounts);
/** What a cue forbids or leaves out: never left out itself. */
export const isNegation = of(negations);
export const isPart = of(parts);
export const isFoot = of(set("foot feet"));
/** What a move comes down on, after "to": there its caution is. */
export const isLanding = of(set("knee knees shin shins"));
export const isSomebody = of(set("you me yourself them it"));
/** Where a move leads, after "to". */
export const isPlace = of(set("front back side left right middle centre center corner audience ceiling"));
export const isPurePreposition = of(pure);
/** Before a noun these are prepositions too. */
export const isPreposition = of(pure, mixed);
/** What says how, and not where, before a noun: a verb alone says enough without it. */
export const saysHow = of(set("in with of for like by until"));
/** Before a noun these say which way without it: "down the shins". */
export const isWayAlone = of(set("up down out across"));
/** What one does onto a foot: "step left" is all that is said. */
export const isStepping = of(
  set("step recover rock lunge touch tap point close stomp stamp scuff hop jump back forward forwards"),
);
export const joins = of(set("and then while as"));
/** What the body does next, where a clause begins with it. */
export const isDoing = of(
  set(
    "recover sink rise push pull roll slide step rock lunge turn tip sit stand kneel lie fold gather reach hover cross close lift",
  ),
);

/** As far as can be told: what is none of the others. */
export function isNoun(word: string | undefined): boolean {
  return word !== undefined && !isWay(word) && !isSide(word) && !isPreposition(word) && !joins(word);
}

/** Whether words say which way, which side, how much or what not. */
export function saysWhere(words: readonly string[]): boolean {
  return words.some((word, index) => {
    if (isSide(word) || isAmount(word) || isNegation(word)) return true;
    const before = words[index - 1];
    if (isPurePreposition(before)) return before?.toLowerCase() === "to" && isPlace(word);
    return isWay(word) && !(/^in$/i.test(word) && isNoun(words[index + 1]));
  });
}

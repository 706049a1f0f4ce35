/**
 * The words by which a left and a right are told from their namesakes, as parts of regular expressions over the keys
 * that senses describes. Common practice in class and everyday English: no source.
 */

export const oneOf = (words: string) => `(?:${words.split(" ").join("|")})`;
/** Each verb with -s, -ed and -ing; a last letter may double. */
const formsOf = (verbs: string) =>
  `(?:${verbs
    .split(" ")
    .map((verb) =>
      verb.endsWith("e") ? `${verb.slice(0, -1)}(?:es?|ed|ing)` : `${verb}(?:e?s|${verb.at(-1)}?(?:ed|ing))?`,
    )
    .join("|")})`;
export const PAUSE = "[,.:?]";
export const WORD = "[^ ,.:?/&+-]+";
export const NUMBER = "(?:num|#)";

/** What has a left one and a right one: parts of a body, of a place, of a dance. */
export const PART = `(?:${oneOf("front back rear upper lower downstage upstage inner outer inside outside big little open whole supporting working standing free")} )?(?:${oneOf("foot feet calves halves")}|${oneOf("leg hand arm knee hip shoulder heel toe ball elbow palm thigh ankle calf shin wrist forearm fist finger fingertip thumb ear eye eyebrow cheek rib ribcage glute lung sole instep chest temple jaw hamstring waist hipbone head chin nose torso pelvis gaze side flank half edge end corner diagonal wall wing lead turn spin pivot cross shuffle triple coaster sailor vine grapevine chassé step kick lunge split star cartwheel shoe boot sleeve glove armrest neighbour neighbor")}s?)`;

export const OWNER = `(?:${oneOf("the a an your my his her its our their each every either both other another")}|(?!${oneOf("whatever everything anything nothing that what it who there where here she he everyone everybody let how when one")}'s)${WORD}'s)`;

/** The correct one wherever it stands, and the correct one after "the" or "your". */
export const CORRECT = `(?:${oneOf("height time moment amount speed distance tempo timing kind sort size answer order")}s?)`;
export const THE_CORRECT = `(?:${CORRECT}|${oneOf("place spot feel feeling word people pressure mood energy attitude thing choice direction count beat position muscle shape length width number idea accent technique placement alignment posture tension strength effort grip spacing music song version level note point reason balance rhythm intention emotion quality texture dynamic expression gear way")}s?)`;
/** What may follow a side that is named as a thing, as in "to the right and …". */
export const ONWARD = `(?:[,.:?/&+-]|num|#|frac|hour|turning|SIDE|${oneOf("and then or to on in at for with of from as is are was were goes go over under behind across after before while when until so but by into onto through up down out back forward first again twice once together too comes follows leads stays lifts closes joins drops rests free high low")})`;

/** Moves that go, turn or look to a side. */
export const SIDEWAYS = formsOf(
  "turn step pivot spin face look glance gaze twist rotate veer vine grapevine weave sway bump lunge cross sidestep chassé shift tilt travel shuffle coaster sailor triple paddle cartwheel circle pirouette swivel skate unwind",
);
/** Before the way that somebody faces. */
export const FACING = `(?:${formsOf("face look glance")}|${oneOf("towards toward wall walls bearing direction ends ending end")})`;
/** Moves of one leg or arm, or of the whole body over the floor. */
export const LIMB = formsOf(
  "kick swing slide drag touch tap point hook lock rock stomp stamp scuff brush sweep close place hitch flick dig tuck jump leap skip hop walk run move glide roll reach lean punch push press pull",
);
/** Of these, moves that one foot or hand does alone. */
export const FOOTWORK = formsOf(
  "kick swing slide drag touch tap point hook lock stomp stamp scuff brush sweep close place hitch flick dig tuck lift bring draw put set",
);
export const OVER_THE_FLOOR = formsOf("walk run move skip leap glide jog march prance");
export const LEANING = formsOf("lean bend dip hang tip reach");
/** Positions and steps of ballet, of which one foot ends in front. */
export const POSITION = oneOf(
  "first second third fourth fifth position positions assemblé assemble jeté sissonne glissade changement échappé entrechat soubresaut croisé effacé coupé retiré passé bourrée",
);
/** Where one foot goes in relation to the other, and where both may go in turn. */
export const AT_THE_FOOT = `(?:behind|beside|across|over|out|next|in front|in place|to (?:the )?(?:side|front|back|SIDE)|from (?:the )?(?:side|front|back)|on ${NUMBER}|on (?:the )?SIDE)`;
export const PLACE = oneOf("in out up down back forward over across behind beside open close");

/** Before these, "right" may be "exactly" or "all the way". */
export const EXACTLY = oneOf(
  "after before as when where until till if during from at on in by up down through into onto inside outside out off under underneath beneath below above between near next against along alongside past around round beyond to within over behind beside across away now here there ahead throughout",
);

export const SOFTLY = oneOf("still just all not only now almost quite about exactly nearly too so");
export const BE = oneOf(
  "is are was were be been being isn't aren't wasn't it's she's he's there's everyone's everybody's",
);
export const HAVE = oneOf("have has had having you've we've they've i've who've");
export const QUANTITY = oneOf(
  "nothing anything something everything none what whatever whoever anyone anybody someone somebody nobody much many few enough any what's who's nothing's whatever's everything's anything's",
);
export const COUNTED = oneOf(
  "count counts ct cts beat beats chorus verse chance eight eights bar bars seconds minute minutes time air breath energy strength slack room space phrases sections repeats rounds music song momentum force power tries chances walls",
);
export const SOMEBODY = oneOf("she he they we who i you everyone everybody nobody someone somebody");
export const SOMETHING = oneOf("the a an your my his her its our their it them us something yourself yourselves");
export const SOUND = oneOf("music beat band song sound hit accent bass rhythm drum snare voice");
/** What a teacher says after "Right, …". */
export const TALK = oneOf(
  "from let's everybody everyone now here so we you this that again listen ready people off okay ok",
);
/** What is asked for agreement: "Got it? Right." */
export const ASKED = oneOf("yeah yes okay ok good ready it clear see sense this that fine happy");

import type { CueLanguage } from "../cue-language.js";
import { afterRisk } from "./after-risk.js";
import { mirrorWords } from "./mirror.js";
import { missingKeys } from "./missing-keys.js";
import { contradiction } from "./sides.js";

/** What works for cues in English words. */
export const english: CueLanguage = { mirror: mirrorWords, missingKeys, afterRisk, contradiction };

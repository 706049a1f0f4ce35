import fc from "fast-check";
import { runs, seed } from "./runs.js";

// A property that fails says its seed.
fc.configureGlobal({ numRuns: runs(100), seed });

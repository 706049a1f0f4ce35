/* How much is tried: little in the run of every day, much in `npm run test:long`. */

/** Whether this is the long run. */
export const long = process.env.COUNTLEAF_LONG === "1";

/** Tries of a property, of which the run of every day does a quarter. */
export function runs(full: number): number {
  return long ? full : Math.ceil(full / 4);
}

/** Where chance begins: at one place every day, so that what passed once passes again; the long run looks elsewhere each time. */
export const seed = long ? Date.now() % 2 ** 31 : 20_261_002;

/**
 * Lessons after which something is recalled, counted from the one that taught it: in the next one, then after twice as long
 * each time. That what is spread out stays longer than what is massed is the spacing effect (Cepeda, Pashler, Vul, Wixted and
 * Rohrer, "Distributed practice in verbal recall tasks", Psychological Bulletin 132, 2006, from memory; on words, not on
 * dancing). That each distance is twice the one before is common practice, no source.
 */
export const recallAfter: readonly number[] = [1, 3, 7, 15, 31, 63];

/**
 * What is due in a lesson, what was taught last first.
 *
 * @param taughtIn for every unit the lesson that taught it, 0 for what was known before the course; absent where none has yet
 * @example dueIn(4, [1, 2, 3, 3]) // [2, 3, 0]: taught one lesson before, and three before
 */
export function dueIn(lesson: number, taughtIn: readonly (number | undefined)[]): readonly number[] {
  return recallAfter.flatMap((after) =>
    taughtIn.flatMap((taught, unit) => (taught !== undefined && lesson - taught === after ? [unit] : [])),
  );
}

import type Fraction from "fraction.js";
import { countSeconds } from "../../routine/clock.js";
import type { Routine } from "../../routine/routine.js";

/**
 * The moment so many counts before another, counted as somebody does who keeps on through a wait at the tempo of the
 * section after it, and before the routine at the tempo of its first section. Moments keep their order.
 *
 * @param section index of the section that the moment lies in, or ends
 * @param moment seconds from the routine's first count
 * @returns seconds from the routine's first count, negative before it
 */
export function earlier(routine: Routine, section: number, moment: Fraction, counts: Fraction): Fraction {
  let now = moment;
  let left = counts;
  for (let index = section; ; index--) {
    const here = routine.sections[index];
    if (!here) return now;
    const each = countSeconds(here.countsPerMinute);
    const before = routine.sections[index - 1];
    const room = before && now.sub(before.end).div(each);
    if (!room || room.compare(left) >= 0) return now.sub(each.mul(left));
    left = left.sub(room);
    now = before.end;
  }
}

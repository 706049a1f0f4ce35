/** A day as it is written: "2027-01-16". Days in this form are in the order of their letters. */
type Day = string;

/** The day here and now, by the clock of whoever looks. */
export function dayOf(now: Date): Day {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/**
 * The lessons around a day, by their numbers in a list of days in order: the last that is over, and the next. What takes place on the day itself is still to come.
 *
 * @example lessonsAround(["2027-01-16", "2027-01-23"], "2027-01-20") // { last: 0, next: 1 }
 */
export function lessonsAround(
  days: readonly Day[],
  today: Day,
): { readonly last: number | undefined; readonly next: number | undefined } {
  const over = days.filter((day) => day < today).length;
  return { last: over === 0 ? undefined : over - 1, next: over === days.length ? undefined : over };
}

/** What takes place on some days, in order; on none, where nobody has said when. */
interface Dated {
  readonly days: readonly Day[];
}

/** What is still to come, the next date first and what has no date after that; and what is over, the latest first. */
export function comingAndPast<Each extends Dated>(
  all: readonly Each[],
  today: Day,
): { readonly coming: readonly Each[]; readonly past: readonly Each[] } {
  const next = ({ days }: Each) => days.find((day) => day >= today);
  const isPast = (one: Each) => one.days.length > 0 && next(one) === undefined;
  const by = (keyOf: (one: Each) => string) => (one: Each, other: Each) => {
    const [a, b] = [keyOf(one), keyOf(other)];
    return a < b ? -1 : a > b ? 1 : 0;
  };
  const coming = all.filter((one) => !isPast(one)).sort(by((one) => next(one) ?? "9999-99-99"));
  const past = all
    .filter(isPast)
    .sort(by(({ days }) => days[days.length - 1] ?? ""))
    .reverse();
  return { coming, past };
}

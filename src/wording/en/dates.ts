const months = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

const weekdays = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];

/** Calendar dates. */
export const dates = {
  /** An ISO 8601 calendar date as people read it: "4 March 2026". */
  day(date: string): string {
    const [year, month = 0, day] = date.split("-").map(Number);
    return `${day} ${months[month - 1]} ${year}`;
  },
  /** The same with its day of the week: "Saturday 16 January 2027". */
  weekday: (date: string): string => `${weekdays[new Date(`${date}T00:00:00Z`).getUTCDay()]} ${dates.day(date)}`,
};

/** Days as text, `2026-12-01`, in the calendar that is in use everywhere; no clock and no time zone. */

/** So many days later; before, where it is less than 0. */
export const daysAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10);

/** Days from one to the other. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY);

/** `2026-12` of `2026-12-01`. */
export const monthKey = (day: string): string => day.slice(0, 7);

/** 1 to 12. */
export const monthOf = (day: string): number => Number(day.slice(5, 7));

const DAY = 86_400_000;

/** The twelve months as they are written in files and tables. */
export const MONTH_NAMES = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

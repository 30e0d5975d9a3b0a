/** ISO 8601 with the offset of this place: `2026-11-20T09:12:00+01:00`. */
export function localTime(date: Date): string {
  const offset = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, 19);
  const sign = offset < 0 ? '-' : '+';
  const two = (value: number): string => String(Math.floor(Math.abs(value))).padStart(2, '0');
  return `${local}${sign}${two(offset / 60)}:${two(offset % 60)}`;
}

/*
 * Times as British English writes them, without the browser's own means: its first time of all takes it 10 ms or more, and the sheet opens with one.
 */
const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'];

/** `09:12` on the clock of this place. */
export function minuteOf(date: Date): string {
  return [date.getHours(), date.getMinutes()].map((part) => String(part).padStart(2, '0')).join(':');
}

/** `Fri` */
export function weekdayOf(date: Date): string {
  return DAYS[date.getDay()] ?? '';
}

/** `Fri, 20 Nov 2026, 09:12` */
export function dayAndMinute(date: Date): string {
  return `${weekdayOf(date)}, ${date.getDate()} ${MONTHS[date.getMonth()] ?? ''} ${date.getFullYear()}, ${minuteOf(date)}`;
}

/** Day and minute at which something begun now ends after so many seconds; undefined where no calendar reaches it. */
export function endAfter(now: Date, seconds: number): string | undefined {
  const end = new Date(now.getTime() + seconds * 1000);
  if (Number.isNaN(end.getTime()) || seconds > 400 * 365 * 86_400) return undefined;
  return dayAndMinute(end);
}

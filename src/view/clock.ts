import { whenAsked } from '../core/remembered/index.ts';

/** ISO 8601 with the offset of this place: `2026-11-20T09:12:00+01:00`. */
export function localTime(date: Date): string {
  const offset = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, 19);
  const sign = offset < 0 ? '-' : '+';
  const two = (value: number): string => String(Math.floor(Math.abs(value))).padStart(2, '0');
  return `${local}${sign}${two(offset / 60)}:${two(offset % 60)}`;
}

const ends = whenAsked(() => new Intl.DateTimeFormat('en-GB', {
  weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit',
}));

/** Day and minute at which something begun now ends after so many seconds; undefined where no calendar reaches it. */
export function endAfter(now: Date, seconds: number): string | undefined {
  const end = new Date(now.getTime() + seconds * 1000);
  if (Number.isNaN(end.getTime()) || seconds > 400 * 365 * 86_400) return undefined;
  return ends().format(end);
}

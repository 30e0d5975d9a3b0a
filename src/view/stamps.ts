import { dayAndMinute, localTime, minuteOf, weekdayOf } from './clock.ts';

/**
 * A time chosen in a field, on the clock of the place where the stamp was made, as the record keeps it. A stamp of this
 * place takes the offset that holds here on that day; one from elsewhere keeps its own.
 * @param wall `2026-11-20T09:12` or with seconds, as a field for date and time gives it
 */
export function stampOf(wall: string, before: string | undefined): string | undefined {
  const here = new Date(wall);
  if (Number.isNaN(here.getTime())) return undefined;
  const [offset] = /(?:Z|[+-]\d{2}:\d{2})$/.exec(before ?? '') ?? [];
  const then = new Date(before ?? '');
  const isFromHere = offset === undefined || Number.isNaN(then.getTime()) || localTime(then).endsWith(offset);
  return isFromHere ? localTime(here) : `${wall.length === 16 ? `${wall}:00` : wall.slice(0, 19)}${offset}`;
}

/** A time as one says it now: `15:40` today, with its day on another. */
export function sayTime(time: number, now: Date): string {
  const then = new Date(time);
  if (Number.isNaN(then.getTime()) || Math.abs(time - now.getTime()) > 400 * 365 * 86_400_000) return 'a day that no calendar reaches';
  return then.toDateString() === now.toDateString() ? minuteOf(then) : dayAndMinute(then);
}

/** The same where there is little room: a day of this week by its name alone, `Sun 15:40`. */
export function sayTimeShort(time: number, now: Date): string {
  const isNear = Math.abs(time - now.getTime()) < 6 * 86_400_000;
  return isNear && new Date(time).toDateString() !== now.toDateString() ? `${weekdayOf(new Date(time))} ${minuteOf(new Date(time))}` : sayTime(time, now);
}

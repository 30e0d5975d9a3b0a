const STAMP = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?)(Z|[+-]\d{2}:\d{2})$/;

/**
 * A time as the record keeps it, ISO 8601 with offset, in milliseconds since 1970; undefined where it is none. The offset
 * stands in the text, so that a change of summer time or of the place changes nothing.
 */
export function readStamp(text: string): number | undefined {
  const [, day] = STAMP.exec(text) ?? [];
  const time = day === undefined ? Number.NaN : Date.parse(text);
  // 30 February is carried over to March by some readers and refused by others.
  if (Number.isNaN(time) || day === undefined || !new Date(`${day}T00:00:00Z`).toJSON()?.startsWith(day)) return undefined;
  return time;
}

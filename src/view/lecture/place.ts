import { PREDICTING, REVEALS, type LectureOrder, type Reveal, type Station } from './order.ts';

/** Where the lecture stands. */
export interface Place {
  /** Id of the station. */
  readonly station: string;
  /** Its number in the order, in case it is gone. */
  readonly index: number;
  /** The last that has been brought to light there. */
  readonly reveal: Reveal;
}

export const BEGINNING: Place = { station: '', index: 0, reveal: 'words' };

/** The same place in the order as it is now: an edit may have moved the station, or taken it or a reveal of it away. */
export function placeIn(order: LectureOrder, place: Place): Place {
  const { stations } = order;
  const found = stations.findIndex(({ id, blocks }) => id === place.station || blocks.includes(place.station));
  const index = Math.min(found < 0 ? place.index : found, stations.length - 1);
  const station = stations[index];
  if (station === undefined) return BEGINNING;
  return { station: station.id, index, reveal: found < 0 ? firstReveal(order, station) : latestUpTo(place.reveal, order.revealsAt(station)) };
}

/** One reveal on, or to the next station; the same place at the end. */
export function ahead(order: LectureOrder, place: Place): Place {
  const station = order.stations[place.index];
  const next = station === undefined ? undefined : order.revealsAt(station).find((reveal) => REVEALS.indexOf(reveal) > REVEALS.indexOf(place.reveal));
  if (next !== undefined) return { ...place, reveal: next };
  const following = order.stations[place.index + 1];
  return following === undefined ? place : at(following, place.index + 1, firstReveal(order, following));
}

/** Hides the last reveal again, or goes back to the station before with all that it shows; the same place at the beginning. */
export function behind(order: LectureOrder, place: Place): Place {
  const station = order.stations[place.index];
  const before = station === undefined ? undefined : order.revealsAt(station).findLast((reveal) => REVEALS.indexOf(reveal) < REVEALS.indexOf(place.reveal));
  if (before !== undefined) return { ...place, reveal: before };
  const preceding = order.stations[place.index - 1];
  return preceding === undefined ? place : at(preceding, place.index - 1, order.revealsAt(preceding).at(-1) ?? 'words');
}

/** The beginning of the next section; the same place in the last. */
export function sectionAhead(order: LectureOrder, place: Place): Place {
  const chapter = order.stations[place.index]?.chapter ?? 0;
  const index = order.stations.findIndex((station) => station.chapter > chapter);
  return index < 0 ? place : beginningAt(order, index);
}

/** The beginning of the section, from there that of the one before. */
export function sectionBehind(order: LectureOrder, place: Place): Place {
  const { stations } = order;
  const chapter = stations[Math.max(0, place.index - 1)]?.chapter;
  return beginningAt(order, Math.max(0, stations.findIndex((station) => station.chapter === chapter)));
}

/** The station that shows a block, from its beginning; undefined where none does. */
export function placeOf(order: LectureOrder, blockId: string): Place | undefined {
  const { stations } = order;
  const index = stations.findIndex(({ id, blocks }) => id === blockId || blocks.includes(blockId));
  return index < 0 ? undefined : beginningAt(order, index);
}

function beginningAt(order: LectureOrder, index: number): Place {
  const station = order.stations[index];
  return station === undefined ? BEGINNING : at(station, index, firstReveal(order, station));
}

/** The last station, with all that it shows. */
export function ending(order: LectureOrder): Place {
  const { stations } = order;
  const last = stations.at(-1);
  return last === undefined ? BEGINNING : at(last, stations.length - 1, order.revealsAt(last).at(-1) ?? 'words');
}

/** Whether no line of the station is left to bring to light. */
export function isAllRevealed(order: LectureOrder, station: Station, { reveal }: Place): boolean {
  const last = order.revealsAt(station).findLast((one) => !PREDICTING.includes(one)) ?? 'words';
  return REVEALS.indexOf(reveal) >= REVEALS.indexOf(last);
}

/** What is to be seen: everything up to the last reveal. */
export function revealed({ reveal }: Place): readonly Reveal[] {
  return REVEALS.slice(0, REVEALS.indexOf(reveal) + 1);
}

function at({ id }: Station, index: number, reveal: Reveal): Place {
  return { station: id, index, reveal };
}

function firstReveal(order: LectureOrder, station: Station): Reveal {
  return order.revealsAt(station)[0] ?? 'words';
}

function latestUpTo(reveal: Reveal, reveals: readonly Reveal[]): Reveal {
  return reveals.findLast((one) => REVEALS.indexOf(one) <= REVEALS.indexOf(reveal)) ?? reveals[0] ?? 'words';
}

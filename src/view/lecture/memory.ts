import { REVEALS } from './order.ts';
import type { Place } from './place.ts';
import { OPEN } from './lecture-types.ts';

interface Remembered {
  readonly place: Place;
  /** The lecture view was open. */
  readonly isOpen: boolean;
}

export function rememberedText({ place, isOpen }: Remembered): string {
  return `${isOpen ? OPEN : 'left'} ${place.reveal} ${place.index} ${place.station}`;
}

/** Undefined where nothing was kept, or nothing that is understood. */
export function readRemembered(text: string | undefined): Remembered | undefined {
  const [, state, word, index, station] = /^(open|left) (\w+) (\d{1,6}) ?(.*)$/su.exec(text ?? '') ?? [];
  const reveal = REVEALS.find((one) => one === word);
  if (reveal === undefined || station === undefined) return undefined;
  return { isOpen: state === OPEN, place: { station, index: Number(index), reveal } };
}

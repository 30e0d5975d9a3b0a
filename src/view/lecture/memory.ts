import { REVEALS } from './order.ts';
import type { Place } from './place.ts';

/** Keeps a line of text as long as the window is there. */
export interface LectureMemory {
  read(): string | undefined;
  write(text: string): void;
}

interface Remembered {
  readonly place: Place;
  /** The lecture view was open. */
  readonly isOpen: boolean;
}

export function rememberedText({ place, isOpen }: Remembered): string {
  return `${isOpen ? 'open' : 'left'} ${place.reveal} ${place.index} ${place.station}`;
}

/** Undefined where nothing was kept, or nothing that is understood. */
export function readRemembered(text: string | undefined): Remembered | undefined {
  const [, state, word, index, station] = /^(open|left) (\w+) (\d{1,6}) ?(.*)$/su.exec(text ?? '') ?? [];
  const reveal = REVEALS.find((one) => one === word);
  if (reveal === undefined || station === undefined) return undefined;
  return { isOpen: state === 'open', place: { station, index: Number(index), reveal } };
}

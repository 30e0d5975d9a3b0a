import type { OwnMaterial } from '../graph/index.ts';

/** Materials of the reader's own that this browser keeps for all sheets. */
export interface MaterialShelf {
  /** By name. */
  readonly all: () => readonly OwnMaterial[];
  /** Puts one in, in place of one of that name only where `instead` says so; false where the browser refused, or one of that name says something else. */
  readonly keep: (material: OwnMaterial, instead?: boolean) => boolean;
  readonly drop: (name: string) => boolean;
}

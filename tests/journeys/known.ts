/**
 * What has passed in this run already, by whichever worker: numbers of 53 bits that stand for what was looked at. They are appended to a file of the
 * run, which each worker reads on from where it was.
 */
import { appendFileSync, closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { inject } from 'vitest';

const BYTES = 8;

export class Known {
  readonly #name: string;
  readonly #all = new Set<number>();
  #read = 0;

  constructor(name: string) {
    this.#name = name;
  }

  get #file(): string {
    return join(inject('knownFolder'), this.#name);
  }

  /** All that passed so far. */
  now(): readonly number[] {
    const file = openSync(this.#file, 'a+');
    try {
      // What another worker is writing at this moment may be there in part: only whole numbers are taken.
      const there = fstatSync(file).size;
      const bytes = Buffer.alloc(there - this.#read - ((there - this.#read) % BYTES));
      readSync(file, bytes, 0, bytes.length, this.#read);
      this.#read += bytes.length;
      for (let at = 0; at < bytes.length; at += BYTES) this.#all.add(bytes.readDoubleLE(at));
    } finally {
      closeSync(file);
    }
    return [...this.#all];
  }

  add(more: readonly number[]): void {
    const fresh = more.filter((one) => !this.#all.has(one));
    if (fresh.length === 0) return;
    const bytes = Buffer.alloc(fresh.length * BYTES);
    fresh.forEach((one, i) => bytes.writeDoubleLE(one, i * BYTES));
    appendFileSync(this.#file, bytes);
  }
}

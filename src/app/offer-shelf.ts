import { ok } from '../core/problem/index.ts';
import { linesOfSheet, valuesOfSheet } from '../graph/index.ts';
import { parseSheet, type SheetDocument } from '../sheet/index.ts';
import type { LineShelf, OfferShelf, SheetWith, ValueShelf } from '../view/index.ts';
import { textOfFile } from './bring-in.ts';
import type { ShelfStore } from './shelf-store.ts';
import { titleOf } from './sheet-title.ts';

interface ShelfOptions {
  readonly store: Pick<ShelfStore, 'list'> | undefined;
  /** Id of the sheet that lies open. */
  readonly openId: () => string;
  readonly now: () => Date;
}

/** What a sheet offers, and which kind of cell it needs for that: other sheets are not worked out. */
interface Offering<Offer> {
  readonly fence: string;
  readonly offers: (document: SheetDocument, title: string, date: string) => Promise<readonly Offer[]>;
}

/** Lines of the sheets kept in this browser and of files. */
export function createLineShelf(options: ShelfOptions): LineShelf {
  return createShelf(options, { fence: 'fit', offers: linesOfSheet });
}

/** Values of the sheets kept in this browser and of files. */
export function createValueShelf(options: ShelfOptions): ValueShelf {
  return (wanted) => createShelf(options, {
    fence: 'step|given',
    offers: async (document, from, on) => {
      const specimen = document.frontMatter.entries.get('specimen')?.trim() ?? '';
      const found = await valuesOfSheet(document, wanted);
      return found.values.length + found.trouble.size === 0 ? [] : [{ ...found, from, specimen, on }];
    },
  });
}

/** The texts of other sheets are data, worked out like any sheet and not shown. */
function createShelf<Offer>({ store, openId, now }: ShelfOptions, { fence, offers }: Offering<Offer>): OfferShelf<Offer> {
  const has = new RegExp(`^ {0,3}(?:\`{3,}|~{3,})\\s*(?:${fence})\\s*$`, 'm');
  const read = async (text: string, detail: string): Promise<SheetWith<Offer>> => {
    const document = parseSheet(text);
    const title = titleOf(document);
    return { title, detail, offers: await offers(document, title, dayOf(now())) };
  };
  return {
    kept: async (called) => {
      const sheets = ((await store?.list()) ?? []).filter(({ id, title, text }) => id !== openId() && has.test(text) && (called?.has(title) ?? true));
      const found: SheetWith<Offer>[] = [];
      for (const { text, detail, changed } of sheets) {
        const sheet = await read(text, [detail, `changed ${dayOf(new Date(changed))}`].filter((part) => part !== '').join(' · '));
        if (sheet.offers.length > 0) found.push(sheet);
      }
      return found;
    },
    ofFile: async (file) => {
      const text = await textOfFile(file);
      return text.ok ? ok(await read(text.value, file.name)) : text;
    },
  };
}

/** The day on the clock of this place. */
function dayOf(time: Date): string {
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}

import type { Result } from '../core/problem/index.ts';
import type { LineToTake, ValuesToTake, ValueToTake } from '../graph/index.ts';

/** Another sheet, with what can be taken over from it. */
export interface SheetWith<Offer> {
  readonly title: string;
  /** What tells it apart from others of its title: team, when it was changed, or the file's name. */
  readonly detail: string;
  readonly offers: readonly Offer[];
}

/** Where what other sheets offer can be had. Calls may reject where the browser refuses; whoever calls says so. */
export interface OfferShelf<Offer> {
  /** Sheets kept in this browser that offer something, all or those of some titles, the one that lies open left out, latest change first. */
  kept(called?: ReadonlySet<string>): Promise<readonly SheetWith<Offer>[]>;
  ofFile(file: File): Promise<Result<SheetWith<Offer>>>;
}

/** Lines that other sheets have fitted. */
export type LineShelf = OfferShelf<LineToTake>;
/** Values of other sheets, by the symbols wanted. */
export type ValueShelf = (wanted: readonly string[]) => OfferShelf<OfferedValues>;

/** Values of one sheet, with the specimen that they are of. */
export interface OfferedValues extends ValuesToTake {
  readonly from: string;
  readonly specimen: string;
  /** Day on which they are looked up. */
  readonly on: string;
}

/** How what was taken stands to the sheet it came from. */
export type SourceNow<News> = { readonly state: 'same' | 'not here' } | { readonly state: 'changed'; readonly news: News };

/** A line that is now drawn otherwise. */
export interface LineNews {
  /** Whether its specimens are others than then; else only the way the line is drawn. */
  readonly tests: boolean;
  readonly snapshot: ReadonlyMap<string, string>;
}

/** Entries that tell where and when, not what. */
const ABOUT = new Set(['taken', 'from']);

/** Compares a line with those of the kept sheets: the one of the same title and fit is its source. */
export function lineSource(taken: ReadonlyMap<string, string>, sheets: readonly SheetWith<LineToTake>[]): SourceNow<LineNews> {
  const found = sheets.flatMap(({ offers }) => offers.flatMap(({ snapshot }) => (snapshot !== undefined && isSource(snapshot, taken) ? [snapshot] : [])));
  const [first] = found;
  if (first === undefined) return { state: 'not here' };
  if (found.some((snapshot) => saysTheSame(snapshot, taken))) return { state: 'same' };
  return { state: 'changed', news: { tests: first.get('data') !== taken.get('data'), snapshot: first } };
}

function isSource(snapshot: ReadonlyMap<string, string>, taken: ReadonlyMap<string, string>): boolean {
  return snapshot.get('from') === taken.get('from') && snapshot.get('fit') === taken.get('fit');
}

function saysTheSame(a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): boolean {
  return [...a].every(([key, text]) => ABOUT.has(key) || b.get(key) === text) && a.get('invented') === b.get('invented');
}

/** Compares a value with the sheets of its title and specimen. */
export function valueSource(taken: ReadonlyMap<string, string>, sheets: readonly SheetWith<OfferedValues>[]): SourceNow<OfferedValues> {
  const found = sheets.flatMap(({ offers }) => offers).filter(({ from, specimen }) => from === taken.get('from') && specimen === (taken.get('specimen') ?? ''));
  const valueIn = (offer: OfferedValues): ValueToTake | undefined => offer.values.find(({ symbol }) => symbol === taken.get('symbol'));
  const [first] = found.filter((offer) => valueIn(offer) !== undefined);
  if (first === undefined) return { state: 'not here' };
  const isSame = (value: ValueToTake | undefined): boolean => value?.text === taken.get('value') && value?.isInvented === (taken.get('invented') === 'yes');
  return found.some((offer) => isSame(valueIn(offer))) ? { state: 'same' } : { state: 'changed', news: first };
}

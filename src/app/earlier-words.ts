import { composed } from '../core/problem/index.ts';
import { inputsOf, serialiseSheet, type SheetDocument } from '../sheet/index.ts';
import { titleOf } from './sheet-title.ts';

/** Values that are named; more are counted. */
const MOST_NAMED = 3;
/** A long entry, of many readings for one, is broken off. */
const LONGEST_NAMED = 40;

/** What an earlier state said otherwise than the sheet does now, in short. */
export function whatDiffers(then: SheetDocument, now: SheetDocument): string {
  const [before, present] = [inputsOf(then), inputsOf(now)];
  const values = [
    ...[...before].filter(([target, text]) => present.get(target) !== text).map(([target, text]) => composed`${target} was ${text === '' ? 'empty' : clipped(text)}`),
    ...[...present.keys()].filter((target) => !before.has(target)).map((target) => composed`${target} was not there`),
  ];
  const title = titleOf(then) === titleOf(now) ? [] : [`titled “${clipped(titleOf(then))}”`];
  const rest = values.length - MOST_NAMED;
  const phrases = [...title, ...values.slice(0, MOST_NAMED), ...(rest > 0 ? [`${rest} more ${rest === 1 ? 'value' : 'values'}`] : [])];
  return phrases.length > 0 ? phrases.join('; ') : places(then, now);
}

/** Title and values being the same. */
function places(then: SheetDocument, now: SheetDocument): string {
  const count = Math.max(placesApart(then, now), placesApart(now, then)) + (then.frontMatter.source === now.frontMatter.source ? 0 : 1);
  if (count === 0) return serialiseSheet(then) === serialiseSheet(now) ? 'the same as now' : 'the same lines, placed otherwise';
  return `the same values; ${count === 1 ? 'one place differs' : `${count} places differ`}`;
}

/** Blocks of one that the other has not; blank lines count for nothing. */
function placesApart(one: SheetDocument, other: SheetDocument): number {
  const there = new Set(other.blocks.map(({ source }) => source.trim()));
  return one.blocks.filter(({ source }) => source.trim() !== '' && !there.has(source.trim())).length;
}

function clipped(text: string): string {
  return text.length > LONGEST_NAMED ? `${text.slice(0, LONGEST_NAMED).trimEnd()}…` : text;
}

import { fromSI, type Unit } from '../core/units/index.ts';
import { htmlText, markup, unitWords, type Insertion, type Markup } from '../report/index.ts';
import { pointsText } from './class-csv.ts';
import { askedIn, pointsOf, worth, type Marking } from './marks.ts';
import { spreads, type Spread } from './spread.ts';
import type { ReturnedAnswer, ReturnedSheet } from './types.ts';
import { nameOf, VERDICT_WORDS } from './words.ts';

/** A page for one team. */
export interface Feedback {
  readonly sheet: ReturnedSheet;
  readonly html: string;
}

interface FeedbackOptions extends Marking {
  /** Whether the sheet's own results are told. */
  readonly tellsResults: boolean;
}

/**
 * What each team is told: its own results with what is said of them and their points, values far from the class's, checks that do not hold. A page without script.
 * @param among the whole class
 */
export function* feedbackFor(sheets: readonly ReturnedSheet[], among: readonly ReturnedSheet[], options: FeedbackOptions): Generator<Feedback> {
  const [asked, spread] = [askedIn(among), spreads(among)];
  for (const sheet of sheets) {
    const { total, outOf, bySymbol } = pointsOf(sheet, options, asked);
    const parts: readonly Insertion[] = [
      markup`<h1>${sheet.head.title === '' ? 'Returned sheet' : sheet.head.title}</h1>
<p>${[sheet.head.team, sheet.head.operators, sheet.head.specimen, sheet.head.date].filter((part) => part !== '').join(' · ')}</p>`,
      asked.length > 0 && markup`
<p>Points: ${pointsText(total)} of ${pointsText(outOf)}</p>
<table><thead><tr><th scope="col">Asked</th><th scope="col">Yours</th><th scope="col">That is</th><th scope="col">Points</th></tr></thead><tbody>${asked.map(({ symbol, label, isQuestion }) => {
  const answer = sheet.answers.find((one) => one.symbol === symbol);
  return markup`
<tr><th scope="row">${isQuestion ? label : `${label}, ${symbol}`}</th><td>${answer?.typed ?? ''}</td><td>${answer === undefined ? 'not asked in your file' : saidOf(answer, options.tellsResults)}</td><td>${pointsText(bySymbol.get(symbol))} of ${pointsText(worth(symbol, options.scheme))}</td></tr>`;
})}
</tbody></table>`,
      list('Worth another look, since it lies far from what the class has', spread.flatMap((one) => farWords(sheet, one))),
      list('Checks that do not hold', sheet.checks.filter(({ holds }) => holds === false).map(({ message }) => message)),
    ];
    yield { sheet, html: htmlText(page(nameOf(sheet), parts)) };
  }
}

function saidOf({ verdict, sentence, comesOf, right }: ReturnedAnswer, tellsResults: boolean): string {
  const words = VERDICT_WORDS[verdict];
  // How many times the sheet's it is would tell the result.
  const why = verdict === 'differs' && !tellsResults ? '' : sentence;
  const slip = comesOf.length === 0 ? '' : `It comes of: ${comesOf.join('; or ')}.`;
  return [`${words[0]?.toUpperCase() ?? ''}${words.slice(1)}.`, why, slip, tellsResults && right !== '' ? `The sheet has ${right}.` : ''].filter((part) => part !== '').join(' ');
}

function farWords(sheet: ReturnedSheet, { label, unit, values, median }: Spread): readonly string[] {
  return values.filter((one) => one.sheet === sheet && one.isOutlier).map(({ value }) => `${label}: yours is ${inUnit(value, unit)}, the class’s median ${inUnit(median, unit)}.`);
}

/** Four figures. */
export function inUnit(value: number, unit: Unit | undefined): string {
  if (unit === undefined) return '';
  const number = String(Number(fromSI(value, unit).toPrecision(4)));
  return unit.name === '1' ? number : `${number} ${unitWords(unit.name)}`;
}

function list(heading: string, items: readonly string[]): Insertion {
  return items.length > 0 && markup`
<h2>${heading}</h2>
<ul>${items.map((item) => markup`<li>${item}</li>`)}</ul>`;
}

/** Nothing but its own style. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

function page(title: string, parts: readonly Insertion[]): Markup {
  return markup`<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>
body { max-width: 50rem; margin: 0 auto; padding: 1rem; font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2 { font-family: serif; font-weight: normal; font-style: italic; font-size: 1.25rem; }
table { border-collapse: collapse; }
th, td { padding: 0.3rem 1rem 0.3rem 0; border-bottom: 1px solid; font-weight: normal; text-align: start; vertical-align: top; }
</style>
</head>
<body>${parts}
</body>
</html>
`;
}

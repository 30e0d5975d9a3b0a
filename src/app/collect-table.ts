import { nothing, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import { composed } from '../core/problem/index.ts';
import {
  askedIn, checksIn, enteredIn, nameOf, otherFormulas, pointsOf, pointsText, VERDICT_WORDS, worth, type AskedStep, type Marking, type ReturnedAnswer, type ReturnedCheck, type ReturnedSheet, type ReturnedVerdict, type SortBy,
} from '../returns/index.ts';
import { entered, html } from '../view/index.ts';
import { titled } from './collect-desk.ts';
import type { CollectActions, CollectState, CollectView } from './collect-types.ts';

/** Views that are a table by team. */
type TableView = Exclude<CollectView, 'class'>;

/** A column of the table: what it is put in order by, and what stands in it. */
interface Column {
  readonly by: SortBy;
  readonly head: string;
  readonly says?: string;
  readonly cell: (sheet: ReturnedSheet) => unknown;
  readonly isFigures?: boolean;
}

/** The sheets as rows; what each column has hangs on the view. */
export function collectTable(state: CollectState & { readonly view: TableView }, sheets: readonly ReturnedSheet[], actions: CollectActions): TemplateResult {
  const { look, beside } = state;
  const all = titled(state);
  const columns = COLUMNS[state.view](all, state, actions);
  const teams = countedTeams(all);
  const others = new Set(otherFormulas(all).map(({ sheet }) => sheet.id));
  const isSorted = (by: SortBy): 'ascending' | 'descending' | typeof nothing => (look.by === by ? (look.isDown ? 'descending' : 'ascending') : nothing);
  const head = ({ by, head: words, says }: Pick<Column, 'by' | 'head' | 'says'>): TemplateResult => html`<th scope="col" aria-sort=${isSorted(by)}>
    <button type="button" class="collect-order" @click=${() => actions.sortBy(by)}>${words}</button>${says === undefined ? nothing : html`<span class="collect-unit">${says}</span>`}</th>`;
  return html`<div class="collect-table" tabindex="0" role="group" aria-label="Returned sheets"><table>
    <thead><tr>${head({ by: 'team', head: 'Team' })}${columns.map(head)}</tr></thead>
    <tbody>${repeat(sheets, ({ id }) => id, (sheet) => html`<tr class=${sheet.id === beside ? 'collect-laid' : nothing}>
      <th scope="row"><button type="button" class="collect-team" data-returned=${sheet.id} aria-pressed=${String(sheet.id === beside)} @click=${() => actions.lay(sheet.id === beside ? undefined : sheet.id)}>${nameOf(sheet)}</button>${remarksOf(sheet, teams, others.has(sheet.id)).map((remark) => html`<span class="collect-remark">${remark}</span>`)}</th>
      ${columns.map(({ cell, isFigures }) => html`<td class=${isFigures === true ? 'figures' : nothing}>${cell(sheet)}</td>`)}</tr>`)}</tbody></table></div>`;
}

/** How many sheets a team has, by its name in small letters. */
function countedTeams(sheets: readonly ReturnedSheet[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { head: { team } } of sheets) counts.set(team.toLowerCase(), (counts.get(team.toLowerCase()) ?? 0) + 1);
  return counts;
}

/** What is to be seen before anything else of a sheet is believed. */
function remarksOf({ head: { team }, isAltered, troubles }: ReturnedSheet, teams: ReadonlyMap<string, number>, isOther: boolean): readonly string[] {
  const count = team === '' ? 1 : (teams.get(team.toLowerCase()) ?? 1);
  return [...(count > 1 ? [`one of ${count} sheets of this team`] : []), ...(isAltered ? ['altered'] : []), ...(isOther ? ['worked out otherwise: see The class'] : []), ...(troubles.length > 0 ? ['something wrong in it: see beside'] : [])];
}

const COLUMNS: Readonly<Record<TableView, (sheets: readonly ReturnedSheet[], marking: Marking, actions: CollectActions) => readonly Column[]>> = {
  answers: (sheets, marking) => [
    ...askedIn(sheets).map((asked): Column => ({ ...headOf(asked), cell: ({ answers }) => answerCell(answers.find((one) => one.symbol === asked.symbol)) })),
    pointsColumn(askedIn(sheets), marking),
  ],
  measured: (sheets) => enteredIn(sheets).map(({ symbol, label }): Column => ({ by: `value ${symbol}`, head: symbol, says: label, cell: ({ values }) => values.find((one) => one.symbol === symbol)?.text ?? '', isFigures: true })),
  checks: (sheets) => [
    ...checksIn(sheets).filter(({ id }) => sheets.some(({ checks }) => checks.find((check) => check.id === id)?.holds === false))
      .map(({ id, label }): Column => ({ by: `check ${id}`, head: label, cell: ({ checks }) => checkCell(checks.find((check) => check.id === id)) })),
    { by: 'life', head: 'Test', cell: testCell },
  ],
  points: (sheets, marking, actions) => {
    const asked = askedIn(sheets);
    return [
      ...asked.map((one): Column => ({ ...headOf(one), cell: (sheet) => pointsCell(sheet, one, pointsOf(sheet, marking, asked).bySymbol.get(one.symbol) ?? 0, actions), isFigures: true })),
      pointsColumn(asked, marking),
    ];
  },
};

/** A step by its symbol, with its words below; a question by its words. */
function headOf({ symbol, label, isQuestion }: AskedStep): Pick<Column, 'by' | 'head' | 'says'> {
  return { by: `answer ${symbol}`, ...(isQuestion ? { head: label } : { head: symbol, says: label }) };
}

/** What the scheme gives, to be typed over by whoever marks; emptied, it is the scheme's again. */
function pointsCell(sheet: ReturnedSheet, { symbol, label }: AskedStep, points: number, actions: CollectActions): TemplateResult {
  const give = (event: Event): void => {
    const typed = (event.target as HTMLInputElement).value.trim().replace(',', '.');
    const given = Number(typed);
    actions.giveByHand(sheet.id, symbol, typed === '' || !Number.isFinite(given) || given < 0 ? undefined : given);
  };
  return html`<input type="text" inputmode="decimal" class="blank collect-points" autocomplete="off" aria-label=${composed`Points of ${nameOf(sheet)} for ${label}`} .value=${entered(pointsText(points))} @change=${give}>`;
}

function pointsColumn(asked: readonly AskedStep[], marking: Marking): Column {
  const outOf = asked.reduce((sum, { symbol }) => sum + worth(symbol, marking.scheme), 0);
  return { by: 'points', head: 'Points', says: `out of ${pointsText(outOf)}`, cell: (sheet) => pointsText(pointsOf(sheet, marking, asked).total), isFigures: true };
}

/** A sign and a word: neither colour nor sign alone says it. */
const SIGNS: Readonly<Record<ReturnedVerdict, string>> = { agrees: '✓', carried: '✓', 'too few digits': '~', differs: '✗', unreadable: '?', 'no result': '?', 'for the marker': '', open: '' };

function answerCell(answer: ReturnedAnswer | undefined): unknown {
  if (answer === undefined) return html`<span class="collect-remark">not asked in this file</span>`;
  const { typed, verdict, comesOf } = answer;
  return html`${typed === '' ? nothing : html`<span class="collect-typed">${typed}</span> `}<span class="collect-verdict" data-verdict=${verdict}><span aria-hidden="true">${SIGNS[verdict]}</span> ${VERDICT_WORDS[verdict]}</span>${comesOf.length === 0 ? nothing
    : html`<span class="collect-remark">${comesOf.join('; or ')}</span>`}`;
}

function checkCell(check: ReturnedCheck | undefined): unknown {
  if (check === undefined || check.holds === undefined) return html`<span class="collect-remark">${check === undefined ? 'not in this file' : 'can’t be told'}</span>`;
  return html`<span class="collect-verdict" data-verdict=${check.holds ? 'agrees' : 'differs'}><span aria-hidden="true">${check.holds ? '✓' : '✗'}</span> ${check.holds ? 'holds' : 'does not hold'}</span>`;
}

function testCell({ tests }: ReturnedSheet): unknown {
  return tests.map(({ phase, outcome, row }) => {
    const cycles = row?.get('N')?.text;
    return html`<span class="collect-typed">${cycles === undefined ? phase : composed`${outcome} at ${cycles} cycles`}</span>`;
  });
}

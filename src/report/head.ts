import type { Problem } from '../core/problem/index.ts';
import { html, type Hand, type Insertion, type Markup } from './markup.ts';
import { originsLine } from './origin-parts.ts';
import { cellAnchor, problemLine } from './parts.ts';
import { presentAttention, type PresentedAttention } from './present/attention.ts';
import { referenceOf, referenceProblems } from './present/held.ts';
import { lectureWarnings } from './present/lecture-names.ts';
import { presentSlipsOn, SLIP_MARK, slipListProblems } from './present/slips.ts';
import { endsItself } from './report-part.ts';
import { presentTrials, trialHeading } from './present/trials.ts';
import type { PresentContext, PresentedSlip, PresentedTrial } from './present/types.ts';

/* What stands at the head of the sheet, above its lines, said once for report and page. */

/** The presses that only the page has there. */
export interface HeadHands {
  /** Goes to a cell. */
  readonly place: (cellId: string, words: string) => Hand;
  /** Puts back what was measured: in place of one trial value, or of all of them. */
  readonly putBack: (trials: readonly PresentedTrial[], isAll: boolean) => Hand;
  readonly slipOff: (slip: PresentedSlip) => Hand;
  readonly allSlipsOff: () => Hand;
  readonly stopComparing: () => Hand;
}

/** Whatever has to be known before anything else is read. */
export function headParts(context: PresentContext, hands?: HeadHands): { readonly bands: readonly Insertion[]; readonly origins: Insertion; readonly problems: Insertion; readonly attention: Insertion } {
  const { document } = context;
  const problems = [...document.problems, ...document.frontMatter.problems, ...slipListProblems(document)];
  const warnings = [...document.frontMatter.warnings, ...lectureWarnings(document)];
  return {
    bands: [trialBand(presentTrials(context), hands), slipBand(presentSlipsOn(context), hands), referenceBand(context, hands)],
    origins: originsLine(context, hands?.place),
    problems: problems.length + warnings.length > 0 && html`<div class="sheet-problems">${problems.map((problem) => problemLine(problem))}${warnings.map((problem) => problemLine(problem, 'problem warning'))}</div>`,
    attention: attention(presentAttention(context), hands),
  };
}

/** Every trial value. */
function trialBand(trials: readonly PresentedTrial[], hands?: HeadHands): Markup | undefined {
  const items = trials.map((trial) => bandItem(trial.cellId, `${trial.where}: ${trial.symbol} = ${trial.typed}`, hands, hands?.putBack([trial], false)));
  return band('trial-band', trialHeading(trials), items, trials.length > 1 && hands?.putBack(trials, true));
}

/** The slips that are switched on. */
function slipBand(slips: readonly PresentedSlip[], hands?: HeadHands): Markup | undefined {
  const items = slips.map((slip) => bandItem(slip.cellId, `${slip.where}: ${slip.label}`, hands, hands?.slipOff(slip)));
  const heading = `${slips.length === 1 ? 'A slip is' : `${slips.length} slips are`} switched on: values marked ${SLIP_MARK} are wrong on purpose, not results`;
  return band('slip-band', heading, items, slips.length > 1 && hands?.allSlipsOff());
}

function bandItem(cellId: string, words: string, hands: HeadHands | undefined, press: Hand | undefined): Markup {
  return html`<li>${hands?.place(cellId, words) ?? words} ${press}</li>`;
}

function band(name: string, heading: string, items: readonly Markup[], all: Insertion): Markup | undefined {
  return items.length === 0 ? undefined : html`<section class="${name}" aria-labelledby="${name}-words"><h2 id="${name}-words">${heading}</h2>
<ul>${items}</ul>${all}</section>`;
}

/** What the sheet is compared with. What of that no longer fits stands here on the page, and in the report with the held states at its end. */
function referenceBand(context: PresentContext, hands?: HeadHands): Markup | undefined {
  const reference = referenceOf(context.document);
  const problems: readonly Problem[] = hands === undefined ? [] : referenceProblems(context);
  if (reference === undefined && problems.length === 0) return undefined;
  return html`<section class="reference-band" aria-label="Comparison"><p>${reference !== undefined && html`Compared with the held state “${reference.name}”: beside each value stands by how much it differs.`}
${hands?.stopComparing()}</p>${problems.map((problem) => problemLine(problem))}</section>`;
}

/** What is still open, not in order or does not hold. */
function attention({ openItems, items, problems, failedChecks, unwritten }: PresentedAttention, hands?: HeadHands): Markup | undefined {
  const lines = [
    openItems > 0 && html`<li class="${hands === undefined ? undefined : 'said-beside'}">${openItems} of ${items} checklist items are open.</li>`,
    failedChecks.length > 0 && places('Does not hold:', failedChecks, hands),
    problems.length > 0 && places('To be mended:', problems, hands),
    unwritten.length > 0 && places('Still to be written:', unwritten, hands),
  ].filter((line) => line !== false);
  if (lines.length === 0) return undefined;
  // Beside the sheet on the page, which says it at any place: on paper it stands here.
  const isAllBeside = hands !== undefined && openItems > 0 && lines.length === 1;
  return html`<ul class="attention${isAllBeside ? ' all-beside' : ''}">${lines}</ul>`;
}

function places(words: string, list: PresentedAttention['problems'], hands?: HeadHands): Markup {
  return html`<li>${words} ${list.map(({ cellId, label }, i) => html`${i === 0 ? '' : endsItself(list[i - 1]?.label ?? '') ? ' ' : '; '}${hands?.place(cellId, label) ?? html`<a href="#${cellAnchor(cellId)}">${label}</a>`}`)}${endsItself(list.at(-1)?.label ?? '') ? '' : '.'}</li>`;
}

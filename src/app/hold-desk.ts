import { composed, isolated, type Problem } from '../core/problem/index.ts';
import { nameParts,
  CHIEF_RESULTS, chiefResults, heldProblems, heldTableCsv, MOST_CHIEF_RESULTS, presentHeldTable, presentSlipsOn, presentTrials, SLIPS_IN_NAME, TRIALS_IN_NAME, type PresentContext, wholeOf,
} from '../report/index.ts';
import { cellsOf, goBackTo, heldInputsOf, parseSheet, REFERENCE, sharedInputs, tablesApart, tablesNotHeld, type EditCommand, type SheetDocument } from '../sheet/index.ts';
import { fileName, localTime, saveFile, type SheetSession } from '../view/index.ts';
import { textOfFile } from './bring-in.ts';
import type { HoldActions, HoldState } from './hold-types.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { titleOf } from './sheet-title.ts';

interface HoldDesk extends HoldActions {
  /** What the panel shows, worked out when it is asked. */
  readonly look: (context: PresentContext) => HoldState;
}

interface HoldDeskOptions {
  readonly session: () => SheetSession | undefined;
  readonly context: () => PresentContext | undefined;
  readonly kept: () => readonly KeptSheet[];
  readonly now: () => Date;
  /** Something was refused: the panel is to say so. */
  readonly show: () => void;
}

/** Holding, comparing and going back, as edits of the sheet that lies open. */
export function createHoldDesk({ session, context, kept, now, show }: HoldDeskOptions): HoldDesk {
  let refused: Problem | undefined;

  const apply = (make: (document: SheetDocument) => EditCommand | undefined): boolean => {
    const open = session();
    const command = open === undefined ? undefined : make(open.document());
    if (open === undefined || command === undefined) return false;
    open.settle();
    const result = open.apply(command);
    open.settle();
    refused = result.ok ? undefined : result.problem;
    if (!result.ok) show();
    return result.ok;
  };
  const refuse = (problem: Problem): void => {
    refused = problem;
    show();
  };
  const holdText = (text: string): void => void apply((document) => {
    const other = parseSheet(text);
    const [long] = tablesApart(other, document);
    if (long !== undefined) {
      refuse({ code: 'held-table-long', what: `The table “${long.label ?? long.id}” of that sheet is too long to be held.`, mend: 'Bring that sheet in as a sheet of its own instead.' });
      return undefined;
    }
    const shared = sharedInputs(other, document);
    if (shared.inputs.size + (shared.rows?.size ?? 0) > 0) return { do: 'hold', state: { name: nameFor(other, document), at: localTime(now()), ...shared } };
    refuse({ code: 'held-nothing', what: 'That sheet has none of the blanks, choices and tables of this one.', mend: 'Choose one that began as the same sheet.' });
    return undefined;
  });
  const setFrontMatter = (key: string, value: string | undefined): EditCommand => ({ do: 'set front matter', key, value });

  return {
    look: (shown) => ({ ...looked(shown), ...(refused === undefined ? {} : { refused }) }),
    hold: (name) => apply((document) => ({ do: 'hold', state: { name, at: localTime(now()), ...heldInputsOf(document) } })),
    holdOfSheet: (sheetId) => {
      const sheet = kept().find(({ id }) => id === sheetId);
      if (sheet !== undefined) holdText(sheet.text);
    },
    holdOfFile: (file) => void textOfFile(file).then((text) => (text.ok ? holdText(text.value) : refuse(text.problem))),
    renameHeld: (name, to) => void apply(() => ({ do: 'rename held', name, to })),
    dropHeld: (name) => void apply(() => ({ do: 'drop held', name })),
    goBackTo: (name) => void apply((document) => {
      const held = document.frontMatter.held.find((one) => one.name === name);
      return held === undefined ? undefined : goBackTo(document, held);
    }),
    compareWith: (name) => void apply(() => setFrontMatter(REFERENCE, name)),
    showResult: (symbol, isShown) => void apply((document) => {
      const shown = context();
      if (shown === undefined) return undefined;
      const others = chiefResults(document, wholeOf(shown).states, MOST_CHIEF_RESULTS).filter((one) => one !== symbol);
      const wanted = isShown ? [...others, symbol] : others;
      return setFrontMatter(CHIEF_RESULTS, wanted.length === 0 ? undefined : wanted.join(', '));
    }),
    takeHeldTable: () => {
      const shown = context();
      if (shown !== undefined) takeTable(shown);
    },
  };
}

function takeTable(shown: PresentContext): void {
  const trials = presentTrials(shown).length > 0 ? [TRIALS_IN_NAME] : [];
  const slips = presentSlipsOn(shown).length > 0 ? [SLIPS_IN_NAME] : [];
  const name = fileName([...nameParts(shown.document), 'held states', ...trials, ...slips], 'csv');
  saveFile(name, heldTableCsv(shown), 'text/csv;charset=utf-8');
}

/** The team, or else the title, of another sheet as a name that is still free here. */
function nameFor(other: SheetDocument, here: SheetDocument): string {
  const team = other.frontMatter.entries.get('team')?.trim() ?? '';
  const name = (team === '' ? titleOf(other) : team).slice(0, 50).trim();
  const taken = new Set(here.frontMatter.held.map((held) => held.name));
  for (let i = 2, free = name; ; free = `${name} (${i++})`) if (!taken.has(free)) return free;
}

function looked(context: PresentContext): HoldState {
  const table = presentHeldTable(context);
  const there = new Set(table?.results.map(({ symbol }) => symbol));
  const steps = cellsOf(context.document, 'step');
  return {
    ...(table === undefined ? {} : { table }),
    problems: heldProblems(context),
    notHeld: tablesNotHeld(context.document).map(({ id, label }) => isolated(label ?? id)),
    further: there.size >= MOST_CHIEF_RESULTS ? [] : steps.filter(({ symbol }) => !there.has(symbol)).map(({ symbol, label }) => ({ symbol, label: label === undefined ? symbol : composed`${label} (${symbol})` })),
  };
}

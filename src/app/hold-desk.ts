import { composed, fail, isolated, ok, type Result } from '../core/problem/index.ts';
import { nameParts,
  CHIEF_RESULTS, chiefResults, heldProblems, heldTableCsv, MOST_CHIEF_RESULTS, presentHeldTable, presentSlipsOn, presentTrials, SLIPS_IN_NAME, TRIALS_IN_NAME, type PresentContext, wholeOf,
} from '../report/index.ts';
import { cellsOf, goBackTo, heldInputsOf, parseSheet, REFERENCE, sharedInputs, tablesApart, tablesNotHeld, type EditCommand, type HeldState, type SheetDocument } from '../sheet/index.ts';
import { fileName, localTime, saveFile, type SheetSession } from '../view/index.ts';
import { textOfFile } from './bring-in.ts';
import type { HoldActions, HoldState, RefusedHold } from './hold-types.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { titleOf } from './sheet-title.ts';

/** Another sheet as text, and where it comes from. */
interface OtherText {
  readonly from: string;
  readonly text: Result<string>;
}

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
  let refused: readonly RefusedHold[] = [];

  const apply = (make: (document: SheetDocument) => EditCommand | undefined): boolean => {
    const open = session();
    const command = open === undefined ? undefined : make(open.document());
    if (open === undefined || command === undefined) return false;
    open.settle();
    const result = open.apply(command);
    open.settle();
    refused = result.ok ? [] : [{ from: '', problem: result.problem }];
    if (!result.ok) show();
    return result.ok;
  };
  const holdTexts = (texts: readonly OtherText[]): void => {
    const document = session()?.document();
    if (document === undefined) return;
    const names = new Set(document.frontMatter.held.map((held) => held.name));
    const commands: EditCommand[] = [];
    const refusals: RefusedHold[] = [];
    for (const { from, text } of texts) {
      const state = text.ok ? stateOf(text.value, document, names, now()) : text;
      if (state.ok) {
        names.add(state.value.name);
        commands.push({ do: 'hold', state: state.value });
      } else refusals.push({ from: texts.length > 1 ? from : '', problem: state.problem });
    }
    if (commands.length > 0 && !apply(() => ({ do: 'together', commands }))) return;
    refused = refusals;
    if (refusals.length > 0) show();
  };
  const setFrontMatter = (key: string, value: string | undefined): EditCommand => ({ do: 'set front matter', key, value });

  return {
    look: (shown) => ({ ...looked(shown), refused }),
    hold: (name) => apply((document) => ({ do: 'hold', state: { name, at: localTime(now()), ...heldInputsOf(document) } })),
    holdOfSheet: (sheetId) => {
      const sheet = kept().find(({ id }) => id === sheetId);
      if (sheet !== undefined) holdTexts([{ from: sheet.title, text: ok(sheet.text) }]);
    },
    holdOfFiles: async (files) => {
      const texts: OtherText[] = [];
      for (const file of files) texts.push({ from: file.name, text: await textOfFile(file) });
      holdTexts(texts);
    },
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

/** What another sheet says in the blanks, choices and tables that this one has too. */
function stateOf(text: string, here: SheetDocument, taken: ReadonlySet<string>, at: Date): Result<HeldState> {
  const other = parseSheet(text);
  const [long] = tablesApart(other, here);
  if (long !== undefined) {
    return fail({ code: 'held-table-long', what: `The table “${long.label ?? long.id}” of that sheet is too long to be held.`, mend: 'Bring that sheet in as a sheet of its own instead.' });
  }
  const shared = sharedInputs(other, here);
  if (shared.inputs.size + (shared.rows?.size ?? 0) > 0) return ok({ name: nameFor(other, taken), at: localTime(at), ...shared });
  return fail({ code: 'held-nothing', what: 'That sheet has none of the blanks, choices and tables of this one.', mend: 'Choose one that began as the same sheet.' });
}

/** The team, or else the title, of another sheet as a name that is still free here. */
function nameFor(other: SheetDocument, taken: ReadonlySet<string>): string {
  const team = other.frontMatter.entries.get('team')?.trim() ?? '';
  const name = (team === '' ? titleOf(other) : team).slice(0, 50).trim();
  for (let i = 2, free = name; ; free = `${name} (${i++})`) if (!taken.has(free)) return free;
}

function looked(context: PresentContext): Omit<HoldState, 'refused'> {
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

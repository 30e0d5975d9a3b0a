import { parseFormula, typeset } from '../../core/formula/index.ts';
import { parseUnit } from '../../core/units/index.ts';
import type { CheckCell, ChecklistCell, ChoiceCell, ChoiceOption, RemarkCell } from '../../sheet/types.ts';
import { asked, sameWords } from './asked.ts';
import { isHidden } from './hidden.ts';
import { settingWords } from './fit-words.ts';
import { liveText } from './live.ts';
import { composed } from '../../core/problem/index.ts';
import { isMissing, someNames } from '../../graph/index.ts';
import { asKind, groupsBehind } from '../../sheet/index.ts';
import { definingCell } from './lookup.ts';
import { notesOf } from './notes.ts';
import { decimalTex, withUnitTex } from './number.ts';
import { optionInForceIn, sameInForce } from './step.ts';
import { symbolOf } from './symbol.ts';
import type {
  PresentContext, WholeContext, PresentedCheck, PresentedChecklist, PresentedChoice, PresentedRemark, PresentedSetting,
} from './types.ts';

export function presentChoice(choice: ChoiceCell, context: PresentContext): PresentedChoice {
  const { option, waitsFor = [] } = asked(context, optionInForceIn, choice, sameInForce) ?? {};
  const options = [...choice.options, ...groupOptions(choice, context)].map(({ key, label }) => ({ key, label, chosen: key === choice.chosen }));
  const chosen = options.find((one) => one.chosen);
  return {
    ...notesOf(choice, context),
    options,
    ...(chosen === undefined ? {} : { chosenLabel: chosen.label }),
    settings: [...(option?.sets ?? [])].map(([symbol, text]) => presentSetting(symbol, text, context)),
    ...(option?.source === undefined ? {} : { source: option.source }),
    ...(option?.note === undefined ? {} : { optionNote: option.note }),
    ...(option?.missing !== undefined && asked(context, isMissingIn, option) ? { missing: option.missing } : {}),
    ...(option === undefined || waitsFor.length === 0 ? {} : { waits: composed`Waits for ${someNames(waitsFor)}. Until then “${option.label}” counts.` }),
  };
}

const isMissingIn = ({ document }: WholeContext, option: ChoiceOption) => isMissing(option, document);
const groupsIn = ({ document }: WholeContext, choiceId: string) => groupsBehind(document, choiceId);

/** Groups of the table that the choice may name beside its options, where a fit takes its group from it. */
function groupOptions(choice: ChoiceCell, context: PresentContext): readonly { readonly key: string; readonly label: string }[] {
  const groups = asked(context, groupsIn, choice.id, sameWords).filter((group) => !choice.options.some(({ key }) => key === group));
  return groups.map((key) => ({ key, label: settingWords('group', key) }));
}

/** A formula for a step is typeset; a quantity for a given stays as the option writes it. */
function presentSetting(symbol: string, text: string, context: PresentContext): PresentedSetting {
  const target = definingCell(symbol, context)?.cell;
  const plain = `${symbol} = ${text}`;
  if (asKind(target, 'step') === undefined) return { symbol, text: plain, ...quantityTexOf(symbol, text) };
  const parsed = parseFormula(text);
  return parsed.ok ? { symbol, text: plain, tex: `${symbolOf(symbol)} = ${typeset(parsed.value)}` } : { symbol, text: plain };
}

/** `630 MPa` set as a number with an upright unit, where it has that shape. */
function quantityTexOf(symbol: string, text: string): { tex?: string } {
  const match = /^(-?\d+(?:\.\d+)?)\s*(\S*)$/.exec(text.trim());
  const unit = match === null ? undefined : parseUnit(match[2] ?? '');
  if (match === null || unit?.ok !== true) return {};
  return { tex: `${symbolOf(symbol)} = ${withUnitTex(decimalTex(match[1] ?? '', 0), unit.value)}` };
}

export function presentCheck(check: CheckCell, context: PresentContext): PresentedCheck {
  const state = context.states.cell(check.id)?.check;
  const hidden = isHidden(check.id, context);
  return {
    ...notesOf(check, context),
    holds: hidden ? undefined : state?.holds,
    message: hidden || state === undefined ? '' : liveText(state.message, context),
    hidden,
  };
}

export function presentChecklist(checklist: ChecklistCell, context: PresentContext): PresentedChecklist {
  const items = checklist.items.map(({ text, done }) => ({
    text,
    done: done !== undefined,
    ...(done === undefined ? {} : { time: clockTime(done) }),
  }));
  return { ...notesOf(checklist, context), items, openCount: items.filter(({ done }) => !done).length };
}

/** ISO 8601 as a form shows it: date and minute on the clock of the place where it was ticked. */
function clockTime(iso: string): string {
  const match = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2})/.exec(iso);
  return match === null ? iso : `${match[1]} ${match[2]}`;
}

export function presentRemark(remark: RemarkCell, context: PresentContext): PresentedRemark {
  return { ...notesOf(remark, context), heading: remark.heading, text: remark.text };
}

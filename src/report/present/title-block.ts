import { HELD, REFERENCE } from '../../sheet/index.ts';
import { CHIEF_RESULTS } from './chief-results.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import type { UnitSystem } from '../../core/units/types.ts';

export interface PresentedTitleBlock {
  readonly title: string;
  readonly fields: readonly { readonly key: string; readonly label: string; readonly value: string }[];
}

/** Fields of the form in its usual order; others in the front matter follow. */
const FIELD_LABELS: Readonly<Record<string, string>> = {
  course: 'Course',
  team: 'Team',
  operators: 'Operators',
  date: 'Date',
  machine: 'Machine',
  specimen: 'Specimen',
  batch: 'Material batch',
};

/** Entries that steer the sheet and are no part of the form. */
const SWITCHES = new Set(['title', 'units', 'own_working', 'slips', CHIEF_RESULTS, HELD, REFERENCE, 'id', 'format']);

export function presentTitleBlock(document: SheetDocument): PresentedTitleBlock {
  const { entries } = document.frontMatter;
  const known = Object.keys(FIELD_LABELS).filter((key) => entries.has(key));
  const others = [...entries.keys()].filter((key) => !SWITCHES.has(key) && !Object.hasOwn(FIELD_LABELS, key));
  return {
    title: entries.get('title')?.trim() || 'Untitled sheet',
    fields: [...known, ...others].map((key) => ({
      key,
      label: Object.hasOwn(FIELD_LABELS, key) ? (FIELD_LABELS[key] ?? key) : key.replace(/[_-]/g, ' '),
      value: entries.get(key) ?? '',
    })),
  };
}

/** The system a document asks for; SI where it says nothing that is understood. */
export function unitSystemOf(document: SheetDocument): UnitSystem {
  return document.frontMatter.entries.get('units')?.trim().toLowerCase() === 'us customary' ? 'US customary' : 'SI';
}

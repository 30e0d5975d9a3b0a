import { headFromExample, SWITCHES, TITLE_FORM } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import type { UnitSystem } from '../../core/units/types.ts';

interface PresentedTitleBlock {
  readonly title: string;
  readonly fields: readonly { readonly key: string; readonly label: string; readonly value: string; readonly isInvented: boolean }[];
}

/** Labels of the form's fields in its usual order; others in the front matter follow. */
const FIELD_LABELS: Readonly<Record<keyof typeof TITLE_FORM, string>> = {
  course: 'Course',
  team: 'Team',
  operators: 'Operators',
  date: 'Date',
  machine: 'Machine',
  specimen: 'Specimen',
  batch: 'Material batch',
  variant: 'Variant',
};

export function presentTitleBlock(document: SheetDocument): PresentedTitleBlock {
  const { entries } = document.frontMatter;
  const invented = headFromExample(entries);
  const known = Object.keys(TITLE_FORM).filter((key) => entries.has(key));
  const others = [...entries.keys()].filter((key) => !Object.hasOwn(SWITCHES, key) && !isOfTheForm(key));
  return {
    title: entries.get('title')?.trim() || 'Untitled sheet',
    fields: [...known, ...others].map((key) => ({
      key,
      label: isOfTheForm(key) ? FIELD_LABELS[key] : key.replace(/[_-]/g, ' '),
      value: entries.get(key) ?? '',
      isInvented: invented.includes(key),
    })),
  };
}

function isOfTheForm(key: string): key is keyof typeof TITLE_FORM {
  return Object.hasOwn(TITLE_FORM, key);
}

/** What a file that leaves is called by, wherever it is made: title, team, machine and specimen, as far as they are filled in. */
export function nameParts({ frontMatter: { entries } }: SheetDocument): readonly string[] {
  return ['title', 'team', 'machine', 'specimen'].map((key) => entries.get(key)?.trim() ?? '').filter((entry) => entry !== '');
}

/** The system a document asks for; SI where it says nothing that is understood. */
export function unitSystemOf(document: SheetDocument): UnitSystem {
  return document.frontMatter.entries.get('units')?.trim().toLowerCase() === 'us customary' ? 'US customary' : 'SI';
}

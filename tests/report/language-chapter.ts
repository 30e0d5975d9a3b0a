/** The chapter `LANGUAGE.md`, made of the reference. */
import { FUNCTIONS } from '../../src/core/formula/index.ts';
import { entryWords, SECTIONS, type KeyEntry, type Section } from '../../src/sheet/index.ts';

const HEAD = `# The language of the sheet

This chapter is made of the reference in \`src/sheet/reference\`: \`npm run language\` writes it anew, and a test holds it to what the reference says.

A sheet is a text file. Between two lines of \`---\` at its head stands the **front matter**, what holds for the sheet as a whole. **Prose** is
CommonMark without HTML; \`{=x}\` puts the value of a symbol into it. A **cell** stands between two fences, the first of which names its kind:

    \`\`\`given
    symbol: d
    label: Diameter at the waist
    readings: 6.31, 6.32 mm
    instrument: micrometer, 0.01 mm
    \`\`\`

Inside stand keys with their values, one a line (YAML of texts, groups and lists; a value that holds \`: \` or begins with \`>\`, \`[\`, \`{\`, \`"\` or \`*\`
is put between quotation marks). Order does not matter, neither of keys nor of cells. A **quantity** is a number with a unit: \`6.35 mm\`, \`1/4 in\`, \`6,35 mm\`,
\`6.31 ± 0.02 mm\`. A **formula** has \`+ - * / ^\`, parentheses, numbers without a unit, symbols of the sheet, \`unit(mm)\` for a quantity, and the functions
at the end of this chapter; a comparison has \`< <= > >=\` between two of
them, and \`and\`, \`or\` and \`not\` join comparisons.

A key that has to be there and is not is told: “This given has no \`symbol\` yet.” One that takes text and has a list, or the other way about:
“\`label\` takes text, not a list.” One that is not understood: “instrumnt”
is not understood here and has no effect, with its line and the near name; so in every kind of cell, and below its keys. Whatever is wrong stays in the file as it is.
`;

/** In a table `|` parts the fields. */
const field = (text: string): string => text.replaceAll('|', '\\|');

const row = (fields: readonly string[]): string => `| ${fields.map(field).join(' | ')} |`;

function keyRow([key, entry]: readonly [string, KeyEntry]): string {
  const { takes, absent, wrong = '' } = entryWords(entry);
  return row([`\`${key}\``, entry.means, takes, absent.replace(/^Where absent: /, ''), wrong]);
}

function section({ name, says, tables }: Section): string {
  const parts = tables.map(({ title, says: more, keys }, i) => [
    ...(i === 0 ? [] : [`### ${title}`, '', ...(more === '' ? [] : [more, ''])]),
    row(['Key', 'What it says', 'Takes', 'Where absent', 'Told where it is wrong']), row(['---', '---', '---', '---', '---']), ...Object.entries(keys).map(keyRow), '',
  ].join('\n'));
  return `## ${name}\n\n${says}\n\n${parts.join('\n')}`;
}

export function languageChapter(): string {
  const functions = FUNCTIONS.map((one) => row([`\`${one.name}(${one.arguments})\``, one.help]));
  return [HEAD, ...SECTIONS.map(section), ['## Functions of formulas', '', row(['Function', 'What it gives']), row(['---', '---']), ...functions, ''].join('\n')].join('\n');
}

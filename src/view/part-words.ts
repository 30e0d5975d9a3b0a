/** Whether something failed because a part of the page's own script could not be unpacked (`src/app/first-script.ts` names its errors so). */
export function isDamagedPart(error: unknown): boolean {
  return error instanceof Error && error.name === 'DamagedPart';
}

/** What parts of the page's script are for, to its readers; `main` tells of itself. */
export const PART_WORDS: Readonly<Record<string, string>> = {
  archive: 'what packs files', charts: 'what draws charts', collecting: 'what goes through returned files', katex: 'what sets equations', lecture: 'the lecture',
  panels: 'what opens at a line', 'sampling-worker': 'what makes draws', 'start-texts': 'the sheets to start from', 'take-away': 'what writes reports',
  'team-files': 'what writes files for teams', 'teams-desk': 'files for a class',
};

/** What is said where a part of the page was wanted and did not come; whatever else went wrong there is said in its own words. */
export function partWords(error: unknown): string {
  const said = error instanceof Error ? error.message : String(error);
  const why = isDamagedPart(error) ? said.replace(/“([\w-]+)”/, (named, part: string) => (Object.hasOwn(PART_WORDS, part) ? PART_WORDS[part] : undefined) ?? named) : said;
  // Loaded again without its server the page would be gone.
  const mend = location.protocol === 'file:' ? 'Load the page again; if that does not help, open another copy of the file.' : 'Try again when its server can be reached; the document can be taken away without it.';
  return `This can not be done here: ${why}. The rest of the page goes on. ${mend}`;
}

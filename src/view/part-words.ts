/** Whether something failed because a part of the page's own script could not be unpacked (`src/app/first-script.ts` names its errors so). */
export function isDamagedPart(error: unknown): boolean {
  return error instanceof Error && error.name === 'DamagedPart';
}

/** What is said where a part of the page was wanted and did not come; whatever else went wrong there is said in its own words. */
export function partWords(error: unknown): string {
  const why = error instanceof Error ? error.message : String(error);
  return `This can not be done here: ${why}. The rest of the page goes on. Load the page again; if that does not help, open another copy of the file.`;
}

/** Whether something failed because a part of the page's own script could not be unpacked (`src/app/first-script.ts` names its errors so). */
export function isDamagedPart(error: unknown): boolean {
  return error instanceof Error && error.name === 'DamagedPart';
}

/** What is said where a part of the page was wanted and did not come; whatever else went wrong there is said in its own words. */
export function partWords(error: unknown): string {
  const why = error instanceof Error ? error.message : String(error);
  // Loaded again without its server the page would be gone.
  const mend = location.protocol === 'file:' ? 'Load the page again; if that does not help, open another copy of the file.' : 'Try again when its server can be reached; the document can be taken away without it.';
  return `This can not be done here: ${why}. The rest of the page goes on. ${mend}`;
}

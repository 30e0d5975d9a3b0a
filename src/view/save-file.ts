/** Hands a file to the reader through the browser's own download. */
export function saveFile(name: string, content: BlobPart, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser reads the address after the click; a minute is ample, and keeps the memory from being held for good.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** A file name from a sheet's title and team: letters and digits of any script, joined by hyphens. */
export function fileName(parts: readonly (string | undefined)[], ending: string): string {
  const stem = parts
    .filter((part) => part !== undefined)
    .join(' ')
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80);
  return `${stem === '' ? 'sheet' : stem}.${ending}`;
}

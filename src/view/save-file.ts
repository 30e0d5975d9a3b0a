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

/** Bytes that one part may have, so that seven of them and an ending stay below the 255 that file systems take. */
const LONGEST_PART = 45;

/** A file name from what a sheet is called by: letters and digits of any script, joined by hyphens. Long parts are cut, none is left out. */
export function fileName(parts: readonly (string | undefined)[], ending: string): string {
  const stem = parts
    .flatMap((part) => (part === undefined ? [] : [hyphened(part)]))
    .filter((part) => part !== '')
    .join('-');
  return `${stem === '' ? 'sheet' : stem}.${ending}`;
}

function hyphened(part: string): string {
  const whole = part.normalize('NFC').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '');
  let [cut, bytes] = ['', 0];
  for (const sign of whole) {
    bytes += new TextEncoder().encode(sign).length;
    if (bytes > LONGEST_PART) break;
    cut += sign;
  }
  return cut.replace(/-+$/, '');
}

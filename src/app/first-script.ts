/*
 * The only script that stands in the page as it is. It unpacks the page's own script and adds it to the page as one more
 * inline script, which the policy knows by the hash of its text: whatever else might be unpacked here would not start.
 * The build puts this file into the page without its types; nothing imports it.
 */
async function unpacked(): Promise<string> {
  const packed = atob(document.getElementById('spanlife-script')?.textContent ?? '');
  // A loop: `Uint8Array.from` with a function takes fifteen times as long, which a phone would show.
  const bytes = new Uint8Array(packed.length);
  for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'))).text();
}

unpacked().then(
  (text) => {
    const script = document.createElement('script');
    script.type = 'module';
    script.textContent = text;
    document.body.append(script);
    // It has been read; the page is as it was delivered, and can be taken away so.
    script.remove();
  },
  () => {
    const note = document.createElement('p');
    note.setAttribute('role', 'alert');
    note.textContent = 'The sheet can be read, but its values do not follow changes: this file is damaged, or the browser is older than this page needs. Open another copy of the file, or open it in a newer browser.';
    document.body.prepend(note);
  },
);
export {};

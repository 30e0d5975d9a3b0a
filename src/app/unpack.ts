/** The text of a file that the build has packed (`?packed`): deflated, in base64. */
export async function unpack(packed: string): Promise<string> {
  const bytes = Uint8Array.from(atob(packed), (character) => character.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(stream).text();
}

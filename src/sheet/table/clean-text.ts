// Signs that no one sees in a table: controls, byte order mark, separators of paragraphs, halves of pairs.
const UNSEEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text from a field or the clipboard as rows hold it: line ends are LF, signs that can't be seen are left out, and so
 * are blanks on a line of nothing else. Rows then always stand in the document as plain lines.
 */
export function cleanText(text: string): string {
  return text.replace(/\r\n?/g, '\n').replace(UNSEEN, '').replace(/\n[ ]+(?=\n)/g, '\n');
}

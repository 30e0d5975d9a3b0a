import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readBase64, writeBase64 } from '../../../src/sheet/photo/base64.ts';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

/** @source RFC 4648, section 10, test vectors */
test.each([['', ''], ['f', 'Zg=='], ['fo', 'Zm8='], ['foo', 'Zm9v'], ['foob', 'Zm9vYg=='], ['fooba', 'Zm9vYmE='], ['foobar', 'Zm9vYmFy']])(
  '%j is written as %j and read back', (plain, coded) => {
    expect(writeBase64(ascii(plain))).toBe(coded);
    expect(readBase64(coded)).toEqual(ascii(plain));
  });

test('any bytes are written as Node writes them', () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
    expect(writeBase64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    expect(readBase64(writeBase64(bytes))).toEqual(bytes);
  }));
});

test.each(['Zg=', 'Z g=', 'Zg!=', 'Zä==', '====', 'Z===', 'Zm9_'])('%j is none', (text) => {
  expect(readBase64(text)?.length ?? 0).toBe(0);
});

/** The one table of keys. */
import { describe, expect, test } from 'vitest';
import { actionOf, KEYS, keysText, type KeyPress } from '../../src/view/keys.ts';

const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...held,
});
const blank = new Set(['blank'] as const);
const cell = new Set(['sheet', 'cell'] as const);
const sheet = new Set(['sheet'] as const);

describe('keys', () => {
  test.each([
    [press('Enter'), blank, 'next blank'],
    [press('Enter', { ctrlKey: true }), blank, 'add reading'],
    [press('Enter', { metaKey: true }), blank, 'add reading'],
    [press('Escape'), blank, 'give back'],
    [press('z', { ctrlKey: true }), sheet, 'undo'],
    [press('Z', { ctrlKey: true, shiftKey: true }), sheet, 'redo'],
    [press('y', { ctrlKey: true }), sheet, 'redo'],
    [press('.', { ctrlKey: true }), cell, 'menu'],
    [press('F10', { shiftKey: true }), cell, 'menu'],
    [press('ArrowUp', { altKey: true }), cell, 'move up'],
  ] as const)('%o', (pressed, where, action) => {
    expect(actionOf(pressed, where)).toBe(action);
  });

  test('letters, Tab and keys out of their place mean nothing', () => {
    for (const key of ['a', 'z', '.', 'Tab', 'ArrowUp', 'Delete', 'Backspace']) {
      expect(actionOf(press(key), new Set(['blank', 'cell', 'sheet'] as const))).toBeUndefined();
    }
    expect(actionOf(press('Tab', { shiftKey: true }), cell)).toBeUndefined();
    expect(actionOf(press('Enter'), cell)).toBeUndefined();
    expect(actionOf(press('.', { ctrlKey: true }), sheet)).toBeUndefined();
    expect(actionOf(press('z', { ctrlKey: true, altKey: true }), sheet)).toBeUndefined();
  });

  test('no two entries share a key in one place', () => {
    const taken = KEYS.flatMap(({ keys, where }) => keys.map((one) => `${where} ${one}`));
    expect(new Set(taken).size).toBe(taken.length);
  });

  test('as the help shows them', () => {
    expect(keysText('undo', false)).toBe('Ctrl+Z');
    expect(keysText('undo', true)).toBe('⌘+Z');
    expect(keysText('move up', false)).toBe('Alt+↑');
  });
});

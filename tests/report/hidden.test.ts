import { describe, expect, it } from 'vitest';
import { isHidden, liveText, presentCheck, presentStep } from '../../src/report/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const inputs = given('F', '100 N', 'N') + given('a', '2 mm', 'mm');

async function hidden(text: string, ...ids: readonly string[]): Promise<readonly boolean[]> {
  const context = await contextOf(inputs + text);
  return ids.map((id) => isHidden(id, context));
}

describe('isHidden', () => {
  it('hides an asked step until it has an answer', async () => {
    expect(await hidden(step('M', 'F*a', 'N*mm', 'asked: true'), 'M')).toEqual([true]);
    expect(await hidden(step('M', 'F*a', 'N*mm', 'asked: true', 'answer: 200 N*mm'), 'M')).toEqual([false]);
    expect(await hidden(step('M', 'F*a', 'N*mm'), 'M')).toEqual([false]);
  });

  it.each(['""', '"  "', 'abc', '200 kg', '"?"'])('does not take %s for an answer', async (typed) => {
    expect(await hidden(step('M', 'F*a', 'N*mm', 'asked: true', `answer: ${typed}`), 'M')).toEqual([true]);
  });

  it('asks every step not marked otherwise where the sheet asks for own working', async () => {
    const text = step('M', 'F*a', 'N*mm') + step('k', '1', '1', 'asked: false') + step('q', '2*k', '1', 'answer: 2');
    const context = await contextOf(`---\nown_working: true\n---\n${inputs}${text}`);
    expect(['M', 'k', 'q'].map((id) => isHidden(id, context))).toEqual([true, false, false]);
  });

  it('hides what rests on an unanswered step, however far down, but never a given', async () => {
    const text = step('M', 'F*a', 'N*mm', 'asked: true')
      + step('half', 'M/2', 'N*mm', 'asked: false') + step('quarter', 'half/2', 'N*mm')
      + step('other', 'F/a', 'N/mm')
      + fenced('check', 'id: big', 'condition: quarter > 1*unit(N*mm)', 'holds: yes', 'otherwise: no');
    expect(await hidden(text, 'M', 'half', 'quarter', 'big', 'other', 'F')).toEqual([true, true, true, true, false, false]);
  });

  it('shows an answered step although one before it is not, and hides on below it', async () => {
    const text = step('R', '2*F', 'N', 'asked: true') + step('M', 'R*a', 'N*mm', 'asked: true', 'answer: 400 N*mm')
      + step('half', 'M/2', 'N*mm');
    expect(await hidden(text, 'R', 'M', 'half')).toEqual([true, false, true]);
  });

  it('gives hidden values away neither in prose, nor in sentences, nor in lines of numbers', async () => {
    const text = inputs + step('R', '2*F', 'N', 'asked: true')
      + step('M', 'R*a', 'N*mm', 'asked: true', 'answer: 400 N*mm')
      + fenced('check', 'id: near', 'condition: F > 0*unit(N)', 'holds: "The reaction is {=R}, the load {=F}."', 'otherwise: no');
    const context = await contextOf(text);
    expect(liveText('{=R} and {=F}', context)).toBe('⟨R: after your own working⟩ and 100\u00a0N');
    expect(presentCheck(cellOf(context, 'check', 'near'), context).message)
      .toBe('The reaction is ⟨R: after your own working⟩, the load 100\u00a0N.');
    const shown = presentStep(cellOf(context, 'step', 'M'), context);
    expect(shown.hidden).toBe(false);
    expect(shown.numbersTex).toContain('R');
    expect(shown.numbersTex).not.toContain('200');
  });

  it('comes to an end in a loop', async () => {
    const text = step('p', 'q', '1', 'asked: true') + step('q', 'p', '1');
    expect(await hidden(text, 'p')).toEqual([true]);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { after, proposalOf, THERE } from './helpers.ts';
import { madeUpTable } from './made-up-tables.ts';

describe('rows in: 200 made-up tables', () => {
  it('each is read right or asked about, none silently wrong, and what was there stays', () => {
    let right = 0;
    fc.assert(
      fc.property(madeUpTable, ({ text, names, megapascals, cycles, outcomes }) => {
        const proposal = proposalOf(text);
        if (proposal.questions.length > 0) return;
        right++;
        const { specimen = [], S = [], N = [], outcome = [] } = after(proposal);
        expect(specimen).toEqual(['K01', 'K02', 'K03', ...names]);
        expect(S).toEqual([460, 420, 300, ...megapascals.map((stress) => expect.closeTo(stress, 5))]);
        expect(N).toEqual([81493, 110549, 1e7, ...cycles]);
        expect(outcome).toEqual(['fracture', 'fracture', 'runout', ...outcomes]);
        expect(THERE).toContain('K03');
      }),
      { numRuns: 200 },
    );
    // Asking about everything would be right, too, and of no use.
    expect(right).toBeGreaterThan(120);
  }, 120_000);

  it('replacing all, they are read the same', () => {
    fc.assert(
      fc.property(madeUpTable, ({ text, names, megapascals, cycles, outcomes }) => {
        const proposal = proposalOf(text, [{ answer: 'how', how: 'replace all' }]);
        if (proposal.questions.length > 0) return;
        const { specimen, S, N, outcome } = after(proposal);
        expect([specimen, S, N, outcome]).toEqual([names, megapascals.map((stress) => expect.closeTo(stress, 5)), cycles, outcomes]);
      }),
      { numRuns: 200 },
    );
  }, 120_000);

  it('any text at all is a plan, and nothing throws', () => {
    fc.assert(fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.array(fc.constantFrom('S', 'N', '1,5', '1.341.862', ';', ',', '\t', ' ', '"', '\n', 'failed', '[ksi]')).map((parts) => parts.join(''))), (text) => {
      expect(proposalOf(text).counts.there).toBe(3);
    }), { numRuns: 300 });
  }, 60_000);
});

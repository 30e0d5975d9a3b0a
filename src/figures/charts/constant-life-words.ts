import type { ConstantLifeData } from './types.ts';

/** The specimen's place in a constant-life diagram. */
export function specimenSentence({ specimen, factor, texts }: ConstantLifeData): string {
  if (specimen === undefined) return '';
  const notched = factor === 1 ? '' : ' with the notch factor';
  const mean = Math.abs(specimen.mean) < 1e-9 * specimen.amplitude ? 'no mean stress' : `a mean stress of ${texts.stress(specimen.mean)}`;
  return `This specimen: an amplitude of ${texts.stress(specimen.amplitude)}${notched}, with ${mean}.`;
}

/** What to see in the diagram, with the numbers. */
export function constantLifeSentence(data: ConstantLifeData): string {
  const parts = [specimenSentence(data), reversedSentence(data), limitSentence(data), yieldSentence(data), data.note ?? ''];
  return parts.filter((part) => part !== '').join(' ') || 'There is nothing to draw yet: neither an amplitude nor a strength.';
}

function reversedSentence({ correction, correctionName, reversed, life, texts }: ConstantLifeData): string {
  if (reversed === undefined) return '';
  const lived = life === undefined ? '' : `, ${texts.life(life)} cycles by the line`;
  if (correction === 'none') return `Without a correction it counts as ${texts.stress(reversed)} fully reversed${lived}, whatever its mean.`;
  return `By ${correctionName} it has the life of ${texts.stress(reversed)} fully reversed${lived}: where the curve meets the upright axis.`;
}

function limitSentence({ reversed, limit, texts }: ConstantLifeData): string {
  if (limit === undefined) return '';
  const where = reversed === undefined ? '' : `; the specimen lies ${reversed > limit ? 'above' : 'below'} it`;
  return `The curve of the endurance limit starts at ${texts.stress(limit)}${where}.`;
}

function yieldSentence({ specimen, constants, factor, texts }: ConstantLifeData): string {
  const strength = constants.yield;
  if (strength === undefined || specimen === undefined) return '';
  const together = specimen.amplitude / factor + Math.abs(specimen.mean);
  return together <= strength
    ? `Amplitude and mean together stay below the yield strength, ${texts.stress(strength)}.`
    : `Amplitude and mean together lie above the yield strength, ${texts.stress(strength)}: part of the mean stress will be lost.`;
}

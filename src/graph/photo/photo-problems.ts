import type { Problem } from '../../core/problem/index.ts';

/** Sentences about marks in a picture. */

const ZONES = { outline: 'The section', final: 'The final zone' } as const;

export function tooFewPoints(key: 'outline' | 'final', count: number): Problem {
  return {
    code: 'outline-open',
    what: `${ZONES[key]} is outlined by ${count === 1 ? 'one point' : `${count} points`} so far.`,
    mend: 'An area needs three points or more along its border.',
    key,
  };
}

export function crossing(key: 'outline' | 'final'): Problem {
  return {
    code: 'outline-crosses',
    what: `${ZONES[key]} has an outline that crosses itself, so that its area comes out too small.`,
    mend: 'Set the points one after the other along the border.',
    key,
  };
}

export function noBorder(key: 'outline' | 'final', shape: string): Problem {
  return {
    code: 'border-unfitted',
    what: `${ZONES[key]} has points that no ${shape} goes near.`,
    mend: 'Set them all around the border, or choose how it goes between them.',
    key,
  };
}

export function zoneOutside(): Problem {
  return {
    code: 'zone-outside',
    what: 'The final zone reaches beyond the section.',
    mend: 'Look at both outlines: the zone is a part of the section.',
    key: 'final',
  };
}

export function noArea(): Problem {
  return { code: 'section-flat', what: 'The points of the section lie on one line.', mend: 'Set them all around its rim.', key: 'outline' };
}

export function noLength(typed: string): Problem {
  return {
    code: 'scale-length',
    what: `“${typed.slice(0, 40)}” is not the length between two points of the picture.`,
    mend: 'Set two points apart and type the length between them with its unit, such as 8 mm.',
    key: 'scale',
  };
}

export function halvesDiffer(): Problem {
  return {
    code: 'halves-differ',
    what: 'The two halves of the fracture do not agree: their shares differ by more than twice the uncertainty of the difference.',
    mend: 'Both show one surface. Look at the border of the final zone in both, and mark the less clear one again with more points.',
    key: 'half_of',
  };
}

export function noOtherHalf(named: string, photos: readonly string[]): Problem {
  return {
    code: 'half-unknown',
    what: `There is no other picture called ${named} in this sheet.`,
    mend: photos.length === 0 ? 'Add a picture, or take the line `half_of:` out.' : `Name one of: ${photos.slice(0, 12).join(', ')}.`,
    key: 'half_of',
  };
}

export function otherSection(): Problem {
  return {
    code: 'section-elsewhere',
    what: 'The section in the picture is not that of the specimen where it is written to have broken: they differ by more than twice the uncertainty of the difference.',
    mend: 'Look at the length of the scale, at the outline, at the place of fracture, and whether this is the surface of this specimen.',
    key: 'section_there',
  };
}

export function noSectionArea(symbol: string): Problem {
  return { code: 'section-no-area', what: `The section there is an area, and ${symbol} is none.`, mend: 'Name a symbol in mm².', key: 'section_there' };
}

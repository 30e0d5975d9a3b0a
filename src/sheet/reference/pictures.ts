import { ID, LABEL, NOTE, type InnerPart, type KeyEntry, type Keys } from './types.ts';

/* Keys of drawings, charts and photographs. */

export const FIGURE = {
  id: ID,
  label: LABEL,
  drawing: {
    means: 'Which drawing or chart it is.',
    takes: '`free-body`, `shear-moment`, `loading-lever`, `plane-bending`, `stress-along`, `stress-along-axis`, `s-n`, `constant-life`, `residuals`, `normal-scores`, `staircase`, `sweep` or `budget`',
    required: true,
    example: 'drawing: free-body',
    wrong: { typed: 'nothing', said: '“nothing” is no drawing that this version knows.' },
  },
  by: { means: 'The choice whose option’s key says the form: how a strip is held, how mean stress is corrected.', takes: 'the id of a choice' },
  fit: { means: 'The fit whose line, specimens or staircase a chart draws.', takes: 'the id of a fit', example: 'fit: line' },
  scale: { means: 'Axis of stress of an S-N chart.', takes: '`log` or `plain`', usual: 'that of its fit', wrong: { typed: 'square', said: '`scale` takes the words log and plain only, not `square`.' } },
  of: { means: 'What a sweep or a budget shows.', takes: 'symbols with commas between', example: 'of: N_f' },
  against: { means: 'The given, or two, that a sweep moves.', takes: 'a symbol, or two with a comma between', example: 'against: d' },
  from: { means: 'Where the sweep begins.', takes: 'as many quantities as `against` has symbols, with a comma between', usual: 'a range about the present value', example: 'from: 6 mm' },
  to: { means: 'Where the sweep ends.', takes: 'as `from`', usual: 'a range about the present value', example: 'to: 9 mm' },
  values: { means: 'What each part of the drawing shows.', takes: 'below it, each part by its name with a symbol', usual: 'the drawing shows what it can without', example: 'span: L' },
  givens: {
    means: 'What a drag in the drawing changes, where the part shows a value worked out from it.',
    takes: 'below it, each part by its name with the symbol of a given',
    usual: 'the given that `values` names itself',
  },
  note: NOTE,
} satisfies Keys;

const part = (means: string, takes = 'a symbol'): KeyEntry => ({ means, takes });

/** What the parts of each drawing are called under `values`; drawings that share them stand together. */
export const DRAWINGS = {
  'free-body, shear-moment': {
    span: part('Span between the supports.'), s1: part('Left support to left load.'), s2: part('Between the loads.'), s3: part('Right load to right support.'),
    F1: part('Left load.'), F2: part('Right load.'), RA: part('Left reaction.'), RB: part('Right reaction.'),
    section: part('Place of the section, from the left support.'), shear: part('Shear force there.'), moment: part('Bending moment there.'), diameter: part('Diameter there.'),
  },
  'loading-lever': {
    W1: part('First sliding weight.'), W2: part('Second one.'), W3: part('Third one.'), Wb: part('Weight of the beam.'), Wc: part('Counterweight.'),
    x1: part('Place of the first weight, from the fulcrum.'), x2: part('Place of the second.'), x3: part('Place of the third.'), hanger: part('Place of the hanger.'),
    gb: part('Place of the beam’s centre of gravity.'), hc: part('Arm of the counterweight.'), low: part('Least place that a weight can be moved to.'), high: part('Greatest one.'),
    F: part('Force on the specimen.'), R: part('Reaction of the fulcrum.'), moved: part('Where the weight that is moved stands now.'), wanted: part('Where it has to stand.'),
  },
  'plane-bending, stress-along': {
    length: part('Free length of the strip.'), height: part('Its thickness.'), amplitude: part('Amplitude of the deflection.'), offset: part('Mean deflection.'),
    lower: part('Reading at the lower end of the stroke.'), upper: part('Reading at the upper end.'), section: part('Place of the section, from the held end.'),
    moment: part('Bending moment amplitude there.'), stress: part('Nominal stress amplitude there.'), local: part('The same with the notch in it.'),
    width: part('Width of a tapered strip at the clamp, of a waisted one at its waist.'), wide: part('Width of a waisted strip beside its waist.'),
    radius: part('Radius of the waist’s arcs.'), waist: part('Place of the waist, from the clamp.'),
  },
  'stress-along-axis': {
    diameter: part('Diameter at the waist.'), grip: part('Diameter of the grips.'), radius: part('Radius of the waist.'), flat: part('Length of the part without taper.'),
    moment: part('Bending moment at the waist.'), shear: part('Shear force there.'), amplitude: part('Stress amplitude at the waist.'), test: part('Length of the test section.'),
    fracture: part('Place of the fracture, from the waist.'), stress: part('Stress amplitude there.'),
  },
  's-n': {
    A: part('Intercept of the line that the sheet works with.'), B: part('Its slope.'), s: part('Its scatter.'), knee: part('Life at which an estimated line ends.'),
    limit: part('Stress at which it ends.'), stress: part('Stress amplitude of the specimen in hand.'), factor: part('Notch factor it is multiplied by.'), life: part('Its predicted life.'),
    low: part('Lower limit of that.'), high: part('Upper limit.'), share: part('Share of the design curve.'), confidence: part('Confidence of the design curve.'),
  },
  'constant-life': {
    amplitude: part('Stress amplitude of the specimen, with the notch in it.'), mean: part('Its mean stress.'), factor: part('Notch factor.'), reversed: part('Equivalent amplitude without mean stress.'),
    limit: part('Endurance limit.'), life: part('Predicted life.'), tensile: part('Tensile strength.'), yield: part('Yield strength.'), reversal: part('Stress at one reversal.'),
    exponent: part('Exponent of the correction that has one.'),
  },
} as const satisfies Readonly<Record<string, Keys>>;

const SHAPE: KeyEntry = {
  means: 'How the border goes between its points.',
  takes: '`circle` or `ellipse`, the nearest to the points (an ellipse from five on, a circle below), or `corners`: straight from one to the next, as a strip has them',
  usual: '`corners`',
  example: 'outline_shape: circle',
  wrong: { typed: 'star', said: '`outline_shape` takes the words circle, ellipse and corners only, not `star`.' },
};

export const PHOTO = {
  id: ID,
  label: LABEL,
  scale: { means: 'Two points of the picture and the known length between them.', takes: 'two points and a length: `102,220 911,230 = 8 mm`', usual: 'no areas, only shares', wrong: { typed: '1,2 3', said: '`scale` takes points of the picture, and “3” is none.' } },
  outline: { means: 'Points along the rim of the broken section.', takes: 'points, dots to the right and down: `102,220 130,180`', usual: 'not marked yet', wrong: { typed: 'round', said: '`outline` takes points of the picture, and “round” is none.' } },
  outline_shape: SHAPE,
  final: { means: 'Points along the border of the zone that broke last.', takes: 'points', usual: 'not marked yet', wrong: { typed: 'round', said: '`final` takes points of the picture, and “round” is none.' } },
  final_shape: { ...SHAPE, example: 'final_shape: ellipse', wrong: { typed: 'star', said: '`final_shape` takes the words circle, ellipse and corners only, not `star`.' } },
  origins: { means: 'Where cracks began.', takes: 'points', usual: 'not marked yet', wrong: { typed: 'left', said: '`origins` takes points of the picture, and “left” is none.' } },
  symbols: {
    means: 'What is read from the marks and known to the sheet by a symbol.',
    takes: 'below it, `share`, `eccentricity`, `rotation`, `area` or `final_area`, each with a symbol',
    example: 'share: A_r',
    wrong: { typed: '{ colour: c }', said: 'A picture gives no `colour`.' },
  },
  half_of: {
    means: 'The picture of the other half of the fracture: the page shows both side by side and tells whether their shares agree.', takes: 'the id of a picture', example: 'half_of: fracture-surface',
    wrong: { typed: 'lost', said: 'There is no other picture called lost in this sheet.' },
  },
  broke_at: { means: 'Where the specimen broke, which is shown beside the picture.', takes: 'a symbol', example: 'broke_at: x_f', wrong: { typed: 'nowhere', said: 'No given or step has the symbol nowhere, which is named as where it broke.' } },
  section_there: {
    means: 'Area of the specimen’s section where it broke, against which the section in the picture is held once the scale is set.', takes: 'the symbol of an area', example: 'section_there: A_x',
    wrong: { typed: 'nothing', said: 'No given or step has the symbol nothing, which is named as the section there.' },
  },
  note: NOTE,
  picture: { means: 'The picture itself.', takes: 'a JPEG as base64 in lines; the sheet writes it', usual: 'none yet' },
} satisfies Keys;

/** The parts of each drawing as tables of the reference. */
export const DRAWING_PARTS: readonly InnerPart[] = Object.entries(DRAWINGS).map(([names, keys]) => ({
  title: `Values of a ${names.replace(', ', ' or a ')} figure`, says: 'Each may be left out: the drawing then does without.', keys,
}));

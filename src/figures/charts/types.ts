import type { FittedLine, MeanStressConstants, MeanStressCorrection, Outcome, Residual } from '../../core/fatigue/index.ts';
import type { Run, ValueText } from '../drawings/types.ts';
import type { Picture } from '../types.ts';

export interface ChartOptions {
  /** Width in px that the chart is laid out for: one unit of the viewBox is one px. At least 240; below 480 the narrow layout. */
  readonly width: number;
  /** Begins every id in the chart; unique over the page. */
  readonly idPrefix: string;
  /** Height of the letters in px, at least 12; unless said, 15, and 13 on narrow charts. */
  readonly textSize?: number;
}

/** A place of a chart whose values can be read, px of the viewBox. */
export interface ChartPoint {
  readonly x: number;
  readonly y: number;
  /** Values at the place as one or two plain sentences; made when they are asked for. */
  readonly tell: () => string;
}

export interface Chart extends Picture {
  /** In the order in which the keys step through them. */
  readonly points: readonly ChartPoint[];
}

/** What was tested, column by column: tables may have 10⁵ rows. All of one length; places are those of the columns. */
export interface ChartSpecimens {
  readonly count: number;
  readonly stressMpa: ArrayLike<number>;
  readonly cycles: ArrayLike<number>;
  /** Stress where each one broke, off its thinnest section; NaN where that is not known. Absent where no row has one. */
  readonly localMpa?: ArrayLike<number>;
  readonly outcome: (place: number) => Outcome;
  /** Number of the group's name among `groups`. */
  readonly group: (place: number) => number;
  /** As the reader calls it. */
  readonly name: (place: number) => string;
  readonly groups: readonly string[];
}

/** A line known by A, B and s alone: log10 N = A + B·log10(S/MPa). */
export interface StatedLine {
  readonly A: number;
  readonly B: number;
  /** Scatter of log10 N; 0 where none is stated. */
  readonly s: number;
  /** Lives between which it is meant, cycles; absent where none are stated. */
  readonly from?: number;
  readonly to?: number;
  /** Stress below which specimens do not break, MPa. */
  readonly limitMpa?: number;
  /** In a few words, where the line comes from: `estimated from the tensile strength`. */
  readonly origin?: string;
}

/** The specimen that the sheet is about. */
export interface CurrentSpecimen {
  readonly stressMpa: number;
  /** Median life and the interval for one specimen, cycles; absent where the line gives none. */
  readonly life?: { readonly median: number; readonly low?: number; readonly high?: number };
  /** Why there is no life: `below the limit`. */
  readonly without?: string;
}

/** How values are written. */
export interface ChartTexts {
  /** Display unit of stress and how many of it make one megapascal. */
  readonly stressUnit: string;
  readonly stressPerMpa: number;
  /** From MPa, with unit. */
  readonly stress: ValueText;
  /** From cycles, without unit: `3.12·10⁵`. */
  readonly life: ValueText;
  /** A count of cycles as it was read: `376 310`. */
  readonly cycles: ValueText;
}

/** An S-N chart as plain data; each of the three may be absent. */
export interface SnData {
  readonly specimens?: ChartSpecimens;
  readonly line?: { readonly fitted: FittedLine } | { readonly stated: StatedLine };
  readonly current?: CurrentSpecimen;
  /** The same in a held state that the sheet is compared with, by its name: the specimen and the line where they are others there. */
  readonly held?: { readonly name: string; readonly specimen?: CurrentSpecimen; readonly line?: NonNullable<SnData['line']> };
  /** Share of specimens that the design curve is for, and its confidence. */
  readonly design: { readonly share: number; readonly confidence: number };
  readonly stressScale: 'log' | 'plain';
  readonly texts: ChartTexts;
  /** Said in place of the line where it is withheld or missing. */
  readonly note?: string;
}

/** Residuals of least squares with their specimens' names. */
export interface ResidualData {
  readonly residuals: readonly Residual[];
  readonly s: number;
  readonly name: (residual: Residual) => string;
  readonly texts: ChartTexts;
}

/** Tests of a staircase in the order they were made. */
export interface StaircaseData {
  readonly levels: ArrayLike<number>;
  readonly outcomes: readonly Outcome[];
  readonly name: (place: number) => string;
  /** Median strength and the level for the next test, in the unit of the levels. */
  readonly mean?: number;
  readonly next?: number;
  readonly unit: string;
  /** From the unit of the levels, with unit. */
  readonly level: ValueText;
}

/** A constant-life diagram as plain data; stresses in MPa. What is absent is not drawn. */
export interface ConstantLifeData {
  readonly correction: MeanStressCorrection;
  /** As the sheet words it: `Goodman`. */
  readonly correctionName: string;
  readonly constants: MeanStressConstants;
  /** The specimen: its amplitude with the notch factor, and its mean stress. */
  readonly specimen?: { readonly amplitude: number; readonly mean: number };
  /** Fully reversed amplitude of the specimen's life, and of the endurance limit. */
  readonly reversed?: number;
  readonly limit?: number;
  /** Median life of the specimen, cycles. */
  readonly life?: number;
  /** Fatigue notch factor by which the amplitude is drawn larger than it is nominally; 1 unless there is a notch. */
  readonly factor: number;
  readonly texts: ChartTexts;
  /** Said where something is withheld. */
  readonly note?: string;
}

/** A line of words at the top or under the plot with a mark or a line's swatch before it. */
export interface KeyEntry {
  readonly runs: readonly Run[];
  /** Draws the swatch around a middle at (x, y); at most 26 px wide. */
  readonly swatch: (x: number, y: number) => string;
}

/** Samples of one result, in its display unit. */
export interface SamplesData {
  readonly symbol: string;
  readonly unit: string;
  /** What stands across, in words: `Predicted life in cycles`. */
  readonly title: string;
  /** The histogram: so many samples in equal steps from one value to another; `count` are those with a value. */
  readonly from: number;
  readonly to: number;
  readonly counts: readonly number[];
  readonly count: number;
  /** The value by first order and the density of its distribution. */
  readonly estimate: number;
  readonly density: (value: number) => number;
  /** At most three; the first stands uppermost. */
  readonly intervals: readonly {
    /** A whole name for sentences, and a short one for the key. */
    readonly name: string;
    readonly key: string;
    readonly look: 'even' | 'shortest' | 'first-order';
    readonly low: number;
    readonly high: number;
  }[];
  /** Number with unit. */
  readonly text: ValueText;
}

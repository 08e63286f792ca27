/**
 * A strip as a file of readings holds it: what stood in the rows, before any tablet is applied.
 */
import type { Warning } from '@wedgebook/core';
import type { Channel } from '../document/document.ts';

/** One density read behind one step. */
export interface StepReading {
  readonly step: number | null;
  readonly tabletDensity: number | null;
  /** As written; absolute or relative is the reader's user's to say. */
  readonly logExposure: number | null;
  /** Null where the cell was left empty: not read. */
  readonly density: number | null;
  /** Row in the file, from 1. */
  readonly row: number;
}

export interface ReadingsStrip {
  readonly name: string;
  /** Null where the file does not say. */
  readonly material: 'film' | 'paper' | null;
  readonly channel: Channel | null;
  readonly minutes: number | null;
  readonly celsius: number | null;
  /** The process of an after-treatment; null for none. */
  readonly treatment: string | null;
  readonly partsWater: number | null;
  readonly bathMinutes: number | null;
  readonly bathCelsius: number | null;
  /** Day of development, YYYY-MM-DD. */
  readonly processedOn?: string | null;
  /** True for a control strip of its process. */
  readonly control?: boolean;
  /** The film by its name, where the source tells films apart. */
  readonly film?: string | null;
  /** Grade or filter setting that a paper strip was printed at. */
  readonly setting?: string | null;
  /** Seconds of soft and of hard light that a paper strip got; 0 where one was off. */
  readonly softSeconds?: number | null;
  readonly hardSeconds?: number | null;
  readonly readings: readonly StepReading[];
  /** Base + fog readings. */
  readonly unexposedDensities: readonly number[];
  /** Number of cells left empty. */
  readonly unread: number;
  readonly firstRow: number;
  readonly lastRow: number;
  readonly warnings: readonly Warning[];
  /** True where the source itself says what its log exposures are, as a notebook does. */
  readonly exposureStated?: boolean;
}

export interface ReadingsFile {
  readonly strips: readonly ReadingsStrip[];
  /** The recognised columns, in lower case. */
  readonly columns: readonly string[];
  /** What concerns the file as a whole. */
  readonly warnings: readonly Warning[];
}

/**
 * Lookup tables for a picture: from each pixel to print density and to the grey of a screen.
 *
 *   pixel -> index, once a picture:      i = (z - from) / (to - from) (size - 1),  z = log10(code / top)
 *   index -> print density, grey:        one table for each way of printing, remade as a slider moves
 *
 * z is the log luminance of a positive; a negative's density is -z. A table of 4,096 places over four
 * log units is 0.001 fine, below one grey level of eight bits wherever the print has 8 levels or fewer
 * in 0.01 of density.
 *
 * Sources: [IEC61966] the transfer curve, see `display-grey.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { lightFromSrgb } from '../readings/index.ts';
import { displayGrey, type DisplayOptions } from './display-grey.ts';
import { printDensityOf, type NegativePrinting } from './print-negative.ts';
import { filmDensityOf, type ToneChain } from './tone-chain.ts';

/** What the index of a table stands for. */
export interface TableSpan {
  /** z at index 0. */
  readonly from: number;
  /** z at the last index. */
  readonly to: number;
  readonly size: number;
}

/** Tables of one way of printing. */
export interface PreviewTable {
  readonly span: TableSpan;
  readonly printDensity: Float32Array;
  /** sRGB grey, 0 to 255. */
  readonly grey: Uint8Array;
}

/** Four log units, the most that 16 bits hold with a little to spare. */
export const USUAL_SPAN: TableSpan = { from: -4, to: 0, size: 4096 };

/** How the numbers of a file stand for light. */
export type CodeEncoding = 'linear' | 'srgb';

/**
 * Place in a table for every code of a file: made once, then one look-up for each pixel.
 *
 * @param levels - how many codes there are: 256 or 65,536
 * @param encoding - `linear` in light, or by the sRGB curve as most pictures of 8 bits are
 * @param span - what the index stands for
 * @returns index by code; codes below the span, 0 among them, stand at its start
 * @throws InvalidArgumentError if an argument is out of range
 */
export function indexByCode(
  levels: number,
  encoding: CodeEncoding = 'linear',
  span: TableSpan = USUAL_SPAN,
): Uint16Array {
  checkedSpan('indexByCode', span);
  if (!(Number.isInteger(levels) && levels >= 2 && levels <= 65_536)) {
    throw new InvalidArgumentError('indexByCode', 'levels', levels, 'from 2 to 65536');
  }
  const { from, to, size } = span;
  return Uint16Array.from({ length: levels }, (_, code) => {
    const part = code / (levels - 1);
    const light = encoding === 'linear' ? part : lightFromSrgb(part);
    if (!(light > 0)) return 0;
    const place = ((Math.log10(light) - from) / (to - from)) * (size - 1);
    return Math.min(size - 1, Math.max(0, Math.round(place)));
  });
}

/**
 * Tables for a positive picture, whose light stands for the subject's.
 *
 * @param chain - the whole chain; log luminance 0 of the chain is zone V
 * @param options - `whiteLogLuminance`: log luminance of the picture's greatest code (zone VIII at
 *   0.903 unless given); the screen
 */
export function subjectTable(
  chain: ToneChain,
  options: {
    readonly span?: TableSpan;
    readonly whiteLogLuminance?: number;
    readonly display?: DisplayOptions;
  } = {},
): PreviewTable {
  const { span = USUAL_SPAN, whiteLogLuminance = 0.903, display } = options;
  const onFilm = filmDensityOf(chain);
  const print = printDensityOf(chain.printing);
  return tableOf((z) => print(onFilm(z + whiteLogLuminance)), span, display);
}

/**
 * Tables for a scan of a negative, whose light is what the negative lets through.
 *
 * @param printing - how the negative is printed
 * @param options - `clearDensity`: density of the negative where the scan's code is greatest (base +
 *   fog unless given); the screen
 */
export function negativeTable(
  printing: NegativePrinting,
  options: {
    readonly span?: TableSpan;
    readonly clearDensity?: number;
    readonly display?: DisplayOptions;
  } = {},
): PreviewTable {
  const { span = USUAL_SPAN, clearDensity = printing.baseFog, display } = options;
  const print = printDensityOf(printing);
  return tableOf((z) => print(clearDensity - z), span, display);
}

function tableOf(
  printDensityAt: (z: number) => number,
  span: TableSpan,
  display?: DisplayOptions,
): PreviewTable {
  checkedSpan('previewTable', span);
  const { from, to, size } = span;
  const printDensity = new Float32Array(size);
  const grey = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    const density = printDensityAt(from + (i / (size - 1)) * (to - from));
    printDensity[i] = density;
    grey[i] = Math.round(displayGrey(density, display));
  }
  return { span, printDensity, grey };
}

function checkedSpan(functionName: string, { from, to, size }: TableSpan): void {
  if (!(from < to && from >= -10 && to <= 10)) {
    throw new InvalidArgumentError(functionName, 'span', [from, to], 'ascending, within ±10');
  }
  if (!(Number.isInteger(size) && size >= 2 && size <= 65_536)) {
    throw new InvalidArgumentError(functionName, 'span.size', size, 'from 2 to 65536');
  }
}

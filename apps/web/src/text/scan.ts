/** Words of reading a strip from a picture. */
import { formatNumber } from '@wedgebook/charts';
import type { StripKind } from '../scan/marks.ts';
import type { ScanFacts, StepAnswer } from '../scan/scan-messages.ts';

const KINDS: Readonly<Record<StripKind, string>> = { tablet: 'tablet', strip: 'strip' };

export const scan = {
  intro:
    'Lay the strip on the scanner or light table beside a step tablet whose densities you know, leave bare light round both that is not at full white, and scan both at once with every automatic correction and sharpening off, best at 16 bits. The tablet tells how the scanner answers; the strip is read by it.',
  open: 'Open a picture',
  openHint:
    'PNG or TIFF of 8 or 16 bits, or JPEG (8 bits, and it has lost some: a second best). It stays in this browser.',
  opening: (file: string) => `${file} is being read …`,
  facts: (file: string, { format, width, height, bits, channels }: ScanFacts) =>
    `${file}: ${format.toUpperCase()}, ${width} × ${height} pixels, ${bits} bits, ${channels >= 3 ? 'colour' : 'grey'}. Shown brightened; read as it is.`,
  eightBits:
    'A file of 8 bits has 256 levels: dense steps are read coarsely. Their errors say how coarsely.',
  knownTablet: 'Tablet beside it (its densities are known)',
  stripTablet: 'Tablet that the strip was exposed through',
  material: 'The strip is',
  materials: { film: 'film', paper: 'paper' },
  channel: 'Read in',
  channels: {
    mean: 'all colours together',
    red: 'red',
    green: 'green',
    blue: 'blue',
  },
  inverted: 'Light and dark are exchanged in the file',
  mark: 'Mark by pointing',
  ends: {
    from: (kind: StripKind) => `${KINDS[kind]}, step 1 end`,
    to: (kind: StripKind) => `${KINDS[kind]}, last step end`,
  },
  markHint:
    'Point at the middle of each end in turn, to about half a step: the steps between are found. Ends can also be dragged, or typed below.',
  picture: 'The picture with the two strips marked on it',
  places: 'Places of the ends, pixels',
  placeFields: {
    fromX: 'step 1, across',
    fromY: 'step 1, down',
    toX: 'last step, across',
    toY: 'last step, down',
    width: 'width of the strip',
  },
  pixels: 'px',
  turn: (kind: StripKind) => `Turn the ${KINDS[kind]} end for end`,
  kinds: { tablet: 'Tablet', strip: 'Strip' } satisfies Record<StripKind, string>,
  read: 'Read the steps',
  reading: 'The steps are being read …',
  failed: 'The marks make no strips: give each two different ends and a width.',
  done: (read: number, all: number) => `${read} of ${all} steps read.`,
  form: {
    power: (exponent: number | null) =>
      exponent === null || Math.abs(exponent - 1) < 0.05
        ? 'the file is proportional to light'
        : `the file goes as the light to the power of ${formatNumber(exponent, 2)}`,
    screen: 'the file is encoded for the screen',
    smooth: 'the file follows no simple law; a smooth curve was used',
  },
  response: (form: string, flare: number | null, scatter: number, light: number | null) =>
    `Response: ${form}${flare === null ? '' : `, flare ${formatNumber(100 * flare, 2)} %`}; the tablet lies ${formatNumber(scatter, 3)} about it (density)${light === null ? '' : `; light uneven by ${formatNumber(light, 3)}, corrected`}.`,
  responseTitle: 'Response of the scanner',
  table: 'Densities read',
  step: 'step',
  density: 'density',
  error: 'standard error',
  rejected: 'left out (%)',
  rejectedLong: 'pixels left out as dust or scratches',
  status: {
    ok: '',
    thinner: 'thinner than the tablet',
    denser: 'denser than the tablet',
    clipped: 'at the limit of the file',
  } satisfies Record<StepAnswer['status'], string>,
  take: 'Put it into the notebook as a new strip',
  stripName: (name: string) => `${name}, scanned`,
  taken: (name: string) => `${name} added from the picture. Undo takes it out again.`,
  note: (file: string, tablet: string, channel: string, least: string, most: string) =>
    `Read from ${file} in ${channel}, calibrated by ${tablet} beside it. Standard errors of the densities from ${least} to ${most}.`,
};

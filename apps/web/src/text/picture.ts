/** Words of the picture: one negative printed four ways. */
import { formatMinutes, formatNumber, formatScale, formatSigned } from '@wedgebook/charts';
import type { PrintId } from '../picture/four-prints.ts';
import type { PictureFacts } from '../picture/picture-messages.ts';
import { GREATEST_DIFFERENCE } from '../picture/screen-table.ts';

const NAMES: Readonly<Record<PrintId, string>> = {
  'untreated-same': 'Untreated, same paper',
  'treated-same': 'Treated, same paper',
  'untreated-matched': 'Untreated, paper to match',
  'treated-matched': 'Treated, paper to match',
};

export const picture = {
  title: 'Picture',
  says: (negative: string | null) =>
    negative === null ? 'printed four ways' : `${negative}, printed four ways`,
  prediction:
    'A prediction from curves and readings, not a photograph of a print. It shows how tones part and where they run out; grain, sharpness, paper colour and the look under your light are not in it.',
  limits:
    'Your screen limits it too: its white stands for paper white, it may not be calibrated, the light of the room fills its blacks, and it shows 256 greys. Judge the differences between the prints, not one print by itself.',
  red: 'In red on black the prints are shown in reds of the same lightness. Tones cannot be judged in them, and no screen is a safelight.',
  leaveRed: 'Leave red on black: show the prints in grey (dim theme)',
  source: 'Picture',
  demo: 'Draw the ferry in fog',
  demoName: 'The ferry in fog',
  demoNote:
    'a scene drawn by this program and wholly invented: a small ferry at a wooden landing stage in river fog',
  open: 'Open a scan or photograph',
  openHint: 'PNG or TIFF of 8 or 16 bits, or JPEG. It stays in this browser and is not kept.',
  drawing: 'The picture is being drawn …',
  reading: (file: string) => `${file} is being read …`,
  kind: 'The file shows',
  kinds: { positive: 'the scene (light is light)', negative: 'a negative (light is dark)' },
  encoding: 'Its tones are',
  encodings: { screen: 'made for the screen (usual)', linear: 'proportional to light' },
  facts: ({ name, bits, original, width, height }: PictureFacts): string => {
    const size = `${original[0]} × ${original[1]} pixels, ${bits} bits`;
    const shown = width === original[0] ? '' : `, shown at ${width} × ${height}`;
    return name === null
      ? `${size}, its luminances known without rounding`
      : `${name}: ${size}${shown}`;
  },
  laid: (shadow: string, highlight: string, film: boolean, positive: boolean) =>
    `The dark and the light end of the picture (2 % of it lie beyond either) are laid on the shadow and the highlight of the negative, ${shadow} and ${highlight} above base + fog${positive ? (film ? '; the tones between go through the film’s curve' : ', in a straight line for want of a film curve') : '; the scan’s own densities are stretched to that'}.`,
  assumed:
    'No negative with a shadow and a highlight is chosen, so these two are usual ones. Read two spots on a negative to see your own.',
  stops: 'More or less exposure',
  stopsUnit: 'stops',
  minutes: 'Minutes in the bath',
  minutesUnit: 'min',
  names: NAMES,
  paperOf: (label: string, scale: number) => `${label}, scale ${formatScale(scale)}`,
  matchedPaper: (scale: number) => `an imagined paper of scale ${formatScale(scale)}`,
  fits: (surplus: number): string =>
    Math.abs(surplus) <= 0.05
      ? 'the negative fills it'
      : surplus > 0
        ? `the negative exceeds it by ${formatNumber(surplus, 2)}`
        : `the negative leaves ${formatNumber(-surplus, 2)} of it unused`,
  exposure: (stops: number): string =>
    Math.abs(stops) < 0.005
      ? ''
      : `${formatSigned(stops, 2)} stops of exposure for the same highlight`,
  bath: (minutes: number) => `bath of ${formatMinutes(minutes)}`,
  difference: 'Show the difference of',
  differenceAnd: 'and',
  differenceTitle: (first: string, second: string) => `${second} less ${first}`,
  differenceDetail: `print density: middle grey is alike, darker is darker in the first-named, black or white is ${GREATEST_DIFFERENCE.toFixed(2)} or more`,
  showDifference: 'Show the difference as a picture',
  viewTools: 'View of the prints',
  view: 'The prints, all at the same place',
  zoomIn: 'Enlarge',
  zoomOut: 'Reduce',
  whole: 'Whole picture',
  zoomed: (zoom: string) => `${zoom} × the whole`,
  keys: 'All prints move together: drag, pinch, or turn the wheel with Ctrl held; by keys, + and − enlarge and reduce, arrows move, 0 shows the whole.',
  readout: 'At the place pointed at',
  readoutHint: 'Point at a print, or move by keys, to read its densities.',
  print: 'print',
  netDensity: 'density above white',
  lightness: 'lightness L*',
  white: 'paper white (%)',
  whiteLong: 'Paper white is the part of the picture less than 0.04 of density above it',
  black: 'near black (%)',
  blackLong: 'near black, the part at 90 % of the paper’s greatest density or more',
  histogram: (first: string, second: string) => `Print densities: ${first}; ${second}`,
  shares: 'What is printed where',
};

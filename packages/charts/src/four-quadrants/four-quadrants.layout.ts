/**
 * The four quadrants of tone reproduction: subject to film (camera), film to negative, negative to
 * print (paper), and subject to print, with one tone followed through all four.
 *
 *   upper left   paper: negative -> print        upper right  the whole: subject -> print
 *   lower left   film: exposure -> negative      lower right  camera: subject -> exposure
 *
 * Neighbouring panels share an axis, so that the tone is one closed rectangle. Print density counts
 * downwards: lighter stands higher.
 *
 * Sources: [JONES1920] the diagram. Deviations: the panels' places are the project's own.
 */
import { line as lineShape, scaleLinear, type ScaleLinear } from 'd3';
import { bottomAxis, leftAxis, ticksOf, type Plot } from '../axes/axes.ts';
import { markers } from '../scene/markers.ts';
import { segment, stroke, type Mark, type Scene } from '../scene/mark.ts';
import { formatNumber } from '../text/format.ts';
import { words } from '../text/words.ts';
import { quadrantNames } from './quadrant-names.ts';

/** One tone of the subject on its way. */
export interface QuadrantTone {
  /** log10 luminance of the subject. */
  readonly logLuminance: number;
  /** Log exposure on the film. */
  readonly logExposure: number;
  /** Density of the negative as the paper sees it. */
  readonly negativeDensity: number;
  readonly printDensity: number;
}

export interface QuadrantSeries {
  readonly label: string;
  readonly role: 'before' | 'after';
  /** Many tones, by log luminance. */
  readonly tones: readonly QuadrantTone[];
  /** The tone that is followed. */
  readonly cursor: QuadrantTone;
}

export interface FourQuadrantsInput {
  readonly width: number;
  readonly title: string;
  readonly exposureKind: 'absolute' | 'relative';
  /** The untreated negative first; both share camera and subject. */
  readonly series: readonly QuadrantSeries[];
  /** Zones of the subject: log luminance and numeral. */
  readonly zones: readonly { readonly logLuminance: number; readonly label: string }[];
}

type Linear = ScaleLinear<number, number>;

const MARGIN = { top: 34, right: 14, bottom: 62, left: 42 };
const GAP = { x: 32, y: 34 };
const TALLEST = 640;

/** Lays out the diagram; it is about as high as wide. */
export function layoutFourQuadrants(input: FourQuadrantsInput): Scene {
  const { width, series, zones, title } = input;
  const height = Math.min(TALLEST, Math.max(380, Math.round(0.86 * width)));
  const panelWidth = (width - MARGIN.left - MARGIN.right - GAP.x) / 2;
  const panelHeight = (height - MARGIN.top - MARGIN.bottom - GAP.y) / 2;
  const panel = (column: 0 | 1, row: 0 | 1): Plot => ({
    x: MARGIN.left + column * (panelWidth + GAP.x),
    y: MARGIN.top + row * (panelHeight + GAP.y),
    width: panelWidth,
    height: panelHeight,
  });
  const [paper, whole, film, camera] = [panel(0, 0), panel(1, 0), panel(0, 1), panel(1, 1)];
  const every = series.flatMap(({ tones }) => tones);
  const span = (pick: (tone: QuadrantTone) => number): [number, number] => {
    const values = every.map(pick);
    return values.length === 0 ? [0, 1] : [Math.min(...values), Math.max(...values)];
  };
  const luminance = scaleLinear(
    span((tone) => tone.logLuminance),
    [camera.x, camera.x + panelWidth],
  );
  const exposure = scaleLinear(
    span((tone) => tone.logExposure),
    [film.y + panelHeight, film.y],
  );
  const negative = scaleLinear(
    [0, span((tone) => tone.negativeDensity)[1]],
    [film.x + panelWidth, film.x],
  );
  const print = scaleLinear(
    [0, span((tone) => tone.printDensity)[1]],
    [paper.y, paper.y + panelHeight],
  );
  const scales: Scales = { luminance, exposure, negative, print };
  const filmAxis = leftAxis(
    exposure,
    film,
    words.filmExposure[input.exposureKind],
    width - MARGIN.left - MARGIN.right,
  );
  const marks: Mark[] = [
    ...leftAxis(print, paper, words.printDensity, width - MARGIN.left - MARGIN.right),
    ...filmAxis.slice(0, -1),
    ...bottomAxis(negative, film, words.negativeDensity),
    ...verticals(
      ticksOf(negative, panelWidth / 75).map(({ value }) => negative(value)),
      paper,
    ),
    ...zoneAxis(zones, luminance, camera, whole),
    ...series.flatMap((one, i) => curvesOf(one, i, scales)),
    ...series.flatMap((one) => followed(one, scales, camera)),
    // The way of the tone crosses the words between the panels.
    ...filmAxis
      .slice(-1)
      .map((title): Mark => (title.kind === 'text' ? { ...title, halo: true } : title)),
    ...quadrantNames(series, { paper, whole, film, camera }, scales),
  ];
  return { width, height, title, description: describe(input), marks, table: table(input) };
}

export interface Scales {
  readonly luminance: Linear;
  readonly exposure: Linear;
  readonly negative: Linear;
  readonly print: Linear;
}

function curvesOf({ role, tones }: QuadrantSeries, index: number, scales: Scales): Mark[] {
  const { luminance, exposure, negative, print } = scales;
  const look = role === 'before' ? { width: 2 } : { width: 3, dash: '7 4' };
  const path = (x: (tone: QuadrantTone) => number, y: (tone: QuadrantTone) => number): string =>
    lineShape<QuadrantTone>(x, y).digits(2)(tones) ?? '';
  const curve = (name: string, d: string): Mark =>
    stroke(d, role, look.width, {
      name: `${name}-${role}`,
      ...('dash' in look ? { dash: look.dash } : {}),
    });
  return [
    // Bath and paper do not bear on the camera: one curve serves all.
    ...(index === 0
      ? [
          curve(
            'camera',
            path(
              (tone) => luminance(tone.logLuminance),
              (tone) => exposure(tone.logExposure),
            ),
          ),
        ]
      : []),
    curve(
      'film',
      path(
        (tone) => negative(tone.negativeDensity),
        (tone) => exposure(tone.logExposure),
      ),
    ),
    curve(
      'paper',
      path(
        (tone) => negative(tone.negativeDensity),
        (tone) => print(tone.printDensity),
      ),
    ),
    curve(
      'whole',
      path(
        (tone) => luminance(tone.logLuminance),
        (tone) => print(tone.printDensity),
      ),
    ),
  ];
}

/** The followed tone as a closed way through the four panels. */
function followed({ role, cursor }: QuadrantSeries, scales: Scales, camera: Plot): Mark[] {
  const x = scales.luminance(cursor.logLuminance);
  const y = scales.exposure(cursor.logExposure);
  const across = scales.negative(cursor.negativeDensity);
  const up = scales.print(cursor.printDensity);
  const d = [
    segment(x, camera.y + camera.height, x, y),
    segment(x, y, across, y),
    segment(across, y, across, up),
    segment(across, up, x, up),
    segment(x, up, x, y),
  ].join('');
  const shape = role === 'before' ? 'ring' : 'square';
  return [
    stroke(d, role, 1.25, { dash: role === 'before' ? '2 3' : '5 3', name: `cursor-${role}` }),
    ...markers(
      shape,
      [
        [x, up],
        [across, up],
        [across, y],
        [x, y],
      ],
      role,
      4,
      `tone-${role}`,
    ),
  ];
}

/** Zones along the subject, with lines through both panels of that column. */
function zoneAxis(
  zones: FourQuadrantsInput['zones'],
  luminance: Linear,
  camera: Plot,
  whole: Plot,
): Mark[] {
  const [low, high] = [camera.x - 1, camera.x + camera.width + 1];
  const shown = zones.flatMap(({ logLuminance, label }) => {
    const x = luminance(logLuminance);
    return x >= low && x <= high ? [{ x, label }] : [];
  });
  const bottom = camera.y + camera.height;
  // Numerals are up to 24 pixels wide: every zone, or every other.
  const every = shown.length * 24 > camera.width ? 2 : 1;
  return [
    ...verticals(
      shown.map(({ x }) => x),
      camera,
    ),
    ...verticals(
      shown.map(({ x }) => x),
      whole,
    ),
    stroke(segment(camera.x, bottom, camera.x + camera.width, bottom), 'frame', 1),
    ...shown.flatMap(({ x, label }, i): Mark[] =>
      i % every === 0
        ? [
            {
              kind: 'text',
              x,
              y: bottom + 19,
              text: label,
              anchor: 'middle',
              size: 12,
              ink: 'quiet',
            },
          ]
        : [],
    ),
    {
      kind: 'text',
      x: camera.x + camera.width / 2,
      y: bottom + 38,
      text: words.subjectZones,
      anchor: 'middle',
      size: 12,
      ink: 'quiet',
    },
  ];
}

function verticals(at: readonly number[], plot: Plot): Mark[] {
  return at.map((x) => stroke(segment(x, plot.y, x, plot.y + plot.height), 'rule', 1));
}

const shown = (value: number): string => formatNumber(value, 2);

function describe({ series }: FourQuadrantsInput): string {
  return series
    .map(
      ({ label, cursor }) =>
        `${label}: the tone followed gives negative density ${shown(cursor.negativeDensity)} and print density ${shown(cursor.printDensity)}.`,
    )
    .join(' ');
}

function table({ title, series, zones, exposureKind }: FourQuadrantsInput): Scene['table'] {
  const nearest = (tones: readonly QuadrantTone[], at: number): QuadrantTone | undefined =>
    tones.reduce<QuadrantTone | undefined>(
      (best, tone) =>
        best === undefined || Math.abs(tone.logLuminance - at) < Math.abs(best.logLuminance - at)
          ? tone
          : best,
      undefined,
    );
  return {
    caption: title,
    columns: [
      words.zone,
      words.filmExposure[exposureKind],
      ...series.flatMap(({ label }) => [
        `${words.negativeDensity}, ${label}`,
        `${words.printDensity}, ${label}`,
      ]),
    ],
    rows: zones.map(({ logLuminance, label }) => {
      const tones = series.map((one) => nearest(one.tones, logLuminance));
      return [
        label,
        tones[0] === undefined ? '' : shown(tones[0].logExposure),
        ...tones.flatMap((tone) =>
          tone === undefined ? ['', ''] : [shown(tone.negativeDensity), shown(tone.printDensity)],
        ),
      ];
    }),
  };
}

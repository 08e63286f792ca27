/** `plot`: the curves of a file as an SVG chart for paper. */
import {
  layoutCurveSheet,
  renderSvg,
  type Scene,
  type SheetSeries,
  type TextMark,
} from '@wedgebook/charts';
import { densityAt, densityBand, filmMeasures, type CharacteristicCurve } from '@wedgebook/core';
import { onlyFile } from '../input/only-file.ts';
import { readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { fittedStrip, type FittedStrip } from '../strips/fitted-strip.ts';
import { PLOT_WORDS, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

/** Points along each curve. */
const SAMPLES = 160;
/** With more strips than this the bands would cover one another. */
const MOST_BANDS = 3;

/** Names that promise another format. */
const OTHER_PICTURES = /\.(png|jpe?g|gif|webp|bmp|tiff?|pdf|e?ps)$/i;

export const plot: Verb = {
  options: {
    ...STRIP_OPTIONS,
    output: { type: 'string', short: 'o' },
    title: { type: 'string' },
    width: { type: 'string' },
    height: { type: 'string' },
  },
  run: async (given, io) => {
    const file = onlyFile(given);
    const output = given.text('output');
    if (output === undefined) throw new UsageError(USAGE.outputNeeded);
    if (await io.isSameFile(file, output)) throw new UsageError(USAGE.notThisFile);
    const options = stripOptions(given, file);
    const width = given.number('width', 200, 10_000) ?? 900;
    const height = given.number('height', 200, 10_000) ?? 600;
    const readings = await readReadingsFile(file, io, options);
    requireSource(readings, options);
    const fitted = readings.strips.map((strip) =>
      fittedStrip(strip, options.exposure, options.model),
    );
    const banded = fitted.length <= MOST_BANDS;
    const series = fitted.map((one, index) => seriesOf(one, index, banded));
    const kinds = new Set(fitted.map(({ exposureKind }) => exposureKind));
    const scene = layoutCurveSheet({
      width,
      height,
      title: given.text('title') ?? PLOT_WORDS.title(fitted.length),
      exposureKind: kinds.has('relative') ? 'relative' : 'absolute',
      series,
      speedPoint: onlySpeedPoint(fitted),
      baseFog: null,
      fit: null,
    });
    const svg = renderSvg({ ...scene, marks: [headingOf(scene), ...scene.marks] });
    if (output !== '-') await io.writeText(output, svg);
    const warnings = [
      ...shownWarnings(readings.warnings, ...fitted.map((one) => one.warnings)),
      ...(OTHER_PICTURES.test(output)
        ? [{ code: 'output-is-svg', message: PLOT_WORDS.isSvg(output) }]
        : []),
    ];
    // The chart is the output; what there is to say of it goes beside.
    if (output === '-' && !given.flag('json')) io.stderr(warningLines(warnings, ''));
    return {
      json: {
        output,
        strips: series.map(({ label }) => label),
        ...(output === '-' && { svg }),
        warnings,
      },
      text: () =>
        output === '-'
          ? svg
          : `${PLOT_WORDS.written(output, fitted.length)}\n${warningLines(warnings, '')}`,
    };
  },
};

function seriesOf(
  { strip, curve, readings }: FittedStrip,
  index: number,
  banded: boolean,
): SheetSeries {
  const xs = curve === null ? [] : samples(curve);
  return {
    id: String(index),
    label: strip.name,
    role: roleOf(strip),
    line:
      curve === null
        ? []
        : xs.map((logExposure) => ({ logExposure, density: densityAt(curve, logExposure) })),
    markers: readings.logExposures.map((logExposure, i) => ({
      logExposure,
      density: readings.densities[i] ?? 0,
    })),
    ...(banded && curve !== null && { band: bandOf(curve, xs) }),
  };
}

/** On the screen a heading stands above the chart; on paper it must be in it. */
function headingOf({ title }: Scene): TextMark {
  return {
    kind: 'text',
    x: 10,
    y: 24,
    text: title,
    anchor: 'start',
    size: 15,
    ink: 'text',
    bold: true,
  };
}

function roleOf({ material, treatment }: FittedStrip['strip']): SheetSeries['role'] {
  if (material === 'paper') return 'paper';
  return treatment === null ? 'before' : 'after';
}

function samples({ logExposureRange: [first, last] }: CharacteristicCurve): number[] {
  return Array.from({ length: SAMPLES + 1 }, (_, i) => first + ((last - first) * i) / SAMPLES);
}

function bandOf(curve: CharacteristicCurve, xs: readonly number[]): SheetSeries['band'] & object {
  return densityBand(curve, xs).map(({ logExposure, lower, upper }) => ({
    logExposure,
    low: lower,
    high: upper,
  }));
}

/** The speed point is marked where there is one film strip only. */
function onlySpeedPoint(
  fitted: readonly FittedStrip[],
): { logExposure: number; density: number } | null {
  const [first] = fitted;
  if (first === undefined || fitted.length > 1 || first.strip.material === 'paper') return null;
  const { curve, exposureKind } = first;
  if (curve === null) return null;
  const point = filmMeasures(curve, { exposureKind }).speedPoint?.logExposure.value;
  return point === undefined ? null : { logExposure: point, density: densityAt(curve, point) };
}

import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { ran } from '../memory-io.ts';
import { SOFT_TOE } from './sample-files.ts';

interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}
interface FilmJson {
  readonly strips: readonly {
    readonly strip: string;
    readonly parameters: readonly ({ readonly name: string } & Estimate)[];
    readonly points: number;
    readonly model: string;
    readonly baseFog: Estimate;
    readonly densityMax: Estimate;
    readonly gamma: Estimate;
    readonly inertia: { readonly logExposure: Estimate };
    readonly speedPoint: { readonly logExposure: Estimate };
    readonly isoTriangle: { readonly densityRise: Estimate; readonly met: boolean };
    readonly speed: {
      readonly arithmetic: number;
      readonly degrees: number;
      readonly exact: Estimate;
      readonly kind: string;
    } | null;
    readonly contrastIndex: Estimate;
    readonly averageGradients: readonly {
      readonly from: string;
      readonly to: string;
      readonly value: Estimate;
    }[];
    readonly residualStandardDeviation: number;
    readonly warnings: readonly { readonly code: string; readonly message: string }[];
  }[];
  readonly warnings: readonly { readonly code: string }[];
}

async function film(text: string, ...words: string[]): Promise<FilmJson> {
  const { exitCode, stdout, stderr } = await ran(['film', '-', '--json', ...words], { '-': text });
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as FilmJson;
}

describe('film --json', () => {
  it('writes speeds to the digits that their errors leave a meaning in, in full only for JSON', async () => {
    // Readings of one strip with errors of about 0.01, by a fixed pattern.
    const text = SOFT_TOE.replaceAll(/([\d.]+)$/gm, (density, _all, at: number) =>
      (Number(density) + 0.01 * Math.sin(at)).toFixed(2),
    );
    const [strip] = (await film(text)).strips;
    const { hurterDriffieldSpeed: exact } = strip as unknown as { hurterDriffieldSpeed: Estimate };
    // Sine, far from a law: an error between 100 and 1000 leaves tens.
    expect(exact.standardError).toBeGreaterThan(99.5);
    const { stdout } = await ran(['film', '-'], { '-': text });
    const [, value = '', error = ''] = /H&D speed +(\d+) ± (\d+) /.exec(stdout) ?? [];
    expectWithin(Number(value), exact.value, 5, 'value');
    expectWithin(Number(error), exact.standardError ?? 0, 5, 'error');
    expect([value, error].map((figure) => figure.slice(-1))).toEqual(['0', '0']);
  });

  it('says quietly where no slips are looked for: among seven readings, on a drawn curve', async () => {
    const rows = SOFT_TOE.trimEnd().split('\n');
    const some = (count: number) =>
      rows.filter((_, i) => i === 0 || i % 3 === 1).slice(0, count + 1);
    const [seven, drawn] = [some(7).join('\n'), ['--model', 'as-drawn']];
    const searchOf = async (text: string, ...words: string[]) => {
      const [strip] = (await film(text, ...words)).strips;
      return (strip as unknown as { slipSearch: string }).slipSearch;
    };
    expect(await searchOf(seven)).toBe('too-few-readings');
    expect(await searchOf(`${seven}\nB,,,0.15`)).toBe('done');
    expect(await searchOf(SOFT_TOE, ...drawn)).toBe('drawn-curve');
    const files = { '-': seven, 'all.csv': SOFT_TOE };
    const told = await ran(['film', '-'], files);
    expect(told.stdout).toMatch(/^  slips of reading +not looked for +from 8 readings on/m);
    expect(told.stdout).not.toMatch(/^ *! .*slip/m);
    const text = await ran(['film', 'all.csv', ...drawn], files);
    expect(text.stdout).toMatch(/slips of reading +not looked for +a curve through every reading/);
    expect((await ran(['film', 'all.csv'], files)).stdout).not.toContain('slips of reading');
  });

  it('[exact curve B, derived] finds the measures of the soft-toed curve', async () => {
    const [strip] = (await film(SOFT_TOE, '--log-exposure', 'absolute')).strips;
    // Derived from the closed form; densities rounded to four decimals, so agreement to 0.001.
    expectWithin(strip!.speedPoint.logExposure.value, -2.065083, 0.001, 'speed point');
    expectWithin(strip!.speed!.exact.value, 92.9337, 0.25, 'exact speed');
    expect(strip!.speed).toMatchObject({ arithmetic: 100, degrees: 21, kind: 'iso' });
    expectWithin(strip!.isoTriangle.densityRise.value, 0.76569, 0.001, 'rise');
    expect(strip!.isoTriangle.met).toBe(true);
    expectWithin(strip!.contrastIndex.value, 0.618396, 0.001, 'contrast index');
    expectWithin(strip!.gamma.value, 0.7, 0.002, 'gamma');
    expectWithin(strip!.inertia.logExposure.value, -2, 0.003, 'inertia');
    expectWithin(strip!.baseFog.value, 0.15, 0.001, 'base + fog');
    expect(strip!.parameters.map(({ name }) => name).slice(0, 2)).toEqual([
      'minimumDensity',
      'slope',
    ]);
    for (const { name, value, standardError } of strip!.parameters) {
      const truth = { minimumDensity: 0.15, slope: 0.7, toeCentre: -2, toeWidth: 0.25 }[name]!;
      expectWithin(value, truth, 4 * standardError!, name);
    }
    const chord = (to: string) =>
      strip!.averageGradients.find((gradient) => gradient.to === to)!.value.value;
    expectWithin(chord('+1.50'), 0.603336, 0.001, 'chord over 1.50');
    expectWithin(chord('+2.00'), 0.627259, 0.001, 'chord over 2.00');
    expectWithin(chord('+1.30'), 0.76569 / 1.3, 0.001, 'chord over 1.30');
    expect(strip).toMatchObject({ strip: 'B', points: 21, model: 'toe-shoulder' });
    expect(strip!.gamma.standardError).toBeGreaterThan(0);
    expect(strip!.averageGradients[0]?.from).toBe('net 0.10');
  });

  it('takes written log exposures as absolute, and says so', async () => {
    const [strip] = (await film(SOFT_TOE)).strips;
    expect(strip!.warnings.map(({ code }) => code)).toContain('exposure-assumed-absolute');
    expect(strip!.speed).not.toBeNull();
  });

  it('gives no speed for relative exposures, and says why', async () => {
    const [strip] = (await film(SOFT_TOE, '--log-exposure', 'relative')).strips;
    expect(strip!.speed).toBeNull();
    expect(strip!.warnings.map(({ code }) => code)).toContain('exposure-relative');
  });

  it('shifts a tablet by the light behind it', async () => {
    // The same strip by tablet density: x = source - d, source 0.5, so d = 0.5 - x.
    const byTablet = SOFT_TOE.replace('log_exposure', 'tablet_density').replaceAll(
      /,(-?\d\.\d\d),/g,
      (_, x: string) => `,${(0.5 - Number(x)).toFixed(2)},`,
    );
    const relative = (await film(byTablet)).strips[0]!;
    expect(relative.speed).toBeNull();
    expectWithin(relative.speedPoint.logExposure.value, -2.565083, 0.001, 'relative point');
    const absolute = (await film(byTablet, '--source-log-exposure', '0.5')).strips[0]!;
    expectWithin(absolute.speedPoint.logExposure.value, -2.065083, 0.001, 'absolute point');
    expect(absolute.speed).toMatchObject({ arithmetic: 100, degrees: 21, kind: 'iso' });
  });

  it('finds the exposures of bare steps on a built-in tablet', async () => {
    // Step 1 is the clear end: most exposure first.
    const lines = SOFT_TOE.trim().split('\n').slice(1).reverse();
    const bare = lines.map((line, i) => `B,${i + 1},${line.split(',')[3] ?? ''}`).join('\n');
    const text = `strip,step,density\n${bare}\n`;
    const [strip] = (await film(text, '--tablet', 'nominal-21', '--source-log-exposure', '0.05'))
      .strips;
    expectWithin(strip!.speedPoint.logExposure.value, -2.065083, 0.001, 'speed point');
  });

  it.each([
    ['in reverse', (rows: string[]) => rows.reverse()],
    ['shuffled', (rows: string[]) => rows.sort((a, b) => (a.slice(-2) < b.slice(-2) ? -1 : 1))],
  ])('gives the same measures with the rows %s', async (_how, change) => {
    const [header, ...lines] = SOFT_TOE.trim().split('\n');
    const [plain] = (await film(SOFT_TOE)).strips;
    const [changed] = (await film([header, ...change(lines)].join('\n'))).strips;
    expectWithin(changed!.contrastIndex.value, plain!.contrastIndex.value, 1e-9);
    expectWithin(changed!.speedPoint.logExposure.value, plain!.speedPoint.logExposure.value, 1e-9);
  });

  it('notices reversed rows and a strip that falls with exposure', async () => {
    const [header, ...lines] = SOFT_TOE.trim().split('\n');
    const reversed = (await film([header, ...lines.toReversed()].join('\n'))).strips[0]!;
    expect(reversed.warnings.map(({ code }) => code)).toContain('readings-reversed');
    const densities = lines.map((line) => line.split(',')[3]).reverse();
    const falling = lines.map((line, i) => [...line.split(',').slice(0, 3), densities[i]].join());
    const fallen = (await film([header, ...falling].join('\n'))).strips[0]!;
    expect(fallen.warnings.map(({ code }) => code)).toContain('density-falls-with-exposure');
  });

  it('leaves paper strips to the other verb, and says so', async () => {
    const both = `strip,material,log_exposure,density\n${['F,film', 'P,paper']
      .flatMap((strip) => [0, 1, 2, 3, 4, 5].map((i) => `${strip},${i / 2 - 3},${0.1 + i * 0.2}`))
      .join('\n')}`;
    const { strips, warnings } = await film(both);
    expect(strips.map(({ strip }) => strip)).toEqual(['F']);
    expect(warnings.map(({ code }) => code)).toEqual(['strips-left-out']);
  });

  it.each(['logistic-4', 'logistic-5', 'hurter-driffield', 'monotone-smooth', 'as-drawn'])(
    'fits %s when asked',
    async (model) => {
      const [strip] = (await film(SOFT_TOE, '--model', model)).strips;
      expect(strip!.model).toBe(model);
      // The rivals differ at the toe; at the last step all must read as the curve does, 1.5501.
      expectWithin(strip!.densityMax.value, 0.15 + 0.7 * 2.0001, 0.05, 'greatest density');
    },
  );
});

describe('film --compare', () => {
  it('sets every family beside the one in use, and says what speaks for it', async () => {
    const { stdout } = await ran(['film', '-', '--compare', '--json'], { '-': SOFT_TOE });
    const { strips } = JSON.parse(stdout) as {
      strips: {
        comparison: { verdict: string; families: { family: string; weight: number | null }[] };
      }[];
    };
    const { verdict, families } = strips[0]!.comparison;
    // The curve is a toe-shoulder one without its shoulder: nothing else can be better.
    expect(['best', 'as-good']).toContain(verdict);
    expect(families.map(({ family }) => family)).toContain('logistic-5');
    const total = families.reduce((sum, { weight }) => sum + (weight ?? 0), 0);
    expectWithin(total, 1, 1e-9, 'sum of weights');
    const table = await ran(['film', '-', '--compare'], { '-': SOFT_TOE });
    expect(table.stdout).toMatch(/ {4}family +parameters +scatter +AICc above least +weight\n/);
  });
});

describe('film as a table', () => {
  it('shows figures with errors, units, definitions and warnings', async () => {
    const { exitCode, stdout } = await ran(['film', 'b.csv'], { 'b.csv': SOFT_TOE });
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/^Strip B\n/);
    expect(stdout).toMatch(/contrast index +0\.618 ± \S+ +line through points 0\.2 and 2\.2/);
    expect(stdout).toMatch(/speed point +-2\.065 ± \S+ +log10 lux-seconds, where net density/);
    expect(stdout).toMatch(/ISO speed +100\/21° \(exact 92\.9 ± \S+\)/);
    expect(stdout).toMatch(/ {2}! The log exposures were taken as absolute/);
    expect(stdout).not.toMatch(/NaN|undefined|null/);
  });
});

describe('film with faults in the file', () => {
  const good = SOFT_TOE.trim().split('\n');
  const broken = (row: number, from: string | RegExp, to: string) =>
    good.map((line, i) => (i + 1 === row ? line.replace(from, to) : line)).join('\n');

  it.each<[string, string, RegExp]>([
    ['an empty file', '', /^wedgebook: b\.csv: the file is empty\. Give a header row/],
    ['no header', good.slice(1).join('\n'), /b\.csv, row 1: the first row has no column names/],
    ['no density', 'strip,log_exposure\nA,1\n', /row 1: there is no column "density"/],
    ['no exposure', 'strip,density\nA,1\n', /no column "log_exposure" or "tablet_density"/],
    [
      'text in a number',
      broken(5, /[\d.]+$/, 'dark'),
      /row 5, column "density": "dark" is not a n/,
    ],
    ['a decimal comma', broken(7, /\.(\d+)$/, ',$1'), /row 7: .*decimal points, or .*semicolons/],
    [
      'a quoted decimal comma',
      broken(7, /(\d)\.(\d+)$/, '"$1,$2"'),
      /row 7, column "density": .*comma/,
    ],
    [
      'a density of 7',
      broken(9, /[\d.]+$/, '7'),
      /row 9, column "density": 7 is outside -0\.5 to 6/,
    ],
    ['a density of -1', broken(9, /[\d.]+$/, '-1'), /row 9, column "density": -1 is outside/],
    ['three points', good.slice(0, 4).join('\n'), /strip "B" has 3 usable steps, 4 are needed/],
    ['binary bytes', '\u0089PNG\r\n\u001a\n\u0000\u0000', /b\.csv: the file holds binary data/],
    [
      'a paper strip alone',
      SOFT_TOE.replace('strip,', 'material,').replaceAll('B,', 'paper,'),
      /there is no film strip/,
    ],
  ])('refuses %s, naming the place and the remedy', async (_what, text, message) => {
    const { exitCode, stdout, stderr } = await ran(['film', 'b.csv'], { 'b.csv': text });
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });

  it('refuses a missing file', async () => {
    const { exitCode, stdout, stderr } = await ran(['film', 'none.csv']);
    expect(stderr).toMatch(/none\.csv: the file cannot be read: there is no such file/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 1, stdout: '' });
  });

  it('refuses a step that the tablet does not have', async () => {
    const text = 'step,density\n1,1\n2,0.8\n3,0.6\n12,0.4\n';
    const { exitCode, stderr } = await ran(['film', '-', '--tablet', 'nominal-11'], { '-': text });
    expect(stderr).toMatch(/standard input, row 5, column "step": there is no step 12 .* 11 steps/);
    expect(exitCode).toBe(1);
  });

  it('refuses absolute exposures by a tablet without its light, as wrong usage', async () => {
    const text = 'tablet_density,density\n1,1\n2,0.8\n3,0.6\n4,0.4\n';
    const { exitCode, stdout, stderr } = await ran(['film', '-', '--log-exposure', 'absolute'], {
      '-': text,
    });
    expect(stderr).toMatch(/add --source-log-exposure/);
    expect({ exitCode, stdout }).toEqual({ exitCode: 2, stdout: '' });
  });

  it('warns of a slightly negative density and of unread steps, and goes on', async () => {
    const text = `${broken(2, /[\d.]+$/, '-0.01')}\nB,22,0.15,\n`;
    const [strip] = (await film(text)).strips;
    const codes = strip!.warnings.map(({ code }) => code);
    expect(codes).toContain('density-slightly-negative');
    expect(codes).toContain('steps-unread');
  });

  it('says that a flat strip holds no curve', async () => {
    const flat = 'log_exposure,density\n-2,0.2\n-1,0.2\n0,0.2\n1,0.2\n';
    const [strip] = (await film(flat)).strips;
    expect(strip).toMatchObject({ model: null, baseFog: null, speed: null, averageGradients: [] });
    expect(strip!.warnings.map(({ code }) => code)).toContain('curve-not-determined');
  });
});

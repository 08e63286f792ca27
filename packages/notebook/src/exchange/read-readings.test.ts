import { describe, expect, it } from 'vitest';
import { InputError } from '../notebook-error.ts';
import { curveReadingsOf } from './curve-readings-of.ts';
import { readReadings, readingsReader, type ReadOptions } from './read-readings.ts';
import type { ReadingsStrip } from './readings-strip.ts';
import { recordReader } from './record-reader.ts';

const faultOf = (text: string, options: ReadOptions = { file: 'a.csv' }): InputError => {
  try {
    const { strips } = readReadings(text, options);
    strips.forEach((strip) => curveReadingsOf(strip, options));
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('no fault found');
};
const lines = (...rows: string[]) => rows.join('\n');
const GOOD = lines(
  'strip,step,tablet_density,density',
  'A,1,0.05,1.50',
  'A,2,0.35,1.20',
  'A,3,0.65,0.90',
  'A,4,0.95,0.60',
);
const codes = (text: string) =>
  readReadings(text).strips.map(({ warnings }) => warnings.map(({ code }) => code));

describe('readReadings', () => {
  it('reads strips, replicates, unexposed and unread steps', () => {
    const { strips } = readReadings(
      lines(
        'Strip,Material,Step,Tablet_Density,Density,Minutes,Celsius,Channel',
        'A,film,1,0.05,1.50,8,20,visual',
        'A,film,1,0.05,1.52,8,20,visual',
        'A,film,2,0.20,,8,20,visual',
        'A,film,,,0.22,8,20,visual',
        'B,paper,1,0.05,2.0,,,blue',
      ),
    );
    expect(strips).toHaveLength(2);
    expect(strips[0]).toMatchObject({
      name: 'A',
      material: 'film',
      minutes: 8,
      celsius: 20,
      channel: 'visual',
      treatment: null,
      unread: 1,
      unexposedDensities: [0.22],
      firstRow: 2,
      lastRow: 5,
    });
    expect(strips[0]?.readings.map(({ density }) => density)).toEqual([1.5, 1.52, null]);
    expect(strips[1]).toMatchObject({ name: 'B', material: 'paper', channel: 'blue' });
  });

  it.each([
    ['semicolons and decimal commas', GOOD.replaceAll(',', ';').replaceAll('.', ',')],
    ['semicolons and decimal points', GOOD.replaceAll(',', ';')],
    ['tabs', GOOD.replaceAll(',', '\t')],
    ['tabs and decimal commas', GOOD.replaceAll(',', '\t').replaceAll('.', ',')],
    ['a byte order mark', `\uFEFF${GOOD}`],
    ['CRLF', GOOD.replaceAll('\n', '\r\n')],
    ['CR alone', GOOD.replaceAll('\n', '\r')],
    ['a last line end', `${GOOD}\n`],
    ['blank lines and comments', `# made up\n\n${GOOD.replace('A,2', '\n,,,\n# note\nA,2')}\n\n`],
    ['quoted fields', GOOD.replaceAll('A,', '"A",').replaceAll('1.50', '"1.50"')],
    ['blanks round the fields', GOOD.replaceAll(',', ' , ')],
    ['capitals and blanks in the header', GOOD.replace('tablet_density', 'Tablet Density')],
    ['trailing empty fields', GOOD.replaceAll('\n', ',,\n')],
  ])('reads %s alike', (_what, text) => {
    const [strip] = readReadings(text).strips;
    expect(strip?.name).toBe('A');
    expect(strip?.readings.map(({ tabletDensity, density }) => [tabletDensity, density])).toEqual([
      [0.05, 1.5],
      [0.35, 1.2],
      [0.65, 0.9],
      [0.95, 0.6],
    ]);
  });

  it('reads the same however the text is cut', () => {
    const text = `${GOOD}\r\n"B ""b"", c",1,0.05,"1.1"\r\n"B ""b"", c",2,0.2,1.0\r`;
    const whole = readReadings(text);
    for (const size of [1, 2, 3, 7, 64]) {
      const reader = readingsReader();
      for (let i = 0; i < text.length; i += size) reader.push(text.slice(i, i + size));
      expect(reader.end(), `pieces of ${size}`).toEqual(whole);
    }
    expect(whole.strips[1]?.name).toBe('B "b", c');
  });

  it('separates one name read in two channels, or before and after a bath', () => {
    const { strips } = readReadings(
      lines(
        'strip,log_exposure,density,channel,treatment,parts_water,bath_minutes',
        'A,-1,0.5,visual,none,,',
        'A,-1,0.6,blue,,,',
        'A,-1,0.7,blue,selenium,1+3,5',
      ),
    );
    expect(strips.map((s) => [s.channel, s.treatment, s.partsWater, s.bathMinutes])).toEqual([
      ['visual', null, null, null],
      ['blue', null, null, null],
      ['blue', 'selenium', 3, 5],
    ]);
  });

  it('takes what a strip says once for all its rows', () => {
    const { strips } = readReadings(
      lines('strip,material,minutes,log_exposure,density', 'A,film,8,-1,0.5', 'A,,,-2,0.4'),
    );
    expect(strips).toHaveLength(1);
    expect(strips[0]).toMatchObject({ material: 'film', minutes: 8 });
  });

  it('names columns that it leaves out', () => {
    const { warnings } = readReadings(lines('strip,log_exposure,density,chanel', 'A,1,2,blue'));
    expect(warnings).toEqual([{ code: 'columns-ignored', details: { columns: 'chanel' } }]);
  });

  it('accepts reversed order and notices it', () => {
    const [header, ...rows] = GOOD.split('\n');
    expect(codes(lines(header!, ...rows.toReversed()))).toEqual([['readings-reversed']]);
    expect(codes(GOOD)).toEqual([[]]);
    expect(codes(lines('log_exposure,density', '-1,2', '-2,1'))).toEqual([['readings-reversed']]);
    expect(codes(lines('log_exposure,density', '-2,1', '-1,2'))).toEqual([[]]);
  });

  it('takes a whole strip read twice as replicates, without a warning', () => {
    const [, ...rows] = GOOD.split('\n');
    expect(codes(lines(GOOD, ...rows))).toEqual([[]]);
  });

  it('notices a strip listed twice with different steps', () => {
    expect(codes(lines(GOOD, 'A,1,0.05,1.5', 'A,2,0.35,1.2'))).toEqual([['step-sets-conflict']]);
    expect(codes(lines(GOOD, 'A,4,1.25,0.6'))).toEqual([['step-sets-conflict']]);
  });

  it('notices an unexposed reading that is denser than an exposed step', () => {
    expect(codes(lines(GOOD, 'A,,,0.9'))).toEqual([['unexposed-denser']]);
    expect(codes(lines(GOOD, 'A,,,0.2'))).toEqual([[]]);
  });

  it('notices a step without an exposure: the tablet may be shorter than the readings', () => {
    const { strips } = readReadings(lines(GOOD, 'A,5,,0.3'));
    expect(strips[0]?.warnings).toEqual([{ code: 'unexposed-step', details: { step: 5, row: 6 } }]);
    expect(strips[0]?.unexposedDensities).toEqual([0.3]);
  });

  it.each([
    ['one endless line', 'x'.repeat(400_000), false],
    ['an endless quotation', `"${'x\n'.repeat(200_000)}`, true],
  ])('refuses %s without reading all of it', (_what, piece, afterHeader) => {
    const reader = readingsReader({ file: 'a.csv' });
    if (afterHeader) reader.push(`${GOOD}\n`);
    expect(() => {
      for (let i = 0; i < 20; i += 1) reader.push(i === 0 ? piece : piece.replace('"', 'x'));
    }).toThrow(/^a\.csv, row \d: the row does not end within 1000000 characters/);
  });

  it('counts unread steps', () => {
    const { strips } = readReadings(lines(GOOD, 'A,5,1.25,', 'A,6,1.55,'));
    expect(strips[0]?.warnings).toEqual([
      { code: 'steps-unread', details: { count: 2, strip: 'A', rows: '6, 7' } },
    ]);
  });

  it.each<[string, string, string, number | undefined, string | undefined]>([
    ['nothing', '', 'file-empty', undefined, undefined],
    ['blank lines alone', '\n \n', 'file-empty', undefined, undefined],
    ['a header alone', 'strip,log_exposure,density\n', 'no-rows', undefined, undefined],
    ['no header', 'A,1,0.05,1.5\nA,2,0.35,1.2', 'no-header', 1, undefined],
    ['names of its own', 'foo,bar\n1,2', 'missing-column', 1, undefined],
    ['no density', 'strip,log_exposure\nA,1', 'missing-column', 1, undefined],
    ['no exposure', 'strip,density\nA,1', 'missing-column', 1, undefined],
    ['steps without a tablet', 'step,density\n1,1', 'missing-column', 1, undefined],
    ['a column twice', 'density,Density,log_exposure\n1,1,1', 'double-column', 1, 'density'],
    ['text in a number', GOOD.replace('0.90', 'dense'), 'not-a-number', 4, 'density'],
    ['two numbers in a cell', GOOD.replace('0.90', '0.9 0.8'), 'not-a-number', 4, 'density'],
    [
      'thousands',
      GOOD.replaceAll(',', ';').replace('0.90', '1.234,5'),
      'not-a-number',
      4,
      'density',
    ],
    ['a quoted decimal comma', GOOD.replace('0.90', '"0,90"'), 'comma-for-point', 4, 'density'],
    ['a bare decimal comma', GOOD.replace('0.90', '0,90'), 'comma-for-point', 4, undefined],
    ['an extra field', GOOD.replaceAll(',', ';') + ';x', 'extra-fields', 5, undefined],
    ['a density of 6.1', GOOD.replace('0.90', '6.1'), 'out-of-range', 4, 'density'],
    ['a density of -0.6', GOOD.replace('0.90', '-0.6'), 'out-of-range', 4, 'density'],
    ['a density of 1e999', GOOD.replace('0.90', '1e999'), 'not-a-number', 4, 'density'],
    ['a tablet density of 65', GOOD.replace('0.65', '65'), 'out-of-range', 4, 'tablet_density'],
    ['a row without a strip', GOOD.replace('A,3', ',3'), 'no-strip-name', 4, 'strip'],
    ['three usable points', GOOD.replace('0.90', ''), 'too-few-points', 5, 'density'],
    ['bytes', `${GOOD}\nB,\u0000\u0001`, 'file-binary', undefined, undefined],
    ['a quotation mark left open', `${GOOD}\n"B,1,2,3\nB,1,2,3\n`, 'quote-open', 6, undefined],
  ])('refuses %s', (_what, text, code, row, column) => {
    const fault = faultOf(text);
    expect(fault.code).toBe(code);
    expect(fault.place).toEqual({
      file: 'a.csv',
      ...(row !== undefined && { row }),
      ...(column !== undefined && { column }),
    });
    expect(fault.message).toMatch(/^a\.csv(, row \d+)?(, column "\w+")?: .+\. .+\.$/);
  });

  it.each([
    ['an unknown channel', 'channel', 'infra', 'not-a-name'],
    ['an unknown material', 'material', 'glass', 'not-a-name'],
    ['a dilution that can mean two things', 'parts_water', '1:9', 'dilution-ambiguous'],
    ['water below nothing', 'parts_water', '-1', 'out-of-range'],
    ['a temperature of 200', 'bath_celsius', '200', 'out-of-range'],
  ])('refuses %s', (_what, column, cell, code) => {
    const fault = faultOf(`strip,log_exposure,density,${column}\nA,-1,0.5,${cell}`);
    expect(fault.code).toBe(code);
    expect(fault.place).toEqual({ file: 'a.csv', row: 2, column });
  });

  it('refuses a text longer than is allowed, in pieces', () => {
    const sink = { score: () => 1, header: () => undefined, record: () => undefined };
    const reader = recordReader(sink, {}, 2e6);
    reader.push(`${GOOD}\n`);
    expect(() => {
      for (let i = 0; i < 3; i += 1) reader.push(`A,1,0.05,1.5,${' '.repeat(999_987)}\n`);
    }).toThrow(/larger than 2 million characters/);
  });
});

describe('readingsReader, strip by strip', () => {
  const rows = (name: string, steps: number) =>
    Array.from({ length: steps }, (_, i) => `${name},${i + 1},${-i / 10},${1 + i / 10}\n`).join('');
  const HEADER = 'strip,step,log_exposure,density\n';

  it('gives each strip as soon as enough others have come, whole and in order', () => {
    const given: string[] = [];
    const onStrip = (strip: ReadingsStrip) => given.push(`${strip.name} ${strip.readings.length}`);
    const reader = readingsReader({}, { onStrip, openStrips: 2 });
    reader.push(HEADER + rows('A', 3) + rows('B', 3) + rows('A', 1));
    expect(given).toEqual([]);
    reader.push(rows('C', 2));
    expect(given).toEqual(['B 3']);
    expect(reader.end().strips).toEqual([]);
    expect(given).toEqual(['B 3', 'A 4', 'C 2']);
  });

  it('refuses a strip that goes on after it was given', () => {
    const reader = readingsReader({}, { onStrip: () => undefined, openStrips: 1 });
    expect(() => {
      reader.push(HEADER + rows('A', 3) + rows('B', 3) + rows('A', 1));
    }).toThrow(/row 8: strip "A" goes on after many others/);
  });

  it('gives what reading the whole file gives', () => {
    const text = HEADER + rows('A', 4) + rows('B', 5) + rows('C', 6);
    const strips: ReadingsStrip[] = [];
    const reader = readingsReader({}, { onStrip: (strip) => strips.push(strip), openStrips: 1 });
    for (const character of text) reader.push(character);
    reader.end();
    expect(strips).toEqual(readReadings(text).strips);
  });
});

describe('curveReadingsOf', () => {
  const [byTablet] = readReadings(GOOD).strips;
  const [byExposure] = readReadings(
    lines('log_exposure,density', '-2,0.2', '-1.5,0.4', '-1,0.8', '-0.5,1.2'),
  ).strips;

  it('takes a tablet alone as relative, and a source makes it absolute', () => {
    const relative = curveReadingsOf(byTablet!);
    expect(relative.exposureKind).toBe('relative');
    expect(relative.readings.logExposures).toEqual([-0.05, -0.35, -0.65, -0.95]);
    expect(relative.warnings).toEqual([]);
    const absolute = curveReadingsOf(byTablet!, { sourceLogExposure: 0.05 });
    expect(absolute.exposureKind).toBe('absolute');
    expect(absolute.readings.logExposures[0]).toBe(0);
  });

  it('takes written log exposures as absolute and says so, unless told', () => {
    expect(curveReadingsOf(byExposure!)).toMatchObject({
      exposureKind: 'absolute',
      points: 4,
      warnings: [{ code: 'exposure-assumed-absolute' }],
    });
    expect(curveReadingsOf(byExposure!, { logExposure: 'absolute' }).warnings).toEqual([]);
    expect(curveReadingsOf(byExposure!, { logExposure: 'relative' }).exposureKind).toBe('relative');
  });

  it('finds the exposures of bare steps on a tablet that is named', () => {
    const text = 'step,density\n1,1.5\n2,1.2\n3,0.9\n4,0.6\n';
    const [strip] = readReadings(text, { stepsSuffice: true }).strips;
    const tabletDensities = [0.05, 0.2, 0.35, 0.5];
    expect(curveReadingsOf(strip!, { tabletDensities }).readings.logExposures).toEqual([
      -0.05, -0.2, -0.35, -0.5,
    ]);
    expect(() => curveReadingsOf(strip!, { tabletDensities: [0.05, 0.2, 0.35] })).toThrow(
      /row 5, column "step": there is no step 4 on this tablet, which has 3 steps/,
    );
  });

  it('refuses to mix absolute log exposures with relative ones in one strip', () => {
    const text =
      'log_exposure,tablet_density,density\n-1,,0.5\n-2,,0.4\n-3,,0.3\n,1.5,0.5\n,2.5,0.4\n';
    const [strip] = readReadings(text).strips;
    expect(() => curveReadingsOf(strip!)).toThrow(/absolute log exposures on some rows/);
    expect(curveReadingsOf(strip!, { sourceLogExposure: 0 }).points).toBe(5);
  });
});

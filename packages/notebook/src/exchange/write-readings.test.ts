import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readReadings } from './read-readings.ts';
import type { ReadingsStrip } from './readings-strip.ts';
import { writeReadings } from './write-readings.ts';

const density = fc.double({ min: -0.5, max: 6, noNaN: true });
const name = fc
  .string({
    minLength: 1,
    maxLength: 12,
    unit: fc.constantFrom('a', 'À', '1', ' ', ',', ';', '\t', '"', '\n', '#', '字'),
  })
  .map((text) => `s${text}`.trim());
const strip = fc.record({
  name,
  material: fc.constantFrom<'film' | 'paper'>('film', 'paper'),
  minutes: fc.option(fc.double({ min: 0.5, max: 60, noNaN: true })),
  bath: fc.boolean(),
  rows: fc.array(fc.record({ tablet: density, density: fc.option(density) }), {
    minLength: 1,
    maxLength: 8,
  }),
  unexposed: fc.array(density, { maxLength: 2 }),
});

describe('writeReadings', () => {
  it.each([
    [',', false],
    [';', false],
    [';', true],
    ['\t', true],
  ] as const)('comes back as it was, between "%s", decimal comma %s', (delimiter, decimalComma) => {
    fc.assert(
      fc.property(fc.uniqueArray(strip, { selector: (s) => s.name, minLength: 1 }), (made) => {
        const strips = made.map((s, index) => ({
          name: s.name,
          material: s.material,
          channel: 'blue' as const,
          minutes: s.minutes,
          celsius: null,
          treatment: s.bath ? 'selenium' : null,
          partsWater: s.bath ? 3 : null,
          bathMinutes: s.bath ? 5.5 : null,
          bathCelsius: null,
          processedOn: s.bath ? null : '2026-02-28',
          control: s.unexposed.length > 1,
          readings: s.rows.map((row, step) => ({
            step: step + 1,
            tabletDensity: row.tablet || 0,
            logExposure: null,
            density: row.density === null ? null : row.density || 0,
            row: 0,
          })),
          unexposedDensities: s.unexposed.map((value) => value || 0),
          unread: s.rows.filter((row) => row.density === null).length,
          firstRow: index,
          lastRow: index,
          warnings: [],
        }));
        const text = writeReadings(strips, { delimiter, decimalComma });
        const back = readReadings(text).strips;
        const plain = (list: readonly ReadingsStrip[]) =>
          list.map((one) => ({
            ...one,
            firstRow: 0,
            lastRow: 0,
            warnings: [],
            readings: one.readings.map((reading) => ({ ...reading, row: 0 })),
          }));
        expect(plain(back)).toEqual(plain(strips));
      }),
    );
  });

  it('writes RFC 4180: CRLF line ends, quotes doubled', () => {
    const { strips } = readReadings('strip,log_exposure,density\n"a ""b"", c",-1.5,0.25\n');
    expect(writeReadings(strips)).toBe('strip,log_exposure,density\r\n"a ""b"", c",-1.5,0.25\r\n');
  });
});

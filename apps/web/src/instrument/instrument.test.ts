import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { simulatedSerial } from '../../../../test/simulated-serial.ts';
import { learnPlace, readLine, withPlace, type Example } from './learnt-place.ts';
import { LineSplitter } from './line-splitter.ts';
import { numbersIn } from './number-in-line.ts';
import { DEFAULT_SETTINGS, rememberedSettings, rememberSettings } from './port-settings.ts';
import { readPort, type LeftOut } from './read-port.ts';
import { serialOf } from './serial-port.ts';

const split = (pieces: readonly string[]) => {
  const splitter = new LineSplitter();
  return pieces.flatMap((piece) => splitter.push(piece).lines);
};

describe('LineSplitter', () => {
  it.each([
    ['returns', ['1.2', '6\r0.8', '1\r']],
    ['line feeds', ['1.26\n', '0.81\n']],
    ['pairs across pieces', ['1.26\r', '\n0.81', '\r', '\n']],
    ['empty lines and frames', ['\u0002 1.26 \u0003\r\n\r\n', '\n0.81\r']],
  ])('ends lines with %s', (_, pieces) => {
    expect(split(pieces)).toEqual(['1.26', '0.81']);
  });

  it('gives the same lines however the text is cut', () => {
    const texts = fc.array(fc.constantFrom('1.26', 'D', ' ', '\r', '\n', '\r\n'), {
      maxLength: 30,
    });
    fc.assert(
      fc.property(texts, fc.array(fc.nat(8), { minLength: 1 }), (parts, sizes) => {
        const text = parts.join('');
        const pieces: string[] = [];
        for (let at = 0, i = 0; at < text.length; i++) {
          const size = 1 + (sizes[i % sizes.length] ?? 0);
          pieces.push(text.slice(at, at + size));
          at += size;
        }
        const whole = text.split(/\r\n|\r|\n/).slice(0, -1);
        expect(split(pieces)).toEqual(whole.map((line) => line.trim()).filter((l) => l !== ''));
      }),
    );
  });

  it('leaves out a line that does not end, and takes the next', () => {
    const splitter = new LineSplitter();
    expect(splitter.push('x'.repeat(500)).overlong).toBe(true);
    expect(splitter.push('more\r0.81\r').lines).toEqual(['0.81']);
  });

  it('holds back what has not ended', () => {
    const splitter = new LineSplitter();
    expect(splitter.push('1.2').lines).toEqual([]);
    expect(splitter.pending).toBe('1.2');
  });
});

describe('numbersIn', () => {
  it('takes a sign for a sign, and the hyphen of a date for none', () => {
    const values = (line: string) => numbersIn(line, '.').map(({ value }) => value);
    expect(values('2026-11-26 D-0.01 V=+1.26 −.05 1.5E-1')).toEqual([
      2026, 11, 26, -0.01, 1.26, -0.05, 0.15,
    ]);
    expect(numbersIn('001 1,26 %', ',')).toEqual([
      { value: 1, decimals: 0, percent: false },
      { value: 1.26, decimals: 2, percent: true },
    ]);
  });
});

const example = (line: string, shown: string): Example => ({
  line,
  shown: { value: Number(shown), decimals: shown.split('.')[1]?.length ?? 0 },
});

describe('learnPlace', () => {
  it.each([
    ['a number alone', '1.26', '1.26', '0.81', '0.81'],
    ['between a count and a word', '001  1.26 D', '1.26', '012 -0.01 D', '-0.01'],
    ['a decimal comma', 'D 1,26', '1.26', 'D 0,81', '0.81'],
    ['commas between, points within', '7,1.26,0.52', '1.26', '8,0.81,0.40', '0.81'],
    ['more digits than are shown', 'V1.264', '1.26', 'V0.812', '0.812'],
    ['no decimal mark', 'D0126', '1.26', 'D0081', '0.81'],
    ['per cent', 'T 5.5%', '5.5', 'T 25.1 %', '25.1 %'],
  ])('finds %s', (_, line, shown, next, expected) => {
    const learnt = learnPlace(example(line, shown));
    if (learnt.status !== 'found') throw new Error(learnt.status);
    expect(readLine(next, [learnt.place])).toBe(expected);
  });

  it('tells when two numbers could be meant, and another reading decides', () => {
    const first = example('C1.26 M1.26 Y0.90', '1.26');
    const learnt = learnPlace(first);
    expect(learnt).toMatchObject({ status: 'ambiguous', places: [{ index: 0 }, { index: 1 }] });
    const second = learnPlace(example('C0.52 M0.81 Y0.40', '0.81'), [first]);
    expect(second).toMatchObject({ status: 'found', place: { index: 1 } });
  });

  it('says when the number is not there, or contradicts what was shown before', () => {
    expect(learnPlace(example('D1.26', '1.27'))).toEqual({
      status: 'not-found',
      contradicted: false,
    });
    const before = [example('C1.26 M0.90', '1.26')];
    expect(learnPlace(example('C0.40 M0.52', '0.52'), before)).toEqual({
      status: 'not-found',
      contradicted: true,
    });
  });

  it('reads no number from a line of another form: a date, a fault, the half of a reading', () => {
    const learnt = learnPlace(example('1.26 D', '1.26'));
    if (learnt.status !== 'found') throw new Error(learnt.status);
    for (const line of ['Checked 2026-11-26', 'OVER RANGE', '26 D', '1.26', '1.2 D', '1.26 D 5']) {
      expect(readLine(line, [learnt.place])).toBeNull();
    }
  });

  it('keeps a place for each form, and the newest for each', () => {
    const learn = (line: string, shown: string) => {
      const learnt = learnPlace(example(line, shown));
      if (learnt.status !== 'found') throw new Error(learnt.status);
      return learnt.place;
    };
    let places = withPlace([], learn('VIS 1.26 1.30', '1.26'));
    places = withPlace(places, learn('BLU 1.40', '1.40'));
    places = withPlace(places, learn('VIS 1.26 1.30', '1.30'));
    expect(readLine('VIS 0.50 0.60', places)).toBe('0.6');
    expect(readLine('BLU 0.70', places)).toBe('0.7');
  });
});

describe('the settings', () => {
  const storeOf = (text: string | null) => {
    const kept = { text };
    const store = {
      getItem: () => kept.text,
      setItem: (_: string, value: string) => {
        kept.text = value;
      },
    };
    return () => store;
  };
  it('come back as kept', () => {
    const store = storeOf(null);
    const settings = {
      port: { baudRate: 1200, dataBits: 7, parity: 'even', stopBits: 2, flowControl: 'hardware' },
      places: [{ form: 'D#', mark: ',', index: 0, decimals: 2, shift: 0 }],
      sound: false,
    } as const;
    rememberSettings(settings, store);
    expect(rememberedSettings(store)).toEqual(settings);
  });
  it.each(['{', 'null', '[]', '{"port":{"baudRate":1e9},"places":[{"form":1}]}'])(
    'are the usual ones where %s is kept',
    (text) => {
      expect(rememberedSettings(storeOf(text))).toEqual(DEFAULT_SETTINGS);
    },
  );
  it('do without a store that is barred', () => {
    const barred = () => {
      throw new Error('barred');
    };
    rememberSettings(DEFAULT_SETTINGS, barred);
    expect(rememberedSettings(barred)).toEqual(DEFAULT_SETTINGS);
  });
});

describe('readPort', () => {
  const listen = async (startedAfter = 1000) => {
    const simulated = simulatedSerial();
    const lines: string[] = [];
    const leftOut: LeftOut[] = [];
    const stop = new AbortController();
    let clock = 0;
    const sink = {
      opened: () => undefined,
      line: (line: string) => lines.push(line),
      pending: () => undefined,
      leftOut: (why: LeftOut) => leftOut.push(why),
    };
    const port = simulated.serial.requestPort();
    const end = readPort(await port, DEFAULT_SETTINGS.port, sink, stop.signal, () => clock);
    await settled();
    clock = startedAfter;
    return { ...simulated, lines, leftOut, stop, end };
  };
  const settled = () => new Promise((resolve) => setTimeout(resolve, 5));

  it('opens with the settings, gives whole lines, and closes when told', async () => {
    const { send, lines, stop, end, port } = await listen();
    expect(port.options).toEqual(DEFAULT_SETTINGS.port);
    send('D1.');
    send('26\r');
    send('\nD0.81\r\n');
    await settled();
    expect(lines).toEqual(['D1.26', 'D0.81']);
    stop.abort();
    expect(await end).toEqual({ reason: 'closed', half: '' });
    expect(port.readable).toBeNull();
  });

  it('gives nothing of a line that the unplugged port cut off, and tells of it', async () => {
    const { send, unplug, lines, end } = await listen();
    send('D1.26\rD0.8');
    await settled();
    unplug();
    expect(await end).toEqual({ reason: 'lost', half: 'D0.8' });
    expect(lines).toEqual(['D1.26']);
  });

  it('leaves out the line in which characters were damaged, and reads on', async () => {
    const { send, damage, lines, leftOut, stop, end } = await listen();
    send('D1.2');
    await settled();
    damage();
    await settled();
    send('6\rD0.81\r');
    await settled();
    expect(lines).toEqual(['D0.81']);
    expect(leftOut).toEqual(['damaged']);
    stop.abort();
    await end;
  });

  it('leaves out a line that was being sent when it began to listen', async () => {
    const { send, lines, leftOut, stop, end } = await listen(20);
    send('.26\rD0.81\r');
    await settled();
    expect(lines).toEqual(['D0.81']);
    expect(leftOut).toEqual(['begun-before']);
    stop.abort();
    await end;
  });

  it('says when a port cannot be opened', async () => {
    const { port, serial, stop, end } = await listen();
    const sink = { opened() {}, line() {}, pending() {}, leftOut() {} };
    const again = readPort(port, DEFAULT_SETTINGS.port, sink, stop.signal);
    await expect(again).rejects.toThrow('open already');
    expect(serialOf({ serial })).toBe(serial);
    expect(serialOf({})).toBeNull();
    stop.abort();
    await end;
  });
});

/** How an instrument sends, and what was learnt of its lines; kept in this browser alone. */
import type { Place } from './learnt-place.ts';

export const BAUD_RATES = [300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200] as const;
export const DATA_BITS = [7, 8] as const;
export const PARITIES = ['none', 'even', 'odd'] as const;
export const STOP_BITS = [1, 2] as const;
export const FLOW_CONTROLS = ['none', 'hardware'] as const;

/** The options of a serial port, by the names that browsers use. */
export interface PortOptions {
  readonly baudRate: (typeof BAUD_RATES)[number];
  readonly dataBits: (typeof DATA_BITS)[number];
  readonly parity: (typeof PARITIES)[number];
  readonly stopBits: (typeof STOP_BITS)[number];
  readonly flowControl: (typeof FLOW_CONTROLS)[number];
}

export interface InstrumentSettings {
  readonly port: PortOptions;
  readonly places: readonly Place[];
  readonly sound: boolean;
}

/** 9600 baud, 8 data bits, no parity, 1 stop bit: the commonest settings, as common practice. */
export const DEFAULT_SETTINGS: InstrumentSettings = {
  port: { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' },
  places: [],
  sound: true,
};

const KEY = 'wedgebook-instrument';
const MOST_PLACES = 50;

type Store = Pick<globalThis.Storage, 'getItem' | 'setItem'>;

/** What was kept, each part checked; the default stands for what is not there or makes no sense. */
export function rememberedSettings(store: () => Store = () => localStorage): InstrumentSettings {
  try {
    return checked(JSON.parse(store().getItem(KEY) ?? 'null'));
  } catch {
    return DEFAULT_SETTINGS; // storage may be barred, or hold something else
  }
}

export function rememberSettings(
  settings: InstrumentSettings,
  store: () => Store = () => localStorage,
): void {
  try {
    store().setItem(KEY, JSON.stringify(settings));
  } catch {
    // Not remembered; the settings still hold for this visit.
  }
}

function checked(kept: unknown): InstrumentSettings {
  const { port, places, sound } = record(kept);
  const options = record(port);
  const initial = DEFAULT_SETTINGS.port;
  const oneOf = <T>(list: readonly T[], value: unknown, otherwise: T): T =>
    list.find((each) => each === value) ?? otherwise;
  return {
    port: {
      baudRate: oneOf(BAUD_RATES, options['baudRate'], initial.baudRate),
      dataBits: oneOf(DATA_BITS, options['dataBits'], initial.dataBits),
      parity: oneOf(PARITIES, options['parity'], initial.parity),
      stopBits: oneOf(STOP_BITS, options['stopBits'], initial.stopBits),
      flowControl: oneOf(FLOW_CONTROLS, options['flowControl'], initial.flowControl),
    },
    places: Array.isArray(places) ? places.filter(isPlace).slice(-MOST_PLACES) : [],
    sound: sound !== false,
  };
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}

function isPlace(value: unknown): value is Place {
  const { form, mark, index, decimals, shift } = record(value);
  const counts = [index, decimals, shift].every(
    (count) => Number.isInteger(count) && Number(count) >= 0,
  );
  return typeof form === 'string' && (mark === '.' || mark === ',') && counts;
}

/**
 * Quantities as people type them, turned into the one unit that the library uses.
 *
 * Sources: [NIST811] for the customary units, as mathjs has them. Deviations: `oz` after a volume
 * means the US fluid ounce.
 */
import { QuantityError } from './quantity-error.ts';
import { readNumber } from './read-number.ts';
import { quantityOf } from './unit-factory.ts';

/** A kind of quantity: the unit it is turned into, and what users call the units. */
interface Kind {
  /** Unit of the result, in mathjs' notation. */
  readonly base: string;
  readonly expected: string;
  /** Names in lower case that mathjs does not know or knows as something else. */
  readonly names: Readonly<Record<string, string>>;
  readonly least: number;
  readonly most: number;
}

const VOLUME: Kind = {
  base: 'ml',
  expected: 'a volume such as 250 ml, 1 l or 8 fl oz',
  names: {
    ml: 'ml',
    cc: 'cc',
    'fl oz': 'floz',
    'fl. oz.': 'floz',
    'us fl oz': 'floz',
    oz: 'floz',
    l: 'l',
    litre: 'l',
    litres: 'l',
    liter: 'l',
    liters: 'l',
    qt: 'quart',
    pt: 'pint',
    gal: 'gallon',
  },
  least: 0,
  most: 1e6,
};
const TEMPERATURE: Kind = {
  base: 'degC',
  expected: 'a temperature such as 20 °C or 68 °F',
  names: {
    c: 'degC',
    '°c': 'degC',
    celsius: 'degC',
    degc: 'degC',
    f: 'degF',
    '°f': 'degF',
    fahrenheit: 'degF',
    degf: 'degF',
    k: 'K',
  },
  least: -20,
  most: 110,
};
const TIME: Kind = {
  base: 's',
  expected: 'a time such as 1/4 s, 6.5 min or 6:30',
  names: {
    s: 's',
    sec: 's',
    secs: 's',
    second: 's',
    seconds: 's',
    '"': 's',
    '″': 's',
    m: 'minute',
    min: 'minute',
    mins: 'minute',
    minute: 'minute',
    minutes: 'minute',
    "'": 'minute',
    '′': 'minute',
    h: 'hour',
    ms: 'ms',
  },
  least: 0,
  most: 1e6,
};
const EXPOSURE: Kind = {
  base: 'lux s',
  expected: 'an exposure such as 12 lux s',
  names: {
    'lx s': 'lux s',
    'lx·s': 'lux s',
    'lux·s': 'lux s',
    lxs: 'lux s',
    'lux seconds': 'lux s',
  },
  least: 0,
  most: 1e9,
};

/**
 * Volume in millilitres.
 *
 * @param text - such as `250 ml`, `1.5 l`, `8 fl oz`
 * @param defaultUnit - unit of a bare number; without it a bare number is refused
 * @throws QuantityError if the text is no volume
 * @example
 * parseVolume('0.5 l'); // => 500
 */
export function parseVolume(text: string, defaultUnit?: string): number {
  return parseAs(VOLUME, text, defaultUnit);
}

/**
 * Temperature in °C.
 *
 * @param text - such as `20 °C`, `68 degF`, `68F`
 * @param defaultUnit - unit of a bare number; without it a bare number is refused
 * @throws QuantityError if the text is no temperature
 * @example
 * parseTemperature('68 degF'); // => 20
 */
export function parseTemperature(text: string, defaultUnit?: string): number {
  return parseAs(TEMPERATURE, text, defaultUnit);
}

/**
 * Exposure in lux-seconds.
 *
 * @param text - such as `12 lux s`
 * @throws QuantityError if the text is no exposure
 * @example
 * parseExposure('12 lux s'); // => 12
 */
export function parseExposure(text: string, defaultUnit?: string): number {
  return parseAs(EXPOSURE, text, defaultUnit);
}

/**
 * Time in seconds.
 *
 * @param text - such as `1/4 s`, `6.5 min`, `6:30` (minutes:seconds), `6 min 30 s`
 * @param defaultUnit - unit of a bare number; without it a bare number is refused
 * @throws QuantityError if the text is no time
 * @example
 * parseTime('6:30'); // => 390
 */
export function parseTime(text: string, defaultUnit?: string): number {
  const clock = /^\s*([0-9]{1,4}):([0-5][0-9](?:[.,][0-9]+)?)\s*(?:min)?\s*$/.exec(text);
  if (clock) return 60 * Number(clock[1]) + Number((clock[2] ?? '').replace(',', '.'));
  const parts = /^(.*[a-zA-Z'′])\s*([0-9].*)$/.exec(text.trim());
  if (parts) {
    const [, first = '', second = ''] = parts;
    const leading = parseAs(TIME, first);
    const trailing = parseAs(TIME, second, 's');
    // 6 min 30 s, never 30 s 6 min.
    if (leading >= 60 && trailing < 60) return leading + trailing;
    throw new QuantityError('not-a-number', text, TIME.expected);
  }
  return parseAs(TIME, text, defaultUnit);
}

function parseAs(kind: Kind, text: string, defaultUnit?: string): number {
  const { value, rest } = readNumber(text, kind.expected);
  const unit = rest === '' ? defaultUnit : rest;
  if (unit === undefined) throw new QuantityError('unit-missing', text, kind.expected);
  // Units are names with powers; anything else, brackets and calls above all, is refused unseen.
  if (!/^[\p{L}°'"′″·.\s*^/0-9]{1,24}$/u.test(unit)) {
    throw new QuantityError('unknown-unit', text, kind.expected);
  }
  const known = kind.names[unit.toLowerCase()] ?? unit;
  const quantity = quantityOf(value, known);
  if (quantity === null) throw new QuantityError('unknown-unit', text, kind.expected);
  const base = quantityOf(1, kind.base);
  if (base === null || !quantity.equalBase(base)) {
    throw new QuantityError('wrong-dimension', text, kind.expected);
  }
  // Twelve digits: 250 ml must not become 250.00000000000003 on its way through litres.
  const result = Number(quantity.toNumber(kind.base).toPrecision(12));
  if (!(result >= kind.least && result <= kind.most)) {
    throw new QuantityError('out-of-range', text, kind.expected);
  }
  return result;
}

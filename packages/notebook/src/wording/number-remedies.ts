/** What to write in place of a number that was written in another unit or another way. */

/** Minutes of a clock's `6:30`; null where it is none. */
function minutesOfClock(written: string): number | null {
  const [, minutes, seconds] = /^(\d{1,4}):([0-5]\d)$/.exec(written.trim()) ?? [];
  return minutes === undefined ? null : Number(minutes) + Number(seconds) / 60;
}

const short = (value: number): string => String(Number(value.toFixed(2)));

/** Celsius of a temperature in Fahrenheit, to a tenth. */
const celsiusOf = (fahrenheit: number): string =>
  String(Number(((fahrenheit - 32) / 1.8).toFixed(1)));

/** Where a photographer works, in Fahrenheit: no Celsius that a bath could have. */
const isFahrenheit = (value: number): boolean => value > 60 && value <= 140;

/**
 * What to write for words that are no plain number.
 *
 * @param quantity - what the number is of, such as `minutes` or `bath_celsius`
 * @param written - as it stands
 * @returns such as `write 6.5 for 6:30`; null where nothing is known
 */
export function remedyForWords(quantity: string, written: string): string | null {
  const text = written.trim();
  const clock = minutesOfClock(text);
  if (clock !== null) {
    if (/minutes|normal|developed/.test(quantity)) return `write ${short(clock)} for ${text}`;
    if (/seconds/.test(quantity)) return `write ${short(60 * clock)} for ${text}`;
  }
  if (/^-?\d+,\d+$/.test(text)) return `write ${text.replace(',', '.')}, with a decimal point`;
  const [, number, unit = ''] = /^(-?\d+(?:\.\d+)?)\s*(\D{1,12})$/.exec(text) ?? [];
  if (number === undefined) return null;
  if (/celsius/.test(quantity) && /^(°|deg\w*)?\s*f/i.test(unit)) {
    return `write ${celsiusOf(Number(number))} for ${text}`;
  }
  return /^[\p{L}°%"']/u.test(unit) ? `write the number alone, without "${unit.trim()}"` : null;
}

/**
 * What a number out of its range may mean in another unit.
 *
 * @param quantity - as for `remedyForWords`
 * @param value - the number
 * @returns such as `if that is °F, write 20`; null where nothing is known
 */
export function remedyForUnit(quantity: string, value: number): string | null {
  if (/celsius/.test(quantity) && isFahrenheit(value)) {
    return `if that is °F, write ${celsiusOf(value)}`;
  }
  if (/^(to-)?range$|scale$/.test(quantity) && value >= 30 && value <= 250) {
    return `if that is an ISO range R, write ${short(value / 100)}`;
  }
  if (quantity === 'log_exposure' && value > 0) {
    return `if that is in lux-seconds, write its logarithm, ${short(Math.log10(value))}`;
  }
  if (quantity === 'density' && value > 10 && value <= 600) {
    return `if the decimal point is missing, write ${short(value / 100)}`;
  }
  return null;
}

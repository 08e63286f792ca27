import { describe, expect, it } from 'vitest';
import { remedyForUnit, remedyForWords } from './number-remedies.ts';

describe('remedyForWords', () => {
  it.each([
    ['minutes', '6:30', 'write 6.5 for 6:30'],
    ['bath_minutes', '1:20', 'write 1.33 for 1:20'],
    ['seconds', '1:30', 'write 90 for 1:30'],
    ['range', '0,87', 'write 0.87, with a decimal point'],
    ['celsius', '68F', 'write 20 for 68F'],
    ['bath_celsius', '75 °F', 'write 23.9 for 75 °F'],
    ['celsius', '20 °C', 'write the number alone, without "°C"'],
    ['density', '1.41 D', 'write the number alone, without "D"'],
    ['range', '87%', 'write the number alone, without "%"'],
  ])('of %s %s: %s', (quantity, written, remedy) => {
    expect(remedyForWords(quantity, written)).toBe(remedy);
  });

  it('has none for what it cannot tell', () => {
    expect(remedyForWords('density', '6:30')).toBeNull();
    expect(remedyForWords('density', 'smudge')).toBeNull();
    expect(remedyForWords('density', '')).toBeNull();
  });
});

describe('remedyForUnit', () => {
  it.each([
    ['celsius', 68, 'if that is °F, write 20'],
    ['range', 87, 'if that is an ISO range R, write 0.87'],
    ['paper-scale', 110, 'if that is an ISO range R, write 1.1'],
    ['log_exposure', 89.125, 'if that is in lux-seconds, write its logarithm, 1.95'],
    ['density', 141, 'if the decimal point is missing, write 1.41'],
  ])('of %s %f: %s', (quantity, value, remedy) => {
    expect(remedyForUnit(quantity, value)).toBe(remedy);
  });

  it('has none where no other unit would make sense of it', () => {
    expect(remedyForUnit('celsius', 200)).toBeNull();
    expect(remedyForUnit('log_exposure', -30)).toBeNull();
    expect(remedyForUnit('callier', 80)).toBeNull();
    expect(remedyForUnit('density', 7)).toBeNull();
  });
});

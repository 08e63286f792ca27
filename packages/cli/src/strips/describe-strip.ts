/** What a file says of a strip, for the head of its block and for JSON. */
import type { ReadingsStrip } from '@wedgebook/notebook';
import type { FittedStrip } from './fitted-strip.ts';

/** The facts that the file gives; those that it does not give are left out. */
function stripFacts(strip: ReadingsStrip): Readonly<Record<string, string | number>> {
  const { material, channel, minutes, celsius, treatment, partsWater, bathMinutes, bathCelsius } =
    strip;
  const facts = {
    material,
    channel,
    minutes,
    celsius,
    treatment,
    partsWater,
    bathMinutes,
    bathCelsius,
  };
  return Object.fromEntries(
    Object.entries(facts).flatMap(([key, value]) => (value === null ? [] : [[key, value]])),
  );
}

/** The head of a strip's JSON: what was read, and what was fitted to it. */
export function fittedFacts({ strip, curve, points, exposureKind, readings, slips }: FittedStrip) {
  return {
    strip: strip.name,
    ...stripFacts(strip),
    points,
    readings: readings.densities.length,
    unexposedReadings: readings.unexposedDensities?.length ?? 0,
    exposureKind,
    model: curve?.family ?? null,
    slipSearch: slips,
  };
}

/** Such as `Strip A (film, visual; 8 min, 20 °C; selenium 1+3, 5 min)`. */
export function stripTitle(strip: ReadingsStrip): string {
  const join = (parts: readonly (string | null)[]) =>
    parts.filter((part) => part !== null).join(', ');
  const unit = (value: number | null, text: string) => (value === null ? null : `${value} ${text}`);
  const dilution = strip.partsWater === null ? '' : ` 1+${strip.partsWater}`;
  const facts = [
    join([strip.material, strip.channel]),
    join([unit(strip.minutes, 'min'), unit(strip.celsius, '°C')]),
    strip.treatment === null
      ? ''
      : join([
          `${strip.treatment}${dilution}`,
          unit(strip.bathMinutes, 'min'),
          unit(strip.bathCelsius, '°C'),
        ]),
  ].filter((part) => part !== '');
  return `Strip ${strip.name}${facts.length === 0 ? '' : ` (${facts.join('; ')})`}`;
}

/** The measure of contrast, and the end points where it is a chord that the user names. */
import { CHORD_LIMITS, chordName, chordOf, type Chord } from '@wedgebook/core';
import { DEVELOPMENT_MEASURES, type DevelopmentMeasure } from '@wedgebook/notebook';
import { html, nothing, type TemplateResult } from 'lit';
import { choice } from '../parts/fields.ts';
import { chord as text } from '../text/chord.ts';
import { development, measureName } from '../text/development.ts';
import { text as page } from '../text.ts';
import '../parts/number-field.ts';

/** What the chords begin with when they are chosen: end points that no other entry of the list has. */
const FIRST: Readonly<Record<Chord['kind'], Chord>> = {
  over: { kind: 'over', fromNet: 0.1, length: 1.2 },
  between: { kind: 'between', fromNet: 0.1, toNet: 0.9 },
};
const LEAST_RISE = 0.1;

/**
 * List of measures and, for a chord by own end points, its two fields.
 *
 * @param measure - in use
 * @param onMeasure - told what was chosen; `gesture` is set while a number is being typed
 */
export function measureTemplate(
  measure: DevelopmentMeasure,
  onMeasure: (measure: DevelopmentMeasure, gesture?: string) => void,
): TemplateResult {
  const listed = (DEVELOPMENT_MEASURES as readonly string[]).includes(measure);
  const chord = listed ? null : chordOf(measure);
  return html`${choice({
    id: 'measure',
    label: development.measure,
    selected: chord?.kind ?? measure,
    options: [
      ...DEVELOPMENT_MEASURES.map((name) => [name, measureName(name)] as const),
      ['over', text.over],
      ['between', text.between],
    ],
    onChoose: (name) => {
      const own = name === 'over' || name === 'between' ? FIRST[name] : null;
      onMeasure(own === null ? (name as DevelopmentMeasure) : chordName(own));
    },
  })}
  ${chord === null ? nothing : endPointFields(chord, onMeasure)}`;
}

function endPointFields(
  chord: Chord,
  onMeasure: (measure: DevelopmentMeasure, gesture?: string) => void,
): TemplateResult {
  const { fromNet, toNet, length } = CHORD_LIMITS;
  const field = (
    name: string,
    label: string,
    value: number,
    [min, max]: readonly [number, number],
    changed: (value: number) => Chord,
  ) =>
    html`<wb-number
      id=${name}
      label=${label}
      unit=${page.units.density}
      key=${`development/${name}`}
      .value=${value}
      .min=${min}
      .max=${max}
      .step=${0.05}
      .decimals=${2}
      @wb-value=${({ detail }: CustomEvent<number>) => {
        onMeasure(chordName(changed(detail)), name);
      }}
    ></wb-number>`;
  return chord.kind === 'over'
    ? html`${field('chord-from', text.from, chord.fromNet, fromNet, (value) => ({ ...chord, fromNet: value }))}
      ${field('chord-length', text.length, chord.length, length, (value) => ({ ...chord, length: value }))}`
    : html`${field(
        'chord-from',
        text.from,
        chord.fromNet,
        [fromNet[0], Math.min(fromNet[1], chord.toNet - LEAST_RISE)],
        (value) => ({ ...chord, fromNet: value }),
      )}
      ${field(
        'chord-to',
        text.to,
        chord.toNet,
        [chord.fromNet + LEAST_RISE, toNet[1]],
        (value) => ({ ...chord, toNet: value }),
      )}`;
}

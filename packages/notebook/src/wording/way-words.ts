/** The ways out in words: the app and the command say the same. */
import type { NextRoll, WayId, WayLimit, WayOut } from '@wedgebook/core';
import { cautions, wayNotes, type WayNote } from '@wedgebook/data';

export const WAY_NAMES: Readonly<Record<WayId, string>> = {
  'print-to-fit': 'Print on the grade it calls for',
  'split-exposure': 'Split soft and hard exposure',
  'selenium-and-paper': 'Both: short selenium bath, harder paper',
  selenium: 'Selenium bath',
  'chromium-partial': 'Chromium, redeveloped in part',
  chromium: 'Chromium, redeveloped in full',
  'chromium-twice': 'Chromium, a second pass',
  'chromium-then-selenium': 'Both: chromium, then selenium',
  'reduce-proportional': 'Proportional reducer',
  'reduce-superproportional': 'Superproportional reducer',
  'reduce-surface': 'Surface reducer',
  'next-roll': 'Leave it; develop the next roll otherwise',
};

const LIMITS: Readonly<Record<WayLimit, string>> = {
  'falls-short': 'falls short of the aim',
  overshoots: 'goes past the aim',
  'range-unchanged': 'leaves the range as it is',
  'beyond-paper': 'more than variable-contrast paper serves',
  'shadow-lost': 'nothing to take without losing the shadow',
  'beyond-film': 'more than the film can be developed to',
};

const STAIN: Readonly<Record<WayNote['stain'], readonly string[]>> = {
  kept: [],
  'may-go': ['stain may go'],
  lost: ['stain goes'],
};
const KEEPING: Readonly<Record<WayNote['keeping'], readonly string[]>> = {
  same: [],
  better: ['keeps better'],
  unknown: ['keeping not known'],
};
const NOTES = new Map(wayNotes.map((note) => [note.id, note]));
const CAUTIONS = new Map(cautions.map((caution) => [caution.id, caution]));

/** What a way does, in one line: times, parts, gain, and where it ends. */
export function wayDetail(way: WayOut): string {
  const { id, minutes, taken, nextRoll, gain, limit, redevelopedPart, split } = way;
  return [
    ...(minutes === 0 ? ['no bath is needed'] : []),
    ...(minutes !== null && minutes > 0 ? [`${shortMinutes(minutes)} in selenium`] : []),
    ...(redevelopedPart !== null && redevelopedPart < 1
      ? [`stopped when ${(100 * redevelopedPart).toFixed(0)} % of the highlight is back`]
      : []),
    ...(taken !== null && taken > 0 ? [`takes ${taken.toFixed(2)} everywhere`] : []),
    ...(split === null
      ? []
      : [
          `${(100 * split.softTimeShare).toFixed(0)} % of the time through the soft filter, by ${split.origin === 'own' ? 'your own strips' : 'the built-in layer model'}`,
        ]),
    ...(nextRoll === null ? [] : [nextRollText(nextRoll)]),
    ...(gain !== 1 && taken === null && id !== 'next-roll' ? [`gain ×${gain.toFixed(2)}`] : []),
    ...(limit === null ? [] : [LIMITS[limit]]),
  ].join(', ');
}

/** What a way loses, in a few words. */
export function wayLoses(id: WayId): string {
  const note = NOTES.get(id);
  if (note === undefined || id === 'next-roll') return 'this picture';
  const { process, reversible, stain, keeping } = note;
  const parts = [
    ...(reversible ? [] : [process === 'reducer' ? 'silver, for good' : 'the way back']),
    ...STAIN[stain],
    ...KEEPING[keeping],
  ];
  return parts.length === 0 ? 'nothing' : parts.join('; ');
}

/** What can hurt in a way, in a few words; the cautions say it in full. */
export function wayHazards(id: WayId): string {
  const short = (NOTES.get(id)?.hazards ?? []).flatMap(
    (hazard) => CAUTIONS.get(hazard)?.short ?? [],
  );
  return short.length === 0 ? 'no chemistry' : short.join('; ');
}

function nextRollText(next: NextRoll): string {
  const { developmentChange, basis, fromMinutes, celsius, minutes, timeFactor } = next;
  const change = `N${developmentChange < 0 ? '−' : '+'}${Math.abs(developmentChange).toFixed(1)}`;
  if (timeFactor === null) return change;
  const now =
    fromMinutes === null
      ? ''
      : ` instead of ${shortMinutes(fromMinutes)} at ${String(Number(celsius.toFixed(1)))} °C`;
  if (basis === 'strips' && minutes !== null) {
    const { value, standardError } = minutes;
    const error = standardError === null ? '' : ` ± ${standardError.toFixed(1)}`;
    return `${change}: ${value.toFixed(1)}${error} min${now}, by your own strips`;
  }
  const [low, high] = next.plausibleFactor ?? [timeFactor, null];
  const range =
    high === null ? `×${low.toFixed(2)} or more` : `×${low.toFixed(2)} to ×${high.toFixed(2)}`;
  const time =
    minutes === null
      ? `×${timeFactor.toFixed(2)} the time`
      : `about ${shortMinutes(minutes.value)}${now}`;
  return `${change}: ${time} (${range}), by rule: develop strips at two times to know`;
}

const shortMinutes = (minutes: number): string => `${String(Number(minutes.toFixed(1)))} min`;

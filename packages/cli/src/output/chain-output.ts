/** The tone chain of `print --film`, for reading and for JSON. */
import { zoneName } from '@wedgebook/core';
import type { ShownChain } from '../printing/tone-chain-of.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { CHAIN_WORDS as W } from './chain-words.ts';
import { callierText, estimateText, fixed } from './figures.ts';
import { cautionsJson } from './treat-json.ts';
import { cautionsText } from './treat-text.ts';

/** The keys of JSON, but for the warnings, which stand with all others. */
export function chainJson({ cautions, ...chain }: ShownChain): object {
  return {
    ...chain,
    warnings: undefined,
    prints: chain.prints.map(({ zones, ...print }) => ({
      ...print,
      zones: zones.map(({ zone, ...tone }) => ({ zone: zoneName(zone), ...tone })),
    })),
    ...(cautions.length > 0 && { cautions: cautionsJson(cautions) }),
  };
}

export function chainText(chain: ShownChain): string {
  return [
    factList([
      [W.film[0], chain.filmStrip, W.film[1](zoneName(chain.shadowZone))],
      [W.subject[0], fixed(chain.subjectRangeStops, 1), W.subject[1]],
      [W.cameraFlare[0], fixed(chain.cameraFlareFactor, 2), W.cameraFlare[1]],
      [W.light[0], callierText(chain), W.light[1]],
      [W.enlargerFlare[0], `${fixed(100 * chain.enlargerFlare, 1)} %`, W.enlargerFlare[1]],
      [W.paper[0], chain.paper.label, W.paper[1](fixed(chain.paper.exposureScale, 3))],
      [W.held[0], fixed(chain.highlightPrintDensity, 2), W.held[1]],
    ]),
    ...chain.prints.map(
      ({ treated, zones, usefulRange }) =>
        `\n${treated ? W.treated : W.untreated}\n${alignedTable(
          W.columns.map((title, i) => ({ title, align: i === 0 ? 'left' : 'right' }) as const),
          zones.map((tone) => [
            `${zoneName(tone.zone)}${tone.extrapolated ? ' *' : ''}`,
            estimateText(tone.negativeDensity, 2),
            fixed(tone.printingDensity, 2),
            estimateText(tone.printDensity, 2),
            estimateText(tone.lightness, 1),
            fixed(tone.toneGradient, 2),
          ]),
          '  ',
        )}${usefulRange.status === 'none' ? '' : `  ${W.useful(fixed(usefulRange.stops, 1))}\n`}`,
    ),
    chain.prints.some(({ zones }) => zones.some(({ extrapolated }) => extrapolated))
      ? `\n${W.extrapolated}\n`
      : '',
    `\n${W.errors}\n`,
    chain.cautions.length === 0 ? '' : `\n${cautionsText(chain.cautions)}`,
  ].join('');
}

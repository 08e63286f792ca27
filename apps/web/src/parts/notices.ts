/** Templates for what stands beside a number: warnings, source marks, estimates. */
import type { Estimate, Provenance, Warning } from '@wedgebook/core';
import { references } from '@wedgebook/data';
import { warningText } from '@wedgebook/notebook';
import { formatNumber } from '@wedgebook/charts';
import { css, html, nothing, type TemplateResult } from 'lit';
import { text } from '../text.ts';

export const noticeStyles = css`
  .warnings {
    list-style: none;
    margin: 0.75rem 0 0;
    padding: 0;
    display: grid;
    gap: 0.4rem;
  }
  .warnings li {
    border-inline-start: 4px solid var(--text);
    padding: 0.15rem 0 0.15rem 0.75rem;
    max-width: 72ch;
  }
  .mark {
    font-size: 0.8125rem;
    color: var(--quiet);
  }
  .mark b {
    font-weight: 600;
  }
  .unverified b {
    border-bottom: 2px dotted currentColor;
  }
  .se {
    color: var(--quiet);
    font-size: 0.875em;
  }
`;

/** The sentences of warnings, each once. */
export function warningList(warnings: readonly Warning[]): TemplateResult | typeof nothing {
  const sentences = [...new Set(warnings.map((each) => trueMinus(warningText(each))))];
  if (sentences.length === 0) return nothing;
  return html`<ul class="warnings" aria-label=${text.warnings}>
    ${sentences.map((sentence) => html`<li>${sentence}</li>`)}
  </ul>`;
}

/** A hyphen before a figure becomes a minus sign; ranges such as 1966-1978 keep theirs. */
export function trueMinus(sentence: string): string {
  return sentence.replace(/(^|[\s(])-(?=\d)/g, '$1−');
}

/** How a built-in number is known. */
export function sourceMark(provenance: Provenance): TemplateResult {
  const { verified, known, source, references: keys } = provenance;
  const cited = keys.flatMap((key) => {
    const entry = references[key];
    return entry === undefined ? [] : [`${entry.authors}: ${entry.title} (${entry.year})`];
  });
  return html`<span class="mark ${verified ? 'verified' : 'unverified'}" title=${cited.join('; ')}
    ><b>${verified ? text.source.verified : text.source.unverified}</b> ·
    ${text.source.knownBy(known, source)}</span
  >`;
}

/** A number with its standard error, or the word for none. */
export function estimate(
  value: Estimate | null | undefined,
  decimals = 2,
  format: (value: number, decimals: number) => string = formatNumber,
): TemplateResult {
  if (value === null || value === undefined) return html`<span class="quiet">${text.none}</span>`;
  const { standardError } = value;
  if (standardError === null) return withError(format(value.value, decimals), null);
  // A number and its error end at the same place.
  const places = errorDecimals(standardError, decimals);
  return withError(format(value.value, places), errorText(standardError, places));
}

/** A number as it is written, with its error where there is one. */
export function withError(value: string, error: string | null): TemplateResult {
  return html`${value}${
    error === null ? nothing : html` <span class="se" title=${text.standardError}>± ${error}</span>`
  }`;
}

/** An error that would be shown as nothing is said to be less than the last place. */
export function errorText(standardError: number, decimals: number): string {
  const least = 10 ** -decimals;
  return standardError < least / 2
    ? `<${formatNumber(least, decimals)}`
    : formatNumber(standardError, decimals);
}

/** An error too small for the number's decimals gets one more. */
function errorDecimals(standardError: number, decimals: number): number {
  return standardError < 0.5 * 10 ** -decimals ? decimals + 1 : decimals;
}

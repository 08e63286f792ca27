/** Styles of the bath: three controls in a row where there is room, the cautions under them. */
import { css } from 'lit';

export const treatmentStyles = css`
  :host {
    container-type: inline-size;
  }
  .process {
    font-weight: 600;
    margin: 0 0 0.5rem;
  }
  .controls {
    display: grid;
    gap: 0.75rem 1.5rem;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 13rem), 1fr));
  }
  .controls wb-number {
    --field-width: 4.5rem;
  }
  /* Where the sheet stands beside the page it shows the same at a glance. */
  @media (min-width: 62rem) {
    .ruler {
      display: none;
    }
  }
  .cautions {
    border: 2px solid var(--danger-edge);
    border-radius: 0.375rem;
    padding: 0.75rem 1rem 1rem;
    background: var(--surface);
    margin-top: 1rem;
  }
  .cautions h3 {
    margin: 0 0 0.5rem;
  }
  .cautions ul {
    margin: 0;
    padding: 0;
    list-style: none;
    font-size: 0.875rem;
    line-height: 1.35;
    columns: 2 19rem;
    column-gap: 1.75rem;
  }
  .cautions li {
    break-inside: avoid;
    margin-bottom: 0.6rem;
  }
  .severity {
    text-transform: uppercase;
    font-size: 0.8125rem;
    letter-spacing: 0.04em;
    border: 1px solid currentColor;
    border-radius: 0.2rem;
    padding: 0 0.3rem;
  }
  .source {
    display: block;
  }
  .steps {
    padding-inline-start: 1.5rem;
    margin: 0.25rem 0 0.75rem;
    max-width: 72ch;
  }
  .steps li {
    margin-bottom: 0.6rem;
  }
  .steps .caution {
    display: block;
    border-inline-start: 4px solid var(--danger-edge);
    padding-inline-start: 0.6rem;
    margin: 0.25rem 0;
    font-size: 0.9375rem;
  }
  .steps .source {
    font-size: 0.875rem;
  }
  h4 {
    margin: 0.75rem 0 0.25rem;
    font-size: 1rem;
  }
  .before-after {
    max-width: 40rem;
  }
  .before-after .grade td,
  .before-after .grade th {
    font-size: 1.125rem;
    font-weight: 600;
  }
  .before-after th[scope='row'] {
    font-weight: 400;
  }
  .plan {
    font-size: 1.0625rem;
  }
  .origin {
    min-width: 14rem;
  }
  #target {
    width: 10rem;
  }
`;

/** Styles of the bath: controls and cautions side by side where there is room. */
import { css } from 'lit';

export const treatmentStyles = css`
  .bath {
    display: grid;
    gap: 1.25rem 2rem;
    grid-template-columns: repeat(auto-fit, minmax(min(100%, 20rem), 1fr));
    align-items: start;
    margin-bottom: 1.25rem;
  }
  .controls {
    display: grid;
    gap: 0.75rem;
  }
  .process {
    font-weight: 600;
  }
  .cautions {
    border: 2px solid var(--danger-edge);
    border-radius: 0.375rem;
    padding: 0.75rem 1rem 1rem;
    background: var(--surface);
  }
  .cautions h3 {
    margin: 0 0 0.5rem;
  }
  .cautions ul {
    margin: 0;
    padding: 0;
    list-style: none;
    display: grid;
    gap: 0.7rem;
    font-size: 0.9375rem;
    line-height: 1.4;
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
  .before-after {
    margin-top: 1rem;
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

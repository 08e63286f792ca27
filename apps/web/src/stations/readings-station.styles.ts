/** Styles of the first station: the rack beside the typing sheet where there is room. */
import { css } from 'lit';

export const readingsStyles = css`
  :host {
    container-type: inline-size;
  }
  .desk {
    display: grid;
    gap: 1.25rem 2rem;
    grid-template-columns: minmax(0, 1fr);
  }
  @container (min-width: 42rem) {
    .desk {
      grid-template-columns: minmax(24rem, auto) minmax(14rem, 1fr);
    }
    .rack-side {
      grid-column: 2;
    }
    .sheet-side {
      grid-column: 1;
      grid-row: 1;
    }
  }
  .rack {
    display: flex;
    flex-wrap: wrap;
    gap: 0.4rem;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  .rack button {
    text-align: start;
    line-height: 1.25;
    max-width: min(100%, 22rem);
    padding-inline: 0.7rem;
    text-wrap: balance;
  }
  .rack button[aria-pressed='true'] {
    background: var(--selected);
    border: 2px solid var(--text);
    font-weight: 600;
    padding: calc(0.4rem - 1px) calc(0.7rem - 1px);
  }
  .rack button[aria-pressed='true']::before {
    content: '▸ ';
  }
  .rack small {
    display: block;
    font-size: 0.8125rem;
    font-weight: 400;
    color: var(--quiet);
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 0.4rem;
    margin-top: 0.9rem;
  }
  .facts {
    margin-top: 1rem;
  }
  .sheet-side {
    min-width: 0;
  }
  /* Room for the focus ring, which the scrolling edge would cut. */
  .scroll {
    padding: 4px;
    margin: -4px;
  }
  #name {
    width: 12rem;
    font-weight: 600;
  }
`;

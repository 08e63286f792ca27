/** Layout of the page: one column, and the sheet standing beside it where the window is wide. */
import { css } from 'lit';

export const appStyles = css`
  :host {
    min-height: 100vh;
    /* Height of what stays at the top of the window. */
    --bar: 0rem;
  }
  .skip {
    position: absolute;
    left: 0.5rem;
    top: -4rem;
    background: var(--surface);
    color: var(--text);
    padding: 0.75rem 1rem;
    z-index: 3;
  }
  .skip:focus {
    top: 0.5rem;
  }
  header {
    padding: 0.6rem clamp(0.75rem, 2vw, 2rem) 0;
    display: flex;
    flex-wrap: wrap;
    gap: 0.4rem 1.5rem;
    align-items: center;
    justify-content: space-between;
  }
  .title {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 0.25rem 0.9rem;
    flex: 1 1 20rem;
    min-width: 0;
  }
  .name {
    font-family:
      'Iowan Old Style', 'Palatino Linotype', Palatino, 'Liberation Serif', Georgia, serif;
    font-size: 1.35rem;
    font-weight: 600;
    letter-spacing: 0.01em;
  }
  .title input {
    border-color: transparent;
    background: transparent;
    font-size: 1.125rem;
    flex: 1 1 12rem;
    min-width: 0;
    text-overflow: ellipsis;
  }
  .title input:hover,
  .title input:focus {
    border-color: var(--frame);
    background: var(--surface);
  }
  .tag {
    border: 1px solid currentColor;
    border-radius: 0.25rem;
    padding: 0 0.4rem;
    font-size: 0.875rem;
    white-space: nowrap;
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: 0.4rem;
    align-items: center;
  }
  .tools button {
    padding-inline: 0.7rem;
  }
  .theme {
    display: inline-flex;
    align-items: center;
    gap: 0.4rem;
    margin: 0;
  }
  .kept {
    font-size: 0.875rem;
    color: var(--quiet);
    padding-inline-start: 0.4rem;
  }
  nav {
    padding: 0 clamp(0.75rem, 2vw, 2rem);
    border-bottom: 1px solid var(--rule);
    background: var(--ground);
  }
  nav ul {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1.25rem;
    list-style: none;
    margin: 0;
    padding: 0;
  }
  nav a {
    display: inline-flex;
    align-items: center;
    min-height: 2.75rem;
    color: var(--text);
    text-decoration: none;
    border-bottom: 2px solid transparent;
  }
  nav li + li a::before {
    content: '→';
    color: var(--quiet);
    margin-inline-end: 1.25rem;
  }
  nav a:hover,
  nav a:focus-visible {
    text-decoration: underline;
  }
  main {
    padding: 0 clamp(0.75rem, 2vw, 2rem);
  }
  .notice {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.25rem;
    align-items: center;
    margin: 0.75rem 0;
    padding: 0.5rem 0.9rem;
    border: 1px solid var(--frame);
    border-inline-start-width: 4px;
    background: var(--surface);
    max-width: none;
  }
  .page {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 0 clamp(1.5rem, 2.5vw, 3rem);
    margin-top: 0.75rem;
  }
  .beside {
    min-width: 0;
    margin-bottom: 1.5rem;
  }
  /* What is out of sight is not laid out until it comes near: typing stays quick. */
  wb-curve,
  wb-measures,
  wb-match,
  wb-treatment,
  wb-lazy-station {
    content-visibility: auto;
    contain-intrinsic-size: auto 50rem;
  }
  /* For paper all of it is laid out, also what was never in sight. */
  :host([printing]) :is(wb-curve, wb-measures, wb-match, wb-treatment, wb-lazy-station) {
    content-visibility: visible;
  }
  @media (min-width: 62rem) {
    .page {
      grid-template-columns: minmax(22rem, 5fr) minmax(35.5rem, 7fr);
    }
    .page > * {
      grid-column: 1;
    }
    .page > wb-lazy-station {
      grid-column: 1 / -1;
    }
    .beside {
      grid-column: 2;
      grid-row: 1 / span 5;
    }
    .beside wb-sheet {
      position: sticky;
      top: calc(var(--bar) + 0.75rem);
      margin-top: 1.25rem;
    }
  }
  @media (min-width: 100rem) {
    .page {
      grid-template-columns: minmax(38rem, 46rem) minmax(0, 1fr);
    }
  }
  footer {
    padding: 1rem clamp(0.75rem, 2vw, 2rem) 2.5rem;
    border-top: 1px solid var(--rule);
    color: var(--quiet);
    font-size: 0.9375rem;
  }
  /* One line of links stays in sight; scroll-padding of the page keeps what is jumped to below it. */
  @media (min-width: 40rem) and (min-height: 36rem) {
    :host {
      --bar: 2.8rem;
    }
    nav {
      position: sticky;
      top: 0;
      z-index: 1;
    }
  }
  @media (max-width: 60rem) {
    nav li + li a::before {
      display: none;
    }
  }
  @media (max-width: 40rem) {
    .wide-only {
      display: none;
    }
    nav ul {
      gap: 0 0.9rem;
    }
  }
`;

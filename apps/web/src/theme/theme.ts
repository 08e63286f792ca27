/** Puts the chosen theme on the page and remembers it; the system's wish counts until one is chosen. */
import type { ThemeChoice } from '../state/app.ts';

const KEY = 'wedgebook-theme';
const CHOICES: readonly ThemeChoice[] = ['system', 'light', 'dim', 'darkroom'];

export function rememberedTheme(): ThemeChoice {
  try {
    const kept = localStorage.getItem(KEY);
    return CHOICES.find((choice) => choice === kept) ?? 'system';
  } catch {
    return 'system'; // storage may be barred
  }
}

export function showTheme(choice: ThemeChoice): void {
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  const theme = choice === 'system' ? (dark ? 'dim' : 'light') : choice;
  document.documentElement.dataset['theme'] = theme;
}

export function rememberTheme(choice: ThemeChoice): void {
  try {
    localStorage.setItem(KEY, choice);
  } catch {
    // Not remembered; the theme still holds for this visit.
  }
}

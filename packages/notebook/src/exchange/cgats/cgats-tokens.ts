/** A CGATS.17 text as words, with the line on which each stands. */

export interface CgatsToken {
  readonly text: string;
  readonly quoted: boolean;
  /** From 1. */
  readonly line: number;
}

/** Words of a line: blanks separate, quotation marks hold together, `#` begins a comment. */
export function cgatsTokens(text: string, line: number): CgatsToken[] {
  const tokens: CgatsToken[] = [];
  for (const [word] of text.matchAll(/"[^"]*"?|#.*|[^\s"#]+/g)) {
    if (word.startsWith('#')) break;
    const quoted = word.startsWith('"');
    const bare = quoted ? word.slice(1).replace(/"$/, '') : word;
    tokens.push({ text: bare, quoted, line });
  }
  return tokens;
}

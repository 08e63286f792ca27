/** The command was called in a way that has no meaning: exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

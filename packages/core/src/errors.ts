/**
 * The errors that core throws on purpose. A fault of the data is no error but a result with a
 * status and warnings; see `warning.ts`.
 */

/** Every error core throws on purpose. Narrow on `code`, never on the message. */
export class WedgebookError extends Error {
  override readonly name: string = 'WedgebookError';
  readonly code: string;
  readonly details: Readonly<Record<string, unknown>>;
  constructor(code: string, message: string, details: Readonly<Record<string, unknown>> = {}) {
    super(message);
    this.code = code;
    this.details = details;
  }
}

/** An argument is malformed: wrong length, not finite, not sorted. A bug in the caller. */
export class InvalidArgumentError extends WedgebookError {
  override readonly name = 'InvalidArgumentError';
  constructor(functionName: string, argument: string, received: unknown, expected: string) {
    super(
      'invalid-argument',
      `${functionName}: ${argument} must be ${expected}; received ${describe(received)}`,
      { functionName, argument, received, expected },
    );
  }
}

/** Refuses the arguments of one function. */
export type Refuse = (argument: string, received: unknown, expected: string) => never;

/** For functions that check several arguments: throws their `InvalidArgumentError`. */
export function refusing(functionName: string): Refuse {
  return (argument, received, expected) => {
    throw new InvalidArgumentError(functionName, argument, received, expected);
  };
}

/** The arguments are well formed but the quantity is not defined there. */
export class OutOfDomainError extends WedgebookError {
  override readonly name = 'OutOfDomainError';
  constructor(
    functionName: string,
    quantity: string,
    received: number,
    domain: readonly [number, number],
  ) {
    super(
      'out-of-domain',
      `${functionName}: ${quantity} must be within [${domain[0]}, ${domain[1]}]; received ${received}`,
      { functionName, quantity, received, domain },
    );
  }
}

function describe(received: unknown): string {
  if (Array.isArray(received)) return `an array of length ${received.length}`;
  if (typeof received === 'object' && received !== null) return 'an object';
  return String(received);
}

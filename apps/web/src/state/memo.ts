/** Remembers the last result of a pure function as long as its arguments keep their identity. */
export function memo<A extends readonly unknown[], R>(
  compute: (...args: A) => R,
): (...args: A) => R {
  let last: { args: A; result: R } | undefined;
  return (...args) => {
    if (last?.args.every((arg, index) => Object.is(arg, args[index])) === true) return last.result;
    const result = compute(...args);
    last = { args, result };
    return result;
  };
}

/** A value computed when it is first asked for. */
export function once<T>(compute: () => T): () => T {
  let known: { readonly value: T } | undefined;
  return () => (known ??= { value: compute() }).value;
}

/** As `memo`, with one memory per key, so that one strip's change leaves the others' results. */
export function memoByKey<A extends readonly unknown[], R>(
  compute: (...args: A) => R,
): (key: string, ...args: A) => R {
  const memories = new Map<string, (...args: A) => R>();
  return (key, ...args) => {
    let remembered = memories.get(key);
    if (remembered === undefined) {
      remembered = memo(compute);
      memories.set(key, remembered);
    }
    return remembered(...args);
  };
}

/** As `memo` over a list of inputs, compared one by one. */
export function memoList<T, R>(compute: (inputs: readonly T[]) => R): (inputs: readonly T[]) => R {
  let last: { inputs: readonly T[]; result: R } | undefined;
  return (inputs) => {
    const same =
      last?.inputs.length === inputs.length &&
      last.inputs.every((input, index) => Object.is(input, inputs[index]));
    if (last !== undefined && same) return last.result;
    const result = compute(inputs);
    last = { inputs, result };
    return result;
  };
}

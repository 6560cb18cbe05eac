/**
 * The results of a pure computation for the inputs asked for lately, in this process.
 *
 * @param most how many are kept; the one used longest ago goes first.
 */
export function keepLately<Value>(most: number): (key: string, compute: () => Value) => Value {
  const kept = new Map<string, Value>();
  return (key, compute) => {
    const value = kept.has(key) ? (kept.get(key) as Value) : compute();
    kept.delete(key);
    kept.set(key, value);
    const [oldest] = kept.keys();
    if (kept.size > most && oldest !== undefined) kept.delete(oldest);
    return value;
  };
}

import type { Result } from "@/lib/score/result";
import type { StoreProblem } from "@/lib/store/store-problem";

export type Printed = Result<Uint8Array<ArrayBuffer>, StoreProblem>;

const lately = new Map<string, Promise<Printed>>();
const mostKept = 16;

/**
 * A file that was made lately, or is being made for somebody else, else a new one. What failed is not kept.
 *
 * @param key names everything that the file is made from.
 */
export function printLately(key: string, print: () => Promise<Printed>): Promise<Printed> {
  const known = lately.get(key);
  if (known) return known;
  const printing = print();
  lately.set(key, printing);
  printing.then(
    (printed) => printed.ok || lately.delete(key),
    () => lately.delete(key),
  );
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
  return printing;
}

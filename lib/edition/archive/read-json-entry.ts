import type { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import type { ArchiveProblem } from "./archive-problem";

/**
 * A file of an archive as the JSON that it must be.
 *
 * @param mostBytes a larger file is not looked into.
 */
export function readJsonEntry<Schema extends z.ZodType>(
  files: ReadonlyMap<string, Uint8Array>,
  name: string,
  schema: Schema,
  mostBytes: number,
): Result<z.infer<Schema>, ArchiveProblem> {
  const bytes = files.get(name);
  if (!bytes) return failure({ kind: "file-missing", name });
  const unreadable = (fault: string) => failure({ kind: "file-unreadable" as const, name, fault });
  if (bytes.length > mostBytes) return unreadable("it is too large");
  const json = parseJson(bytes);
  if (json === undefined) return unreadable("it is no JSON in UTF-8");
  const parsed = schema.safeParse(json);
  if (parsed.success) return success(parsed.data);
  const [issue] = parsed.error.issues;
  return unreadable(issue ? [...issue.path.map(String), issue.message].join(": ") : "another shape");
}

/** Undefined, which no JSON is, for any other bytes. */
function parseJson(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

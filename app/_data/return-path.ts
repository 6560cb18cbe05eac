import { z } from "zod";

/** A path inside this product: one leading slash, so that no address of another host can hide in it. */
const returnPathSchema = z
  .string()
  .max(500)
  .regex(/^\/(?![/\\])[\w\-./?=&%]*$/);

/** Where to go after signing in; the pieces for anything that is not a path of ours. */
export function readReturnPath(value: unknown): string {
  const parsed = returnPathSchema.safeParse(value);
  return parsed.success ? parsed.data : "/";
}

import { z } from "zod";

const environmentSchema = z.object({ NEXTAUTH_SECRET: z.string().min(1, "NEXTAUTH_SECRET is missing.") });

/**
 * What signs the links that turn messages off.
 *
 * @throws ZodError if there is none.
 */
export function mailSecret(): string {
  return environmentSchema.parse(process.env).NEXTAUTH_SECRET;
}

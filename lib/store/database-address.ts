import { z } from "zod";

const environmentSchema = z.object({
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, "DATABASE_URL is not the address of a Postgres server."),
});

/**
 * Where this process finds its database.
 *
 * @throws ZodError if `DATABASE_URL` names no Postgres server.
 */
export function databaseAddress(): string {
  return environmentSchema.parse(process.env).DATABASE_URL;
}

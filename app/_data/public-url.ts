import { z } from "zod";

const environmentSchema = z.object({ NEXTAUTH_URL: z.url({ protocol: /^https?$/ }) });

/**
 * The one address people use. Links, cookies and origins are judged by it and by nothing a request says.
 *
 * @throws ZodError if `NEXTAUTH_URL` is not set to an address.
 */
export function publicUrl(): URL {
  return new URL(environmentSchema.parse(process.env).NEXTAUTH_URL);
}

import { z } from "zod";

/** Which need is meant. */
export const needIdSchema = z.object({ needId: z.string().min(1).max(100) });

import { z } from "zod";
import { readingPlanSchema } from "@/lib/engrave/pages/reading-plan";

/** As it is kept: a reader's link opens pictures of its own edition only. */
export const keptReadingSchema = z.object({ editionId: z.string(), plan: readingPlanSchema });

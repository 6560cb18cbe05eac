import { z } from "zod";
import { titleSchema } from "../pieces/create-piece";
import { limitSchema } from "../pieces/set-limit";
import { reasonSchema } from "../proposals/reason-schema";

/** By the clock, to the second or finer. */
export const realSecondsSchema = z
  .number()
  .positive("A performance took some time.")
  .max(10 * 60 * 60, "A performance lasts at most ten hours.")
  .nullable();

/** Local time of day at the place, "19:30"; null when it is not known. */
export const startsAtSchema = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "A time of day is written as hours and minutes, such as 19:30.")
  .nullable();

/** When, where and what an occasion is. */
export const occasionShape = {
  kind: z.enum(["jury", "examination", "competition", "recital", "run-through"]),
  name: titleSchema.pipe(z.string().min(1, "Write what the occasion was.")),
  on: z.iso.date("A date is written as year, month and day."),
  startsAt: startsAtSchema.default(null),
  place: titleSchema.default(""),
  limitSeconds: limitSchema.default(null),
  remarks: reasonSchema.default(""),
};

/** Everything that players write down about a performance. */
export const performanceShape = {
  ...occasionShape,
  editionNumber: z.int().min(1),
  realSeconds: realSecondsSchema.default(null),
  result: titleSchema.default(""),
};

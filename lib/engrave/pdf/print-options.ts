import { z } from "zod";

/** What of an edition is written over the printed music. Lead-ins are for the soloist's part only. */
export const markKinds = ["breaths", "cues", "remarks", "ossias", "lead-ins"] as const;

export const printPapers = ["A4", "Letter", "tablet"] as const;
export type Paper = (typeof printPapers)[number];

export const staffSizes = ["small", "medium", "large", "very large"] as const;
export type StaffSize = (typeof staffSizes)[number];

/** Height of a staff in millimetres. Orchestral parts are printed at 7, piano scores at 6 to 6.5: common practice. */
export const staffMillimetres: Readonly<Record<StaffSize, number>> = {
  small: 5.5,
  medium: 6.3,
  large: 7,
  "very large": 8,
};

export type PrintReader = "pianist" | "soloist";

/** The staff that each reader has unless another is asked for. */
export const defaultStaff: Readonly<Record<PrintReader, StaffSize>> = { pianist: "medium", soloist: "large" };

/** In an address, several values are written with commas between them; none is an empty text. */
const marksSchema = z
  .preprocess(
    (value) => (typeof value === "string" ? value.split(",").filter((each) => each !== "") : value),
    z.array(z.enum(markKinds)).max(markKinds.length),
  )
  .transform((marks) => markKinds.filter((kind) => marks.includes(kind)));

/** How an edition is printed: the same choices on the screen, in an address and for the pages themselves. */
export const printOptionsSchema = z
  .object({
    /** The pianist gets the solo part small over the reduction, the soloist the solo part alone. */
    reader: z.enum(["pianist", "soloist"]),
    /** A tablet's page is upright, three wide by four high, with narrow margins. */
    paper: z.enum(printPapers, "Paper is A4, Letter or tablet.").default("A4"),
    staff: z.enum(staffSizes).optional(),
    /** Taken out, or left on the page and marked, for somebody who keeps an old copy. */
    cuts: z.enum(["removed", "shown"]).default("removed"),
    /** One page after the other, or a book, which lies open at two: page 1 stands on the right or on the left. */
    sides: z.enum(["single", "facing-right", "facing-left"]).default("single"),
    marks: marksSchema.default(["breaths", "cues", "remarks", "ossias"]),
  })
  .transform(({ staff, ...options }) => ({ ...options, staff: staff ?? defaultStaff[options.reader] }));

export type PrintOptions = z.infer<typeof printOptionsSchema>;

/** The options that a reader has unless others are asked for. */
export const defaultPrintOptions = (reader: PrintReader): PrintOptions =>
  printOptionsSchema.parse({ reader });

/** The options as they stand in an address, without the reader. */
export function writePrintQuery({ paper, staff, cuts, sides, marks }: PrintOptions): URLSearchParams {
  return new URLSearchParams({ paper, staff, cuts, sides, marks: marks.join(",") });
}

import { z } from "zod";
import {
  defaultStaff,
  type PrintOptions,
  type PrintReader,
  printOptionsSchema,
  printPapers,
  staffSizes,
  writePrintQuery,
} from "@/lib/engrave/pdf/print-options";

export const printSides = ["single", "facing-right", "facing-left"] as const;

/** What may be written over the music; lead-ins are chosen beside the soloist's part. */
export const commonMarks = ["breaths", "cues", "remarks", "ossias"] as const;
export type CommonMark = (typeof commonMarks)[number];

const readMarks = (value: string | undefined): CommonMark[] => {
  if (value === undefined) return [...commonMarks];
  const named = value.split(",");
  return commonMarks.filter((mark) => named.includes(mark));
};

/** What is chosen on the screen, for both players' parts at once, as the address has it. Anything unknown is the default. */
export const printChoiceSchema = z.object({
  paper: z.enum(printPapers).catch("A4"),
  cuts: z.enum(["removed", "shown"]).catch("removed"),
  sides: z.enum(printSides).catch("single"),
  marks: z.string().optional().catch(undefined).transform(readMarks),
  /** Staff of the pianist's score and of the soloist's part. */
  pianist: z.enum(staffSizes).catch(defaultStaff.pianist),
  soloist: z.enum(staffSizes).catch(defaultStaff.soloist),
  leadIns: z.enum(["yes", "no"]).catch("no"),
});

export type PrintChoice = z.infer<typeof printChoiceSchema>;

/** The options of one player's part. */
export function optionsOf(choice: PrintChoice, reader: PrintReader): PrintOptions {
  const { paper, cuts, sides, leadIns } = choice;
  const marks = reader === "soloist" && leadIns === "yes" ? [...choice.marks, "lead-ins"] : choice.marks;
  return printOptionsSchema.parse({ reader, paper, cuts, sides, marks, staff: choice[reader] });
}

/** The options of one player's part as a query. */
export const queryOf = (choice: PrintChoice, reader: PrintReader): string =>
  `${writePrintQuery(optionsOf(choice, reader))}`;

/** The address of this screen with what is chosen on it. */
export function addressOf(edition: number, choice: PrintChoice): string {
  const { marks, ...others } = choice;
  return `?${new URLSearchParams({ edition: `${edition}`, ...others, marks: marks.join(",") })}`;
}

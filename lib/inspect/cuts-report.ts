import { z } from "zod";

const seconds = z.number();

/** A place: the bar's place in the written order from 0, its printed label, and the offset in quarters, "0" or "3/2". */
const placeSchema = z.strictObject({
  barIndex: z.int().min(0),
  barLabel: z.string(),
  offset: z.string(),
});

const gradeSchema = z.enum(["clean", "needs-a-touch", "rough"]);

/** A needed rest with what is there and what is left of it. */
const needSchema = z.strictObject({
  /** Counted from 1, in the file of needs. */
  entry: z.int().min(1),
  why: z.string(),
  verdict: z.enum(["kept", "short", "short anyway", "released", "no rest"]),
  secondsBefore: seconds,
  secondsAfter: seconds,
  sentence: z.string(),
});

const offeredCutSchema = z.strictObject({
  /** "bars 85–96". */
  name: z.string(),
  from: placeSchema,
  to: placeSchema,
  barCount: z.int(),
  savedSeconds: seconds,
  grade: gradeSchema,
  /** The most telling first. */
  reasons: z.array(z.string()),
  /** Everything that was looked at on both sides of the join. */
  rows: z.array(z.strictObject({ kind: z.string(), grade: gradeSchema, sentence: z.string() })),
  /** What has to be written anew around the join. */
  toWrite: z.array(z.string()),
  /** A cut near it that is graded better. */
  better: z.strictObject({ name: z.string(), grade: gradeSchema, sentence: z.string() }).nullable(),
  /** Cuts that come to the same. */
  alsoAt: z.array(z.string()),
  /** The soloist's rest around the cut; null when the soloist plays on both sides. */
  rest: z
    .strictObject({
      beforeSeconds: seconds,
      afterSeconds: seconds,
      /** "C" or "bar 97"; null when no entry follows. */
      nextEntry: z.string().nullable(),
    })
    .nullable(),
  /** Needed rests that this cut leaves short. */
  robs: z.array(needSchema),
});

const tuttiSchema = z.strictObject({
  place: z.enum(["opening", "interlude", "closing"]),
  firstBarLabel: z.string(),
  lastBarLabel: z.string(),
  barCount: z.int(),
  seconds,
  isLong: z.boolean(),
  /** The best first, five at most. */
  cuts: z.array(offeredCutSchema),
  /** Places to begin the piece at, three at most: an opening only. */
  starts: z.array(offeredCutSchema),
});

const plannedSetSchema = z.strictObject({
  runsSeconds: seconds,
  savedSeconds: seconds,
  /** By the numbers, with the range that performances keep to. */
  runningTime: z.strictObject({ seconds, low: seconds, high: seconds, sentence: z.string() }),
  cuts: z.array(
    z.strictObject({
      name: z.string(),
      from: placeSchema,
      to: placeSchema,
      savedSeconds: seconds,
      grade: gradeSchema,
      reasons: z.array(z.string()),
    }),
  ),
  needs: z.array(needSchema),
});

const planSchema = z.strictObject({
  limitSeconds: seconds,
  sentence: z.string(),
  /** Null when nothing fits. */
  best: plannedSetSchema.nullable(),
  runnersUp: z.array(plannedSetSchema),
  shortest: plannedSetSchema,
  /** Only when nothing fits: needs without which something would. */
  obstacles: z.array(
    z.strictObject({
      entry: z.int().min(1),
      why: z.string(),
      unit: z.enum(["seconds", "bars"]),
      left: z.number(),
      shortBy: z.number(),
      set: plannedSetSchema,
    }),
  ),
  candidateCount: z.int(),
});

/** What can be cut in a piece. Plain data; what `inspect --cuts --json` prints. */
export const cutsReportSchema = z.strictObject({
  title: z.string().nullable(),
  movement: z.string().nullable(),
  composer: z.string().nullable(),
  /** Null without a solo part: then there are no tuttis. */
  soloist: z.string().nullable(),
  runningTime: z.strictObject({ seconds, low: seconds, high: seconds, sentence: z.string() }),
  assumptions: z.array(z.string()),
  /** In written order. */
  tuttis: z.array(tuttiSchema),
  /** Tuttis that are too short to be searched. */
  shortTuttiCount: z.int(),
  /** As things stand, without any cut. */
  needs: z.array(needSchema),
  /** Null without a limit. */
  plan: planSchema.nullable(),
});

export type CutsReport = z.infer<typeof cutsReportSchema>;
export type ReportedTutti = CutsReport["tuttis"][number];
export type ReportedCut = ReportedTutti["cuts"][number];
export type ReportedNeed = CutsReport["needs"][number];
export type ReportedPlan = NonNullable<CutsReport["plan"]>;
export type ReportedSet = ReportedPlan["shortest"];

import { hashText } from "@/lib/edition/hash-terms";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import type { LaidOutEdition } from "@/lib/engrave/pages/laid-out-edition";
import { layOutEdition } from "@/lib/engrave/pages/lay-out-edition";
import {
  type Reading,
  type ReadingFor,
  type ReadingPlan,
  readingPlanSchema,
} from "@/lib/engrave/pages/reading-plan";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
import { type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { joinJob } from "../engravings/engraving-jobs";
import { keepPictures } from "../engravings/save-engraving";
import type { StoreProblem } from "../store-problem";
import type { EditionOfPiece } from "./find-edition";
import { keptReadingSchema } from "./kept-reading";
import { readTabletInput } from "./read-tablet-input";

export type AskedReading =
  | { readonly state: "ready"; readonly reading: Reading }
  | { readonly state: "working"; readonly progress: number };

/** How long an answer may wait for the engraver before it says "working": small pieces are there by then. */
const patienceMilliseconds = 400;

/**
 * The pages of an edition for one reader's tablet: kept from before, or begun now. Whoever asks again while they are being
 * made hears how far they are. For the store: whoever asks has been checked.
 */
export async function askReading(
  asked: EditionOfPiece,
  reader: ReadingFor,
): Promise<Result<AskedReading, StoreProblem>> {
  const { pieceId, editionId } = asked;
  const input = await readTabletInput(asked, reader);
  const key = keyOf(input);
  const kept = await findReading(pieceId, key);
  if (kept) return ready(key, kept);
  const job = joinJob(`reading ${pieceId} ${key}`, async (report) => {
    const laidOut = await layOutEdition(input, report);
    const plan = planOf(laidOut);
    const systems = laidOut.pages.flatMap((page) => page.systems.map(({ system }) => system));
    await keepPictures(pieceId, key, {
      rendererVersion: laidOut.rendererVersion,
      summary: { editionId, plan },
      systems,
    });
    return plan;
  });
  const done = await Promise.race([job.done, pause()]);
  if (done === "waiting") return success({ state: "working", progress: job.progress });
  return done.ok ? ready(key, done.value) : done;
}

const ready = (key: string, plan: ReadingPlan): Result<AskedReading, StoreProblem> =>
  success({ state: "ready", reading: { ...plan, key } });

/** Everything that decides what the pages look like; the content by its hash, which stands in the title block. */
function keyOf({ options, titleBlock, pinnedBars }: PrintInput): string {
  return hashText(JSON.stringify({ reading: 1, options, titleBlock, pinnedBars, engraverVersion }));
}

async function findReading(pieceId: string, key: string): Promise<ReadingPlan | null> {
  const row = await database().engraving.findUnique({
    where: { pieceId_key: { pieceId, key } },
    select: { summary: true },
  });
  return row && keptReadingSchema.parse(row.summary).plan;
}

function planOf({ width, height, pages }: LaidOutEdition): ReadingPlan {
  return readingPlanSchema.parse({
    ...{ width, height },
    pages: pages.map(({ number, head, foot, systems, turn }) => ({
      ...{ number, turn },
      words: [...head, ...foot],
      systems: systems.map(({ system, ...place }) => ({
        ...place,
        index: system.index,
        firstBarIndex: system.firstBarIndex,
      })),
    })),
  });
}

function pause(): Promise<"waiting"> {
  return new Promise((resolve) => setTimeout(() => resolve("waiting"), patienceMilliseconds));
}

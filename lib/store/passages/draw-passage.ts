import { z } from "zod";
import { hashSchema } from "@/lib/edition/cut-terms";
import { hashTerms } from "@/lib/edition/hash-terms";
import { type RewriteTerms, rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { EngraveFailure, sayEngraveProblem } from "@/lib/engrave/engrave-problem";
import { engraverVersion } from "@/lib/engrave/engraver-version";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { engravePassage } from "@/lib/engrave/passage/engrave-passage";
import { passageViews } from "@/lib/engrave/passage/passage-input";
import { barSpanOf } from "@/lib/rewrites/bars-of-terms";
import { checkRewriteFit } from "@/lib/rewrites/check-rewrite-fit";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { database } from "../database";
import { screenLayouts } from "../engravings/engraving-record";
import { parseInput } from "../parse-input";
import { findMainSource, type MainSource, readSourceScore } from "../pieces/score-of-source";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

/** A passage is something to look at in one go; longer ones are what the score is for. */
const mostBars = 64;
const barSchema = z.int().min(0);

const askSchema = z
  .object({
    sourceHash: hashSchema,
    /** Bars by index, both included. */
    fromBar: barSchema,
    toBar: barSchema,
    rewrite: rewriteTermsSchema.nullable(),
    as: z.enum(passageViews),
    layout: z.enum(screenLayouts).default("desk"),
  })
  .refine(({ fromBar, toBar }) => fromBar <= toBar && toBar - fromBar < mostBars, {
    message: `A passage has one to ${mostBars} bars.`,
  });

type Asked = z.infer<typeof askSchema>;

/** Drawn lately, by the hash of all that the picture depends on. */
const lately = new Map<string, Promise<DrawnPassage>>();
const mostKept = 200;

/**
 * Some bars of the reduction alone, as they are printed, with a rewrite instead, or with it as an ossia. Changes nothing;
 * whoever may read the piece may ask. The rewrite comes with the request: one that nobody else has seen can be drawn.
 */
export async function drawPassage(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<DrawnPassage, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const asked = parseInput(askSchema, input);
  if (!asked.ok) return asked;
  const source = await findMainSource(pieceId);
  const { score } = await readSourceScore(source, source.partRoles);
  const partId = findPart(score, source.hash, asked.value);
  return partId.ok ? draw(source, partId.value, asked.value) : partId;
}

/** The part that is drawn, when all that was asked for fits the score. */
function findPart(score: Score, sourceHash: string, asked: Asked): Result<string, StoreProblem> {
  if (asked.sourceHash !== sourceHash)
    return failure({
      kind: "stale-terms",
      sentence: "This belongs to another file of the piece. Load the page again.",
    });
  const part = score.parts.find(({ role }) => role === "reduction");
  if (!part)
    return failure({
      kind: "conflict",
      sentence: "No part is named as the reduction. Say which in the settings.",
    });
  if (!score.bars[asked.toBar])
    return invalid(`The piece has ${score.bars.length} bars. Choose bars that are in it.`);
  const { rewrite } = asked;
  return rewrite === null ? success(part.id) : checkRewrite(score, rewrite, asked);
}

function checkRewrite(score: Score, rewrite: RewriteTerms, asked: Asked): Result<string, StoreProblem> {
  if (rewrite.sourceHash !== asked.sourceHash)
    return invalid("The rewrite belongs to another file of the piece.");
  const fit = checkRewriteFit(score, rewrite);
  if (!fit.ok) return invalid(fit.problem);
  const { fromBar, toBar } = barSpanOf(rewrite);
  const isAmongThem = fromBar >= asked.fromBar && toBar <= asked.toBar;
  return isAmongThem ? success(rewrite.partId) : invalid("The rewrite lies outside the bars that are drawn.");
}

const invalid = (sentence: string): Result<never, StoreProblem> =>
  failure({ kind: "invalid-input", sentence });

async function draw(
  source: MainSource,
  partId: string,
  asked: Asked,
): Promise<Result<DrawnPassage, StoreProblem>> {
  const key = hashTerms({ ...asked, partId, engraver: engraverVersion });
  const kept = lately.get(key) ?? engravePassage({ ...asked, partId }, () => readBytes(source));
  lately.delete(key);
  lately.set(key, kept);
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
  try {
    return success(await kept);
  } catch (error) {
    lately.delete(key);
    if (!(error instanceof EngraveFailure)) throw error;
    return failure({ kind: "not-engraved", sentence: sayEngraveProblem(error.problem) });
  }
}

async function readBytes({ id }: MainSource): Promise<Uint8Array> {
  const { bytes } = await database().sourceBytes.findUniqueOrThrow({ where: { sourceId: id } });
  return bytes;
}

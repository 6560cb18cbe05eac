import { z } from "zod";

/** As `Date.toISOString` writes it, so that a moment has one spelling. */
export const momentSchema = z.iso.datetime({ precision: 3 });

/** A title, a name: as long as any text that is read from a source. */
export const lineSchema = z.string().max(2_000);

/** Words of a person's, a remark, a reason. */
export const wordsSchema = z.string().max(20_000);

/** People have no addresses and no ids in an archive: "p1", "p2" … in the order in which they came to the piece. */
export const personKeySchema = z.string().regex(/^p[1-9]\d{0,3}$/, "not the key of a person (p1, p2 …)");

/** "proposal-1", "proposal-2" … in the order in which they were put forward. */
export const proposalKeySchema = z.string().regex(/^proposal-[1-9]\d{0,4}$/, "not the key of a proposal");

/** "rewrite-1", "rewrite-2" … the versions of rewrites in the order in which they were written. */
export const rewriteKeySchema = z.string().regex(/^rewrite-[1-9]\d{0,4}$/, "not the key of a rewrite");

/** "need-1", "need-2" … in the order in which they were noted. */
export const needKeySchema = z.string().regex(/^need-[1-9]\d{0,4}$/, "not the key of a rest need");

/** "performance-1", "performance-2" … in the order in which they were written down. */
export const performanceKeySchema = z
  .string()
  .regex(/^performance-[1-9]\d{0,4}$/, "not the key of a performance");

export const archivedRoleSchema = z.enum(["pianist", "soloist", "coach", "reader"]);

import { z } from "zod";

/** A key of a room's map: a UUID or any short name of letters, digits, `_` and `-`. */
export const recordIdSchema = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/, "not a record id");

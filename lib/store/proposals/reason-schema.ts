import { z } from "zod";

/** What a person writes beside a decision. Line breaks stay, other control characters go: Postgres takes no NUL. */
export const reasonSchema = z
  .string()
  .max(2000, "A reason has at most 2,000 letters here.")
  .transform((text) =>
    text
      .replace(/\r\n?/g, "\n")
      .replace(/[^\P{Cc}\n\t]/gu, "")
      .normalize("NFC")
      .trim(),
  );

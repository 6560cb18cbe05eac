import { z } from "zod";
import { cleanLine } from "../clean-text";

/** Compared without regard to case, as practically every mail server does. */
export const emailSchema = z
  .string()
  .trim()
  .max(254)
  .transform((text) => text.normalize("NFC").toLowerCase())
  .pipe(z.email("This is not an e-mail address."));

export const personNameSchema = z
  .string()
  .max(1000)
  .transform(cleanLine)
  .pipe(
    z
      .string()
      .min(1, "Write your name as it should stand under an edition.")
      .max(100, "A name has at most 100 letters here."),
  );

export const newPasswordSchema = z
  .string()
  .min(10, "A password has at least 10 characters.")
  .max(200, "A password has at most 200 characters.");

/** What a new account needs. */
export const newAccountSchema = z.object({
  name: personNameSchema,
  email: emailSchema,
  password: newPasswordSchema,
});

export type NewAccount = z.infer<typeof newAccountSchema>;

/** What signing in needs. Any password is tried: only new ones have a shortest length. */
export const credentialsSchema = z.object({
  email: emailSchema,
  password: z.string().min(1, "The password is missing.").max(200, "A password has at most 200 characters."),
});

import { hash, verify } from "@node-rs/argon2";

/** argon2id with 19 MiB, 2 passes, 1 lane (OWASP Password Storage Cheat Sheet): the library's defaults, written down. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** The password as it is kept: argon2id in the PHC string form, salted. */
export function hashPassword(password: string): Promise<string> {
  return hash(normalForm(password), cost);
}

/**
 * Whether `password` is the one that was hashed. Without a hash (no such account) it works as long and says no,
 * so that the time of the answer tells nothing.
 */
export async function isPassword(password: string, passwordHash: string | null): Promise<boolean> {
  const matches = await verify(passwordHash ?? (await hashOfNobody()), normalForm(password));
  return matches && passwordHash !== null;
}

let nobody: Promise<string> | undefined;

function hashOfNobody(): Promise<string> {
  nobody ??= hashPassword("the password of nobody");
  return nobody;
}

/** NIST SP 800-63B asks for a Unicode normal form before hashing, so that two keyboards type the same password. */
function normalForm(password: string): string {
  return password.normalize("NFKC");
}

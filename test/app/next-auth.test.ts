import type { CredentialsConfig } from "next-auth/providers/credentials";
import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import { authOptions } from "@/app/api/auth/[...nextauth]/auth-options";
import { sessionAdapter } from "@/app/api/auth/[...nextauth]/session-adapter";
import { createAccount } from "@/lib/store/auth/create-account";
import { rateLimits } from "@/lib/store/auth/rate-limit";
import { readSession } from "@/lib/store/auth/session";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { openStoreForFile, valued } from "@/test/lib/store/duo";

const account = { name: "Lene Marsh", email: "lene@colla.test", password: "ten letters at least" };
const address = "192.0.2.7";

openStoreForFile();
let userId: string;
beforeAll(async () => {
  userId = valued(await createAccount(account, address)).userId;
});
beforeEach(() => database().rateWindow.deleteMany());

const [provider] = authOptions.providers as [CredentialsConfig];
const authorize = (credentials: Record<string, string>, from = address) =>
  provider.options.authorize(credentials, { headers: { "x-forwarded-for": from } });

describe("what next-auth is given", () => {
  test("lets in who has the password, with id and name and nothing else", async () => {
    expect(await authorize(account)).toEqual({ id: userId, name: "Lene Marsh" });
  });

  test("refuses unknown people and wrong passwords in the same words", async () => {
    const answers = await Promise.allSettled([
      authorize({ ...account, password: "something else" }),
      authorize({ ...account, email: "nobody@colla.test" }),
    ]);
    expect(answers.map((answer) => answer.status === "rejected" && answer.reason.message)).toEqual([
      "This e-mail and this password do not belong together.",
      "This e-mail and this password do not belong together.",
    ]);
  });

  test("counts tries by the account and by the address the server noted", async () => {
    await runAt(new Date("2026-03-14T12:07:00Z"), async () => {
      const { most } = rateLimits.signInToAccount;
      for (let tries = 0; tries < most; tries += 1)
        await expect(authorize({ ...account, password: "a guess" })).rejects.toThrow(
          /do not belong together/,
        );
      await expect(authorize(account)).rejects.toThrow(/^Too many tries\./);
    });
    const keys = (await database().rateWindow.findMany()).map(({ key }) => key);
    expect(keys).toContain(`signInFromAddress:${address}`);
  });

  test("writes the token of a session in the database into the cookie", async () => {
    const token = await authOptions.jwt?.encode?.({ token: { sub: userId }, secret: "unused" });
    expect(await readSession(token ?? "")).toMatchObject({ userId });
    const found = await sessionAdapter.getSessionAndUser?.(token ?? "");
    expect(found).toMatchObject({ user: { id: userId, name: "Lene Marsh" }, session: { userId } });
    await sessionAdapter.deleteSession?.(token ?? "");
    expect(await sessionAdapter.getSessionAndUser?.(token ?? "")).toBeNull();
  });

  test("writes no session for nobody", async () => {
    await expect(authOptions.jwt?.encode?.({ token: {}, secret: "unused" })).rejects.toThrow(RangeError);
  });
});

import { beforeEach, describe, expect, test } from "vitest";
import { createAccount } from "@/lib/store/auth/create-account";
import { hashPassword, isPassword } from "@/lib/store/auth/password";
import { rateLimits, takeTry } from "@/lib/store/auth/rate-limit";
import { endAllSessions, endSession, readSession, startSession } from "@/lib/store/auth/session";
import { readSessionToken, sessionCookie } from "@/lib/store/auth/session-cookie";
import { signIn } from "@/lib/store/auth/sign-in";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { bringPerson, kindOf, openStoreForFile, valued } from "./duo";

openStoreForFile();
beforeEach(() => database().rateWindow.deleteMany());

const address = "192.0.2.7";
const account = { name: "Lene Marsh", email: "lene@colla.test", password: "ten letters at least" };

describe("accounts", () => {
  test("are opened once an e-mail, whatever its case", async () => {
    const opened = valued(await createAccount(account, address));
    expect(valued(await signIn({ ...account, email: " LENE@Colla.Test " }, address))).toEqual(opened);
    expect(kindOf(await createAccount({ ...account, email: "Lene@colla.test" }, address))).toBe("conflict");
  });

  test("keep no password", async () => {
    const stored = await database().user.findUniqueOrThrow({ where: { email: account.email } });
    expect(stored.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect(JSON.stringify(stored)).not.toContain(account.password);
  });

  test.each([
    ["a short password", { password: "nine char" }],
    ["no name", { name: " " }],
    ["no e-mail", { email: "lene" }],
    ["two e-mails", { email: "a@colla.test,b@colla.test" }],
    ["something else altogether", { email: { contains: "@" } }],
  ])("with %s are refused", async (_what, change) => {
    expect(kindOf(await createAccount({ ...account, ...change }, address))).toBe("invalid-input");
  });

  test("the same letters are the same password, composed or not", async () => {
    const hash = await hashPassword("r\u00e9p\u00e9tition");
    expect(await isPassword("re\u0301pe\u0301tition", hash)).toBe(true);
    expect(await isPassword("repetition", hash)).toBe(false);
  });
});

describe("signing in", () => {
  test("unknown e-mail and wrong password are answered alike", async () => {
    const wrong = await signIn({ ...account, password: "something else" }, address);
    const unknown = await signIn({ ...account, email: "nobody@colla.test" }, address);
    expect(wrong).toEqual({ ok: false, problem: { kind: "sign-in-failed" } });
    expect(unknown).toEqual(wrong);
  });

  test("nobody signs in to nobody: an account that is missing has no password that fits", async () => {
    expect(await isPassword("the password of nobody", null)).toBe(false);
  });

  /** The middle of a window, so that no test runs over the edge of one. */
  const noon = new Date("2026-03-14T12:07:00Z");
  const atNoon = (name: string, work: () => Promise<void>) => test(name, () => runAt(noon, work));

  atNoon("an account, known or unknown, takes so many tries from anywhere, then waits", async () => {
    const { most } = rateLimits.signInToAccount;
    for (const email of [account.email, "nobody@colla.test"]) {
      const answers = [];
      for (let tries = 0; tries < most + 2; tries += 1)
        answers.push(kindOf(await signIn({ email, password: "a guess" }, `198.51.100.${tries}`)));
      expect(answers).toEqual([...Array(most).fill("sign-in-failed"), "rate-limited", "rate-limited"]);
    }
    expect(await signIn(account, address)).toEqual({
      ok: false,
      problem: { kind: "rate-limited", retryAfterSeconds: 8 * 60 },
    });
    const nextWindow = new Date(noon.getTime() + 8 * 60 * 1000);
    expect(kindOf(await runAt(nextWindow, () => signIn(account, address)))).toBe("done");
  });

  atNoon("an address takes so many tries to any account", async () => {
    const { most } = rateLimits.signInFromAddress;
    for (let tries = 0; tries < most; tries += 1) valued(await takeTry("signInFromAddress", address));
    expect(kindOf(await signIn(account, address))).toBe("rate-limited");
    expect(kindOf(await signIn(account, "203.0.113.9"))).toBe("done");
  });

  atNoon("tries at the same moment are all counted", async () => {
    const { most } = rateLimits.signInToAccount;
    const results = await Promise.all(
      Array.from({ length: most * 3 }, () => takeTry("signInToAccount", "one")),
    );
    expect(results.filter(({ ok }) => ok)).toHaveLength(most);
  });
});

describe("sessions", () => {
  test("are stored as a hash, end one by one, and all at once", async () => {
    const { userId } = await bringPerson("Ilse Brandow");
    const [phone, desk] = [await startSession(userId), await startSession(userId)];
    const rows = await database().session.findMany({ where: { userId } });
    expect(JSON.stringify(rows)).not.toContain(phone.token);
    expect(await readSession(phone.token)).toMatchObject({ userId, name: "Ilse Brandow" });
    await endSession(phone.token);
    expect([await readSession(phone.token), (await readSession(desk.token))?.userId]).toEqual([null, userId]);
    await endAllSessions({ userId });
    expect(await readSession(desk.token)).toBeNull();
  });

  test("last thirty days", async () => {
    const { userId } = await bringPerson("Ilse Brandow");
    const days = (count: number) => new Date(Date.now() + count * 24 * 60 * 60 * 1000);
    const { token } = await startSession(userId);
    expect(await runAt(days(29), () => readSession(token))).not.toBeNull();
    expect(await runAt(days(31), () => readSession(token))).toBeNull();
  });

  test.each(["", "nothing", "' OR true --", "%"])("a made-up token “%s” is no session", async (token) => {
    expect(await readSession(token)).toBeNull();
  });

  test("the cookie is hidden from scripts, stays at home, and is secure where the address is", () => {
    expect(sessionCookie("http://localhost:3000")).toEqual({
      name: "next-auth.session-token",
      options: { httpOnly: true, sameSite: "lax", path: "/", secure: false },
    });
    expect(sessionCookie("https://desk.example")).toMatchObject({
      name: "__Secure-next-auth.session-token",
      options: { secure: true },
    });
  });

  test.each([
    ["a=1; next-auth.session-token=abc; b=2", "abc"],
    ["next-auth.session-token=a=b", "a=b"],
    ["next-auth.session-token=", null],
    ["xnext-auth.session-token=abc", null],
    ["__Secure-next-auth.session-token=abc", null],
    ["", null],
    [undefined, null],
  ])("the token in the header “%s” is %s", (header, token) => {
    expect(readSessionToken(header, "http://localhost:3000")).toBe(token);
  });
});

import { randomUUID } from "node:crypto";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { database } from "@/lib/store/database";
import { readWantsDigest, setWantsDigest } from "@/lib/store/digest/set-wants-digest";
import { unsubscribe } from "@/lib/store/digest/unsubscribe";
import { makeUnsubscribeToken, readUnsubscribeToken } from "@/lib/store/digest/unsubscribe-token";
import { bringPerson, kindOf, openStoreForFile, type Person, valued } from "../duo";

const secret = "a secret of this test";
openStoreForFile();
let person: Person;
let other: Person;
beforeAll(async () => {
  [person, other] = [await bringPerson("Ilse Brandow"), await bringPerson("Corin Vasey")];
});

test("a link turns off its own person's messages, once and again, and they can be turned on", async () => {
  const token = makeUnsubscribeToken(person.userId, secret);
  expect(await readWantsDigest(person)).toBe(true);
  for (let times = 0; times < 2; times += 1) valued(await unsubscribe(token, secret));
  expect([await readWantsDigest(person), await readWantsDigest(other)]).toEqual([false, true]);
  valued(await setWantsDigest(person, { wantsDigest: true }));
  expect(await readWantsDigest(person)).toBe(true);
});

test("a link of somebody who is gone is still ours", async () => {
  expect(kindOf(await unsubscribe(makeUnsubscribeToken("nobody", secret), secret))).toBe("done");
});

test("nothing else is a link", async () => {
  const token = makeUnsubscribeToken(person.userId, secret);
  const [name = "", signature = ""] = token.split(".");
  const foreign = Buffer.from(other.userId).toString("base64url");
  const wrong = [
    "",
    ".",
    name,
    `${name}.`,
    `.${signature}`,
    `${foreign}.${signature}`,
    `${token}.`,
    `${token}x`,
    token.slice(0, -2),
    makeUnsubscribeToken(person.userId, "another secret"),
    `${name}.${"A".repeat(43)}`,
    `${name}.${"x".repeat(5000)}`,
  ];
  for (const one of wrong) expect(kindOf(await unsubscribe(one, secret)), one).toBe("not-found");
  expect(await database().user.count({ where: { wantsDigest: false } })).toBe(0);
});

test("any change to a link breaks it, unless it says the same", () => {
  const userId = randomUUID();
  const token = makeUnsubscribeToken(userId, secret);
  expect(readUnsubscribeToken(token, secret)).toBe(userId);
  fc.assert(
    fc.property(fc.nat(token.length - 1), fc.constantFrom(..."AZaz09-_."), (index, sign) => {
      const changed = token.slice(0, index) + sign + token.slice(index + 1);
      const read = readUnsubscribeToken(changed, secret);
      expect([null, userId]).toContain(read);
    }),
  );
});

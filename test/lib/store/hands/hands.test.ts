import { expect, test } from "vitest";
import { usualHands } from "@/lib/hands/hands-profile";
import { readHands } from "@/lib/store/hands/read-hands";
import { setHands } from "@/lib/store/hands/set-hands";
import { bringPerson, kindOf, openStoreForFile, valued } from "../duo";

openStoreForFile();

const small = { ...usualHands, left: { comfortable: 11, possible: 12 } };

test("usual hands until somebody says what theirs are, and again when they take it back", async () => {
  const [one, other] = [await bringPerson("Ilse Brandow"), await bringPerson("Corin Vasey")];
  expect(await readHands(one)).toEqual({ profile: usualHands, givenAt: null });
  valued(await setHands(one, { profile: small }));
  expect(await readHands(one)).toEqual({ profile: small, givenAt: expect.any(Date) });
  expect(await readHands(other)).toEqual({ profile: usualHands, givenAt: null });
  valued(await setHands(one, { profile: null }));
  expect(await readHands(one)).toEqual({ profile: usualHands, givenAt: null });
});

test("hands that no hand is are refused with a sentence", async () => {
  const person = await bringPerson("Ilse Brandow");
  const wide = { ...usualHands, right: { comfortable: 18, possible: 16 } };
  for (const profile of [wide, { ...usualHands, repeatedNotes: 30 }, {}, undefined])
    expect(kindOf(await setHands(person, { profile }))).toBe("invalid-input");
});

import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { writeDigest } from "@/app/_mail/digest-message";
import { POST } from "@/app/api/unsubscribe/[token]/route";
import { database } from "@/lib/store/database";
import { bringPerson, openStore, type Person } from "@/test/lib/store/duo";
import { dueDigest, settings } from "./digests";

let store: Awaited<ReturnType<typeof openStore>>;
let person: Person;
beforeAll(async () => {
  process.env.NEXTAUTH_SECRET = settings.secret;
  store = await openStore();
});
afterAll(() => store.close());
beforeEach(async () => {
  person = await bringPerson("Ilse Brandow");
});

const wants = async () =>
  (await database().user.findUniqueOrThrow({ where: { id: person.userId } })).wantsDigest;

/** The link in a message, as a mail program posts to it. */
function post(url: string): Promise<Response> {
  const token = new URL(url).pathname.split("/").at(-1) ?? "";
  const body = new URLSearchParams({ "List-Unsubscribe": "One-Click" });
  return POST(new Request(url, { method: "POST", body }), { params: Promise.resolve({ token }) });
}

const link = () => writeDigest(dueDigest({ userId: person.userId }), settings).unsubscribeUrl;

test("a mail program turns messages off with one request, without cookies and without being sent on", async () => {
  const answer = await post(link());
  expect([answer.status, answer.headers.get("location"), await answer.text()]).toEqual([
    200,
    null,
    "You get no more news by e-mail.\n",
  ]);
  expect(await wants()).toBe(false);
});

test("our own page gets its reader back", async () => {
  const answer = await post(`${link()}?then=page`);
  expect([answer.status, answer.headers.get("location")]).toEqual([
    303,
    `${new URL(link()).pathname.replace("/api", "")}?done`,
  ]);
  expect(await wants()).toBe(false);
});

test("a link that we did not sign turns nothing off", async () => {
  const other = writeDigest(dueDigest({ userId: person.userId }), { ...settings, secret: "another" });
  const answer = await post(other.unsubscribeUrl);
  expect(answer.status).toBe(404);
  expect((await post(`${other.unsubscribeUrl}?then=page`)).headers.get("location")).not.toContain("done");
  expect(await wants()).toBe(true);
});

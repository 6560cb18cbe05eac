import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import type { ActionResult } from "@/app/_data/action-result";
import { changePasswordAction } from "@/app/(desk)/account/actions/change-password";
import { removeAccountAction } from "@/app/(desk)/account/actions/remove-account";
import { setHandsAction } from "@/app/(desk)/account/actions/set-hands";
import { drawUpProgrammeAction } from "@/app/(desk)/performances/actions/draw-up-programme";
import { revokeReaderLinkAction } from "@/app/(desk)/pieces/[pieceId]/actions/revoke-reader-link";
import { setWantsDigestAction } from "@/app/(desk)/pieces/[pieceId]/actions/set-wants-digest";
import { acceptInvitationAction } from "@/app/invitation/[token]/actions/accept-invitation";
import { joinWithAccountAction } from "@/app/invitation/[token]/actions/join-with-account";
import { createAccountAction } from "@/app/sign-in/actions/create-account";
import { signInAction } from "@/app/sign-in/actions/sign-in";
import { signOutAction } from "@/app/sign-in/actions/sign-out";
import { signOutEverywhereAction } from "@/app/sign-in/actions/sign-out-everywhere";
import { usualHands } from "@/lib/hands/hands-profile";
import { readSession, startSession } from "@/lib/store/auth/session";
import { database } from "@/lib/store/database";
import { bringDuo, openStoreForFile } from "@/test/lib/store/duo";
import { duoSource } from "@/test/lib/store/duo-source";
import { openActions, pieceActions } from "./strangers/actions";
import { browser, publicUrl, requestOf } from "./strangers/browser";
import { type BusyDesk, bringBusyDesk, signInAs } from "./strangers/desk";
import { findEdges } from "./strangers/find-edges";
import { pages, routes } from "./strangers/routes";
import { readFingerprints } from "./strangers/table-fingerprints";

// Actions, routes and pages are called as functions, which is what Next does with a request after it has read cookies
// and headers; only those two are stood in for (strangers/browser.ts). That the built server calls nothing before them
// is for the browser tests to show.

vi.mock("next/headers", async () => (await import("./strangers/browser")).nextHeaders);

const edges = findEdges();
openStoreForFile();
let desk: BusyDesk;

type Action = (input: unknown) => Promise<ActionResult<unknown>>;

async function actionOf(file: string): Promise<Action> {
  const exports: Record<string, unknown> = await import(`../../${file}`);
  const actions = Object.values(exports).filter((value): value is Action => typeof value === "function");
  // One action a file: a second would be an open door that this table does not see.
  expect(Object.keys(exports)).toEqual([expect.stringMatching(/Action$/)]);
  const [action] = actions;
  if (!action) throw new Error(`${file} exports no action`);
  return action;
}

const kindOf = (result: ActionResult<unknown>) => (result.ok ? "done" : result.kind);

test("every action, route and page on disk stands in a table below", () => {
  expect(edges.actions).toEqual([...Object.keys(pieceActions), ...openActions].sort());
  expect(edges.routes).toEqual(Object.keys(routes).sort());
  expect(edges.pages).toEqual(Object.keys(pages).sort());
});

describe.each(Object.entries(pieceActions))("%s", (file, { by, input, refused, before, readsOnly }) => {
  let action: Action;
  let asked: Record<string, unknown>;
  let unchanged: Awaited<ReturnType<typeof readFingerprints>>;
  let mayChange = false;
  beforeAll(async () => {
    desk = await bringBusyDesk();
    action = await actionOf(file);
    asked = { ...input(desk), pieceId: desk.pieceId };
  });
  beforeEach(async () => {
    mayChange = false;
  });
  afterEach(async () => {
    if (!mayChange)
      expect(without(await readFingerprints(), "Session")).toEqual(without(unchanged, "Session"));
  });
  const remember = async () => {
    unchanged = await readFingerprints();
  };

  test("nobody: signed out, however the input is forged", async () => {
    await signInAs(null);
    await remember();
    const forged = { ...asked, userId: desk.pianist.userId, viewer: desk.pianist, role: "pianist" };
    for (const one of [asked, forged, null]) expect(kindOf(await action(one))).toBe("signed-out");
    for (const token of ["", "made up", desk.pianist.userId, "' OR 1=1 --"]) {
      browser.jar.set("next-auth.session-token", token);
      expect(kindOf(await action(asked))).toBe("signed-out");
    }
  });

  test("a stranger: the same answer as for a piece that does not exist", async () => {
    await signInAs(desk.stranger);
    await remember();
    const real = await action(asked);
    expect(kindOf(real)).toBe("not-found");
    expect(await action({ ...asked, pieceId: "no such piece" })).toEqual(real);
    expect(await action({ ...asked, viewer: { userId: desk.pianist.userId } })).toEqual(real);
  });

  test("a stranger with a piece of their own: what belongs to this piece is not reached through it", async () => {
    const own = await bringDuo({ title: "Another" });
    await signInAs(own.pianist);
    await remember();
    const result = await action({ ...asked, pieceId: own.pieceId });
    mayChange = result.ok; // What names nothing of the foreign piece is an ordinary change to one's own.
    if (namesSomething(asked, desk)) expect(kindOf(result)).not.toBe("done");
    else if (refused?.pianist) expect(kindOf(result)).toBe(refused.pianist);
    else expect(["done", "invalid-input", "conflict", "stale-terms"]).toContain(kindOf(result));
  });

  test("somebody who has left", async () => {
    await database().member.create({
      data: { pieceId: desk.pieceId, userId: desk.stranger.userId, role: "coach", removedAt: new Date() },
    });
    await signInAs(desk.stranger);
    await remember();
    expect(kindOf(await action(asked))).toBe("not-found");
    await database().member.deleteMany({ where: { pieceId: desk.pieceId, userId: desk.stranger.userId } });
    unchanged = await readFingerprints();
  });

  test.each(Object.entries(refused ?? { coach: "not-allowed", reader: "not-allowed" }))(
    "the %s: %s",
    async (role, kind) => {
      await signInAs(desk[role as "pianist" | "soloist" | "coach" | "reader"]);
      await remember();
      expect(kindOf(await action(asked))).toBe(kind);
    },
  );

  test("input that is no input", async () => {
    await signInAs(desk[by]);
    await remember();
    const { pieceId } = desk;
    const odd = [
      null,
      undefined,
      7,
      "text",
      [],
      [asked],
      {},
      { pieceId: { contains: "" } },
      { pieceId: ["a"] },
      { pieceId: "" },
    ];
    for (const one of odd) expect(kindOf(await action(one))).toBe("invalid-input");
    if (Object.keys(asked).length === 1) return;
    for (const [key, value] of Object.entries(asked)) {
      if (key === "pieceId" || key === "reason" || value === null) continue;
      for (const wrong of [{ not: null }, { contains: "" }, [value], Number.NaN])
        expect(kindOf(await action({ ...asked, pieceId, [key]: wrong }))).toBe("invalid-input");
    }
  });

  test(`the ${by} does it, so what was refused above was refused for who asked`, async () => {
    await before?.(desk);
    await signInAs(desk[by]);
    await remember();
    mayChange = true;
    expect(kindOf(await action(asked))).toBe("done");
    if (readsOnly) mayChange = false;
    else expect(await readFingerprints()).not.toEqual(unchanged);
  });
});

/** Whether an input carries an id or a hash of something in this piece. */
function namesSomething(asked: Record<string, unknown>, { pieceId }: BusyDesk): boolean {
  return Object.entries(asked).some(([key, value]) => value !== pieceId && /Id$|^hash$|Hash$/.test(key));
}

function without<T>(record: Record<string, T>, key: string): Record<string, T> {
  const { [key]: _left, ...rest } = record;
  return rest;
}

describe.each(Object.entries(routes))("%s", (file, { requests, isOpen, by }) => {
  type Handler = (request: Request, context: unknown) => Promise<Response>;
  let handlers: Record<string, Handler>;
  beforeAll(async () => {
    desk = await bringBusyDesk();
    handlers = await import(`../../${file}`);
  });

  test("has a case for each of its methods", () => {
    const methods = Object.keys(handlers).filter((name) => /^[A-Z]+$/.test(name));
    expect(methods.sort()).toEqual(Object.keys(requests).sort());
  });

  test.skipIf(isOpen).each(Object.entries(requests))("%s", async (method, ask) => {
    const call = async (change: Parameters<typeof ask>[1] = {}) => {
      const { path, params, body, origin } = ask(desk, change);
      const handler = handlers[method];
      if (!handler) throw new Error(`no ${method}`);
      return handler(requestOf(path, { method, body, origin }), { params: Promise.resolve(params) });
    };
    const before = await readFingerprints();
    await signInAs(null);
    expect((await call()).status).toBe(401);
    const { pieceId, programmeId } = ask(desk, {}).params;
    if (pieceId !== undefined || programmeId !== undefined) {
      await signInAs(desk.stranger);
      const real = await call();
      const none = await call({ pieceId: "no-such-piece" });
      expect([real.status, await real.text()]).toEqual([none.status, await none.text()]);
      expect(real.status).toBe(404);
    }
    if (method === "POST") {
      await signInAs(desk.pianist);
      for (const origin of [null, "http://elsewhere.test", `${publicUrl}.elsewhere.test`, "null"])
        expect((await call({ origin })).status).toBe(403);
    }
    expect(without(await readFingerprints(), "Session")).toEqual(without(before, "Session"));
    await signInAs(desk.reader);
    if (by !== undefined) {
      expect([403, 404]).toContain((await call()).status);
      await signInAs(desk[by]);
    }
    expect((await call()).status).toBeLessThan(300);
  });
});

describe.each(Object.entries(pages))("%s", (file, { props, access, by }) => {
  type Page = (props: unknown) => Promise<unknown>;
  let page: Page;
  beforeAll(async () => {
    desk = await bringBusyDesk();
    page = (await import(`../../${file}`)).default;
  });
  const open = () => page({ params: Promise.resolve(props(desk)), searchParams: Promise.resolve({}) });

  test("signed out", async () => {
    await signInAs(null);
    if (access === "everybody") await expect(open()).resolves.toBeTruthy();
    else await expect(open()).rejects.toMatchObject({ digest: expect.stringContaining("/sign-in") });
  });

  test.runIf(access === "members")("a stranger finds nothing, a member does", async () => {
    await signInAs(desk.stranger);
    await expect(open()).rejects.toMatchObject({ digest: expect.stringContaining("404") });
    await signInAs(desk.reader);
    if (by !== undefined) {
      await expect(open()).rejects.toMatchObject({ digest: expect.stringContaining("404") });
      await signInAs(desk[by]);
    }
    await expect(open()).resolves.toBeTruthy();
  });

  test.runIf(access === "signed-in")("shows nothing of other people’s pieces", async () => {
    await signInAs(desk.stranger);
    expect(JSON.stringify(await open())).not.toContain(desk.pieceId);
  });
});

describe("doors that stand open", () => {
  beforeEach(async () => {
    await database().rateWindow.deleteMany();
    desk = await bringBusyDesk();
    await signInAs(null);
  });
  const account = () => ({
    name: "Lene Marsh",
    email: `${crypto.randomUUID()}@colla.test`,
    password: "ten letters at least",
  });

  test("a new account belongs to nothing, and carries a session that scripts cannot read", async () => {
    const made = await createAccountAction(account());
    if (!made.ok) throw new Error(made.sentence);
    const token = browser.jar.get("next-auth.session-token") ?? "";
    expect(await readSession(token)).toMatchObject({ userId: made.value.userId });
    expect(await database().member.count({ where: { userId: made.value.userId } })).toBe(0);
  });

  test("signing in gives a session only for the right password", async () => {
    const mine = account();
    await createAccountAction(mine);
    await signInAs(null);
    for (const wrong of [
      { ...mine, password: "something else" },
      { ...mine, email: "nobody@colla.test" },
      { ...mine, password: { not: "" } },
      null,
    ])
      expect((await signInAction(wrong)).ok).toBe(false);
    expect(browser.jar.size).toBe(0);
    expect((await signInAction(mine)).ok).toBe(true);
    expect(browser.jar.size).toBe(1);
  });

  test("signing out ends the session itself, not only the cookie; everywhere ends all", async () => {
    const { userId } = desk.pianist;
    const other = await startSession(userId);
    await signInAs(desk.pianist);
    const token = browser.jar.get("next-auth.session-token") ?? "";
    await expect(signOutAction()).rejects.toMatchObject({ digest: expect.stringContaining("/sign-in") });
    expect([await readSession(token), (await readSession(other.token))?.userId]).toEqual([null, userId]);
    browser.jar.set("next-auth.session-token", other.token);
    const third = await startSession(userId);
    await expect(signOutEverywhereAction()).rejects.toMatchObject({
      digest: expect.stringContaining("/sign-in"),
    });
    expect([await readSession(other.token), await readSession(third.token)]).toEqual([null, null]);
  });

  test("an invitation lets in one person, signed in or new, as what it says and nowhere else", async () => {
    const { token } = desk.invitation;
    expect(await acceptInvitationAction({ token })).toMatchObject({ ok: false, kind: "signed-out" });
    for (const wrong of [`${token}x`, "", desk.invitation.id, { contains: "" }])
      expect((await joinWithAccountAction({ ...account(), token: wrong })).ok).toBe(false);
    const forged = { ...account(), token, role: "pianist", pieceId: "another", userId: desk.pianist.userId };
    const joined = await joinWithAccountAction(forged);
    expect(joined).toMatchObject({ ok: true, value: { pieceId: desk.pieceId } });
    const { email } = forged;
    const member = await database().member.findFirst({ where: { user: { email } } });
    expect(member).toMatchObject({ pieceId: desk.pieceId, role: "reader" });
    await signInAs(desk.stranger);
    expect(await acceptInvitationAction({ token })).toMatchObject({ ok: false, kind: "not-found" });
  });

  test("a reader's link opens its edition's pages and pictures, until it is taken back; wrong ones open nothing", async () => {
    const { token } = desk.readerLink;
    const plan = await import("@/app/api/read/[token]/route");
    const picture = await import("@/app/api/read/[token]/[key]/[system]/route");
    const ask = async (by: string) =>
      plan.GET(requestOf(`/api/read/${by}`), { params: Promise.resolve({ token: by }) });
    const look = async (by: string, key: string, system = "0") => {
      const params = Promise.resolve({ token: by, key, system });
      return picture.GET(requestOf(`/api/read/${by}/${key}/${system}`), { params });
    };
    await expect.poll(async () => (await ask(token)).status, { timeout: 60_000 }).toBe(200);
    const text = await (await ask(token)).text();
    const { key } = JSON.parse(text) as { key: string };
    for (const secret of [desk.pieceId, desk.pianist.userId, desk.readerLink.id])
      expect(text).not.toContain(secret);
    const drawn = await look(token, key);
    expect([drawn.status, drawn.headers.get("cache-control")]).toEqual([200, "private, no-store"]);
    // Pictures of the piece on the desk are none of this edition's.
    expect((await look(token, desk.engravingKey)).status).toBe(404);
    for (const wrong of [`${token}x`, token.slice(1), "", desk.readerLink.id, "%27", "a".repeat(43)]) {
      expect((await ask(wrong)).status).toBe(404);
      expect((await look(wrong, key)).status).toBe(404);
    }
    await signInAs(desk.soloist);
    const taken = { pieceId: desk.pieceId, readerLinkId: desk.readerLink.id };
    expect(await revokeReaderLinkAction(taken)).toEqual({ ok: true, value: null });
    for (const closed of [await ask(token), await look(token, key)]) expect(closed.status).toBe(404);
    const page = (await import("@/app/read/[token]/page")).default;
    await expect(page({ params: Promise.resolve({ token }) })).rejects.toMatchObject({
      digest: expect.stringContaining("404"),
    });
  });

  test("an account is changed and removed by its owner alone, with the password", async () => {
    const mine = account();
    const made = await createAccountAction(mine);
    if (!made.ok) throw new Error(made.sentence);
    const other = await createAccountAction({ ...account(), password: "ten letters of another" });
    if (!other.ok) throw new Error(other.sentence);
    const { password } = mine;
    const newPassword = "another ten letters";
    await signInAs(null);
    const forged = { password, newPassword, names: "keep", userId: made.value.userId, viewer: made.value };
    for (const action of [changePasswordAction, removeAccountAction]) {
      expect(await action(forged)).toMatchObject({ ok: false, kind: "signed-out" });
      await signInAs(other.value);
      expect(await action(forged)).toMatchObject({ ok: false, kind: "not-allowed" });
      for (const wrong of [null, {}, [forged], { ...forged, password: { not: "" } }])
        expect(await action(wrong)).toMatchObject({ ok: false, kind: "invalid-input" });
      await signInAs(null);
    }
    await signInAs(made.value);
    expect(await changePasswordAction({ ...forged, password: "not it at all" })).toMatchObject({
      ...{ ok: false, kind: "not-allowed" },
    });
    expect(await changePasswordAction(forged)).toEqual({ ok: true, value: null });
    expect((await removeAccountAction(forged)).ok).toBe(false);
    expect(await removeAccountAction({ ...forged, password: newPassword })).toEqual({
      ok: true,
      value: null,
    });
    expect((await signInAction({ ...mine, password: newPassword })).ok).toBe(false);
    const others = [desk.pianist, desk.soloist, other.value].map(({ userId }) => userId);
    expect(await database().user.count({ where: { id: { in: others }, removedAt: null } })).toBe(3);
  });

  test("news by e-mail are turned off and on by the person alone, for themselves alone", async () => {
    const wants = async (person: { userId: string }) =>
      (await database().user.findUniqueOrThrow({ where: { id: person.userId } })).wantsDigest;
    const off = { wantsDigest: false, userId: desk.soloist.userId, viewer: desk.soloist };
    expect(await setWantsDigestAction(off)).toMatchObject({ ok: false, kind: "signed-out" });
    await signInAs(desk.pianist);
    for (const wrong of [null, {}, { wantsDigest: "no" }, { wantsDigest: { not: true } }, [off]])
      expect(await setWantsDigestAction(wrong)).toMatchObject({ ok: false, kind: "invalid-input" });
    expect([await wants(desk.pianist), await wants(desk.soloist)]).toEqual([true, true]);
    expect(await setWantsDigestAction(off)).toEqual({ ok: true, value: null });
    expect([await wants(desk.pianist), await wants(desk.soloist)]).toEqual([false, true]);
  });

  test("hands are said by the person alone, for themselves alone", async () => {
    const hands = async (person: { userId: string }) =>
      (await database().user.findUniqueOrThrow({ where: { id: person.userId } })).hands;
    const mine = {
      profile: { ...usualHands, leaps: 1.2 },
      userId: desk.soloist.userId,
      viewer: desk.soloist,
    };
    await signInAs(null);
    expect(await setHandsAction(mine)).toMatchObject({ ok: false, kind: "signed-out" });
    await signInAs(desk.pianist);
    for (const wrong of [null, {}, { profile: "large" }, { profile: { ...usualHands, runs: 99 } }, [mine]])
      expect(await setHandsAction(wrong)).toMatchObject({ ok: false, kind: "invalid-input" });
    expect(await setHandsAction(mine)).toEqual({ ok: true, value: null });
    expect([await hands(desk.pianist), await hands(desk.soloist)]).toEqual([mine.profile, null]);
  });

  test("a programme is drawn up by whoever is signed in, as their own", async () => {
    await signInAs(null);
    const asked = { kind: "recital", name: "Mine", on: "2026-04-11", ownerId: desk.soloist.userId };
    expect(await drawUpProgrammeAction(asked)).toMatchObject({ ok: false, kind: "signed-out" });
    await signInAs(desk.stranger);
    for (const wrong of [null, {}, [asked], { ...asked, name: " " }, { ...asked, on: { not: null } }])
      expect(await drawUpProgrammeAction(wrong)).toMatchObject({ ok: false, kind: "invalid-input" });
    const drawn = await drawUpProgrammeAction(asked);
    const id = drawn.ok ? drawn.value.programmeId : "";
    const { ownerId } = await database().programme.findUniqueOrThrow({ where: { id } });
    expect(ownerId).toBe(desk.stranger.userId);
  });

  test("a form that is too long is not read to its end", async () => {
    await signInAs(desk.pianist);
    const { POST } = await import("@/app/api/pieces/route");
    let sent = 0;
    const body = new ReadableStream({
      pull(controller) {
        sent += 1;
        controller.enqueue(new Uint8Array(1024 * 1024));
        if (sent > 500) controller.close();
      },
    });
    const headers = { origin: publicUrl, "content-type": "multipart/form-data; boundary=x" };
    const request = new Request(`${publicUrl}/api/pieces`, {
      method: "POST",
      headers,
      body,
      duplex: "half",
    } as RequestInit);
    expect((await POST(request)).status).toBe(413);
    expect(sent).toBeLessThan(80);
  });

  test("a form that is cut off or no form stores nothing", async () => {
    await signInAs(desk.pianist);
    const { POST } = await import("@/app/api/pieces/route");
    const before = await readFingerprints();
    const types = [
      "multipart/form-data; boundary=x",
      "multipart/form-data",
      "application/json",
      "text/plain",
    ];
    for (const type of types) {
      const headers = { origin: publicUrl, "content-type": type };
      const body = `--x\r\ncontent-disposition: form-data; name="file"; filename="a.musicxml"\r\n\r\n${new TextDecoder().decode(duoSource())}`;
      expect(
        (await POST(new Request(`${publicUrl}/api/pieces`, { method: "POST", headers, body }))).status,
      ).toBe(400);
    }
    expect(await readFingerprints()).toEqual(before);
  });
});

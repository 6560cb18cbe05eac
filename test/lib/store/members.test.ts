import pg from "pg";
import { beforeEach, describe, expect, test } from "vitest";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { acceptInvitation, joinWithAccount } from "@/lib/store/invitations/accept-invitation";
import { invitationDays, invite } from "@/lib/store/invitations/invite";
import { listInvitations } from "@/lib/store/invitations/list-invitations";
import { readInvitation } from "@/lib/store/invitations/read-invitation";
import { revokeInvitation } from "@/lib/store/invitations/revoke-invitation";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { removeMember } from "@/lib/store/pieces/remove-member";
import { bringDuo, bringPerson, type Duo, kindOf, openStoreForFile, proposed, valued } from "./duo";

openStoreForFile();
let duo: Duo;
beforeEach(async () => {
  duo = await bringDuo();
});

const address = "192.0.2.7";
const account = (email: string) => ({ name: "Lene Marsh", email, password: "ten letters at least" });
const rolesNow = async () =>
  valued(await readPiece(duo.pianist, duo.pieceId)).members.map(({ name, role }) => [name, role]);

describe("invitations", () => {
  test("tell who asks, let one person in once, and are stored without their token", async () => {
    const { token, role } = valued(await invite(duo.pianist, duo.pieceId, { role: "coach" }));
    expect(valued(await readInvitation(token, address))).toMatchObject({
      pieceTitle: "Concertino",
      invitedBy: "Ilse Brandow",
      role,
    });
    const stored = await database().invitation.findFirstOrThrow({ where: { pieceId: duo.pieceId } });
    expect(JSON.stringify(stored)).not.toContain(token);
    valued(await acceptInvitation(duo.stranger, token));
    expect(await rolesNow()).toContainEqual(["Rafe Tolland", "coach"]);
    const late = await bringPerson("Somebody Else");
    expect(kindOf(await acceptInvitation(late, token))).toBe("not-found");
    expect(kindOf(await readInvitation(token, address))).toBe("not-found");
  });

  test("several people following one link at once: one gets in", async () => {
    const { token } = valued(await invite(duo.pianist, duo.pieceId, { role: "reader" }));
    const people = await Promise.all(Array.from({ length: 8 }, () => bringPerson("Anyone")));
    const results = await Promise.all(people.map((person) => acceptInvitation(person, token)));
    expect(results.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().member.count({ where: { pieceId: duo.pieceId } })).toBe(5);
  });

  test("two links for one player's place: one player", async () => {
    valued(await removeMember(duo.soloist, duo.pieceId, { userId: duo.soloist.userId }));
    const links = [
      valued(await invite(duo.pianist, duo.pieceId, { role: "soloist" })),
      valued(await invite(duo.pianist, duo.pieceId, { role: "soloist" })),
    ];
    const people = [await bringPerson("One"), await bringPerson("Other")];
    const results = await Promise.all(
      links.map(({ token }, index) => acceptInvitation(people[index] ?? duo.stranger, token)),
    );
    expect(results.map(kindOf).sort()).toEqual(["conflict", "done"]);
  });

  test("end after two weeks, or when they are taken back", async () => {
    const old = valued(await invite(duo.pianist, duo.pieceId, { role: "reader" }));
    const later = new Date(Date.now() + (invitationDays * 24 + 1) * 60 * 60 * 1000);
    expect(kindOf(await runAt(later, () => acceptInvitation(duo.stranger, old.token)))).toBe("not-found");
    expect(valued(await listInvitations(duo.soloist, duo.pieceId))).toHaveLength(1);
    valued(await revokeInvitation(duo.soloist, duo.pieceId, { invitationId: old.id }));
    expect(kindOf(await acceptInvitation(duo.stranger, old.token))).toBe("not-found");
    expect(valued(await listInvitations(duo.soloist, duo.pieceId))).toEqual([]);
  });

  test("are for players to make, and for free places only", async () => {
    expect(kindOf(await invite(duo.coach, duo.pieceId, { role: "reader" }))).toBe("not-allowed");
    expect(kindOf(await invite(duo.reader, duo.pieceId, { role: "reader" }))).toBe("not-allowed");
    expect(kindOf(await invite(duo.stranger, duo.pieceId, { role: "reader" }))).toBe("not-found");
    expect(kindOf(await invite(duo.pianist, duo.pieceId, { role: "soloist" }))).toBe("conflict");
    expect(kindOf(await invite(duo.pianist, duo.pieceId, { role: "owner" }))).toBe("invalid-input");
    expect(kindOf(await listInvitations(duo.coach, duo.pieceId))).toBe("not-allowed");
  });

  test("with a new account: both or neither", async () => {
    const { token } = valued(await invite(duo.pianist, duo.pieceId, { role: "reader" }));
    const email = "lene@colla.test";
    expect(kindOf(await joinWithAccount(account(email), `${token}x`, address))).toBe("not-found");
    expect(await database().user.count({ where: { email } })).toBe(0);
    const joined = valued(await joinWithAccount(account(email), token, address));
    expect(joined).toMatchObject({ pieceId: duo.pieceId, name: "Lene Marsh" });
    const other = valued(await invite(duo.pianist, duo.pieceId, { role: "reader" }));
    expect(kindOf(await joinWithAccount(account("LENE@colla.test"), other.token, address))).toBe("conflict");
    expect(kindOf(await acceptInvitation({ userId: joined.userId }, other.token))).toBe("conflict");
  });
});

describe("leaving and removing", () => {
  test("who is gone sees nothing, and their words stay under their name", async () => {
    valued(await removeMember(duo.pianist, duo.pieceId, { userId: duo.coach.userId }));
    expect(kindOf(await readPiece(duo.coach, duo.pieceId))).toBe("not-found");
    const piece = valued(await readPiece(duo.pianist, duo.pieceId));
    expect(piece.formerMembers.map(({ name }) => name)).toEqual(["Petra Lund"]);
  });

  test("a partner who has decided something cannot be shut out, but can leave", async () => {
    await proposed(duo, 9, 15);
    const pianist = { userId: duo.pianist.userId };
    expect(kindOf(await removeMember(duo.soloist, duo.pieceId, pianist))).toBe("not-allowed");
    valued(await removeMember(duo.pianist, duo.pieceId, pianist));
    expect(kindOf(await readPiece(duo.pianist, duo.pieceId))).toBe("not-found");
    const last = await removeMember(duo.soloist, duo.pieceId, { userId: duo.soloist.userId });
    expect(kindOf(last)).toBe("conflict");
  });

  test("the wrong person in the other place can be sent away while they did nothing", async () => {
    valued(await removeMember(duo.pianist, duo.pieceId, { userId: duo.soloist.userId }));
    expect(await rolesNow()).not.toContainEqual(["Corin Vasey", "soloist"]);
  });

  test("coach and reader remove nobody but themselves", async () => {
    expect(kindOf(await removeMember(duo.coach, duo.pieceId, { userId: duo.reader.userId }))).toBe(
      "not-allowed",
    );
    expect(kindOf(await removeMember(duo.stranger, duo.pieceId, { userId: duo.reader.userId }))).toBe(
      "not-found",
    );
    valued(await removeMember(duo.reader, duo.pieceId, { userId: duo.reader.userId }));
  });

  test("the rooms are told", async () => {
    const listener = new pg.Client({ connectionString: process.env.DATABASE_URL });
    await listener.connect();
    const heard: unknown[] = [];
    listener.on("notification", ({ channel, payload }) =>
      heard.push([channel, JSON.parse(payload ?? "null")]),
    );
    await listener.query("LISTEN member_removed; LISTEN piece_changed");
    valued(await removeMember(duo.pianist, duo.pieceId, { userId: duo.coach.userId }));
    await listener.query("SELECT 1"); // Notifications arrive before the answer to a later statement.
    await listener.end();
    expect(heard).toEqual([
      ["piece_changed", { pieceId: duo.pieceId, what: "members" }],
      ["member_removed", { pieceId: duo.pieceId, userId: duo.coach.userId }],
    ]);
  });
});

test("at most one pianist and one soloist at a time, whatever is asked of the database", async () => {
  const data = { pieceId: duo.pieceId, userId: duo.stranger.userId, role: "soloist" as const };
  await expect(database().member.create({ data })).rejects.toThrow(/Unique|one_of_each_player/i);
});

import { randomBytes } from "node:crypto";
import { toPositionTerms } from "@/lib/edition/position-terms";
import { noQuarters } from "@/lib/score/quarters";
import type { Result } from "@/lib/score/result";
import { createAccount } from "@/lib/store/auth/create-account";
import { runAt } from "@/lib/store/clock";
import { database } from "@/lib/store/database";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { setHands } from "@/lib/store/hands/set-hands";
import { acceptInvitation } from "@/lib/store/invitations/accept-invitation";
import { invite } from "@/lib/store/invitations/invite";
import { logPerformance } from "@/lib/store/performances/log-performance";
import { attachFullScore } from "@/lib/store/pieces/attach-full-score";
import { createPiece } from "@/lib/store/pieces/create-piece";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { setLimit } from "@/lib/store/pieces/set-limit";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import type { ProposalRecord } from "@/lib/store/proposals/proposal-record";
import { proposeCut } from "@/lib/store/proposals/propose-cut";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import { releaseRestNeed } from "@/lib/store/rests/release-rest-need";
import { setBreathPreferences } from "@/lib/store/rests/set-breath-preferences";
import { type StoreProblem, sayStoreProblem } from "@/lib/store/store-problem";
import { writeFullScore } from "@/seed/concertino/write-full-score";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { type Ago, type BarSpan, demoHistory } from "./demo-history";
import { type DemoName, demoNames, demoPeople } from "./demo-people";
import { DemoRoomLog } from "./demo-room";

/** Who is loading, and as of when. */
interface Demo {
  readonly now: Date;
  readonly userIds: Readonly<Record<DemoName, string>>;
}

/**
 * Loads the demo's people and their history, unless it is there already. Everything goes through the use cases that
 * people go through, each at its own time in the past. The people get their e-mail addresses last, all at once: a load
 * that is cut off leaves nobody who could sign in, and the next one begins anew.
 *
 * @param password of all demo people.
 * @returns whether it was loaded now.
 */
export async function loadDemo(password: string, now = new Date()): Promise<boolean> {
  if (await isLoaded()) return false;
  const demo: Demo = { now, userIds: await openAccounts(password, now) };
  const pieceId = await bringConcertino(demo);
  await agree(demo, pieceId);
  const letGo = await noteRests(demo, pieceId);
  await giveHands(demo);
  const dateOf = (ago: Ago) => before(now, ago);
  const room = new DemoRoomLog({ pieceId, userIds: demo.userIds, dateOf });
  await room.writeUntil(dateOf(demoHistory.frozen.nerys));
  await freeze(demo, pieceId);
  await logPerformances(demo, pieceId);
  const open = await propose(demo, pieceId, demoHistory.openCut);
  await letGo();
  await room.writeRest(open.id);
  await database().$transaction(
    demoNames.map((name) =>
      database().user.update({
        where: { id: demo.userIds[name] },
        data: { email: demoPeople[name].email },
      }),
    ),
  );
  return true;
}

async function isLoaded(): Promise<boolean> {
  return (await database().user.count({ where: { email: demoPeople.nerys.email } })) > 0;
}

async function openAccounts(password: string, now: Date): Promise<Demo["userIds"]> {
  const open = async (name: DemoName) => {
    const email = `${randomBytes(12).toString("hex")}@loading.example.org`;
    const account = { name: demoPeople[name].name, email, password };
    return valueOfStep(await createAccount(account, "demo")).userId;
  };
  return runAt(before(now, demoHistory.brought.ago), async () => ({
    nerys: await open("nerys"),
    matthis: await open("matthis"),
    dagny: await open("dagny"),
  }));
}

async function bringConcertino(demo: Demo): Promise<string> {
  const viewer = { userId: demo.userIds.nerys };
  const file = (fileName: string, text: string) => ({ fileName, bytes: new TextEncoder().encode(text) });
  const { limitSeconds, brought, joined } = demoHistory;
  const pieceId = await at(demo, brought.ago, async () => {
    const score = file("concertino-clarinet-and-piano.musicxml", writeSoloAndReduction());
    const created = valueOfStep(
      await createPiece(viewer, { role: "pianist", instrument: "Clarinet in B♭" }, score),
    );
    const full = file("concertino-full-score.musicxml", writeFullScore());
    valueOfStep(await attachFullScore(viewer, created.pieceId, full));
    valueOfStep(await setLimit(viewer, created.pieceId, { limitSeconds }));
    return created.pieceId;
  });
  for (const name of ["matthis", "dagny"] as const) {
    await at(demo, joined[name], async () => {
      const { token } = valueOfStep(await invite(viewer, pieceId, { role: demoPeople[name].role }));
      valueOfStep(await acceptInvitation({ userId: demo.userIds[name] }, token));
    });
  }
  return pieceId;
}

async function agree(demo: Demo, pieceId: string): Promise<void> {
  const { agreedCut } = demoHistory;
  const proposal = await propose(demo, pieceId, agreedCut);
  const { agreed } = agreedCut;
  await at(demo, agreed.ago, async () => {
    const answer = { proposalId: proposal.id, answer: "agree", termsHash: proposal.termsHash };
    valueOfStep(
      await answerProposal({ userId: demo.userIds[agreed.by] }, pieceId, {
        ...answer,
        reason: agreed.reason,
      }),
    );
  });
}

/**
 * The soloist's numbers and needed rests.
 *
 * @returns lets go, later in the history, what he let go.
 */
async function noteRests(demo: Demo, pieceId: string): Promise<() => Promise<void>> {
  const viewer = { userId: demo.userIds.matthis };
  const { breath, restNeeds } = demoHistory;
  const { preferences } = breath;
  await at(demo, breath.ago, async () =>
    valueOfStep(await setBreathPreferences(viewer, pieceId, { preferences })),
  );
  const { source } = valueOfStep(await readPiece(viewer, pieceId));
  const released: { needId: string; ago: Ago }[] = [];
  for (const { ago, bars, needs, why, released: letGoAgo } of restNeeds) {
    const terms = { sourceHash: source.hash, ...placesOf(bars), needs, why };
    const { id } = await at(demo, ago, async () => valueOfStep(await noteRestNeed(viewer, pieceId, terms)));
    if (letGoAgo) released.push({ needId: id, ago: letGoAgo });
  }
  return async () => {
    for (const { needId, ago } of released)
      await at(demo, ago, async () => valueOfStep(await releaseRestNeed(viewer, pieceId, { needId })));
  };
}

async function giveHands(demo: Demo): Promise<void> {
  const { ago, profile } = demoHistory.hands;
  await at(demo, ago, async () => valueOfStep(await setHands({ userId: demo.userIds.nerys }, { profile })));
}

async function freeze(demo: Demo, pieceId: string): Promise<void> {
  const { frozen } = demoHistory;
  for (const name of ["nerys", "matthis"] as const) {
    await at(demo, frozen[name], async () => {
      const viewer = { userId: demo.userIds[name] };
      const { hash } = valueOfStep(await readWorkingEdition(viewer, pieceId));
      valueOfStep(await approveEdition(viewer, pieceId, { hash }));
    });
  }
}

/** One occasion that has been, and one to come. */
async function logPerformances(demo: Demo, pieceId: string): Promise<void> {
  const { performance, nextPerformance } = demoHistory;
  const { inDays, ...next } = nextPerformance;
  const occasions = [
    { ...performance, on: before(demo.now, performance.ago) },
    { ...next, on: before(demo.now, { days: -inDays }) },
  ];
  for (const { ago, loggedBy, on, ...occasion } of occasions) {
    const logged = { ...occasion, on: on.toISOString().slice(0, 10), editionNumber: 1 };
    await at(demo, ago, async () => {
      valueOfStep(await logPerformance({ userId: demo.userIds[loggedBy] }, pieceId, logged));
    });
  }
}

interface DemoCut {
  readonly bars: BarSpan;
  readonly proposed: { readonly ago: Ago; readonly by: DemoName };
  readonly reason: string;
}

async function propose(demo: Demo, pieceId: string, cut: DemoCut): Promise<ProposalRecord> {
  const viewer = { userId: demo.userIds[cut.proposed.by] };
  return at(demo, cut.proposed.ago, async () => {
    const { source } = valueOfStep(await readPiece(viewer, pieceId));
    const terms = { sourceHash: source.hash, ...placesOf(cut.bars), reason: cut.reason };
    return valueOfStep(await proposeCut(viewer, pieceId, terms));
  });
}

/** From the start of the first bar to the start of the bar after the last. */
function placesOf({ first, last }: BarSpan) {
  // The upbeat is bar 0, so that printed number and index are the same.
  const place = (barIndex: number) => toPositionTerms({ barIndex, offset: noQuarters });
  return { from: place(first), to: place(last + 1) };
}

function at<T>(demo: Demo, ago: Ago, work: () => Promise<T>): Promise<T> {
  return runAt(before(demo.now, ago), work);
}

function before(now: Date, { days = 0, hours = 0 }: Ago): Date {
  return new Date(now.getTime() - (days * 24 + hours) * 60 * 60 * 1000);
}

/** Every step of the demo has to succeed: one that does not is a fault of ours. */
function valueOfStep<T>(result: Result<T, StoreProblem>): T {
  if (result.ok) return result.value;
  throw new Error(`the demo could not be loaded: ${sayStoreProblem(result.problem)}`);
}

import { z } from "zod";
import type { Desk } from "@/app/_data/desk/desk";
import { namePlace, nameSpan } from "@/app/_ui/name-span";
import { restNeedTermsSchema } from "@/lib/edition/rest-need-terms";
import type { CommentRecord } from "@/lib/room/comment-record";
import type { RoomChange } from "@/lib/room/history/room-change";
import type { DoneSinceVisit, SinceLastVisit } from "@/lib/store/room/read-since-last-visit";

/** Where an item of the panel leads. */
export type SincePlace =
  | { readonly kind: "comments"; readonly ids: readonly string[]; readonly bar: number }
  | { readonly kind: "cut"; readonly cutId: string }
  | { readonly kind: "bar"; readonly bar: number }
  | { readonly kind: "rewrite"; readonly rewriteId: string }
  | { readonly kind: "screen"; readonly path: "breath" | "editions" | "hands" | "settings" };

export interface SinceItem {
  readonly key: string;
  /** Goes on from the name: "wrote 2 comments (bars 12–14, 30)". */
  readonly text: string;
  readonly place: SincePlace | null;
}

export interface SinceOfPerson {
  /** Null for what nobody in particular did. */
  readonly userId: string | null;
  readonly items: readonly SinceItem[];
}

type About = Pick<Desk, "bars" | "cuts" | "people">;

/** What changed, by who did it: those who did something first come first. Nothing is said of what came and went again. */
export function listSince(since: Pick<SinceLastVisit, "room" | "done">, desk: About): SinceOfPerson[] {
  const people = [...new Set([...since.room, ...since.done].map(({ userId }) => userId))];
  return people
    .map((userId) => {
      const room = since.room.filter((change) => change.userId === userId);
      const done = since.done.filter((one) => one.userId === userId);
      return { userId, items: [...roomItems(room, desk), ...doneItems(done, desk)] };
    })
    .filter(({ items }) => items.length > 0);
}

type ChangeIn<Name extends RoomChange["map"]> = Extract<RoomChange, { map: Name }>;

function roomItems(changes: readonly RoomChange[], desk: About): SinceItem[] {
  const of = <Name extends RoomChange["map"]>(map: Name) =>
    changes.filter((change): change is ChangeIn<Name> => change.map === map && !change.isOvertaken);
  return [
    ...commentItems(of("comments"), desk),
    ...resolutionItems(of("resolutions")),
    ...breathItems(of("breaths"), desk),
    ...cueItems(of("cues"), desk),
    ...pencilItems(of("pencilledCuts"), desk),
  ];
}

/** What became of each comment between its first and its last change here. */
function commentItems(changes: readonly ChangeIn<"comments">[], desk: About): SinceItem[] {
  const first = new Map<string, ChangeIn<"comments">>();
  const last = new Map<string, CommentRecord>();
  for (const change of changes) {
    if (!first.has(change.key)) first.set(change.key, change);
    if (change.after) last.set(change.key, change.after);
  }
  const fates = [...last].map(([key, record]) => ({ record, fate: fateOf(first.get(key)?.before, record) }));
  const having = (fate: Fate) => fates.filter((one) => one.fate === fate).map(({ record }) => record);
  return [
    ...aboutItem("wrote", having("written"), desk),
    ...aboutItem("reworded", having("reworded"), desk),
    ...aboutItem("deleted", having("deleted"), desk),
    ...aboutItem("brought back", having("back"), desk),
    ...aboutItem("wants in the edition", having("printed"), desk),
    ...aboutItem("no longer wants in the edition", having("unprinted"), desk),
  ];
}

type Fate = "written" | "reworded" | "deleted" | "back" | "printed" | "unprinted" | "nothing";

function fateOf(before: CommentRecord | null | undefined, after: CommentRecord): Fate {
  const isGone = after.deletedAt !== null;
  if (!before) return isGone ? "nothing" : "written";
  if (before.deletedAt === null && isGone) return "deleted";
  if (before.deletedAt !== null) return isGone ? "nothing" : "back";
  if (before.text !== after.text) return "reworded";
  if (before.print !== after.print) return after.print ? "printed" : "unprinted";
  return "nothing";
}

/** One item for the bars and one for each cut. */
function aboutItem(verb: string, records: readonly CommentRecord[], desk: About): SinceItem[] {
  const onBars = records.filter(({ about }) => about.kind === "span");
  const items: SinceItem[] = [];
  const [firstBar] = onBars.map(barOf).sort((a, b) => a - b);
  if (firstBar !== undefined) {
    const text = `${verb} ${sayCount(onBars.length)} (${listBars(onBars, desk)})`;
    const place = { kind: "comments" as const, ids: onBars.map(({ id }) => id), bar: firstBar };
    items.push({ key: `${verb} bars`, text, place });
  }
  const onCuts = new Map<string, number>();
  for (const { about } of records)
    if (about.kind === "proposal") onCuts.set(about.proposalId, (onCuts.get(about.proposalId) ?? 0) + 1);
  for (const [cutId, count] of onCuts) {
    const number = desk.cuts.find(({ id }) => id === cutId)?.number;
    const text = `${verb} ${sayCount(count)} about ${number === undefined ? "a cut" : `cut ${number}`}`;
    items.push({
      key: `${verb} ${cutId}`,
      text,
      place: number === undefined ? null : { kind: "cut", cutId },
    });
  }
  return items;
}

function sayCount(count: number): string {
  return count === 1 ? "a comment" : `${count} comments`;
}

function barOf({ about }: CommentRecord): number {
  return about.kind === "span" ? about.from.barIndex : 0;
}

/** "bars 12–14, 30": each span once, in the order of the page. */
function listBars(records: readonly CommentRecord[], { bars }: About): string {
  const names = [...records]
    .sort((a, b) => barOf(a) - barOf(b))
    .flatMap(({ about }) => (about.kind === "span" ? [nameSpan(bars, about.from, about.to)] : []));
  const each = [...new Set(names)];
  const isPlain = each.every((name) => /^bars? \S+$/.test(name));
  if (!isPlain || each.length === 1) return each.join(", ");
  return `bars ${each.map((name) => name.replace(/^bars? /, "")).join(", ")}`;
}

function resolutionItems(changes: readonly ChangeIn<"resolutions">[]): SinceItem[] {
  const last = new Map(changes.map(({ key, after }) => [key, after?.isResolved ?? false]));
  const keysOf = (isResolved: boolean) => [...last].filter(([, is]) => is === isResolved).map(([key]) => key);
  const item = (verb: string, ids: readonly string[]): SinceItem[] =>
    ids.length === 0
      ? []
      : [{ key: verb, text: `${verb} ${sayCount(ids.length)}`, place: { kind: "comments", ids, bar: -1 } }];
  return [...item("resolved", keysOf(true)), ...item("opened again", keysOf(false))];
}

function breathItems(changes: readonly ChangeIn<"breaths">[], desk: About): SinceItem[] {
  const last = new Map(changes.map((change) => [change.key, change]));
  const standing = [...last.values()].flatMap(({ after }) => (after ? [after] : []));
  const item = (verb: string, breaths: typeof standing): SinceItem[] => {
    const [first] = [...breaths].sort((a, b) => a.at.barIndex - b.at.barIndex);
    if (!first) return [];
    const what =
      breaths.length === 1 ? `a breath (${namePlace(desk.bars, first.at)})` : `${breaths.length} breaths`;
    return [{ key: verb, text: `${verb} ${what}`, place: { kind: "bar", bar: first.at.barIndex } }];
  };
  return [
    ...item(
      "marked",
      standing.filter(({ deletedAt }) => deletedAt === null),
    ),
    ...item(
      "took away",
      standing.filter(({ deletedAt }) => deletedAt !== null),
    ),
  ];
}

/** What became last of each cue. */
function cueItems(changes: readonly ChangeIn<"cues">[], { bars }: About): SinceItem[] {
  const [first, last] = [new Map<string, ChangeIn<"cues">>(), new Map<string, ChangeIn<"cues">>()];
  for (const change of changes) {
    if (!first.has(change.key)) first.set(change.key, change);
    last.set(change.key, change);
  }
  return [...last].flatMap(([key, { after }]): SinceItem[] => {
    if (after === null) return [];
    const wasThere = first.get(key)?.before?.deletedAt === null;
    if (!wasThere && after.deletedAt !== null) return [];
    const verb = after.deletedAt !== null ? "took off" : wasThere ? "changed to" : "wrote";
    const text = `${verb} the cue “${after.text}” (${namePlace(bars, after.at)})`;
    return [{ key: `cue ${key}`, text, place: { kind: "bar", bar: after.at.barIndex } }];
  });
}

/** What became last of each pencilled cut. */
function pencilItems(changes: readonly ChangeIn<"pencilledCuts">[], { bars }: About): SinceItem[] {
  const last = new Map(changes.flatMap(({ after }) => (after ? [[after.cutId, after] as const] : [])));
  return [...last.values()].map(({ cutId, from, to, over, isRubbedOut }) => {
    const name = nameSpan(bars, from, to);
    const text = isRubbedOut
      ? `rubbed out the pencilled cut ${name}`
      : over.length === 0
        ? `pencilled in a cut, ${name}`
        : `moved a cut in pencil to ${name}`;
    return { key: cutId, text, place: { kind: "bar" as const, bar: from.barIndex } };
  });
}

const aboutSchema = z.object({ number: z.int(), proposalId: z.string(), rewriteId: z.string() }).partial();

const cutDeeds: Readonly<Record<string, string>> = {
  "cut proposed": "proposed cut",
  "cut counter-proposed": "counter-proposed for cut",
  "cut agreed": "agreed to cut",
  "cut declined": "declined cut",
  "cut withdrawn": "withdrew cut",
  "cut reopened": "reopened cut",
};

const rewriteDeeds: Readonly<Record<string, string>> = {
  "rewrite told": "plays something else than the print: rewrite",
  "rewrite proposed": "proposed rewrite",
  "rewrite agreed": "agreed to rewrite",
  "rewrite declined": "declined rewrite",
  "rewrite withdrawn": "withdrew rewrite",
  "rewrite reopened": "reopened rewrite",
  "rewrite taken back": "took back rewrite",
  "rewrite taken off": "took off rewrite",
  "rewrite brought back": "brought back rewrite",
};

const otherDeeds: Readonly<Record<string, readonly [string, SincePlace | null]>> = {
  "approval withdrawn": ["took the yes to freezing back", { kind: "screen", path: "editions" }],
  "performance logged": ["logged a performance", { kind: "screen", path: "editions" }],
  "real time recorded": ["wrote down a real time", { kind: "screen", path: "editions" }],
  "performance changed": ["changed a performance", { kind: "screen", path: "editions" }],
  "performance taken off": ["took a performance off", { kind: "screen", path: "editions" }],
  "performance brought back": ["brought a performance back", { kind: "screen", path: "editions" }],
  "stopwatch recorded": ["timed a performance section by section", { kind: "screen", path: "editions" }],
  "hint written": ["wrote how to sound like an instrument", { kind: "screen", path: "hands" }],
  "breath set": ["set how long a breath lasts", { kind: "screen", path: "breath" }],
  "occasion named": ["named the occasion that it is prepared for", { kind: "screen", path: "settings" }],
  "limit set": ["set the time limit", { kind: "screen", path: "settings" }],
  "tempi set": ["set tempi", { kind: "screen", path: "settings" }],
  "parts set": ["set the parts", { kind: "screen", path: "settings" }],
  "long tutti set": ["set what a long tutti is", { kind: "screen", path: "settings" }],
  "full score attached": ["laid a full score beside it", null],
  "piece deleted": ["deleted the piece", null],
  "piece brought back": ["brought the piece back", null],
  "branch begun": ["prepares the piece for this occasion", null],
  "invitation accepted": ["joined", null],
  "member removed": ["took somebody off the piece, or left", { kind: "screen", path: "settings" }],
};

const needDeeds: Readonly<Record<string, string>> = {
  "rest need noted": "noted a needed rest",
  "rest need changed": "changed a needed rest",
  "rest need released": "let a needed rest go",
  "rest need held again": "holds a needed rest again",
  "rest need removed": "took a needed rest off",
  "rest need brought back": "brought a needed rest back",
};

const aboutNeedSchema = z.object({ needId: z.string(), terms: restNeedTermsSchema });

/** The last of what was done to a needed rest. */
function needItem(deed: string, about: unknown, bars: About["bars"]): SinceItem {
  const need = aboutNeedSchema.safeParse(about).data;
  const where = need && `: ${need.terms.why}, ${nameSpan(bars, need.terms.from, need.terms.to)}`;
  const place = { kind: "screen", path: "breath" } as const;
  return { key: `need ${need?.needId ?? deed}`, text: `${deed}${where ?? ""}`, place };
}

/** Of the same deed on the same thing only the last is told. What is of no news to a player is left out. */
function doneItems(done: readonly DoneSinceVisit[], desk: About): SinceItem[] {
  const items = new Map<string, SinceItem>();
  for (const one of done) {
    const item = doneItem(one, desk);
    if (item) items.set(item.key, item);
  }
  return [...items.values()];
}

function doneItem({ what, about }: DoneSinceVisit, { bars }: About): SinceItem | null {
  const { number, proposalId, rewriteId } = aboutSchema.safeParse(about).data ?? {};
  const editions = { kind: "screen", path: "editions" } as const;
  const deed = cutDeeds[what];
  if (deed !== undefined) {
    const place = proposalId === undefined ? null : { kind: "cut" as const, cutId: proposalId };
    return { key: `${what} ${number}`, text: `${deed} ${number ?? ""}`.trim(), place };
  }
  const rewrite = rewriteDeeds[what];
  if (rewrite !== undefined) {
    // An answer names the proposal alone.
    const place: SincePlace =
      rewriteId === undefined ? { kind: "screen", path: "hands" } : { kind: "rewrite", rewriteId };
    return { key: `${what} ${number}`, text: `${rewrite} ${number ?? ""}`.trim(), place };
  }
  const need = needDeeds[what];
  if (need !== undefined) return needItem(need, about, bars);
  if (what === "edition approved")
    return { key: what, text: `is ready to freeze № ${number ?? ""}`.trim(), place: editions };
  if (what === "edition brought back")
    return {
      key: `${what} ${number}`,
      text: `brought № ${number ?? ""} back as a proposal`,
      place: editions,
    };
  if (what === "edition frozen")
    return {
      key: `${what} ${number}`,
      text: `froze edition № ${number ?? ""} with the second yes`,
      place: editions,
    };
  const other = otherDeeds[what];
  return other ? { key: what, text: other[0], place: other[1] } : null;
}

/** What a member is to a piece. The two players decide; a coach comments; a reader reads. */
export type MemberRole = "pianist" | "soloist" | "coach" | "reader";

export type PieceAction =
  | "read"
  | "read-discussion"
  | "comment"
  | "propose"
  | "answer"
  | "approve"
  | "set-parts"
  | "set-tempo"
  | "set-limit"
  | "invite"
  | "remove-member"
  | "read-performances"
  | "log-performance"
  | "attach-source"
  | "set-rests"
  | "set-pages"
  | "rewrite"
  | "practise"
  | "set-hints"
  | "branch"
  | "take-away"
  | "delete-piece";

const everybody: readonly MemberRole[] = ["pianist", "soloist", "coach", "reader"];
const discussing: readonly MemberRole[] = ["pianist", "soloist", "coach"];
const players: readonly MemberRole[] = ["pianist", "soloist"];
const soloists: readonly MemberRole[] = ["soloist"];
const pianists: readonly MemberRole[] = ["pianist"];

const allowed: Readonly<Record<PieceAction, readonly MemberRole[]>> = {
  read: everybody,
  "read-discussion": discussing,
  comment: discussing,
  propose: players,
  answer: players,
  approve: players,
  "set-parts": players,
  "set-tempo": players,
  "set-limit": players,
  invite: players,
  "remove-member": players,
  // What came of a performance is the duo's and their teacher's; who only reads has no part in it.
  "read-performances": discussing,
  "log-performance": players,
  "attach-source": players,
  // Everything that was said is in it.
  "take-away": discussing,
  "delete-piece": players,
  // Needed rests and the numbers of one's breath: nobody says for the soloist what a body needs.
  "set-rests": soloists,
  "set-pages": players,
  // What lies under the hands: nobody writes for the pianist, and nobody else keeps a log of the pianist's practice.
  rewrite: pianists,
  practise: pianists,
  "set-hints": players,
  branch: players,
};

/** Whether a member with this role may do this, before anything about the particular case is known. */
export function may(role: MemberRole, action: PieceAction): boolean {
  return allowed[action].includes(role);
}

/** The pianist or the soloist. */
export function isPlayer(role: MemberRole): role is "pianist" | "soloist" {
  return players.includes(role);
}

/** The roles that may do this. */
export function rolesThatMay(action: PieceAction): MemberRole[] {
  return [...allowed[action]];
}

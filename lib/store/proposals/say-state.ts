import type { Prisma } from "@/generated/prisma/client";
import type { StoreProblem } from "../store-problem";
import type { ProposalRow } from "./proposal-record";

/** The problem of somebody whose answer comes too late: what happened to the proposal meanwhile, and who did it. */
export async function alreadyAnswered(
  tx: Prisma.TransactionClient,
  proposal: ProposalRow,
): Promise<StoreProblem> {
  const last = proposal.answers.at(-1);
  const person = last && (await tx.user.findUnique({ where: { id: last.userId }, select: { name: true } }));
  const name = person?.name ?? "Somebody";
  return { kind: "already-answered", sentence: sayState(proposal, name, last?.reason ?? "") };
}

function sayState(proposal: ProposalRow, name: string, reason: string): string {
  const what = `${proposal.kind} ${proposal.number}`;
  const quoted = reason === "" ? "" : ` The reason: “${reason}”`;
  switch (proposal.state) {
    case "open":
      return `${capital(what)} is open.`;
    case "agreed":
      return `${name} has agreed to ${what} meanwhile.`;
    case "declined":
      return `${name} has declined ${what} meanwhile.${quoted}`;
    case "withdrawn":
      return `${name} has taken ${what} back meanwhile.`;
    case "superseded":
      return `${name} has proposed something else for ${what} meanwhile. Look at that first.`;
    case "reopened":
      return `${name} has reopened ${what} meanwhile.${quoted}`;
  }
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

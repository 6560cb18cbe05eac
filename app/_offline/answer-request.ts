import { withKeptAt } from "./kept-at";
import { KeptStore, keptAtHeader } from "./kept-store";
import { notKeptPage } from "./not-kept-page";
import { type AnswerPlan, keptAddress } from "./plan-answer";

/** How long the server may take before what is kept is shown instead, in milliseconds. */
const patienceMs = 5_000;

/** Answers of whatever stands before our server while it is away. */
const away: ReadonlySet<number> = new Set([502, 503, 504]);

/** Answers a request as planned. */
export async function answerRequest(request: Request, plan: Exclude<AnswerPlan, "pass">): Promise<Response> {
  const kept = await findKept(keptAddress(request.url, plan));
  if (plan === "content") return kept ?? fetch(request);
  const answer = await askServer(request, kept !== null);
  if (answer !== null && !(kept && away.has(answer.status))) return answer;
  if (plan === "latest") return kept ?? Response.error();
  return kept ? showKept(kept) : notKeptPage(new URL(request.url).pathname);
}

/** Storage that cannot be read is no reason to show nothing at all. */
async function findKept(address: string): Promise<Response | null> {
  try {
    return await (await KeptStore.open()).find(address);
  } catch {
    return null;
  }
}

/** @param hasOther whether there is something to show instead, so that waiting makes no sense. */
async function askServer(request: Request, hasOther: boolean): Promise<Response | null> {
  const asked = fetch(request).catch(() => null);
  if (!hasOther) return asked;
  const tooLate = new Promise<null>((resolve) => setTimeout(resolve, patienceMs, null));
  return Promise.race([asked, tooLate]);
}

async function showKept(kept: Response): Promise<Response> {
  const at = kept.headers.get(keptAtHeader) ?? "";
  return new Response(withKeptAt(await kept.text(), at), { headers: kept.headers });
}
